"""The weld map: a sheet put in and pieces pinned at the desk; on the phone a pin opens its piece, without a network."""

import base64
import re
from pathlib import Path

from flask.testing import FlaskClient
from PIL import Image, ImageDraw
from playwright.sync_api import Page, Playwright, expect

from seamtag.database import db
from seamtag.drawings.models import Drawing
from tests.browser.place import DESK, Server, browser
from tests.browser.test_main_line import enrol, look, unlock, worker_ready
from tests.shop import Shop

LEAST = 44
"""Of a pin's target, in CSS pixels."""


def sheet(file: Path) -> Path:
    picture = Image.new("L", (1200, 800), 255)
    draw = ImageDraw.Draw(picture)
    draw.rectangle((200, 200, 1000, 600), outline=0, width=4)
    draw.line((600, 200, 600, 600), fill=0, width=4)
    picture.save(file)
    return file


def puts_in_a_sheet(page: Page, file: Path) -> None:
    page.evaluate("location.hash = '/drawing/T1'")
    expect(page.get_by_text("This job has no drawing yet.")).to_be_visible()
    page.get_by_label("Sheet", exact=True).fill("1")
    page.get_by_label("Title").fill("Shell")
    expect(page.get_by_role("button", name="Put it in")).to_be_disabled()
    page.locator("input[type=file]").set_input_files(file.with_suffix(".txt"))
    page.get_by_role("button", name="Put it in").click()
    expect(page.get_by_role("alert")).to_contain_text("The file is no picture.")
    page.locator("input[type=file]").set_input_files(file)
    page.get_by_role("button", name="Put it in").click()
    expect(page.get_by_role("img", name="Sheet 1, Shell")).to_be_visible()
    expect(page.get_by_text("0 pins, saved")).to_be_visible()


def pins_by_click_and_by_keyboard(page: Page) -> None:
    pieces, paper = page.get_by_role("listbox"), page.get_by_role("group", name="Sheet 1, Shell")
    pieces.select_option("T1.S-1")
    box = paper.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] * 0.25, box["y"] + box["height"] / 2)
    expect(page.get_by_role("option", name="S-1")).to_have_text("S-1 seam · pinned, not saved")
    pieces.select_option("T1.P-1")
    paper.focus()
    for key in ("ArrowRight", "ArrowRight", "Shift+ArrowDown", "ArrowUp"):
        page.keyboard.press(key)
    expect(page.get_by_text("51 % from the left, 49.1 % from the top")).to_be_visible()
    pieces.select_option("T1.V")
    page.mouse.click(box["x"] + 20, box["y"] + 20)
    page.get_by_role("button", name="Take this pin away").click()
    page.get_by_role("button", name="Save the pins").click()
    expect(page.get_by_text("2 pins, saved")).to_be_visible()
    look(page, "drawing")


def opens_a_piece_from_the_map(page: Page) -> None:
    page.evaluate("location.hash = '/job/T1'")
    page.get_by_role("link", name="Weld map").click()
    pin = page.get_by_role("link", name="S-1 open", exact=True)
    expect(pin).to_be_visible()
    box = pin.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= LEAST
    look(page, "weld-map")
    pin.click()
    expect(page.get_by_role("heading", name="S-1")).to_be_visible()
    expect(page.get_by_text("picked from the list")).to_be_visible()


def sees_it_without_a_network(page: Page, server: Server) -> None:
    worker_ready(page)
    page.context.new_cdp_session(page).send("Network.clearBrowserCache")
    server.kill()
    page.reload()
    unlock(page)
    expect(page.get_by_role("heading", name="S-1")).to_be_visible(timeout=30_000)
    page.evaluate("location.hash = '/map/T1'")
    expect(page.get_by_role("img", name="Sheet 1, Shell")).to_be_visible()
    expect(page.get_by_role("img", name="Sheet 1, Shell")).to_have_js_property("naturalWidth", 1200)
    page.get_by_role("button", name="Larger").click()
    expect(page.get_by_role("link", name="P-1 open", exact=True)).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def chooses_from_the_list_until_the_picture_is_here(page: Page, server: Server) -> None:
    page.evaluate("location.hash = '/job/T1'")
    expect(page.get_by_role("link", name="Weld map")).to_be_visible()
    server.kill()
    page.get_by_role("link", name="Weld map").click()
    expect(page.get_by_text("The picture of this sheet is not on this phone yet.")).to_be_visible()
    expect(page.get_by_role("img", name="Sheet 1, Shell")).to_have_count(0)
    expect(page.locator("ul.list a")).to_have_text([re.compile("^S-1"), re.compile("^P-1")])
    server.start()
    page.get_by_role("button", name="Try again").click()
    expect(page.get_by_role("img", name="Sheet 1, Shell")).to_be_visible()


def test_from_the_desk_to_a_phone_without_a_network(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    file = sheet(tmp_path / "sheet.png")
    file.with_suffix(".txt").write_text("no picture")
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("planner"))
        puts_in_a_sheet(page, file)
        pins_by_click_and_by_keyboard(page)
    with shop.app.app_context():
        pins = {pin["piece"]: (pin["x"], pin["y"]) for pin in db.session.query(Drawing).one().pins}
    assert pins.keys() == {"T1.S-1", "T1.P-1"}
    assert pins["T1.P-1"] == (5100, 4910)
    assert all(abs(found - meant) < 30 for found, meant in zip(pins["T1.S-1"], (2500, 5000), strict=True))
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        opens_a_piece_from_the_map(page)
        sees_it_without_a_network(page, server)


def test_a_phone_that_has_no_picture_yet(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    content = sheet(tmp_path / "sheet.png").read_bytes()
    put_in(shop.sign_in("planner"), content, [{"piece": "T1.P-1", "x": 5000, "y": 8000},
                                              {"piece": "T1.S-1", "x": 5000, "y": 5000}])  # fmt: skip
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        chooses_from_the_list_until_the_picture_is_here(page, server)


def test_pins_too_close_to_be_hit_wait_until_the_drawing_is_larger(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    planner = shop.sign_in("planner")
    content = sheet(tmp_path / "sheet.png").read_bytes()
    put_in(planner, content, [{"piece": "T1.S-1", "x": 5000, "y": 5000}, {"piece": "T1.P-1", "x": 5700, "y": 5000}])
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        page.evaluate("location.hash = '/map/T1'")
        pins = page.locator(".map-pin")
        expect(pins).to_have_count(1)
        expect(page.get_by_text("1 pin lies too close to another to be hit.")).to_be_visible()
        expect(page.get_by_role("button", name="Smaller")).to_be_disabled()
        for _ in range(3):
            page.get_by_role("button", name="Larger").click()
        expect(pins).to_have_count(2)
        expect(page.get_by_text("too close to another")).to_have_count(0)
        view = page.locator(".map-view").evaluate("one => (one.scrollLeft + one.clientWidth / 2) / one.scrollWidth")
        assert abs(view - 0.5) < 0.02


def put_in(planner: FlaskClient, content: bytes, pins: list[dict[str, object]]) -> None:
    file = {"name": "sheet.png", "content": base64.b64encode(content).decode()}
    body = {"sheet": "1", "title": "Shell", "file": file, "pins": pins}
    answer = planner.post("/api/v1/jobs/T1/drawings", json=body)
    assert answer.status_code == 201, answer.text
