"""What goes wrong on the floor: each a clear message that says what to do, and nothing lost."""

import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from seamtag.core.tagcode import code_of
from seamtag.tags.label import label
from tests.browser.conftest import WEB
from tests.browser.place import Server, browser, camera_video
from tests.browser.test_main_line import PIN, enrol, stored, type_on_keypad, unlock, worker_ready
from tests.shop import Shop


def other_code() -> str:
    """A good code that no tag of the small shop has."""
    return next(code for code in map(code_of, range(123_456, 123_556)) if code)


def open_gap(page: Page, server: Server) -> None:
    page.goto(f"{server.url}/#/item/T1/T1.S-1/fit/gap")
    expect(page.get_by_role("heading", name="Root opening")).to_be_visible()


def test_typed_codes_photos_and_readings_that_cannot_be(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        page.get_by_role("button", name="Scan a tag").click()
        field = page.get_by_label("Code on the tag")
        field.fill("12345")
        page.get_by_role("button", name="Open").click()
        expect(page.get_by_text("is no code: it has 5 of 7 symbols")).to_be_visible()
        field.fill(other_code())
        page.get_by_role("button", name="Open").click()
        expect(page.get_by_text(f"No tag on this phone has the code {other_code()}")).to_be_visible()
        open_gap(page, server)
        for keys, says in (("1 7", "stops in the middle of a fraction"), ("17/8/2", "is not a number")):
            type_on_keypad(page, keys)
            expect(page.get_by_text(says)).to_be_visible()
            expect(page.get_by_role("button", name="Save")).to_be_disabled()
            for _ in keys:
                page.get_by_role("button", name="rub out").click()
        (tmp_path / "broken.jpg").write_bytes(b"\xff\xd8\xff\xe0" + bytes(500))
        (tmp_path / "words.jpg").write_text("no picture at all")
        for name in ("broken.jpg", "words.jpg"):
            page.locator("input[type=file]").set_input_files(tmp_path / name)
            expect(page.get_by_text("This file is no picture, or it is damaged")).to_be_visible()
        expect(page.locator("header").get_by_text("all sent")).to_be_visible()


def test_a_tag_of_another_shop_opens_nothing(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    video = camera_video(label("boilers.example", other_code(), "N-9", "77", "nozzle"), tmp_path / "camera.y4m")
    with browser(playwright, tmp_path / "phone", video) as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        page.get_by_role("button", name="Scan a tag").click()
        expect(page.get_by_text("This tag belongs to another shop (boilers.example)")).to_be_visible()


def test_a_new_version_is_asked_for_before_it_takes_over(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    server.kill()
    web = shutil.copytree(WEB, tmp_path / "web")
    server.env["SEAMTAG_WEB"] = str(web)
    server.start()
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        worker_ready(page)
        server.kill()
        page.reload()
        unlock(page)
        expect(page.get_by_role("heading", name="Inspector")).to_be_visible()
        worker = web / "sw.js"
        worker.write_text(worker.read_text() + "\n// a newer version\n")
        server.start()
        page.reload()
        expect(page.get_by_text("A new version of Seamtag is here")).to_be_visible()
        assert page.evaluate("navigator.serviceWorker.getRegistration().then((one) => Boolean(one.waiting))")
        unlock(page)
        page.get_by_role("button", name="Update now").click()
        expect(page.get_by_label("PIN")).to_be_visible()
        page.wait_for_function("navigator.serviceWorker.getRegistration().then((one) => !one.waiting)")


@pytest.mark.parametrize("pin", ["12345", "123456", "777777"])
def test_a_weak_pin_is_refused(pin: str, shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        page.goto(server.url)
        page.get_by_label("Invitation").fill(shop.invite("inspector"))
        page.get_by_label("PIN", exact=True).fill(pin)
        page.get_by_label("PIN once more").fill(pin)
        page.get_by_role("button", name="Enrol this phone").click()
        expect(page.get_by_role("alert")).to_contain_text(re.compile("A PIN has six digits|first that anybody tries"))


def test_a_wrong_pin_opens_nothing_and_a_used_invitation_says_so(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    code = shop.invite("inspector")
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, code)
        page.get_by_role("button", name="Lock").click()
        page.get_by_label("PIN").fill(PIN[::-1])
        page.get_by_role("button", name="Unlock").click()
        expect(page.get_by_text("This is not the PIN")).to_be_visible()
        page.get_by_role("button", name="I have an invitation").click()
        page.get_by_label("Invitation").fill(code)
        page.get_by_label("PIN", exact=True).fill(PIN)
        page.get_by_label("PIN once more").fill(PIN)
        page.get_by_role("button", name="Enrol this phone").click()
        expect(page.get_by_text("This invitation has been used. Ask for a new one.")).to_be_visible()


def test_a_record_is_lined_out_and_a_note_is_kept(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("inspector"))
        open_gap(page, server)
        type_on_keypad(page, "3/32")
        page.get_by_role("button", name="Save").click()
        page.get_by_role("button", name="Line out").click()
        page.get_by_label("Why is 3/32 not to count?").fill("read at the wrong seam")
        page.get_by_role("button", name="Line it out").click()
        expect(page.get_by_role("list", name="Recorded").locator(".lined-out", has_text="3/32")).to_be_visible()
        page.goto(f"{server.url}/#/piece/T1/T1.S-1")
        page.get_by_role("button", name="Write a note").click()
        page.get_by_label("Note").fill("edge ground again")
        page.get_by_role("button", name="Save the note").click()
        expect(page.get_by_role("list", name="Notes")).to_contain_text("edge ground again")
        expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=30_000)
    kinds = [kind for kind, _ in stored(tmp_path)]
    assert sorted(kinds) == ["note", "reading", "void"]


def test_a_catalogue_that_cannot_be_had_leaves_no_empty_page(
    server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        context.route(re.compile(r"\.ftl$"), lambda route: route.abort())
        page = context.pages[0]
        page.goto(server.url)
        expect(page.locator("main header")).to_contain_text("Seamtag")
