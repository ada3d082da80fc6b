"""The page without https: only two addresses, only GET, bounded; and in the app's own look."""

import io
import re
import socket
import threading
import time
from collections.abc import Iterator
from dataclasses import replace
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

import pytest
import zxingcpp
from PIL import Image, ImageDraw

from seamtag.guard import handing_over
from seamtag.guard.handing_over import Caller, Counter, Offer, font_in, page, squares

TOP = Path(__file__).resolve().parents[2]
OFFER = Offer(
    certificate=b"\x30\x82 invented", name="Seamtag at shop-pc, 2026-11-25", fingerprint=":".join(["AB", "CD"] * 16),
    until="2036-11-22", computer="shop-pc", hosts=("192.168.7.5", "[fd00::2]", "shop-pc"), port=8443,
    permitted=("shop-pc", "10.0.0.0/8"),
)  # fmt: skip


@pytest.fixture
def counter() -> Iterator[Counter]:
    one = Counter("127.0.0.1", 0, lambda: OFFER)
    threading.Thread(target=one.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()
    yield one
    one.shutdown()
    one.server_close()


def port_of(counter: Counter) -> int:
    return int(counter.server_address[1])


def ask(counter: Counter, path: str, method: str = "GET", **headers: str) -> tuple[int, dict[str, str], bytes]:
    connection = HTTPConnection("127.0.0.1", port_of(counter), timeout=5)
    connection.request(method, path, headers=headers)
    answer = connection.getresponse()
    return answer.status, dict(answer.headers), answer.read()


def raw(counter: Counter, sent: bytes) -> bytes:
    """What comes back until the other side closes."""
    with socket.create_connection(("127.0.0.1", port_of(counter)), timeout=5) as one:
        one.sendall(sent)
        found = b""
        try:
            while more := one.recv(65536):
                found += more
        except ConnectionResetError:
            pass
        return found


def test_the_page_says_what_to_tap_and_what_to_compare(counter: Counter) -> None:
    status, headers, body = ask(counter, "/")
    text = body.decode()
    assert (status, headers["Content-Type"]) == (200, "text/html; charset=utf-8")
    for words in ("Android", "iPhone or iPad", "A computer", "Certificate Trust Settings", "What trusting it means"):
        assert words in text
    assert text.count("<span>AB CD AB CD AB CD AB CD</span>") == 4
    assert text.count("To take it away again") == 3
    assert 'href="/seamtag.crt"' in text


def test_the_page_runs_nothing_and_loads_nothing_from_outside(counter: Counter) -> None:
    _, headers, body = ask(counter, "/")
    text = body.decode()
    assert "script" not in text
    links = set(re.findall(r'(?:src|href)="([^"]*)"', text))
    assert links == {"/seamtag.crt", "#compare", "https://192.168.7.5:8443/"}
    assert not re.findall(r"url\((?!data:)", text)
    assert headers["Content-Security-Policy"].startswith("default-src 'none'; style-src 'sha256-")
    assert "Strict-Transport-Security" not in headers


def test_the_certificate_comes_under_the_media_type_of_an_authority(counter: Counter) -> None:
    status, headers, body = ask(counter, "/seamtag.crt")
    assert (status, headers["Content-Type"], body) == (200, "application/x-x509-ca-cert", OFFER.certificate)
    assert "Content-Disposition" not in headers, "Safari would put it into a folder and not ask to install it"


@pytest.mark.parametrize("path", ["/favicon.ico", "/authority.key", "/../authority.key", "/seamtag.crt/", "/%2e"])
def test_there_is_nothing_else(counter: Counter, path: str) -> None:
    assert ask(counter, path)[0] == 404


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "HEAD", "OPTIONS"])
def test_only_get_is_answered(counter: Counter, method: str) -> None:
    assert ask(counter, "/", method)[0] == 501


@pytest.mark.parametrize(
    ("host", "address"),
    [("shop-pc:8080", "https://shop-pc:8443"), ("[fd00::2]:8080", "https://[fd00::2]:8443"),
     ("192.168.7.5", "https://192.168.7.5:8443"), ("elsewhere.example", "https://192.168.7.5:8443"),
     ("", "https://192.168.7.5:8443"), ('"><script>', "https://192.168.7.5:8443")],
)  # fmt: skip
def test_the_page_leads_to_the_host_it_was_asked_by_where_that_is_ours(
    counter: Counter, host: str, address: str
) -> None:
    body = ask(counter, "/", Host=host)[2].decode()
    assert re.findall(r'href="(https:[^"]*)"', body) == [f"{address}/"]


def test_port_443_is_not_written() -> None:
    assert replace(OFFER, port=443).app_address("shop-pc") == "https://shop-pc"


@pytest.mark.parametrize(
    ("agent", "kind"),
    [("Mozilla/5.0 (Linux; Android 15)", "Android"), ("Mozilla/5.0 (iPhone; CPU)", "iPhone or iPad"),
     ("Mozilla/5.0 (Windows NT 10.0)", "A computer"), ("", "A computer")],
)  # fmt: skip
def test_the_instructions_of_the_kind_of_phone_are_open(agent: str, kind: str) -> None:
    text = page(OFFER, "", agent)[0].decode()
    assert re.findall(r'<details name="kind" open>\s*<summary>([^<]*)', text) == [kind]


def test_the_qr_code_on_the_page_is_the_address() -> None:
    text = page(OFFER, "shop-pc", "")[0].decode()
    side, path = squares("https://shop-pc:8443")
    assert f'viewBox="0 0 {side} {side}"' in text
    assert path in text
    drawn = Image.new("L", (side * 6, side * 6), 255)
    for x, y in re.findall(r"M(\d+) (\d+)h1v1h-1z", path):
        ImageDraw.Draw(drawn).rectangle((int(x) * 6, int(y) * 6, int(x) * 6 + 5, int(y) * 6 + 5), fill=0)
    assert [found.text for found in zxingcpp.read_barcodes(drawn)] == ["https://shop-pc:8443"]


def test_what_the_page_shows_is_escaped() -> None:
    text = page(replace(OFFER, name="<b>x</b>", computer="<i>"), "", "")[0].decode()
    assert "<b>x</b>" not in text
    assert "<i>" not in text


def test_the_look_is_the_apps() -> None:
    """Every token of the page has the value that the app gives it, in the light and in the dark."""
    found = tokens(handing_over.STYLE)
    app = tokens((TOP / "webapp" / "src" / "style.css").read_text(encoding="utf-8"))
    assert [set(part) <= set(whole) for part, whole in zip(found, app, strict=True)] == [True, True]
    for part, whole in zip(found, app, strict=True):
        assert part == {name: whole[name] for name in part}
    assert len(found[0]) > 10


def tokens(style: str) -> list[dict[str, str]]:
    blocks = re.findall(r":root \{(.*?)\}", style, re.DOTALL)
    return [dict(re.findall(r"(--[a-z-]+): ([^;]+);", block)) for block in blocks]


def test_the_typeface_is_the_apps_where_it_is_built(tmp_path: Path) -> None:
    assert font_in(tmp_path) == b""
    (tmp_path / "assets").mkdir()
    (tmp_path / "assets" / "atkinson-hyperlegible-next-latin-wght-normal-Ab1.woff2").write_bytes(b"face")
    assert font_in(tmp_path) == b"face"
    assert "url(data:font/woff2;base64,ZmFjZQ==)" in page(replace(OFFER, font=b"face"), "", "")[0].decode()


def test_an_endless_head_is_cut_off(counter: Counter) -> None:
    assert raw(counter, b"GET / HTTP/1.1\r\nX: " + b"a" * 20_000 + b"\r\n\r\n") == b""
    assert raw(counter, b"GET / HTTP/1.1\r\nX: " + b"a" * 6_000 + b"\r\n\r\n").startswith(b"HTTP/1.0 200")


@pytest.mark.parametrize(
    "sent", [b"\r\n\r\n", b"GET\r\n\r\n", b"GET / HTTP/9.9\r\n\r\n", b"\x16\x03\x01\x02\x00\r\n\r\n", b"G" * 300]
)
def test_what_is_no_request_gets_no_page(counter: Counter, sent: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(handing_over, "HEAD_WITHIN", 0.2)
    assert b"Seamtag at" not in raw(counter, sent)
    assert ask(counter, "/")[0] == 200


def test_a_caller_who_drips_is_let_go(counter: Counter, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(handing_over, "HEAD_WITHIN", 0.4)
    begun = time.monotonic()
    with socket.create_connection(("127.0.0.1", port_of(counter)), timeout=5) as one:
        one.settimeout(0.05)
        while time.monotonic() - begun < 5:
            try:
                one.send(b"G")
                if one.recv(10) == b"":
                    break
            except TimeoutError:
                continue
            except OSError:
                break
    assert time.monotonic() - begun < 2


def test_too_many_callers_at_once_are_turned_away_and_the_place_is_free_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(handing_over, "MOST_AT_ONCE", 3)
    one = Counter("127.0.0.1", 0, lambda: OFFER)
    threading.Thread(target=one.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()
    waiting = [socket.create_connection(("127.0.0.1", port_of(one)), timeout=5) for _ in range(3)]
    time.sleep(0.2)
    assert raw(one, b"GET / HTTP/1.0\r\n\r\n") == b""
    for connection in waiting:
        connection.close()
    time.sleep(0.2)
    assert raw(one, b"GET / HTTP/1.0\r\n\r\n").startswith(b"HTTP/1.0 200")
    one.shutdown()
    one.server_close()


def test_a_caller_who_goes_away_is_no_news_and_a_fault_of_ours_is(
    counter: Counter, capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    with socket.create_connection(("127.0.0.1", port_of(counter))) as one:
        one.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\x01\0\0\0\0\0\0\0")
        one.sendall(b"GET / HTTP/1.0\r\n\r\n")
    ask(counter, "/")
    assert capfd.readouterr().err == ""

    def broken(*args: Any) -> None:
        raise RuntimeError("ours")

    monkeypatch.setattr(Caller, "do_GET", broken)
    assert raw(counter, b"GET / HTTP/1.0\r\n\r\n") == b""
    assert "RuntimeError: ours" in capfd.readouterr().err


def test_the_page_is_served_over_both_kinds_of_address() -> None:
    if not socket.has_dualstack_ipv6():
        pytest.skip("no IPv6 here")
    one = Counter("::", 0, lambda: OFFER)
    threading.Thread(target=one.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()
    for host in ("127.0.0.1", "::1"):
        with socket.create_connection((host, port_of(one)), timeout=5) as caller:
            caller.sendall(b"GET /seamtag.crt HTTP/1.0\r\n\r\n")
            with io.BytesIO() as found:
                while more := caller.recv(4096):
                    found.write(more)
                assert found.getvalue().endswith(OFFER.certificate)
    one.shutdown()
    one.server_close()
