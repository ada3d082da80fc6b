"""Trends at the desk: an item found, its chart gone through by keys, choices that stay, shares, the study of a gauge;
on paper, in the dark, on a phone; what the screen says without the server, and to who may not compare people."""

import random
import re
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.browser.conftest import invitation
from tests.browser.place import DESK, Server, browser
from tests.browser.screens import speak
from tests.browser.test_access import violations
from tests.browser.test_main_line import enrol, look, worker_ready
from tests.shop import Shop
from tests.trends.test_routes import ROWS, measured

DICE = random.Random(1)
STEADY = [round(DICE.gauss(0.1, 0.004), 4) for _ in range(110)]
WORN = [round(0.1 + place * 0.002 + DICE.gauss(0, 0.003), 4) for place in range(20)]
PHONE = {"width": 390, "height": 844}
CHART = "role=group[name='Chart of 131 values']"
DRAWN = (
    "[...document.querySelectorAll('.trend-chart canvas')].map((one) => [...one.getContext('2d')"
    ".getImageData(0, 0, one.width, one.height).data].reduce((sum, part) => (sum * 31 + part) % 1000003, 7)).join()"
)


@pytest.fixture
def wandering(shop: Shop) -> Shop:
    """The gap of the fit-up: steady, then drifting, the last out of tolerance; by two people.

    Of a job that no phone carries: the values of a piece are worked out anew where something comes in about it.
    """
    far = {"job": "T9", "piece": "T9.S-1"}
    measured(shop, STEADY, by="fitter", gauge="TG", **far)
    measured(shop, WORN, by="inspector", gauge="TG-2", **far)
    measured(shop, [0.2], by="inspector", gauge="TG-2", verdict="out of tolerance", **far)
    measured(shop, [0.3], by="inspector", standing="replaced", verdict="out of tolerance", **far)
    return shop


def reached(page: Page, name: str) -> None:
    assert violations(page, strict=False) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), f"{name} scrolls sideways"
    look(page, name)


def read(page: Page) -> str:
    return page.locator(".trend-read").inner_text()


def test_the_supervisor(wandering: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, server, wandering.invite("supervisor"))
        finds_an_item(page)
        sees_what_the_values_say(page)
        in_the_dark_and_on_paper(page)
        goes_through_the_chart(page)
        chooses(page)
        looks_at_shares(page)
        studies_a_gauge(page)
        on_a_phone(page)


def finds_an_item(page: Page) -> None:
    page.evaluate("location.hash = '/office'")
    page.get_by_role("link", name=re.compile("^Trends")).click()
    expect(page.get_by_role("heading", name="Trends")).to_be_visible()
    reached(page, "trends-list")
    page.get_by_label("Look for an item").fill("no such")
    expect(page.get_by_text("0 items of 1")).to_be_visible()
    page.get_by_label("Look for an item").fill("")
    expect(page.get_by_role("row", name="Root opening")).to_contain_text("1 out of tolerance among the newest\u00a050")
    page.get_by_label("Look for an item").fill("open fit")
    page.get_by_role("link", name="Root opening").click()
    expect(page.get_by_role("heading", name="Root opening")).to_be_visible()


def sees_what_the_values_say(page: Page) -> None:
    says = page.get_by_role("region", name="What the values say")
    expect(says).to_contain_text(
        re.compile(r"Not in control: a point more than 3 sigma from the centre, at S-1 12, the newest value\.")
    )
    expect(says).to_contain_text(re.compile(r"\d+ signals in all: S-1 \(\d+\)\."))
    expect(says).to_contain_text("Nobody watches this item: no rule raises a flag.")
    expect(says).to_contain_text("1 of 131 values is out of tolerance.")
    expect(says).to_contain_text(re.compile(r"Cp \d\.\d\d \(\d\.\d\d to \d\.\d\d\), Cpk"))
    expect(says).to_contain_text("Centre and control limits are from the first 100 of 131 values.")
    hands = page.get_by_role("table", name="By whom")
    expect(hands.get_by_role("row").nth(1)).to_contain_text(re.compile("Fitter.*0 of 110.*0% to"))
    expect(hands.get_by_role("row").nth(2)).to_contain_text(re.compile("Inspector.*1 of 21.*few values"))
    table = page.get_by_role("table", name="Values")
    expect(table.get_by_role("row")).to_have_count(101)
    expect(table.get_by_role("row").nth(1)).to_contain_text(
        re.compile("S-1.*0.2 in.*out of tolerance.*Inspector.*TG-2")
    )
    page.get_by_role("button", name="31 more").click()
    expect(table.get_by_role("row")).to_have_count(132)
    reached(page, "trends-item")


def goes_through_the_chart(page: Page) -> None:
    chart = page.locator(CHART)
    chart.focus()
    page.keyboard.press("ArrowLeft")
    assert read(page).startswith(
        "131 of 131: 0.2 in, out of tolerance. S-1 12, job T9, Nov 20, 08:00 AM. By Inspector."
    )
    page.keyboard.press("ArrowLeft")
    assert read(page).startswith("130 of 131: ")
    page.keyboard.press("Home")
    assert read(page).startswith("1 of 131: ")
    page.keyboard.press("Shift+ArrowRight")
    place = int(read(page).split()[0])
    assert place == 116, "the next that is marked"
    assert "Marked: up to here, " in read(page)
    box = page.locator(".trend-chart .u-over").first.bounding_box()
    assert box
    page.mouse.move(box["x"] + 1, box["y"] + 50)
    expect(page.locator(".trend-read")).to_contain_text("1 of 131: ")
    chart.focus()
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile("#/piece/T9/T9.S-1$"))
    page.go_back()
    expect(chart).to_be_visible()


def chooses(page: Page) -> None:
    page.get_by_role("button", name="Fitter").click()
    expect(page.get_by_role("region", name="What the values say")).to_contain_text("None of 110 values is out")
    expect(page.get_by_role("combobox", name="Who", exact=True)).to_have_value("fitter")
    page.get_by_role("combobox", name="Who", exact=True).select_option("")
    page.get_by_role("combobox", name="Values shown", exact=True).select_option("found")
    expect(page.get_by_role("region", name="What the values say")).to_contain_text("2 of 132 values are out")
    page.get_by_role("combobox", name="Values shown", exact=True).select_option("left")
    page.get_by_text("Run rules: 2").click()
    marked = page.get_by_role("group", name="A point is marked where one of these is so")
    for rule in ("more than 3 sigma", "Eight in a row, up to it, are on"):
        marked.get_by_label(re.compile(rule)).uncheck()
    expect(page.get_by_text("No run rule is chosen")).to_be_visible()
    marked.get_by_label(re.compile("^Six in a row")).check()
    page.get_by_text("Choose what raises a flag").click()
    watched = page.get_by_role("group", name="A flag is raised where one of these is so")
    watched.get_by_label(re.compile("as with a tool that wears")).check()
    expect(page.get_by_text("Watched: a flag is raised by an average that drifts towards a limit.")).to_be_visible()
    page.get_by_label("Weight of a new value").select_option("0.1")
    expect(page.get_by_text("moving average, weight 0.1")).to_be_visible()
    reached(page, "trends-rules")
    page.evaluate("location.hash = '/trends'")
    page.evaluate("location.hash = '/trends/fit/gap'")
    expect(page.get_by_text("Run rules: 1")).to_be_visible()
    expect(page.get_by_text("moving average, weight 0.1")).to_be_visible()


def looks_at_shares(page: Page) -> None:
    page.evaluate("location.hash = '/trends/shares'")
    row = page.get_by_role("row").nth(1)
    expect(row).to_contain_text(re.compile("Inspector.*Root opening.*2 of 22.*few values"))
    reached(page, "trends-shares")
    page.get_by_role("combobox", name="Who", exact=True).select_option("fitter")
    expect(row).to_contain_text(re.compile("Fitter.*0 of 110"))


def studies_a_gauge(page: Page) -> None:
    page.evaluate("location.hash = '/trends/gauge-study'")
    text = page.get_by_label("Readings, copied from a spreadsheet")
    lines = ["\t".join(row.values()) for row in ROWS]
    text.fill("\n".join(["part\toperator\tvalue", *lines, "4\tA\twide"]))
    page.get_by_role("button", name="Work it out").click()
    expect(page.get_by_role("alert")).to_contain_text("row 14, value: 'wide' is not a number")
    text.fill("\n".join(["part\toperator\tvalue", *lines]))
    page.get_by_label(re.compile("^Tolerance")).fill("1")
    page.get_by_role("button", name="Work it out").click()
    found = page.get_by_role("status").filter(has_text="What it means")
    expect(found).to_contain_text("3 parts, 2 operators, 2 readings of each part by each.")
    expect(found.locator(".trend-verdict")).to_contain_text("Its own spread takes")
    expect(found).to_contain_text("The gauge tells the parts apart.")
    expect(page.get_by_role("table", name="Analysis of variance").get_by_role("row").nth(1)).to_contain_text("parts")
    reached(page, "trends-study")


def in_the_dark_and_on_paper(page: Page) -> None:
    """The chart is drawn anew in other colours; what is for the screen alone is not printed."""
    drawn = [page.evaluate(DRAWN)]
    for look_of in ({"color_scheme": "dark"}, {"color_scheme": "light", "media": "print"}):
        page.emulate_media(**look_of)  # type: ignore[arg-type]
        page.wait_for_function(f"before => {DRAWN} !== before", arg=drawn[-1])
        drawn.append(page.evaluate(DRAWN))
        if look_of["color_scheme"] == "dark":
            reached(page, "trends-dark")
    assert len({*drawn}) == 3
    expect(page.locator(".trend-choices")).to_be_hidden()
    expect(page.locator("header.bar")).to_be_hidden()
    expect(page.locator(".trends details").first).to_be_hidden()
    printed = page.locator(".trend-printed")
    expect(printed).to_contain_text(re.compile("Root opening, 2 Fit-up, plan small · what is in force · printed "))
    expect(page.get_by_role("table", name="Values")).to_be_visible()
    page.emulate_media(media="screen")


def on_a_phone(page: Page) -> None:
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    speak(page, "es")
    page.evaluate("location.hash = '/trends/small/fit/gap'")
    expect(page.get_by_text("1 de 131 valores está fuera de tolerancia.")).to_be_visible()
    page.wait_for_function("document.querySelector('.trend-chart .uplot').clientWidth < 390")
    reached(page, "trends-phone")


def test_without_the_server_and_without_names(
    wandering: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    """No phone carries the desk's screens, and none is fetched ahead. An inspector sees no makers beside each other."""
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        enrol(page, server, wandering.invite("inspector"))
        worker_ready(page)
        page.wait_for_timeout(2_500)  # What is fetched ahead is, after a second and a half.
        assert any("/assets/" in url for url in asked)
        assert not [url for url in asked if "/assets/desk/" in url]
        says_that_it_needs_the_server(page, server)
        page.evaluate("location.hash = '/trends/fit/gap'")
        expect(page.get_by_text("Makers are compared only for supervisors, planners and engineers.")).to_be_visible()
        expect(page.get_by_role("table", name="By gauge")).to_be_visible()
        expect(page.get_by_role("table", name="By whom")).to_have_count(0)
        expect(page.get_by_role("combobox", name="Who", exact=True)).to_have_count(0)
        offers_the_newest_where_the_server_has_a_screen_no_longer(page)


def says_that_it_needs_the_server(page: Page, server: Server) -> None:
    server.kill()
    page.evaluate("location.hash = '/trends'")
    alert = page.get_by_role("alert").filter(has_text="This screen comes from the server")
    expect(alert).to_be_visible()
    assert violations(page, strict=False) == []
    page.evaluate("location.hash = '/unsent'")
    expect(page.get_by_role("heading", level=1, name="The server is not reached")).to_have_count(0)
    page.evaluate("location.hash = '/trends'")
    expect(alert).to_be_visible()
    server.start()
    page.get_by_role("button", name="Try again").click()
    expect(page.get_by_role("heading", name="Trends")).to_be_visible()
    expect(page.get_by_role("link", name="Shares flagged")).to_be_visible()
    expect(page.get_by_role("link", name="Study of a gauge")).to_have_count(0)


def offers_the_newest_where_the_server_has_a_screen_no_longer(page: Page) -> None:
    page.route("**/assets/desk/**", lambda route: route.fulfill(status=404))
    page.evaluate("location.hash = '/jobs'")
    expect(page.get_by_role("alert").filter(has_text="A new version of Seamtag")).to_be_visible()
    page.unroute("**/assets/desk/**")
    page.get_by_role("button", name="Load again").click()
    expect(page.get_by_role("button", name="Unlock")).to_be_visible()


def test_what_drifts_is_said_first_and_leads_to_its_flag(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, demo, invitation(demo, "supervisor"))
        page.evaluate("location.hash = '/trends'")
        first = page.get_by_role("row").nth(1)
        expect(first).to_contain_text(re.compile("Wall reduction.*readings drift, flag open"))
        expect(page.get_by_role("row").nth(2)).to_contain_text(re.compile("1 out of tolerance among the newest"))
        first.get_by_role("link").click()
        says = page.get_by_role("region", name="What the values say").get_by_role("listitem")
        expect(says.nth(0)).to_contain_text(
            "Open flag, readings drift, at TF-3F tube 20-3, job 2203: rising: the average"
        )
        expect(says.nth(1)).to_contain_text("eight in a row on one side of the centre, up to TF-2T tube 11-7, 5 values")
        is_printed_on_two_sheets(page)
        says.get_by_role("link", name="To the flag").click()
        expect(page.get_by_label("Opened flag").get_by_role("heading", level=2)).to_contain_text("TF-3F")


def is_printed_on_two_sheets(page: Page) -> None:
    """The chart under what the values say, no control, and the heading of the values over their first row."""
    page.locator(".trend-keys").focus()
    margin = dict.fromkeys(("top", "right", "bottom", "left"), "14mm")
    for paper in ("Letter", "A4"):
        with pypdfium2.PdfDocument(page.pdf(format=paper, margin=margin)) as document:  # type: ignore[arg-type]
            texts = [sheet.get_textpage().get_text_range() for sheet in document]
        first, second = (re.sub(r"\s", "", text) for text in texts)
        assert "Movingrange" in first
        assert "Choosewhatraises" not in first
        headed = first if "Thenewest26of26" in first else second
        assert "TF-2Ttube20-3Job" in headed.partition("Thenewest26of26")[2]
