"""The weld map of the invented boiler: its shell from the left, drawn by lines, and where its pieces are pinned."""

import io
from collections.abc import Iterator

from PIL import Image, ImageDraw, ImageFont

WIDE, HIGH = 2400, 1500
FRONT, REAR, TOP, BOTTOM = 300, 2100, 420, 1190
MIDDLE = (FRONT + REAR) // 2
LINE, THIN = 5, 3
PINS = {
    "AT-1": (1850, 2000), "M-1": (3000, 2000), "N-1": (4150, 1950), "N-2": (5600, 2000), "N-3": (6400, 2000),
    "AT-2": (8050, 2000), "L-1": (3100, 4000), "L-2": (6900, 4600), "C-1": (1250, 4900), "G-1": (5000, 5350),
    "C-2": (8750, 5350), "N-4": (7600, 6000), "H-1": (2500, 6700), "N-5": (6600, 8550),
}  # fmt: skip
"""Mark to place, in ten-thousandths of the drawing's width and height."""
NECKS = {"N-1": (996, 130, 60), "N-2": (1344, 80, 34), "N-3": (1536, 80, 34)}
"""On top of the shell: middle, height and half of the width."""


def drawn(job: str) -> bytes:
    """A PNG of the sheet."""
    picture = Image.new("L", (WIDE, HIGH), 255)
    draw = ImageDraw.Draw(picture)
    inside(draw)
    shell(draw)
    openings(draw)
    feet_and_lugs(draw)
    title(draw, job)
    out = io.BytesIO()
    picture.save(out, "PNG", optimize=True)
    return out.getvalue()


def shell(draw: ImageDraw.ImageDraw) -> None:
    """Two courses between two sheets; a weld is a line with strokes across."""
    draw.rectangle((FRONT, TOP, REAR, BOTTOM), outline=0, width=LINE)
    for x in (FRONT, REAR):
        draw.rectangle((x - 12, TOP - 14, x + 12, BOTTOM + 14), fill=255, outline=0, width=LINE)
    weld(draw, (MIDDLE, TOP), (MIDDLE, BOTTOM))
    weld(draw, (FRONT + 12, 600), (MIDDLE, 600))
    weld(draw, (MIDDLE, 690), (REAR - 12, 690))


def weld(draw: ImageDraw.ImageDraw, start: tuple[int, int], end: tuple[int, int]) -> None:
    draw.line((start, end), fill=0, width=THIN)
    upright = start[0] == end[0]
    for at in range((start[1] if upright else start[0]) + 14, end[1] if upright else end[0], 22):
        x, y = (start[0], at) if upright else (at, start[1])
        draw.line((x - 8, y - 8, x + 8, y + 8), fill=0, width=THIN)


def inside(draw: ImageDraw.ImageDraw) -> None:
    """Furnace, turnaround and tubes, hidden: in broken lines, grey."""
    for y in (800, 1110):
        broken(draw, FRONT, 1720, y)
    for y in (560, 640, 720):
        broken(draw, FRONT, 1720, y)
    for x in (1720, 1980):
        for y in range(520, 1150, 36):
            draw.line((x, y, x, y + 20), fill=150, width=THIN)


def broken(draw: ImageDraw.ImageDraw, start: int, end: int, y: int) -> None:
    for x in range(start, end, 36):
        draw.line((x, y, x + 20, y), fill=150, width=THIN)


def openings(draw: ImageDraw.ImageDraw) -> None:
    for x, high, half in NECKS.values():
        draw.rectangle((x - half, TOP - high, x + half, TOP), fill=255, outline=0, width=LINE)
        draw.rectangle((x - half - 24, TOP - high - 22, x + half + 24, TOP - high), fill=255, outline=0, width=LINE)
    draw.rectangle((720 - 90, TOP - 60, 720 + 90, TOP), fill=255, outline=0, width=LINE)
    draw.rectangle((1584 - 26, BOTTOM, 1584 + 26, BOTTOM + 70), fill=255, outline=0, width=LINE)
    draw.ellipse((1824 - 34, 900 - 34, 1824 + 34, 900 + 34), fill=255, outline=0, width=LINE)
    draw.ellipse((600 - 70, 1005 - 46, 600 + 70, 1005 + 46), fill=255, outline=0, width=LINE)
    draw.ellipse((600 - 46, 1005 - 28, 600 + 46, 1005 + 28), outline=0, width=THIN)


def feet_and_lugs(draw: ImageDraw.ImageDraw) -> None:
    for x in (620, 1800):
        corners = [(x - 150, BOTTOM), (x + 150, BOTTOM), (x + 120, BOTTOM + 130), (x - 120, BOTTOM + 130)]
        draw.polygon(corners, fill=255, outline=0, width=LINE)
        draw.line((x - 190, BOTTOM + 130, x + 190, BOTTOM + 130), fill=0, width=LINE + 3)
    for x in (444, 1932):
        draw.polygon([(x - 50, TOP), (x - 26, TOP - 90), (x + 26, TOP - 90), (x + 50, TOP)], fill=255, outline=0,
                     width=LINE)  # fmt: skip
        draw.ellipse((x - 14, TOP - 72, x + 14, TOP - 44), outline=0, width=THIN)


def title(draw: ImageDraw.ImageDraw, job: str) -> None:
    draw.rectangle((30, 30, WIDE - 30, HIGH - 30), outline=0, width=THIN)
    draw.text((80, 70), f"Weld map of boiler {job}: shell, seen from the left", fill=0, font=ImageFont.load_default(52))
    draw.text((80, 140), "Front on the left. Two courses of 105 in, 90 in inside. Drawn without scale.", fill=60,
              font=ImageFont.load_default(34))  # fmt: skip
    for row, words in enumerate(block(job)):
        top = HIGH - 30 - 3 * 44 + row * 44
        draw.rectangle((WIDE - 30 - 560, top, WIDE - 30, top + 44), outline=0, width=THIN)
        draw.text((WIDE - 30 - 540, top + 6), words, fill=0, font=ImageFont.load_default(28))


def block(job: str) -> Iterator[str]:
    yield "Ottermarsh Boiler Works (invented)"
    yield f"Job {job}"
    yield "Sheet 1   Revision B"
