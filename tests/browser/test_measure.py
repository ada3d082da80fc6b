"""A measurement on the phone: the clock's face, the gauge's sticker, the ways on from what is out, decimal commas."""

import re
import sqlite3
from itertools import pairwise
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, Playwright, expect

from seamtag.database import writing
from seamtag.gauges import shelf
from seamtag.records import jws
from seamtag.tags.stickers import gauge_sticker
from tests.browser.place import PHONE, Server, big_photo, browser, camera_video
from tests.browser.test_main_line import enrol, look, type_on_keypad
from tests.shop import Shop

GAP = "#/item/T1/T1.S-1/fit/gap"


def newest_reading(server: Server) -> dict[str, Any]:
    with sqlite3.connect(server.folder / "seamtag.db") as database:
        query = "SELECT e.body FROM record r JOIN entry e ON e.number = r.number ORDER BY r.number DESC"
        payloads = [jws.json_of(body.split(".")[1]) for (body,) in database.execute(query)]
    found: dict[str, Any] = next(one for one in payloads if one["type"] == "reading")
    return found


def everything_sent(page: Page) -> None:
    expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=30_000)


def save(page: Page) -> None:
    page.locator(".keypad").get_by_role("button", name="Save", exact=True).click()


def edges(part: Locator) -> tuple[float, float]:
    box = part.bounding_box()
    assert box is not None
    return box["y"], box["y"] + box["height"]


def second_gauge(shop: Shop) -> None:
    gauge = {"id": "TG-2", "kind": "taper gauge", "name": "Taper gauge 2", "uom": "in", "uncertainty": "0.001",
             "due": "2031-06-30"}  # fmt: skip
    with shop.app.app_context(), writing() as session:
        shelf.put(session, gauge, int(shop.clock.timestamp()))


def test_a_seam_round_the_clock(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    second_gauge(shop)
    sticker = gauge_sticker(f"127.0.0.1:{server.port}", "TG-2", "Taper gauge 2")
    video = camera_video(sticker, tmp_path / "sticker.y4m")
    with browser(playwright, tmp_path / "phone", video) as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        expect(page.get_by_role("link", name=re.compile("^T1"))).to_be_visible()
        everything_sent(page)
        page.goto(f"{server.url}/#/piece/T1/T1.S-1")
        first_reading_in_two_touches(page)
        slip_of_the_finger(page, server)
        takes_the_gauge_of_the_sticker(page)
        goes_round_the_face(page, server)
        leaves_one_as_found(page, big_photo(tmp_path / "big.jpg"))
        is_asked_to_repair_it(page, shop, server)


def first_reading_in_two_touches(page: Page) -> None:
    """From the piece: the step, the digits, Save; and nothing of the measurement is out of sight."""
    page.get_by_role("link", name=re.compile("^Fit-up")).first.click()
    expect(page.get_by_role("button", name="12, open")).to_have_attribute("aria-pressed", "true")
    look(page, "clock")
    type_on_keypad(page, "9/32")
    parts = [page.locator(name) for name in ("header", "h1", ".reading", ".verdict", ".limit-bar", ".pad")]
    places = [edges(part) for part in parts]
    assert all(end <= begin + 1 for (_, end), (begin, _) in pairwise(places)), places
    assert places[-1][1] <= PHONE["height"] + 1
    expect(page.get_by_role("button", name="over 64")).to_be_visible()
    save(page)


def slip_of_the_finger(page: Page, server: Server) -> None:
    expect(page.get_by_text("12: 9/32 in, out of tolerance: saved on this phone")).to_be_visible()
    expect(page.get_by_text("A photo of it is asked for", exact=False)).to_have_count(0)
    for way in ("Measured again", "Fixed on the spot", "Leave it so, go on"):
        expect(page.get_by_role("button", name=way)).to_be_visible()
    look(page, "onward")
    page.get_by_role("button", name="Slip of the finger").click()
    type_on_keypad(page, "3/32")
    expect(page.get_by_text("Instead of 9/32, which stays in the book: Slip of the finger")).to_be_visible()
    save(page)
    expect(page.get_by_role("button", name="12, 3/32, good")).to_be_visible()
    everything_sent(page)
    payload = newest_reading(server)
    assert (payload["why"], payload["station"], payload["body"]["entered"]) == ("slip", "12", "3/32")
    assert payload["replaces"]


def takes_the_gauge_of_the_sticker(page: Page) -> None:
    expect(page.get_by_label(re.compile("calibrated to"))).to_have_value("TG")
    page.get_by_role("button", name="Scan its sticker").click()
    expect(page.get_by_label("Gauge, calibrated to Jun 30, 2031")).to_have_value("TG-2", timeout=20_000)
    expect(page.locator(".finder")).to_have_count(0)


def goes_round_the_face(page: Page, server: Server) -> None:
    """Any place by a tap, in any order; the gauge that was scanned is named."""
    page.get_by_role("button", name="6, open").click()
    type_on_keypad(page, "1/8")
    expect(page.get_by_text("At 6 o'clock")).to_be_visible()
    expect(page.locator(".verdict").get_by_text("in tolerance")).to_be_visible()
    save(page)
    expect(page.get_by_role("button", name="6, 1/8, good")).to_be_visible()
    expect(page.get_by_role("button", name="3, open")).to_have_attribute("aria-pressed", "true")
    everything_sent(page)
    payload = newest_reading(server)
    assert (payload["station"], payload["body"]["gauge"]) == ("6", "TG-2")


def leaves_one_as_found(page: Page, photo: Path) -> None:
    page.get_by_role("button", name="9, open").click()
    type_on_keypad(page, "1/4")
    save(page)
    page.locator("input[type=file]").set_input_files(photo)
    expect(page.get_by_role("img", name=re.compile("^Root opening, 1 of 1"))).to_be_visible()
    page.get_by_role("button", name="Write a note").click()
    page.get_by_label("What is to be seen there").fill("Edge gouged")
    page.get_by_role("button", name="Save the note").click()
    expect(page.get_by_text("The note is saved.")).to_be_visible()
    page.get_by_role("button", name="Leave it so, go on").click()
    expect(page.get_by_role("button", name="9, 1/4, not good")).to_be_visible()
    everything_sent(page)


def is_asked_to_repair_it(page: Page, shop: Shop, server: Server) -> None:
    """What was begun is on top of My work; once it is decided, what is asked, with the photo of what was found."""
    page.goto(f"{server.url}/#/")
    expect(page.get_by_role("heading", name="You began, not finished")).to_be_visible()
    expect(page.get_by_role("heading", name="Rework and repair")).to_have_count(0)
    text, _ = shop.disposition(newest_reading(server)["id"], "repair", ncr="26-7", cycle=1)
    assert [one["outcome"] for one in shop.push(text)] == ["taken in"]
    page.evaluate("window.dispatchEvent(new Event('online'))")
    expect(page.get_by_role("heading", name="Rework and repair")).to_be_visible(timeout=30_000)
    line = page.get_by_role("link", name=re.compile(r"S-1.*Root opening, 9.*repair, NCR 26-7: as found", re.DOTALL))
    expect(line.get_by_role("img", name="Photo of what was found at S-1")).to_be_visible()
    expect(page.get_by_role("heading", name="You began, not finished")).to_have_count(0)
    look(page, "work-repair")
    line.click()
    page.get_by_role("button", name="9, 1/4, not good").click()
    type_on_keypad(page, "1/8")
    page.get_by_role("button", name="Left so after repair").click()
    save(page)
    page.goto(f"{server.url}/#/")
    expect(page.get_by_role("heading", name="You began, not finished")).to_be_visible()
    expect(page.get_by_role("heading", name="Rework and repair")).to_have_count(0)


def test_decimals_after_a_comma(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    """Where a phone's region writes a comma, so do its keypad, limits and verdicts; the record says that it is one."""
    with browser(playwright, tmp_path / "phone") as context:
        context.add_init_script("Object.defineProperty(navigator, 'languages', {get: () => ['en-DE']})")
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        expect(page.get_by_role("link", name=re.compile("^T1"))).to_be_visible()
        page.goto(f"{server.url}/{GAP}")
        expect(page.get_by_text("1/16 to 5/32 in (1,59 to 3,96 mm)", exact=False)).to_be_visible()
        expect(page.locator(".keypad").get_by_role("button", name="point")).to_have_text(",")
        type_on_keypad(page, "0.1605")
        expect(page.get_by_text("Out of tolerance by 0,00425 in")).to_be_visible()
        save(page)
        expect(page.get_by_text("12: 0,1605 in, out of tolerance: saved on this phone")).to_be_visible()
        everything_sent(page)
    body = newest_reading(server)["body"]
    assert (body["entered"], body["comma"], body["verdict"]) == ("0,1605", True, "out of tolerance")
