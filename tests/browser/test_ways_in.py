"""The ways in: an invitation scanned, the PIN by touch, a badge with no server; and the lock that comes by itself."""

import re
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, Playwright, expect

from seamtag.people.badges import code_of, new_badge
from seamtag.people.staff import address_of
from tests.browser.place import Server, browser, camera_video
from tests.browser.test_main_line import PIN, look, unlock, worker_ready
from tests.shop import Shop


def shown_to_camera(text: str, file: Path) -> Path:
    """A symbol on a sheet twice as wide as it is high, so that the camera sees the whole of it."""
    symbol = code_of(text).make_image().get_image().convert("L")
    sheet = Image.new("L", (symbol.width * 2, symbol.height), 255)
    sheet.paste(symbol, (symbol.width // 2, 0))
    return camera_video(sheet, file, blur=0.6)


def tap(page: Page, keys: str) -> None:
    for key in keys:
        page.get_by_role("button", name=key, exact=True).tap()


def enrols_by_symbol(page: Page, server: Server) -> None:
    page.goto(f"{server.url}/")
    page.get_by_role("button", name="Scan the invitation").tap()
    expect(page.get_by_label("Invitation")).to_have_value(re.compile(r"^(\w{3}-){3}\w{3}$"))
    page.get_by_label("PIN", exact=True).fill(PIN)
    page.get_by_label("PIN once more").fill(PIN)
    page.get_by_role("button", name="Enrol this phone").tap()
    expect(page.get_by_role("link", name=re.compile("^T1"))).to_be_visible()
    worker_ready(page)


def unlocks_by_touch(page: Page) -> None:
    page.get_by_role("button", name="Lock").tap()
    expect(page.get_by_label("PIN")).to_be_visible()
    sizes = page.evaluate(
        """[...document.querySelectorAll(".pin-keys button")].map((key) => {
            const { width, height } = key.getBoundingClientRect();
            return [width, height];
        })"""
    )
    assert len(sizes) == 12
    assert all(width >= 96 and height >= 64 for width, height in sizes), sizes
    tap(page, f"{PIN[:-1]}9")
    page.get_by_role("button", name="rub out").tap()
    tap(page, "8")
    expect(page.get_by_label("PIN")).to_have_value(f"{PIN[:-1]}8")
    look(page, "unlock")
    page.get_by_role("button", name="Unlock").tap()
    expect(page.get_by_text("This is not the PIN.")).to_be_visible()
    tap(page, PIN)
    page.get_by_role("button", name="Unlock").tap()
    expect(page.get_by_role("button", name="Scan a tag")).to_be_visible()


def locks_itself(page: Page, server: Server) -> None:
    """Eleven minutes in the background: locked, and what was half typed is there again, at the same address."""
    page.goto(f"{server.url}/#/piece/T1/T1.S-1")
    page.get_by_role("button", name="Write a note").click()
    page.get_by_label("Note", exact=True).fill("Scarf at 3 o'clock")
    page.evaluate(
        """() => {
            const now = Date.now;
            Date.now = () => now() + 660_000;
            document.dispatchEvent(new Event("visibilitychange"));
        }"""
    )
    expect(page.get_by_text("Your screen is as you left it")).to_be_visible()
    expect(page.get_by_role("heading", name="S-1")).to_have_count(0)
    look(page, "locked")
    unlock(page)
    expect(page.get_by_label("Note", exact=True)).to_have_value("Scarf at 3 o'clock")
    assert page.url.endswith("#/piece/T1/T1.S-1")


def adds_the_badge(page: Page, server: Server) -> None:
    page.goto(f"{server.url}/")
    unlock(page)
    page.goto(f"{server.url}/#/pin")
    page.get_by_role("link", name="Badge").click()
    look(page, "badge")
    page.get_by_role("button", name="Scan a badge").click()
    page.get_by_label("PIN").fill(PIN)
    page.get_by_role("button", name="Add").click()
    expect(page.get_by_text("Your badge is added")).to_be_visible()


def test_invitation_touch_and_the_lock(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    address = address_of(f"127.0.0.1:{server.port}", shop.invite("inspector"))
    with browser(playwright, tmp_path / "phone", shown_to_camera(address, tmp_path / "invitation.y4m")) as context:
        page = context.pages[0]
        enrols_by_symbol(page, server)
        unlocks_by_touch(page)
        locks_itself(page, server)


def test_a_badge_opens_with_the_server_dead_and_another_does_not(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    mine = shown_to_camera(new_badge(), tmp_path / "mine.y4m")
    other = shown_to_camera(new_badge(), tmp_path / "other.y4m")
    profile = tmp_path / "phone"
    with browser(playwright, profile, mine) as context:
        page = context.pages[0]
        page.goto(f"{server.url}/#/enrol/{shop.invite('inspector')}")
        page.get_by_label("PIN", exact=True).fill(PIN)
        page.get_by_label("PIN once more").fill(PIN)
        page.get_by_role("button", name="Enrol this phone").click()
        expect(page.get_by_role("link", name=re.compile("^T1"))).to_be_visible()
        worker_ready(page)
        page.reload()
        adds_the_badge(page, server)
    server.kill()
    with browser(playwright, profile, other) as context:
        page = context.pages[0]
        page.goto(f"{server.url}/#/job/T1")
        page.get_by_role("button", name="Scan my badge").click()
        expect(page.get_by_role("alert")).to_contain_text("This badge opens no key on this phone")
    with browser(playwright, profile, mine) as context:
        page = context.pages[0]
        page.goto(f"{server.url}/#/job/T1")
        page.get_by_role("button", name="Scan my badge").click()
        expect(page.get_by_role("heading", name="T1")).to_be_visible()
