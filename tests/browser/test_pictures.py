"""The main screens of the demonstration shop, as a phone and a desk show them; pictures of them for the README."""

import re
from pathlib import Path

from playwright.sync_api import Page, Playwright, expect

from tests.browser.conftest import invitation
from tests.browser.place import DESK, Server, browser
from tests.browser.test_main_line import enrol, look, type_on_keypad, type_the_place

LARGER = {"width": 412, "height": 915}


def shown(page: Page, server: Server, address: str, heading: str, name: str) -> None:
    page.goto(f"{server.url}/#/{address}")
    expect(page.get_by_role("heading", name=heading).first).to_be_visible()
    no_sideways_scroll(page)
    look(page, name)


def no_sideways_scroll(page: Page) -> None:
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), page.url


def test_screens_of_the_phone(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, demo, invitation(demo, "inspector"))
        expect(page.get_by_role("link", name=re.compile("^2211"))).to_be_visible(timeout=60_000)
        expect(page.locator("header").get_by_text("all sent")).to_be_visible()
        page.wait_for_timeout(1500)
        shown(page, demo, "", "Priya Solheim", "work")
        shown(page, demo, "piece/2207/2207.G-1", "G-1", "piece")
        shown(page, demo, "piece/2205/2205.F-2", "Wait for the Authorized Inspector", "stop")
        shown(page, demo, "step/2207/2207.TS-R/sheet_machined", "Tube sheet machined", "step")
        shown(page, demo, "job/2207", "Job 2207", "job")
        shown(page, demo, "unsent", "Unsent", "unsent")
        page.goto(f"{demo.url}/#/item/2207/2207.TS-R/sheet_machined/hole")
        type_the_place(page, "14-7")
        type_on_keypad(page, "2.543")
        expect(page.get_by_text("Out of tolerance by")).to_be_visible()
        no_sideways_scroll(page)
        look(page, "measure")
        page.set_viewport_size(LARGER)
        look(page, "measure-larger")


def test_the_supervisors_desk(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, demo, invitation(demo, "supervisor"))
        page.get_by_role("link", name="Day review").click()
        expect(page.get_by_role("row").nth(1)).to_contain_text("F-2", timeout=30_000)
        expect(page.get_by_role("grid").get_by_text("went past an open hold").first).to_be_visible()
        page.get_by_role("row", name="PL-7").click()
        expect(page.locator(".opened img")).to_be_visible()
        expect(page.locator(".opened img")).to_have_js_property("complete", True)
        no_sideways_scroll(page)
        look(page, "review")
        page.set_viewport_size(LARGER)
        no_sideways_scroll(page)
        look(page, "review-phone")
        page.set_viewport_size(DESK)
        page.keyboard.press("ArrowUp")
        expect(page.get_by_label("Opened flag").get_by_role("heading", level=2)).not_to_contain_text("PL-7")
        shown(page, demo, "trends/tubes_expanded/wr", "Wall reduction", "trend")
        expect(page.locator("canvas").first).to_be_visible()
