"""Every screen of the app in the demonstration, by its address; what tests of looks and access walk through."""

import re
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, expect

from tests.browser.conftest import invitation
from tests.browser.place import Server
from tests.browser.test_main_line import enrol

SMALL, LARGE = {"width": 360, "height": 740}, {"width": 412, "height": 915}
AXE = Path(__file__).resolve().parents[2] / "webapp" / "node_modules" / "axe-core" / "axe.min.js"


@dataclass(frozen=True)
class Screen:
    """name: of its picture. address: after #/. shows: what is there once it is whole, by a CSS selector."""

    name: str
    address: str
    shows: str = "h1"


FLOOR = (
    Screen("work", "", "main .list a"),
    Screen("scan", "scan", ".finder video"),
    Screen("job", "job/2207", ".list a"),
    Screen("map", "map/2207", ".map-pin"),
    Screen("piece", "piece/2207/2207.G-1", "ol.list a"),
    Screen("stop", "piece/2205/2205.F-2", ".stop"),
    Screen("step", "step/2207/2207.TS-R/sheet_machined"),
    Screen("found-out", "step/2205/2205.TS-R/sheet_machined", ".not-good"),
    Screen("cautions", "step/2207/2207.G-1/seam_weld"),
    Screen("measure", "item/2207/2207.TS-R/sheet_machined/hole", ".keypad"),
    Screen("clock", "item/2207/2207.G-1/girth_fit/gap", ".clock"),
    Screen("visual", "item/2207/2207.TS-R/sheet_machined/edge", "textarea"),
    Screen("weld", "item/2207/2207.L-1/seam_weld/cap"),
    Screen("report", "item/2207/2207.L-1/seam_rt/film"),
    Screen("text", "item/2207/2207.PL-1/plate_receipt/heat"),
    Screen("unsent", "unsent"),
    Screen("settings", "settings", "input[type=checkbox]"),
    Screen("pin", "pin"),
    Screen("badge", "badge"),
)
DESK = (
    Screen("review", "review", ".flags tbody tr"),
    Screen("jobs", "jobs", ".board"),
    Screen("job-page", "jobs/2207", ".lines"),
    Screen("drawing", "drawing/2207", ".map-paper"),
    Screen("new-job", "new-job", ".figures-form"),
    Screen("job-change", "job-change/2207", ".figures-form"),
    Screen("trace", "trace"),
    Screen("trends", "trends", ".lines"),
    Screen("trend", "trends/wetback/nozzle_fit/gap", ".trend-chart canvas"),
)


def let_in(context: BrowserContext, server: Server, role: str, language: str = "en") -> Page:
    """A page of somebody who holds a role, all jobs pulled; language: what the phone speaks afterwards."""
    page = context.pages[0]
    enrol(page, server, invitation(server, role))
    expect(page.get_by_role("link", name=re.compile("^2211"))).to_be_visible(timeout=60_000)
    expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=60_000)
    if language != "en":
        speak(page, language)
    return page


def speak(page: Page, language: str) -> None:
    """Change the language by the settings screen, with the app unlocked."""
    page.evaluate("location.hash = '/settings'")
    page.locator(f"button[lang={language}]").click()
    expect(page.locator(f"html[lang={language}]")).to_have_count(1)


def show(page: Page, screen: Screen) -> None:
    """Go there within the page, which stays unlocked, and wait until it is whole."""
    page.evaluate("address => { location.hash = '/' + address; }", screen.address)
    expect(page.locator(screen.shows).first).to_be_visible()
    page.evaluate("document.fonts.ready.then(() => true)")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), f"{screen.name} scrolls sideways"
