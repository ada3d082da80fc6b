"""Three ways to be without a server: no network, no server, and something else that answers in its place."""

import re
import socketserver
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.browser.place import Server, browser
from tests.browser.test_main_line import enrol, stored, type_on_keypad, unlock, worker_ready
from tests.shop import Shop

PORTAL = (
    b"HTTP/1.1 200 OK\r\nContent-Type: text/html\r\nContent-Length: 45\r\nConnection: close\r\n\r\n"
    b"<html><body>Pay for this network</body></html>"
)
BAD_GATEWAY = (
    b"HTTP/1.1 502 Bad Gateway\r\nContent-Type: text/html\r\nContent-Length: 11\r\nConnection: close\r\n\r\nBad gateway"
)
HEAD = (
    b"HTTP/1.1 200 OK\r\nContent-Type: application/vnd.seamtag+json\r\n"
    b"Content-Length: LONG\r\nConnection: close\r\n\r\n"
)
HALF = HEAD.replace(b"LONG", b"4000") + b'{"epoch": "half of an ans'
EMPTY = (
    b"HTTP/1.1 200 OK\r\nContent-Type: application/vnd.seamtag+json\r\nContent-Length: 2\r\nConnection: close\r\n\r\n{}"
)
NONSENSE = {"a captive portal": PORTAL, "502": BAD_GATEWAY, "half a body": HALF, "an empty answer": EMPTY}


class Nonsense(socketserver.ThreadingTCPServer):
    allow_reuse_address = True
    daemon_threads = True

    def __init__(self, port: int, answer: bytes) -> None:
        asked = self.asked = []  # type: list[bytes]

        class Handler(socketserver.BaseRequestHandler):
            def handle(self) -> None:
                asked.append(self.request.recv(65_536).split(b"\r\n", 1)[0])
                self.request.sendall(answer)

        super().__init__(("127.0.0.1", port), Handler)

    def server_bind(self) -> None:
        """The killed server's workers may still be letting go of the port."""
        for _ in range(50):
            try:
                return super().server_bind()
            except OSError:
                time.sleep(0.1)
        return super().server_bind()


@contextmanager
def answering(port: int, answer: bytes) -> Iterator[Nonsense]:
    with Nonsense(port, answer) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            yield server
        finally:
            server.shutdown()


def ready(page: Page, server: Server, invitation: str) -> None:
    """Enrolled, with the job on the phone and the whole app in its cache."""
    enrol(page, server, invitation)
    expect(page.get_by_role("link", name=re.compile("^T1"))).to_be_visible(timeout=30_000)
    worker_ready(page)


def record_and_reload(page: Page, entered: str) -> None:
    """A reading is saved, nothing is said to be sent, and all is there after the app was closed and opened."""
    page.evaluate("location.hash = '/item/T1/T1.S-1/fit/gap'")
    type_on_keypad(page, entered)
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.get_by_text(re.compile("saved on this phone")).first).to_be_visible()
    expect(page.locator("header").get_by_text(re.compile("unsent"))).to_be_visible()
    page.reload()
    unlock(page)
    expect(page.get_by_role("list", name="Recorded").get_by_text(entered, exact=True)).to_be_visible()
    expect(page.locator("header").get_by_text(re.compile("unsent"))).to_be_visible()


def sends_all(page: Page, folder: Path, many: int) -> None:
    page.evaluate("window.dispatchEvent(new Event('online'))")
    expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=90_000)
    assert len(stored(folder)) == many


def test_no_network(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite("inspector"))
        context.set_offline(True)
        record_and_reload(page, "3/32")
        assert stored(tmp_path) == []
        context.set_offline(False)
        sends_all(page, tmp_path, 1)


@pytest.mark.parametrize("kind", ["no server", *NONSENSE])
def test_no_server_or_another_in_its_place(
    kind: str, shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite("inspector"))
        server.kill()
        if kind == "no server":
            record_and_reload(page, "1/8")
        else:
            with answering(server.port, NONSENSE[kind]) as other:
                record_and_reload(page, "1/8")
                page.evaluate("window.dispatchEvent(new Event('online'))")
                page.wait_for_timeout(500)
                expect(page.locator("header").get_by_text(re.compile("unsent"))).to_be_visible()
                assert any(b"/api/" in line for line in other.asked), "the phone did try"
        assert stored(tmp_path) == []
        server.start()
        sends_all(page, tmp_path, 1)
