"""What is printed beside tags: the sticker of a gauge, and the board on a job's cart that opens its list of marks."""

import string

from PIL import Image, ImageDraw

from seamtag.tags.label import MODULE, fitting, symbol_of

AS_THEY_ARE = string.ascii_uppercase + string.digits + ".-"
"""Of these a link holds as they are what the alphanumeric mode of a QR symbol can hold; all else is written as %XX."""


def written(name: str) -> str:
    """An id as it stands in a link: in capitals, so that case is lost."""
    return "".join(
        one if one in AS_THEY_ARE else "".join(f"%{byte:02X}" for byte in one.encode()) for one in name.upper()
    )


def gauge_link(host: str, gauge: str) -> str:
    return f"HTTPS://{host.upper()}/G/{written(gauge)}"


def board_link(host: str, job: str) -> str:
    return f"HTTPS://{host.upper()}/J/{written(job)}"


def gauge_sticker(host: str, gauge: str, name: str) -> Image.Image:
    """The symbol, and beside it the gauge's id over its name."""
    return beside(symbol_of(gauge_link(host, gauge)), ((gauge, 0.26, 0.24), (name, 0.13, 0.60)))


def job_board(host: str, job: str, title: str) -> Image.Image:
    """The symbol, large, and beside it the job's number over its title."""
    lines = (("Marks of job", 0.10, 0.16), (job, 0.26, 0.32), (title, 0.10, 0.66))
    return beside(symbol_of(board_link(host, job), MODULE * 2), lines)


def beside(one: Image.Image, lines: tuple[tuple[str, float, float], ...]) -> Image.Image:
    """A symbol with lines of text at its right; text, height and top, both as parts of the symbol's side."""
    side = one.width
    page = Image.new("L", (int(side * 2.2), side), 255)
    page.paste(one, (0, 0))
    draw = ImageDraw.Draw(page)
    width = page.width - side - side // 10
    for text, height, top in lines:
        draw.text((side, int(side * top)), text, fill=0, font=fitting(text, int(side * height), width), anchor="lt")
    return page
