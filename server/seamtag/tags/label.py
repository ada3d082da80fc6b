"""The printed label of a tag: the symbol twice, apart, with the code in large type between."""

import io

import qrcode
from PIL import Image, ImageDraw, ImageFont
from qrcode.constants import ERROR_CORRECT_H

from seamtag.core.tagcode import link_of

MODULE = 8
"""Pixels a module."""
QUIET = 4
"""Modules of quiet zone, as ISO/IEC 18004 asks."""


def symbol(host: str, code: str) -> Image.Image:
    """The QR symbol of a tag's code."""
    return symbol_of(link_of(host, code))


def symbol_of(link: str, module: int = MODULE) -> Image.Image:
    """The QR symbol of a link at level H, black on white, with its quiet zone."""
    qr = qrcode.QRCode(error_correction=ERROR_CORRECT_H, box_size=module, border=QUIET)
    qr.add_data(link)
    qr.make(fit=True)
    return qr.make_image().get_image().convert("L")


def label(host: str, code: str, mark: str, job: str, kind: str) -> Image.Image:
    """The label as a grey picture: symbol, code with mark, job and kind, symbol."""
    one = symbol(host, code)
    side = one.width
    page = Image.new("L", (side * 2 + int(side * 1.1), side), 255)
    page.paste(one, (0, 0))
    page.paste(one, (page.width - side, 0))
    draw = ImageDraw.Draw(page)
    middle = page.width // 2
    width = page.width - 2 * side - 8
    for text, height, top in ((code, 0.20, 0.14), (mark, 0.17, 0.42), (f"Job {job}", 0.10, 0.66), (kind, 0.08, 0.80)):
        draw.text((middle, int(side * top)), text, fill=0, font=fitting(text, int(side * height), width), anchor="mt")
    return page


def fitting(text: str, size: int, width: int) -> ImageFont.FreeTypeFont:
    """The typeface at the size, or smaller where the text would be wider than it may be."""
    face = font(size)
    length = face.getlength(text)
    return face if length <= width else font(max(8, int(size * width / length)))


def font(size: int) -> ImageFont.FreeTypeFont:
    found = ImageFont.load_default(size)
    assert isinstance(found, ImageFont.FreeTypeFont)
    return found


def as_png(picture: Image.Image) -> bytes:
    out = io.BytesIO()
    picture.save(out, "PNG", optimize=True)
    return out.getvalue()
