"""What the floor does beside measuring: calls, notes for the next shift, tags, agreements, readings in millimetres."""

import re
import sqlite3
from pathlib import Path

from playwright.sync_api import Page, Playwright, expect

from seamtag.records import jws
from tests.browser.conftest import invitation
from tests.browser.place import Server, browser
from tests.browser.test_main_line import PIN, enrol, look, type_on_keypad, type_the_place


def everything_sent(page: Page) -> None:
    expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=30_000)


def arrived(page: Page, server: Server, kind: str, many: int = 1) -> dict[str, object]:
    """The body of the newest record of a type that came from a browser, once so many have come."""
    query = (
        "SELECT e.body FROM record r JOIN entry e ON e.number = r.number "
        "WHERE r.type = ? AND r.device LIKE 'phone-%' ORDER BY r.number"
    )
    for _ in range(100):
        with sqlite3.connect(server.folder / "seamtag.db") as database:
            rows = database.execute(query, (kind,)).fetchall()
        if len(rows) >= many:
            body: dict[str, object] = jws.json_of(rows[-1][0].split(".")[1])["body"]
            return body
        page.wait_for_timeout(200)
    raise AssertionError(f"no {kind} has come")


def ready(page: Page, server: Server, role: str) -> None:
    enrol(page, server, invitation(server, role))
    expect(page.get_by_role("link", name=re.compile("^2211"))).to_be_visible(timeout=60_000)
    everything_sent(page)


def test_a_shift_of_an_inspector(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, demo, "inspector")
        calls_and_goes_on(page, demo)
        passes_a_note_on(page, demo)
        puts_a_tag_on(page, demo)
        reads_in_millimetres(page, demo)


def calls_and_goes_on(page: Page, server: Server) -> None:
    """The AI is called to the girth seam, does not come, and QC goes on after notice."""
    page.goto(f"{server.url}/#/step/2207/2207.G-1/girth_fit")
    expect(page.get_by_text("Not called yet.")).to_be_visible()
    look(page, "call")
    page.get_by_role("button", name="Call the Authorized Inspector").click()
    page.get_by_label("For when").fill("2026-11-26T09:00")
    page.get_by_role("button", name="message").click()
    page.get_by_role("button", name="Record the call").click()
    expect(page.get_by_text(re.compile("Called for Nov 26, 0?9:00.AM, by message"))).to_be_visible()
    expect(page.get_by_role("heading", name="Not attended after notice")).to_be_visible()
    page.get_by_text(re.compile("records it covers")).click()
    expect(page.locator(".covered").get_by_text("3/32 in").first).to_be_visible()
    look(page, "sign-off")
    page.get_by_label("PIN").fill(PIN)
    page.get_by_role("button", name="Sign", exact=True).click()
    expect(page.get_by_text("Released.")).to_be_visible(timeout=30_000)
    assert arrived(page, server, "call") == {"party": "AI", "when": "2026-11-26 09:00", "how": "message"}
    assert arrived(page, server, "sign-off")["attendance"] == "not attended after notice"


def passes_a_note_on(page: Page, server: Server) -> None:
    page.goto(f"{server.url}/#/piece/2207/2207.G-1")
    page.get_by_role("button", name="Write a note").click()
    page.get_by_label("Note", exact=True).fill("Strongback at 4:30 is to come off")
    page.get_by_label("Keep it on top for the next shift").check()
    page.get_by_role("button", name="Save the note").click()
    expect(page.get_by_label("For this shift").get_by_text("Strongback")).to_be_visible()
    page.goto(f"{server.url}/#/")
    expect(page.get_by_role("heading", name="From the last shift")).to_be_visible()
    page.get_by_role("link", name=re.compile("G-1.*Strongback")).click()
    page.get_by_role("button", name="Seen, clear").click()
    expect(page.get_by_label("For this shift")).to_have_count(0)


def puts_a_tag_on(page: Page, server: Server) -> None:
    page.goto(f"{server.url}/#/piece/2207/2207.G-1")
    page.get_by_role("button", name="Change").click()
    page.get_by_role("button", name="Put on").click()
    expect(page.get_by_text(re.compile("· put on$"))).to_be_visible()
    page.get_by_role("button", name="Change").click()
    look(page, "tag")
    page.get_by_role("button", name="Taken off for blast").click()
    expect(page.get_by_text("taken off for blast")).to_be_visible()
    assert arrived(page, server, "tagging", 2)["why"] == "blast"


def reads_in_millimetres(page: Page, server: Server) -> None:
    """Limits of an inch drawing are shown in millimetres, rounded inward; the server judges the same."""
    page.goto(f"{server.url}/#/item/2207/2207.TS-R/sheet_machined/hole")
    type_the_place(page, "14-7")
    page.get_by_role("button", name="mm instead").click()
    type_on_keypad(page, "64.61")
    expect(page.get_by_text("Out of tolerance by")).to_be_visible()
    look(page, "millimetres")
    page.get_by_role("button", name="Save").click()
    body = arrived(page, server, "reading")
    assert (body["entered"], body["uom"], body["verdict"]) == ("64.61", "mm", "out of tolerance")
    with sqlite3.connect(server.folder / "seamtag.db") as database:
        verdict = "SELECT verdict, value FROM record WHERE type = 'reading' ORDER BY number DESC LIMIT 1"
        assert database.execute(verdict).fetchone()[0] == "out of tolerance"


def test_engineering_agrees_to_use_as_is(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "engineer") as context:
        page = context.pages[0]
        ready(page, demo, "engineer")
        expect(page.get_by_role("heading", name="Asks for your word")).to_be_visible(timeout=30_000)
        look(page, "agree")
        page.get_by_role("button", name="Agree", exact=True).click()
        page.get_by_role("button", name="Agree for engineering").click()
        expect(page.get_by_role("heading", name="Asks for your word")).to_have_count(0)
        assert arrived(page, demo, "agreement")["party"] == "engineering"
    with sqlite3.connect(demo.folder / "seamtag.db") as database:
        flag = "SELECT state FROM flag WHERE piece = '2205.TS-R' AND kind = 'out of tolerance'"
        assert database.execute(flag).fetchall() == [("closed",)]
