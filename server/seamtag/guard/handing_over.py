"""The page without https that hands the authority's certificate to a phone and says what to tap there.

One file serves every kind of phone: the certificate as DER, under the media type of an authority. An iPhone takes it
as a profile just so. A `.mobileconfig` around it would gain nothing: unless a company's device management installs it,
its reader still has to switch full trust on by hand, and an unsigned one is shown as 'not verified'.
"""

import base64
import hashlib
import io
import socket
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler
from pathlib import Path
from socketserver import ThreadingTCPServer
from typing import Any

import jinja2
import qrcode

from seamtag.guard.addresses import url_of

CERTIFICATE_PATH = "/seamtag.crt"
CERTIFICATE_TYPE = "application/x-x509-ca-cert"
MOST_AT_ONCE = 32
MOST_HEAD = 8192
"""Bytes of a request, which is a GET and so has no body."""
HEAD_WITHIN = 5.0
SENT_WITHIN = 20.0
"""Seconds."""

HERE = Path(__file__).parent
TEMPLATE = jinja2.Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True).from_string(
    (HERE / "handing_over.html").read_text(encoding="utf-8")
)
STYLE = (HERE / "handing_over.css").read_text(encoding="utf-8")


@dataclass(frozen=True)
class Offer:
    """What the page tells. hosts: as in a URL, the best first. permitted: what the authority may vouch for."""

    certificate: bytes
    name: str
    fingerprint: str
    until: str
    computer: str
    hosts: tuple[str, ...]
    port: int
    permitted: tuple[str, ...]
    font: bytes = b""

    def app_address(self, asked: str) -> str:
        """Where the app is: by the host that the phone has reached us by, where that is one of ours."""
        host = asked.rpartition(":")[0] if asked.rpartition(":")[2].isdigit() else asked
        return url_of("https", host if host in self.hosts else self.hosts[0], self.port)


def font_in(web: Path) -> bytes:
    """The app's typeface, from the built app; empty where it is not built."""
    found = sorted((web / "assets").glob("atkinson-hyperlegible-next-latin-wght-normal-*.woff2"))
    return found[0].read_bytes() if found else b""


def style(font: bytes) -> str:
    data = base64.b64encode(font).decode()
    face = f'@font-face{{font-family:"Atkinson";font-weight:200 800;src:url(data:font/woff2;base64,{data})}}\n'
    return (face if font else "") + STYLE


def policy(text: str) -> str:
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return (
        f"default-src 'none'; style-src 'sha256-{digest}'; font-src data:; "
        "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    )


def in_lines(fingerprint: str) -> list[str]:
    """A fingerprint in four lines, as terminal and page both show it, to be compared line by line."""
    pairs = fingerprint.split(":")
    return [" ".join(pairs[start : start + 8]) for start in range(0, len(pairs), 8)]


def symbol(text: str) -> qrcode.QRCode[Any]:
    code: qrcode.QRCode[Any] = qrcode.QRCode(border=0)
    code.add_data(text)
    code.make(fit=True)
    return code


def squares(text: str) -> tuple[int, str]:
    """A QR symbol as the side of its drawing, in modules with the quiet zone, and the path of an SVG."""
    rows = symbol(text).get_matrix()
    path = "".join(f"M{x + 4} {y + 4}h1v1h-1z" for y, row in enumerate(rows) for x, dark in enumerate(row) if dark)
    return len(rows) + 8, path


def kind_of(agent: str) -> str:
    """Which instructions to open first; an iPad that gives itself out as a Mac opens those of a computer."""
    if "Android" in agent:
        return "android"
    return "apple" if "iPhone" in agent or "iPad" in agent else "computer"


def page(offer: Offer, asked: str, agent: str) -> tuple[bytes, str]:
    """The page, and its Content-Security-Policy. asked: the Host that was asked for."""
    address = offer.app_address(asked)
    side, path = squares(address)
    css = style(offer.font)
    text = TEMPLATE.render(
        offer=offer, address=address, side=side, path=path, style=css, fingerprint=in_lines(offer.fingerprint),
        kind=kind_of(agent), certificate=CERTIFICATE_PATH,
    )  # fmt: skip
    return text.encode(), policy(css)


class Counter(ThreadingTCPServer):
    """Serves the page from threads of this process, to a bounded number of callers."""

    daemon_threads = True
    allow_reuse_address = True

    def __init__(self, host: str, port: int, offer: Callable[[], Offer]) -> None:
        self.address_family = socket.AF_INET6 if ":" in host else socket.AF_INET
        self.offer = offer
        self.places = threading.BoundedSemaphore(MOST_AT_ONCE)
        super().__init__((host, port), Caller)

    def server_bind(self) -> None:
        if self.address_family == socket.AF_INET6:
            self.socket.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 0)
        super().server_bind()

    def process_request(self, request: Any, client_address: Any) -> None:
        if self.places.acquire(blocking=False):
            super().process_request(request, client_address)
        else:
            self.shutdown_request(request)

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        try:
            super().process_request_thread(request, client_address)
        finally:
            self.places.release()

    def handle_error(self, request: Any, client_address: Any) -> None:
        if not isinstance(sys.exception(), OSError):
            super().handle_error(request, client_address)


class Caller(BaseHTTPRequestHandler):
    """One request: GET of the page or of the certificate, nothing else. Then the connection is closed."""

    server: Counter

    def setup(self) -> None:
        super().setup()
        self.rfile = io.BytesIO(head_of(self.connection))
        self.connection.settimeout(SENT_WITHIN)

    def do_GET(self) -> None:
        path = self.path.partition("?")[0]
        offer = self.server.offer()
        if path == "/":
            body, allowed = page(offer, self.headers.get("Host", ""), self.headers.get("User-Agent", ""))
            self.answer(HTTPStatus.OK, "text/html; charset=utf-8", body, allowed)
        elif path == CERTIFICATE_PATH:
            self.answer(HTTPStatus.OK, CERTIFICATE_TYPE, offer.certificate)
        else:
            self.send_error(HTTPStatus.NOT_FOUND, "There is nothing here. Open the address without what follows it")

    def answer(self, status: int, kind: str, body: bytes, allowed: str = "default-src 'none'") -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Content-Security-Policy", allowed)
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        self.wfile.write(body)

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        self.close_connection = True
        text = f"{message or HTTPStatus(code).phrase}.\n"
        self.answer(code, "text/plain; charset=utf-8", text.encode("utf-8", "replace"))

    def version_string(self) -> str:
        return "Seamtag"

    def log_message(self, format: str, *args: Any) -> None:
        """Nothing: who fetched the certificate is nobody's business."""


def head_of(connection: socket.socket) -> bytes:
    """A whole head of a request; empty where it does not come in time or is too long."""
    end = time.monotonic() + HEAD_WITHIN
    found = b""
    while b"\r\n\r\n" not in found:
        left = end - time.monotonic()
        if left <= 0 or len(found) > MOST_HEAD:
            return b""
        connection.settimeout(left)
        try:
            more = connection.recv(2048)
        except OSError:
            return b""
        if not more:
            return b""
        found += more
    return found
