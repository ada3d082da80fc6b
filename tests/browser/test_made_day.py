"""A whole day of a shop, 3,000 readings and 60 flags, in the supervisor's half hour: by keyboard alone."""

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.browser.conftest import WEB
from tests.browser.place import DESK, Server, browser, chromium, free_port
from tests.browser.test_main_line import enrol
from tests.browser.test_review import rows, sign
from tests.conftest import app_in, close, made_ready
from tests.server.made_day import SUPERVISOR, MadeDay
from tests.server.test_made_day import open_flags

FINDINGS = ("out of tolerance", "rejected", "too close to call", "unjudged", "readings disagree")
SHAKEN = "sign-off shaken"
"""No word closes it: the step has to be signed anew."""


@pytest.fixture
def day(tmp_path: Path) -> Iterator[MadeDay]:
    if chromium() is None:
        pytest.skip("no Chromium here: apt-get install chromium")
    app = app_in(tmp_path)
    made_ready(app)
    yield MadeDay(app)
    close(app)


@pytest.fixture
def server(day: MadeDay, tmp_path: Path) -> Iterator[Server]:
    close(day.app)
    one = Server(tmp_path, free_port(), WEB)
    one.start()
    yield one
    one.kill()


def test_a_whole_day_is_disposed_of_by_keyboard(
    day: MadeDay, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, server, day.invite(SUPERVISOR))
        expect(page.get_by_role("link", name=re.compile("^D1"))).to_be_visible(timeout=30_000)
        page.evaluate("location.hash = '/review'")
        expect(rows(page)).to_have_count(60)
        expect(page.get_by_text("2 phones not heard from")).to_be_visible()
        words = decide_all(page)
        expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=60_000)
    left = Counter(flag["kind"] for flag in open_flags(day))
    assert left == {SHAKEN: left[SHAKEN]}, "of what else is open a word has to say something"
    assert words < 60, "what is alike is said in one word"


def decide_all(page: Page) -> int:
    """Say a word about every flag that a word closes, those that are alike together; how many words that took."""
    words = 0
    while True:
        page.keyboard.press("Home")
        while (kind := page.evaluate("document.activeElement.dataset.kind")) == SHAKEN:
            before = page.evaluate("document.activeElement.dataset.flag")
            page.keyboard.press("ArrowDown")
            if page.evaluate("document.activeElement.dataset.flag") == before:
                return words
        count = rows(page).count()
        page.keyboard.press("a")
        sign(page, "1" if kind in FINDINGS else "3", "seen on the floor this evening")
        expect(rows(page)).not_to_have_count(count, timeout=20_000)
        words += 1
        if rows(page).count() == 0:
            return words
