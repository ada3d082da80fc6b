"""A drawing's file made into a picture of its pixels alone: upright, on white, at most so large."""

import io
from typing import Any, NamedTuple

from PIL import Image, ImageOps, UnidentifiedImageError

LONGEST = 4_000
"""Longest side of a drawing in pixels: one of 34 by 22 in is still read at it."""
FORMATS = ("JPEG", "PNG")
PDF = b"%PDF-"


class DrawingError(ValueError):
    """The file or its pins cannot be taken. The message says what to do."""


class Sheet(NamedTuple):
    content: bytes
    media_type: str
    width: int
    height: int


def sheet_of(content: bytes, most_pixels: int, page: int = 1) -> Sheet:
    """A PNG of a PNG or a PDF's page (from 1), a JPEG of a JPEG. Raises DrawingError where there is none to be had."""
    if content.startswith(PDF):
        return written(on_white(page_of(content, page)), "PNG")
    try:
        with Image.open(io.BytesIO(content), formats=FORMATS) as picture:
            if picture.width * picture.height > most_pixels:
                raise DrawingError(f"The picture has {picture.width} by {picture.height} pixels, which is too many. "
                                   f"Save it with at most {LONGEST:,} on its longer side.")  # fmt: skip
            form = str(picture.format)
            return written(on_white(ImageOps.exif_transpose(picture)), form)
    except DrawingError:
        raise
    except UnidentifiedImageError:
        raise DrawingError("The file is no picture. Save the drawing as PNG, JPEG or PDF, and choose that.") from None
    except Exception as error:  # a decoder meets damaged bytes with almost any of them
        raise DrawingError("The picture is damaged. Save the drawing anew, and choose that file.") from error


def on_white(picture: Image.Image) -> Image.Image:
    """Without transparency, which would be shown as black; at most LONGEST, and grey where there is no colour."""
    if "A" in picture.getbands() or "transparency" in picture.info:
        over = picture.convert("RGBA")
        picture = Image.new("RGB", over.size, "white")
        picture.paste(over, mask=over.getchannel("A"))
    small = picture.convert("L" if picture.mode in ("1", "L") else "RGB")
    small.thumbnail((LONGEST, LONGEST))
    return small


def written(picture: Image.Image, form: str) -> Sheet:
    """Only the pixels are carried over, so nothing the file said beside them is."""
    plain = Image.new(picture.mode, picture.size)
    plain.paste(picture)
    out = io.BytesIO()
    options: dict[str, Any] = {"quality": 90} if form == "JPEG" else {"optimize": True}
    plain.save(out, form, **options)
    return Sheet(out.getvalue(), f"image/{form.lower()}", plain.width, plain.height)


def page_of(content: bytes, page: int) -> Image.Image:
    """One page of a PDF, as large as a drawing may be. Raises DrawingError; also where this server reads no PDF."""
    try:
        import pypdfium2
    except ImportError:
        raise DrawingError("This server reads no PDF. Save the page as PNG or JPEG, and choose that.") from None
    try:
        with pypdfium2.PdfDocument(content) as document:
            count = len(document)
            if page > count:
                raise DrawingError(f"The PDF has no page {page}: it has {count}.")
            sheet = document[page - 1]
            picture: Image.Image = sheet.render(scale=LONGEST / max(*sheet.get_size(), 1)).to_pil()
            return picture
    except pypdfium2.PdfiumError:
        raise DrawingError("The PDF cannot be read, or it asks for a password. Save the page as PNG or JPEG.") from None
