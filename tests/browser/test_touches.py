"""How many touches the floor's commonest work takes. The limits are this project's own goals, no source."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from seamtag.database import db, writing
from seamtag.jobs.opening import open_job
from seamtag.people import staff
from seamtag.people.models import Person
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from tests.browser.place import Server, big_photo, browser
from tests.browser.test_main_line import PIN, enrol
from tests.shop import PIECES, Shop

PLAN = """
notice: Made up for the tests.
plan: seam
title: A seam of eight items
figures:
  gap_nom: {uom: in, what: root opening}
piece_figures:
  size: {uom: in, what: ordered thickness}
agree: {code: [engineering, AI], drawing: [engineering], shop: []}
stages:
  - {number: "1", name: Seam}
steps:
  - code: seam
    number: "1.1"
    stage: "1"
    name: Seam
    kinds: [seam]
    points: [{party: QC, point: H}]
    items:
      - {code: gap, name: Root opening, kind: measure, uom: in, upper: "gap_nom + 1/16", binds: drawing}
      - {code: clean, name: Edges bright, kind: visual}
      - {code: offset, name: Offset, kind: measure, uom: in, upper: "1/8", binds: code, gauge: taper gauge}
      - {code: cap, name: Cap pass, kind: weld}
      - {code: undercut, name: Undercut, kind: measure, uom: in, upper: "1/32", binds: code, gauge: taper gauge}
      - {code: spatter, name: Free of spatter, kind: visual}
      - {code: stamp, name: Stamp struck, kind: visual}
      - {code: heat, name: Heat number beside the seam, kind: visual}
"""
OTHER = {"mark": "S-2", "kind": "seam", "part_of": ["V"], "joins": ["P-1", "P-2"]}
COUNT = (
    "addEventListener('pointerdown', (event) => { window.touches = (window.touches ?? 0) + event.isTrusted; }, true);"
)


@contextmanager
def phone(shop: Shop, server: Server, playwright: Playwright, folder: Path) -> Iterator[Page]:
    """An inspector's phone that carries job T2, whose one seam has eight items."""
    now = int(shop.clock.timestamp())
    with shop.app.app_context(), writing() as session:
        staff.engage(session, Person(id="welder", name="Welder", roles=["welder"], stamp="B14"), now)
        plan = publish(session, read(PLAN), now)
        session.flush()
        job = {
            "job": "T2",
            "title": "Eight",
            "plan": "seam",
            "figures": {"gap_nom": "3/32"},
            "pieces": [*PIECES, OTHER],
        }
        open_job(session, job, plan, now)
    with shop.app.app_context():
        db.engine.dispose()
    with browser(playwright, folder / "phone") as context:
        context.add_init_script(COUNT)
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        expect(page.get_by_role("link", name=re.compile("^T2"))).to_be_visible(timeout=30_000)
        yield page


def scanned(page: Page) -> None:
    """The piece is on the screen, as after a scan; touches count from here."""
    page.evaluate("location.hash = '/piece/T2/T2.S-1'")
    expect(page.get_by_role("heading", name="S-1")).to_be_visible()
    page.evaluate("window.touches = 0")


def touches(page: Page) -> int:
    count: int = page.evaluate("window.touches")
    return count


def onward(page: Page) -> None:
    page.locator("a.button.main").first.tap()


def press(page: Page, keys: str) -> None:
    """A reading on the keypad, by touch."""
    names = {"/": "fraction bar", " ": "blank", ".": "point"}
    for key in keys:
        page.locator(".keypad").get_by_role("button", name=names.get(key, key), exact=True).tap()


def measure(page: Page, entered: str) -> None:
    press(page, entered)
    page.get_by_role("button", name="Save", exact=True).tap()


def log_pass(page: Page) -> None:
    page.get_by_role("button", name="Log the pass").tap()


@pytest.fixture
def floor(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> Iterator[Page]:
    with phone(shop, server, playwright, tmp_path) as page:
        yield page


def test_touches(floor: Page, tmp_path: Path) -> None:
    page = floor
    page.evaluate("location.hash = '/item/T2/T2.S-2/seam/cap'")
    fill_once(page)
    scanned(page)
    onward(page)
    measure(page, "3/32")
    expect(page.get_by_role("heading", name="Edges bright")).to_be_visible()
    first = touches(page) - len("3/32")

    page.get_by_role("button", name="Accept").tap()
    measure(page, "1/16")
    expect(page.get_by_role("heading", name="Cap pass")).to_be_visible()

    scanned(page)
    onward(page)
    with page.expect_file_chooser() as chooser:
        page.locator("label:has(input[type=file])").first.tap()
    photo = touches(page)
    chooser.value.set_files(big_photo(tmp_path / "pass.jpg"))
    expect(page.get_by_role("img", name=re.compile("Cap pass"))).to_be_visible()

    scanned(page)
    onward(page)
    log_pass(page)
    expect(page.locator("header").get_by_text(re.compile("unsent|all sent"))).to_be_visible()
    expect(page.get_by_text(re.compile(r"cap B14")).first).to_be_visible()
    passed = touches(page)
    print(f"\nto the first reading {first} beside the digits, to a photo {photo}, to a weld pass {passed}")
    assert first <= 3
    assert photo <= 2
    assert passed <= 4


def fill_once(page: Page) -> None:
    """Welder, stamp, procedure and lot are named the first time; afterwards they are remembered."""
    page.get_by_role("button", name=re.compile("B14")).tap()
    page.get_by_label("Procedure").fill("W-12")
    page.get_by_label("Filler lot").fill("FL-1")
    log_pass(page)
    expect(page.get_by_text("Photo of the finished pass")).to_be_visible()


def test_a_step_of_eight_items(floor: Page) -> None:
    page = floor
    scanned(page)
    onward(page)
    measure(page, "3/32")
    page.get_by_role("button", name="Accept").tap()
    measure(page, "1/16")
    fill_once(page)
    page.evaluate("location.hash = '/item/T2/T2.S-1/seam/undercut'")
    measure(page, "0")
    for name in ("Free of spatter", "Stamp struck", "Heat number beside the seam"):
        expect(page.get_by_role("heading", name=name)).to_be_visible()
        page.get_by_role("button", name="Accept").tap()
    page.get_by_label("PIN").tap()
    page.keyboard.type(PIN)
    page.get_by_role("button", name=re.compile("^Sign")).tap()
    expect(page.get_by_text("Released.")).to_be_visible(timeout=30_000)
    count = touches(page) + len(PIN)
    print(f"\na step of eight items signed: {count} touches, the digits of readings and PIN among them")
    assert count < 40
