"""The day review's own pages: without the server, for who may not see them, of another day, and under fingers."""

import re
from datetime import date, timedelta
from pathlib import Path

from playwright.sync_api import Page, Playwright, expect

from tests.browser.place import Server, browser
from tests.browser.test_main_line import enrol
from tests.browser.test_review import PAGES, TABLET, at_desk, fill, no_sideways_scroll, rows, sign, to_review
from tests.shop import Shop

AWAY = re.compile("As heard at .*; the server is not answering.")
SMALL = """() => [...document.querySelectorAll('a, button, select, label:has(input)')]
  .filter((one) => !one.closest('.bar, .opened'))
  .map((one) => [one.textContent, one.getBoundingClientRect()])
  .filter(([, { width, height }]) => width > 0 && (width < 48 || height < 48))
  .map(([text, { width, height }]) => `${text.trim()}: ${width} by ${height}`)"""


def to(page: Page, address: str) -> None:
    page.evaluate("address => { location.hash = address; }", f"/review{address}")


def figures(page: Page) -> str:
    return page.locator(".figures").inner_text().replace("\n", " ")


def test_what_was_heard_is_there_without_the_server(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with at_desk(shop, server, playwright, tmp_path) as page:
        counted = re.compile(r"Of this day: \d+ recorded; 6 flags: 6 open, 0 decided, .*Open now, of any day: 6$")
        expect(page.locator(".figures")).to_have_text(counted)
        server.kill()
        expect(page.get_by_role("alert")).to_contain_text(AWAY)
        for name in ("list/rework", "list/reports", "silent"):
            to(page, f"/{name}")
            expect(page.get_by_role("alert")).to_contain_text(AWAY)
            expect(page.get_by_text(re.compile("^Nothing is left to do|^No report|^Every phone"))).to_be_visible()
        to(page, "/spot")
        expect(page.get_by_role("heading", name="Fixed on the spot", exact=True)).to_be_visible()
        expect(page.get_by_role("alert")).to_contain_text("The review needs the server")
        to(page, "")
        expect(rows(page)).to_have_count(6)
        expect(page.get_by_role("alert")).to_contain_text(AWAY)
        expect(page.locator(".figures")).to_have_text(counted)
        signed_while_away(page)
        page.get_by_role("button", name=re.compile("^closed")).click()
        expect(page.get_by_text("These flags have not been fetched yet")).to_be_visible()
        server.start()
        expect(page.get_by_role("button", name=re.compile("^closed"))).to_have_text("closed 1", timeout=30_000)
        expect(rows(page)).to_have_count(1)
        expect(page.get_by_role("alert")).to_have_count(0)


def signed_while_away(page: Page) -> None:
    """Head and tab say the same, and that a word has not gone out."""
    sign(page, "3", "Asked, and the fitter had seen it")
    expect(rows(page)).to_have_count(5)
    expect(page.get_by_role("button", name=re.compile("^open"))).to_have_text("open 5")
    expect(page.locator(".figures")).to_contain_text("6 flags: 5 open, 1 signed here, 0 decided")
    assert figures(page).endswith("Open now, of any day: 5 · 1 signed here, not sent yet")


def test_a_fitter_is_led_to_his_work(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("fitter"))
        for name in ("", *(f"/{name}" for name in PAGES)):
            to(page, name)
            expect(page.get_by_role("heading", level=1, name="Day review")).to_be_visible()
            expect(page.get_by_text("What you are to do is on My work.")).to_be_visible()
            expect(page.get_by_role("alert")).to_have_count(0)
            no_sideways_scroll(page)
        page.get_by_role("main").locator(".body").get_by_role("link", name="My work").click()
        expect(page.get_by_role("button", name="Scan a tag")).to_be_visible()


def test_another_day_tells_what_is_its_own(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    with at_desk(shop, server, playwright, tmp_path) as page:
        expect(page.get_by_role("link", name="day after")).to_have_count(0)
        page.get_by_role("link", name="day before").click()
        expect(page.get_by_role("link", name="day after")).to_be_visible()
        expect(page.locator(".figures")).to_contain_text("Of this day: 0 recorded; 0 flags: 0 open")
        expect(page.locator(".figures")).to_contain_text("Open now, of any day: 6")
        expect(page.get_by_text("Open now, of any day, the worst first.")).to_be_visible()
        page.get_by_role("button", name=re.compile("^closed")).click()
        expect(page.get_by_text("Those of this day, the worst first.")).to_be_visible()
        to(page, f"/day/{date.today() + timedelta(days=3)}/0")
        expect(page.get_by_text("This day has not begun.")).to_be_visible()
        expect(page.get_by_role("link", name=re.compile("^‹ day before|^day after"))).to_have_count(0)


def test_nothing_moves_and_the_focus_stays_when_filters_are_taken_off(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with at_desk(shop, server, playwright, tmp_path) as page:
        before = rows(page).first.bounding_box()
        page.get_by_label("Kind").select_option("out of tolerance")
        expect(rows(page)).to_have_count(4)
        after = rows(page).first.bounding_box()
        assert before
        assert after
        assert after["y"] == before["y"]
        page.get_by_role("button", name="Clear").click()
        expect(rows(page)).to_have_count(6)
        expect(rows(page).first).to_be_focused()


def test_all_of_it_is_large_enough_for_fingers(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    fill(shop)
    with browser(playwright, tmp_path / "tablet") as context:
        page = context.pages[0]
        page.set_viewport_size(TABLET)  # type: ignore[arg-type]
        to_review(page, shop, server)
        assert page.evaluate("matchMedia('(pointer: coarse)').matches")
        assert page.evaluate(SMALL) == []
        expect(rows(page).first).to_contain_text("Undercut")
        expect(rows(page).first.locator(".cell-who")).to_be_visible()
        expect(rows(page).first.locator(".cell-item small")).to_be_visible()
        for name in PAGES:
            to(page, f"/{name}")
            expect(page.locator(".review-page h1")).to_be_visible()
            expect(page.get_by_text("Fetching")).to_have_count(0)
            assert page.evaluate(SMALL) == [], name
