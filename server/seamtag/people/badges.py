"""Blank badges to print: each carries a secret of its own as a QR symbol. Nothing of them is kept here.

A phone wraps its signing key by such a secret (`webapp/src/store/badges.ts`); this server never hears of it again.
"""

import base64
import os
import secrets
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import jinja2
import qrcode
from qrcode.constants import ERROR_CORRECT_Q

PREFIX = "SEAMTAG-BADGE:"
SECRET = 16
"""Bytes of a badge's secret."""
QUIET = 4
"""Modules of quiet zone, as ISO/IEC 18004 asks."""

HERE = Path(__file__).parent
ENVIRONMENT = jinja2.Environment(
    loader=jinja2.FileSystemLoader(HERE), autoescape=True, trim_blocks=True, lstrip_blocks=True
)


@dataclass(frozen=True)
class Symbol:
    """A QR symbol as an SVG draws it: the side in modules with the quiet zone, and the path of what is dark."""

    side: int
    path: str


def new_badge() -> str:
    """What a new badge's symbol says: a fresh secret of 128 bits in base 32 (RFC 4648, 6) without padding."""
    return PREFIX + base64.b32encode(secrets.token_bytes(SECRET)).decode().rstrip("=")


def code_of(text: str) -> qrcode.QRCode[Any]:
    """The QR symbol of a text at level Q: a badge gets scratched."""
    code: qrcode.QRCode[Any] = qrcode.QRCode(error_correction=ERROR_CORRECT_Q, border=QUIET)
    code.add_data(text)
    code.make(fit=True)
    return code


def symbol_of(text: str) -> Symbol:
    rows = code_of(text).get_matrix()
    path = "".join(f"M{x} {y}h1v1h-1z" for y, row in enumerate(rows) for x, dark in enumerate(row) if dark)
    return Symbol(len(rows), path)


def page(count: int) -> str:
    """A page (HTML) of so many blank badges, to be printed and cut."""
    return ENVIRONMENT.get_template("badges.html").render(symbols=[symbol_of(new_badge()) for _ in range(count)])


def write_for_owner(file: Path, text: str) -> None:
    """Write a new file that nobody else of this computer may read. Raises FileExistsError where there is one."""
    with os.fdopen(os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as out:
        out.write(text)
