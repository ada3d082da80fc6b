"""Photos in a row without network, marks over them, and what stands before a step or is signed at it."""

import hashlib
import json
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Locator, Page, Playwright, expect

from seamtag.records import jws
from tests import shop as small
from tests.browser.place import DESK, Server, big_photo, browser
from tests.browser.test_main_line import PIN, caution_key, enrol, type_on_keypad, unlock, worker_ready
from tests.browser.test_store import all_sent, in_store, ready
from tests.shop import Shop

FIT = "    kinds: [seam]\n    points:\n      - {party: maker"
CAUTION = "Strongbacks under load spring off; the shop's rules come first."
READ = "I have read this"


@pytest.fixture(autouse=True)
def a_caution_at_fit_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """The small plan, with a caution at its fit-up."""
    assert FIT in small.PLAN
    monkeypatch.setattr(small, "PLAN", small.PLAN.replace(FIT, f'    cautions: ["{CAUTION}"]\n{FIT}'))


def picture(file: Path, colour: str) -> Path:
    Image.new("RGB", (1200, 900), colour).save(file, "JPEG")
    return file


def records(folder: Path, kind: str) -> list[dict[str, Any]]:
    """The payloads of a type the server has, in its order."""
    query = "SELECT e.body FROM record r JOIN entry e ON e.number = r.number WHERE r.type = ? ORDER BY r.number"
    with sqlite3.connect(folder / "seamtag.db") as database:
        return [jws.json_of(body.split(".")[1]) for (body,) in database.execute(query, (kind,))]


def tap_at(page: Page, picture: Locator, across: float, down: float) -> None:
    box = picture.bounding_box()
    assert box is not None
    page.touchscreen.tap(box["x"] + across * box["width"], box["y"] + down * box["height"])


def take_three(page: Page, folder: Path) -> None:
    """Two with the camera, one tap each, the first of 12 million pixels; one from the gallery."""
    thumbs = page.locator(".thumb")
    with page.expect_event("worker"):
        page.locator("input[type=file]").set_input_files(big_photo(folder / "big.jpg"))
    page.locator("input[type=file]").set_input_files(picture(folder / "two.jpg", "maroon"))
    expect(thumbs).to_have_count(2, timeout=30_000)
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="From gallery").click()
    assert chooser.value.is_multiple()
    chooser.value.set_files([picture(folder / "three.jpg", "navy")])
    expect(thumbs).to_have_count(3)
    expect(page.locator(".thumbs").get_by_text("saved on this phone")).to_have_count(3)


def mark_the_second(page: Page) -> None:
    """An arrow by two taps, another that is rubbed out, and a ring of another size."""
    page.get_by_role("button", name="Root opening, 2 of 3").click()
    large = page.get_by_role("dialog").get_by_role("img")
    page.get_by_role("button", name="Arrow").click()
    tap_at(page, large, 0.5, 0.25)
    expect(page.get_by_text("Now tap where the arrow begins.")).to_be_visible()
    tap_at(page, large, 0.1, 0.75)
    page.get_by_role("button", name="Ring", exact=True).click()
    tap_at(page, large, 0.9, 0.9)
    page.get_by_role("button", name="Rub out last").click()
    tap_at(page, large, 0.5, 0.25)
    page.get_by_role("button", name="Larger ring").click()
    page.get_by_role("button", name="Save marks").click()
    expect(page.get_by_role("img", name="Root opening, 2 of 3, with 2 marks")).to_be_visible()


def about(mark: dict[str, Any], shape: str, *places: int) -> bool:
    return mark["shape"] == shape and all(
        abs(mark[name] - place) < 60 for name, place in zip(("x1", "y1", "x2", "y2"), places, strict=True)
    )


def marks_are_beside_the_photo(folder: Path, taken: list[str]) -> None:
    """Four records of three photos; the bytes of each are those that were taken."""
    bodies = [payload["body"] for payload in records(folder, "photo")]
    assert [body["sha256"] for body in bodies] == [*taken, taken[1]]
    assert [len(body.get("marks") or []) for body in bodies] == [0, 0, 0, 2]
    arrow, ring = bodies[-1]["marks"]
    assert about(arrow, "arrow", 1000, 7500, 5000, 2500), arrow
    assert about(ring, "ring", 5000, 2500, 5000 + 1040, 2500), ring
    for sha256 in taken:
        sealed = (folder / "photos" / "original" / sha256).read_bytes()
        assert hashlib.sha256(sealed).hexdigest() == sha256


def the_supervisor_sees_them(page: Page, shop: Shop, server: Server) -> None:
    enrol(page, server, shop.invite("supervisor"))
    page.get_by_role("link", name="Day review").click()
    marked = page.locator(".opened .marked", has=page.get_by_role("img", name="with 2 marks"))
    photo = marked.get_by_role("img")
    expect(photo).to_be_visible()
    for one in page.locator(".opened img").all():
        expect(one).to_have_js_property("complete", True)
    assert photo.evaluate("one => one.naturalWidth") > 0
    ring, whole = marked.locator("circle").last.bounding_box(), photo.bounding_box()
    assert ring is not None
    assert whole is not None
    middle = (ring["x"] + ring["width"] / 2 - whole["x"]) / whole["width"]
    assert abs(middle - 0.5) < 0.01
    assert abs((ring["y"] + ring["height"] / 2 - whole["y"]) / whole["height"] - 0.25) < 0.01


def test_photos_and_marks_made_without_network_reach_the_review(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite("inspector"))
        worker_ready(page)
        server.kill()
        page.goto(f"{server.url}/#/item/T1/T1.S-1/fit/gap")
        type_on_keypad(page, "9/32")
        page.get_by_role("button", name="Save").click()
        take_three(page, tmp_path)
        taken = [photo["sha256"] for photo in sorted(in_store(page, "photo_outbox"), key=lambda one: one["order"])]
        mark_the_second(page)
        assert {photo["sha256"] for photo in in_store(page, "photos")} == set(taken)
        server.start()
        all_sent(page)
        expect(page.locator(".thumbs").get_by_text("on the server")).to_have_count(3)
    marks_are_beside_the_photo(tmp_path, taken)
    with browser(playwright, tmp_path / "desk", size=DESK) as desk:
        the_supervisor_sees_them(desk.pages[0], shop, server)


def enrol_one_more(page: Page, invitation: str) -> None:
    page.get_by_role("button", name="Lock").click()
    page.get_by_role("button", name="I have an invitation").click()
    page.get_by_label("Invitation").fill(invitation)
    page.get_by_label("PIN", exact=True).fill(PIN[::-1])
    page.get_by_label("PIN once more").fill(PIN[::-1])
    page.get_by_role("button", name="Enrol this phone").click()
    expect(page.get_by_role("button", name="Scan a tag")).to_be_visible()


def unlock_as_inspector(page: Page) -> None:
    page.get_by_role("button", name="Inspector").click()
    page.get_by_label("PIN").fill(PIN)
    page.get_by_role("button", name="Unlock").click()


def cautions_are_read_once(page: Page, server: Server) -> None:
    """By whichever way one comes, but not again on the way or after the page was loaded anew."""
    page.remove_locator_handler(caution_key(page))
    page.goto(f"{server.url}/#/item/T1/T1.S-1/fit/gap")
    expect(page.get_by_text(CAUTION)).to_be_visible()
    expect(page.get_by_text("licensed practice come first")).to_be_visible()
    expect(page.locator(".keypad")).to_have_count(0)
    page.get_by_role("button", name=READ).click()
    expect(page.locator(".keypad")).to_be_visible()
    page.goto(f"{server.url}/#/step/T1/T1.S-1/fit")
    expect(page.get_by_role("link", name="Next: Root opening")).to_be_visible()
    page.reload()
    unlock_as_inspector(page)
    expect(page.get_by_role("link", name="Next: Root opening")).to_be_visible()
    expect(page.get_by_role("button", name=READ)).to_have_count(0)


def expect_held(page: Page, held: int) -> None:
    """The screen is let go just after it has gone."""
    for _ in range(40):
        if page.evaluate("window.held") == held:
            return
        page.wait_for_timeout(50)
    assert page.evaluate("window.held") == held


def the_screen_stays_on(page: Page, server: Server) -> None:
    """From a step on, until one leaves it; a phone that cannot is not tried here."""
    page.evaluate(
        """() => {
            window.held = 0;
            const release = async () => { window.held -= 1; };
            navigator.wakeLock.request = async () => { window.held += 1; return { release }; };
        }"""
    )
    here = (("item/T1/T1.S-1/fit/gap", "Root opening", 1), ("step/T1/T1.S-1/fit", "Fit-up", 1), ("", "Inspector", 0))
    for address, heading, held in here:
        page.evaluate("address => { location.hash = '/' + address; }", address)
        expect(page.get_by_role("heading", name=heading, exact=True)).to_be_visible()
        expect_held(page, held)
    page.goto(f"{server.url}/#/step/T1/T1.S-1/fit")


def the_fitter_signs_on_the_inspectors_phone(page: Page) -> None:
    page.get_by_role("button", name="Somebody else signs").click()
    page.get_by_role("list", name="Who signs").get_by_role("button", name="Fitter").click()
    expect(page.get_by_text("The work of step 1.2 at S-1 is done.")).to_be_visible()
    page.get_by_label("PIN of Fitter").fill(PIN[::-1])
    page.get_by_role("button", name="Sign", exact=True).click()
    expect(page.get_by_text("Signed by Fitter. This phone is still Inspector's.")).to_be_visible(timeout=30_000)
    expect(page.get_by_text("2 items are open before QC can sign")).to_be_visible()


def a_hold_stops_an_item_by_its_address(page: Page, server: Server) -> None:
    page.goto(f"{server.url}/#/item/T1/T1.S-1/finished/cut")
    expect(page.get_by_role("region", name="Stop")).to_be_visible()
    expect(page.locator(".keypad")).to_have_count(0)
    page.get_by_role("button", name="I was told to go on").click()
    page.get_by_label("By whom, and why").fill("Supervisor, by telephone")
    page.get_by_role("button", name="Record that, and go on").click()
    expect(page.get_by_text("Hold still open")).to_be_visible()
    expect(page.locator(".keypad")).to_be_visible()
    page.goto(f"{server.url}/#/step/T1/T1.S-1/finished")
    expect(page.get_by_role("list", name="Items")).to_be_visible()
    expect(page.get_by_role("region", name="Stop")).to_have_count(0)


def test_what_stands_before_a_step_and_who_signs_at_it(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        enrol_one_more(page, shop.invite("fitter"))
        page.get_by_role("button", name="Lock").click()
        unlock_as_inspector(page)
        expect(page.get_by_role("heading", name="Inspector")).to_be_visible()
        cautions_are_read_once(page, server)
        the_screen_stays_on(page, server)
        the_fitter_signs_on_the_inspectors_phone(page)
        a_hold_stops_an_item_by_its_address(page, server)
        all_sent(page)
    signed, told = records(tmp_path, "sign-off"), records(tmp_path, "note")
    assert [(one["by"], one["body"]["party"]) for one in signed] == [("fitter", "maker")]
    assert [one["by"] for one in told] == ["inspector"]
    assert "Supervisor, by telephone" in told[0]["body"]["text"], json.dumps(told)


def test_marks_that_are_not_saved_outlast_the_lock(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    """The large photo steps aside for the PIN when the app locks itself, and the screen may go dark meanwhile."""
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        page.clock.install()
        enrol(page, server, shop.invite("inspector"))
        page.goto(f"{server.url}/#/item/T1/T1.S-1/fit/clean")
        page.locator("input[type=file]").set_input_files(picture(tmp_path / "one.jpg", "maroon"))
        page.locator(".thumb").click()
        page.get_by_role("button", name="Ring", exact=True).click()
        tap_at(page, page.get_by_role("dialog").get_by_role("img"), 0.5, 0.5)
        page.clock.fast_forward("11:00")
        unlock(page)
        page.get_by_role("button", name="Save marks").click()
        expect(page.get_by_role("img", name="Edges bright, 1 of 1, with 1 mark")).to_be_visible()
