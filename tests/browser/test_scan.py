"""Scanning: what the camera shows leads to the piece, the board or the gauge; and what to do without a camera."""

import base64
import re
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, Playwright, expect

from seamtag.core.tagcode import code_of
from seamtag.database import db, writing
from seamtag.jobs.opening import add_pieces
from seamtag.sync import chain
from seamtag.tags.label import as_png, label
from seamtag.tags.models import Tag
from seamtag.tags.stickers import gauge_sticker, job_board
from tests.browser.place import Server, browser
from tests.browser.test_main_line import enrol
from tests.shop import Shop

CAMERA = """(() => {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [720, 1280];
  const drawing = canvas.getContext("2d");
  const now = Date.now;
  const camera = { refuses: "", shown: null, live: 0, lenses: [], wanted: [], late: 0 };
  window.camera = camera;
  Date.now = () => now() + camera.late;
  setInterval(() => {
    drawing.fillStyle = "#777";
    drawing.fillRect(0, 0, 720, 1280);
    if (camera.shown) drawing.drawImage(camera.shown, 60, 500, 600, (600 * camera.shown.height) / camera.shown.width);
  }, 50);
  camera.show = (address) => {
    camera.shown = null;
    if (!address) return;
    const picture = new Image();
    picture.onload = () => { camera.shown = picture; };
    picture.src = address;
  };
  const devices = ["front", "back", "wide"].map((deviceId) => ({
    kind: "videoinput", deviceId, label: deviceId,
    getCapabilities: () => ({ facingMode: [deviceId === "front" ? "user" : "environment"] }),
  }));
  navigator.mediaDevices.enumerateDevices = async () => devices;
  navigator.mediaDevices.getUserMedia = async ({ video }) => {
    if (camera.refuses) throw new DOMException("", camera.refuses);
    const stream = canvas.captureStream(20);
    const [track] = stream.getVideoTracks();
    const deviceId = video.deviceId?.exact ?? "back";
    const stop = track.stop.bind(track);
    camera.live += 1;
    camera.lenses.push(deviceId);
    track.stop = () => { camera.live -= 1; stop(); };
    track.getSettings = () => ({ deviceId });
    track.getCapabilities = () => ({ torch: true, focusMode: ["manual", "continuous"] });
    track.applyConstraints = async (wanted) => { camera.wanted.push(wanted.advanced[0]); };
    return stream;
  };
})();"""
"""A camera that shows what a test holds before it, with a light and two lenses at the back."""
ONE_TURN = 20_000
"""Milliseconds in which a phone has surely pulled once more."""
HIDE = """(hidden) => {
  Object.defineProperty(document, "hidden", { value: hidden, configurable: true });
  document.dispatchEvent(new Event("visibilitychange"));
}"""


@pytest.fixture
def page(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> Iterator[Page]:
    """An inspector's phone, enrolled."""
    with browser(playwright, tmp_path / "phone") as context:
        one = context.pages[0]
        one.add_init_script(CAMERA)
        enrol(one, server, shop.invite("inspector"))
        yield one


def hold(page: Page, picture: Image.Image | None) -> None:
    """Hold a print before the camera; nothing where None."""
    address = f"data:image/png;base64,{base64.b64encode(as_png(picture)).decode()}" if picture else ""
    page.evaluate("(address) => camera.show(address)", address)


def scan(page: Page) -> None:
    page.evaluate("location.hash = '/scan'")
    expect(page.get_by_label("Code on the tag")).to_be_visible()


def until(page: Page, holds: str) -> None:
    """Wait until an expression holds. The page lets no script be made of text, so Playwright's own waiting cannot."""
    for _ in range(150):
        if page.evaluate(holds):
            return
        page.wait_for_timeout(100)
    raise AssertionError(f"never: {holds}")


def code_on(shop: Shop, piece: str) -> str:
    with shop.app.app_context():
        return str(db.session.query(Tag).filter(Tag.piece == piece).one().code)


def host_of(server: Server) -> str:
    return f"127.0.0.1:{server.port}"


def test_the_camera_leads_to_what_it_shows(shop: Shop, server: Server, page: Page) -> None:
    host = host_of(server)
    scan(page)
    hold(page, gauge_sticker(host, "TG", "Taper gauge"))
    expect(page.get_by_text("This is the sticker of gauge TG, Taper gauge.")).to_be_visible()
    hold(page, job_board("boilers.example", "T1", "A small vessel"))
    expect(page.get_by_text("board of a job of another shop (boilers.example)")).to_be_visible()
    hold(page, job_board(host, "T1", "A small vessel"))
    expect(page.get_by_text("From the board of this job")).to_be_visible()
    page.get_by_role("link", name=re.compile("^P-1|P-1")).click()
    expect(page.get_by_text("from the tag board")).to_be_visible()
    hold(page, label(host, code_on(shop, "T1.S-1"), "S-1", "T1", "seam"))
    page.locator("header").get_by_role("link", name="Scan", exact=True).click()
    expect(page.get_by_role("heading", name="S-1")).to_be_visible()
    expect(page.get_by_text("tag scanned")).to_be_visible()
    until(page, "camera.live === 0")


def test_light_lens_patience_a_hidden_page_and_no_camera(page: Page) -> None:
    scan(page)
    page.get_by_role("button", name="Light on").click()
    expect(page.get_by_role("button", name="Light off")).to_be_visible()
    assert page.evaluate("camera.wanted.at(-1)") == {"torch": True, "focusMode": "continuous"}
    page.get_by_role("button", name="Other lens").click()
    until(page, "camera.lenses.at(-1) === 'wide' && camera.live === 1")
    expect(page.get_by_role("button", name="Light on")).to_be_visible()
    page.evaluate(HIDE, True)
    until(page, "camera.live === 0")
    page.evaluate(HIDE, False)
    until(page, "camera.lenses.length === 3 && camera.live === 1")
    expect(page.get_by_text("Hold the code inside the frame")).to_be_visible()
    until(page, "(camera.late += 2000) > 4000 && document.body.innerText.includes('No code found yet')")
    page.evaluate("location.hash = '/'")
    until(page, "camera.live === 0")
    scan(page)
    until(page, "camera.lenses.at(-1) === 'wide'")
    for refusal, says in (
        ("NotAllowedError", "The camera is not allowed."), ("NotReadableError", "another app may hold it"),
        ("NotFoundError", "There is no camera here."),
    ):  # fmt: skip
        page.evaluate("location.hash = '/'")
        page.evaluate("(name) => { camera.refuses = name; }", refusal)
        scan(page)
        expect(page.get_by_text(says)).to_be_visible()
    page.evaluate("location.hash = '/'")
    page.evaluate("camera.refuses = 'NotAllowedError'")
    scan(page)
    again = page.get_by_role("button", name="Try again")
    again.click()
    expect(page.get_by_text("The camera is not allowed.")).to_be_visible()
    page.evaluate("camera.refuses = ''")
    again.click()
    until(page, "camera.live === 1")
    expect(page.get_by_label("Camera")).to_be_visible()


def test_what_is_typed_is_a_code_or_a_mark(shop: Shop, page: Page) -> None:
    code = code_on(shop, "T1.S-1")
    scan(page)
    field = page.get_by_label("Code on the tag, or a mark")
    for typed, says in (
        ("12U4567", "no code has U in it"), ("12345", "it has 5 of 7 symbols"),
        (code[:-1] + ("2" if code[-1] != "2" else "3"), "a symbol is wrong, or two are swapped"),
    ):  # fmt: skip
        field.fill(typed)
        page.get_by_role("button", name="Open").click()
        expect(page.get_by_text(says)).to_be_visible()
    field.fill(f" {code[:3]}-{code[3:]} ".lower().replace("0", "o").replace("1", "i"))
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_role("heading", name="S-1")).to_be_visible()
    expect(page.get_by_text("code typed")).to_be_visible()
    scan(page)
    field.fill("1")
    expect(page.get_by_role("heading", name="2 marks")).to_be_visible()
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_text("Several marks fit.")).to_be_visible()
    field.fill("p1")
    page.get_by_role("button", name=re.compile("^P-1.*Job T1")).click()
    expect(page.get_by_text("picked from the list")).to_be_visible()


def test_the_link_of_a_tag_waits_for_its_job_and_a_replaced_one_says_so(shop: Shop, page: Page) -> None:
    first = code_on(shop, "T1.P-2")
    second = next(code for code in map(code_of, range(123_456, 123_556)) if code)
    page.evaluate("(code) => { location.hash = `/tag/${code}`; }", second)
    expect(page.get_by_text("may still be on its way")).to_be_visible()
    with shop.app.app_context(), writing() as session:
        chain.announce(session, "tags", "job:T1", {"tags": {second: "T1.P-2"}}, int(time.time()), "")
    shop.push(shop.record("fitter", "tagging", {"code": first, "what": "replaced"}, "P-2")[0])
    expect(page.get_by_role("heading", name="P-2")).to_be_visible(timeout=ONE_TURN)
    expect(page.get_by_text(f"Tag {second} · not put on yet")).to_be_visible(timeout=ONE_TURN)
    scan(page)
    page.get_by_label("Code on the tag").fill(first)
    page.get_by_role("button", name="Open").click()
    expect(
        page.get_by_text(f"The tag {first} was replaced: piece P-2 of job T1 now has the tag {second}")
    ).to_be_visible()
    page.get_by_role("button", name="Open its piece all the same").click()
    expect(page.get_by_role("heading", name="P-2")).to_be_visible()


def test_a_long_list_shows_its_first_marks_and_is_searched_whole(shop: Shop, page: Page) -> None:
    with shop.app.app_context(), writing() as session:
        rows = [{"mark": f"N-{number}", "kind": "seam"} for number in range(1, 201)]
        add_pieces(session, "T1", rows, int(time.time()), "")
    page.evaluate("location.hash = '/job/T1'")
    expect(page.get_by_text("204 marks")).to_be_visible(timeout=ONE_TURN)
    expect(page.get_by_role("listitem")).to_have_count(60)
    page.get_by_role("button", name="Show 60 more").click()
    expect(page.get_by_role("listitem")).to_have_count(120)
    page.get_by_label("Mark or name").fill("n 200")
    page.get_by_role("link", name=re.compile("N-200.*Fit-up")).click()
    expect(page.get_by_role("heading", name="N-200")).to_be_visible()
    expect(page.get_by_text("picked from the list")).to_be_visible()
