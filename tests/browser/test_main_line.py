"""The whole line: a printed tag, a camera, records made with the server dead, the flag, the repair."""

import os
import re
import sqlite3
from pathlib import Path

from playwright.sync_api import BrowserContext, Locator, Page, Playwright, expect

from seamtag.core.tagcode import ALPHABET
from seamtag.database import db
from seamtag.tags.label import label
from seamtag.tags.models import Tag
from tests.browser.place import DESK, Server, big_photo, browser, camera_video
from tests.shop import Shop

PIN = "602417"
PICTURES = Path(__file__).resolve().parents[1] / "pictures"


def look(page: Page, name: str) -> None:
    """Keep a picture of a screen for the README, where SEAMTAG_PICTURES is set."""
    if os.environ.get("SEAMTAG_PICTURES"):
        file = PICTURES / f"{name}.png"
        file.parent.mkdir(exist_ok=True)
        page.screenshot(path=file)


def caution_key(page: Page) -> Locator:
    """'I have read this', in whichever language."""
    return page.locator(".cautions > button")


def read_cautions(page: Page) -> None:
    """Whoever comes to a step with cautions says that they have read them."""
    page.add_locator_handler(caution_key(page), lambda read: read.click())


def enrol(page: Page, server: Server, invitation: str) -> None:
    page.goto(f"{server.url}/")
    page.get_by_label("Invitation").fill(invitation)
    page.get_by_label("PIN", exact=True).fill(PIN)
    page.get_by_label("PIN once more").fill(PIN)
    page.get_by_role("button", name="Enrol this phone").click()
    expect(page.get_by_role("button", name="Scan a tag")).to_be_visible()
    read_cautions(page)


def unlock(page: Page) -> None:
    page.get_by_label("PIN").fill(PIN)
    page.get_by_role("button", name="Unlock").click()


def worker_ready(page: Page) -> None:
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.wait_for_function("navigator.serviceWorker.controller !== null")


def type_on_keypad(page: Page, keys: str) -> None:
    names = {"/": "fraction bar", " ": "blank", ".": "point", "-": "dash"}
    for key in keys:
        page.locator(".keypad").get_by_role("button", name=names.get(key, key), exact=True).click()


def type_the_place(page: Page, place: str) -> None:
    """A hole, a tube or a stay by the keypad; then the keys are the reading's."""
    type_on_keypad(page, place)
    page.locator(".keypad").get_by_role("button", name="Reading", exact=True).click()


def video_of_tag(shop: Shop, server: Server, folder: Path) -> Path:
    with shop.app.app_context():
        code = db.session.query(Tag).filter(Tag.piece == "T1.S-1").one().code
    assert all(symbol in ALPHABET for symbol in code)
    return camera_video(label(f"127.0.0.1:{server.port}", code, "S-1", "T1", "seam"), folder / "camera.y4m")


def record_with_the_server_dead(page: Page, photo: Path) -> None:
    page.get_by_role("button", name="Scan a tag").click()
    expect(page.get_by_role("heading", name="S-1")).to_be_visible()
    expect(page.get_by_text("tag scanned")).to_be_visible()
    look(page, "piece")
    page.get_by_role("link", name=re.compile("^Fit-up")).first.click()
    type_on_keypad(page, "9/32")
    expect(page.get_by_text("Out of tolerance by 1/8")).to_be_visible()
    look(page, "measure")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_text("12: 9/32 in, out of tolerance: saved on this phone")).to_be_visible()
    page.locator("input[type=file]").set_input_files(photo)
    expect(page.get_by_role("img", name="Root opening, 1 of 1")).to_be_visible()
    back_to_step(page)
    look(page, "step")
    page.get_by_role("link", name="Edges bright").click()
    page.get_by_role("button", name="Accept").click()
    expect(page.locator("header").get_by_text("4 unsent")).to_be_visible()


def back_to_step(page: Page) -> None:
    page.locator("header a").first.click()
    expect(page.get_by_role("heading", name="Fit-up")).to_be_visible()


def shows_all_after_reload(page: Page) -> None:
    page.reload()
    unlock(page)
    page.get_by_role("link", name=re.compile("Root opening")).click()
    expect(page.get_by_text("9/32").first).to_be_visible()
    expect(page.get_by_role("img", name="Root opening, 1 of 1")).to_be_visible()
    back_to_step(page)
    page.get_by_role("link", name=re.compile("Edges bright")).click()
    expect(page.get_by_role("list", name="Recorded").get_by_text("accept", exact=True)).to_be_visible()
    expect(page.get_by_text("saved on this phone").first).to_be_visible()


def stored(folder: Path) -> list[tuple[str, str]]:
    with sqlite3.connect(folder / "seamtag.db") as connection:
        return connection.execute("SELECT type, verdict FROM record ORDER BY number").fetchall()


def dispose(context: BrowserContext, shop: Shop, server: Server) -> None:
    page = context.new_page()
    enrol(page, server, shop.invite("supervisor"))
    page.get_by_role("link", name="Day review").click()
    expect(page.get_by_role("heading", name="S-1, root opening, 12")).to_be_visible()
    photo = page.locator(".opened img")
    expect(photo).to_be_visible()
    expect(photo).to_have_js_property("complete", True)
    size = photo.evaluate("one => [one.naturalWidth, one.naturalHeight]")
    assert size == [1200, 1600], "upright, by its orientation"
    page.keyboard.press("2")
    page.get_by_label("Reason").fill("Opening too wide: build up and grind")
    page.get_by_role("button", name="Sign: repair").click()
    page.get_by_role("button", name=re.compile("^decided")).click()
    expect(page.get_by_role("heading", name="S-1, root opening, 12")).to_be_visible()


def in_reach(page: Page, button: Locator) -> bool:
    """Whether a thumb at the button's middle meets it, and nothing that lies over it."""
    box = button.bounding_box()
    assert box is not None
    middle = [box["x"] + box["width"] / 2, box["y"] + box["height"] / 2]
    met: str = page.evaluate("([x, y]) => document.elementFromPoint(x, y)?.textContent ?? ''", middle)
    return met == button.inner_text()


def measure_after_repair(page: Page) -> None:
    back_to_step(page)
    page.get_by_role("link", name=re.compile("Root opening")).click()
    page.locator(".station", has_text="12").first.click()
    type_on_keypad(page, "3/32")
    reason = page.get_by_role("button", name="Left so after repair")
    expect(reason).to_be_visible()
    look(page, "correction")
    assert in_reach(page, reason), "the keypad must not lie over the reasons"
    reason.click()
    page.get_by_role("button", name="Save").click()
    lines = page.get_by_role("list", name="Recorded")
    expect(lines.locator(".lined-out", has_text="9/32")).to_be_visible()
    expect(lines.get_by_text("3/32", exact=True)).to_be_visible()
    look(page, "after-repair")


def test_the_main_line_with_the_server_killed(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    video = video_of_tag(shop, server, tmp_path)
    with browser(playwright, tmp_path / "phone", video) as context:
        page = context.pages[0]
        foreign: list[str] = []
        context.on(
            "request", lambda r: foreign.append(r.url) if not r.url.startswith((server.url, "blob:", "data:")) else None
        )
        enrol(page, server, shop.invite("inspector"))
        expect(page.get_by_role("link", name=re.compile("^T1"))).to_be_visible()
        look(page, "work")
        worker_ready(page)
        server.kill()
        record_with_the_server_dead(page, big_photo(tmp_path / "big.jpg"))
        shows_all_after_reload(page)
        assert stored(tmp_path) == []
        server.start()
        expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=90_000)
        assert sorted(stored(tmp_path)) == [
            ("photo", "complete"),
            ("reading", "out of tolerance"),
            ("visual", "accepted"),
        ]
        with browser(playwright, tmp_path / "desk", size=DESK) as desk:
            dispose(desk, shop, server)
        page.evaluate("window.dispatchEvent(new Event('online'))")
        page.wait_for_timeout(1500)
        measure_after_repair(page)
        expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=30_000)
        assert foreign == []
    flags = shop.flags(state="closed")
    assert [(flag["kind"], flag["station"]) for flag in flags] == [("out of tolerance", "12")]
    assert shop.flags(state="open") == []
    assert len([kind for kind, _ in stored(tmp_path) if kind == "reading"]) == 2
