"""How many damaged labels are read: one square blot anywhere on the label, in the picture of a phone's camera.

Run as `python -m tests.bench.damage [PLACEMENTS] [SHEET]`, once `tests/run` has set things up. A label is printed in
dots of 203 dpi. The blot takes 2 % to 10 % of the label's area and lies anywhere on it, on finder patterns too. The
label as it is printed, read through either symbol, stands beside the same label with a single symbol of the same total
area.
"""

import math
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace

import numpy as np
import zxingcpp
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

from seamtag.core.tagcode import SYMBOLS, code_of, link_of
from seamtag.tags.layout import DOT, MARGIN, QUIET, Layout, Words, face_file, laid_out, modules
from seamtag.tags.sheets import SHEETS
from tests.bench.views import HOST, Grey, Pose, seen

PLACEMENTS = 40
PARTS = (0.02, 0.04, 0.06, 0.08, 0.10)
SHEET = "a4-3x8"
FINE = 3
"""Pixels that a printed dot is drawn by, so that the camera sees its edges."""
GREASE, PAINT = 40, 205

Size = tuple[float, float]
Made = Callable[[Size, int, Words], Layout]


def twin(size: Size, across: int, words: Words) -> Layout:
    """The label as it is printed."""
    return laid_out(*size, across, words)


def alone(size: Size, across: int, words: Words) -> Layout:
    """One symbol of the same total area at the left, as far as the label's height allows."""
    made = laid_out(*size, across, words)
    module = min(made.module * math.sqrt(2), (size[1] - 2 * MARGIN) / (across + 2 * QUIET))
    left, top = MARGIN + QUIET * module, (size[1] - across * module) / 2
    lines = (replace(line, middle=(size[0] + left + across * module) / 2) for line in made.lines)
    return Layout(module, ((left, top),), tuple(lines))


LAYOUTS: dict[str, Made] = {"two symbols": twin, "one, same area": alone}


def printed(link: str, words: Words, size: Size, made: Made) -> Image.Image:
    """A label in black and white, each edge on the nearest printer dot."""
    matrix = modules(link)
    layout = made(size, len(matrix), words)
    paper = Image.new("L", (dots(size[0]), dots(size[1])), 255)
    pen = ImageDraw.Draw(paper)
    pen.fontmode = "1"
    for left, top in layout.symbols:
        for row, cells in enumerate(matrix):
            for column, dark in enumerate(cells):
                if dark:
                    x, y = left + column * layout.module, top + row * layout.module
                    edges = (dots(x), dots(y), dots(x + layout.module) - 1, dots(y + layout.module) - 1)
                    pen.rectangle(edges, fill=0)
    for line in layout.lines:
        face = ImageFont.truetype(face_file(line.face), max(4, dots(line.size)))
        pen.text((dots(line.middle), dots(line.baseline)), line.text, fill=0, font=face, anchor="ms")
    return paper.resize((paper.width * FINE, paper.height * FINE), Image.Resampling.NEAREST)


def dots(millimetres: float) -> int:
    return round(millimetres / DOT)


def blotted(paper: Image.Image, part: float, place: tuple[float, float], shade: int) -> Image.Image:
    """A square blot over a part of the label's area. place: 0 to 1 across and down, where the whole blot lies on it."""
    side = math.sqrt(part * paper.width * paper.height)
    left, top = place[0] * (paper.width - side), place[1] * (paper.height - side)
    found = paper.copy()
    ImageDraw.Draw(found).rectangle((left, top, left + side, top + side), fill=shade)
    return found


def read(picture: Grey | NDArray[np.uint8]) -> list[str]:
    return [found.text for found in zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)]


def some_words(dice: np.random.Generator) -> Words:
    code = None
    while code is None:
        code = code_of(int(dice.integers(32**SYMBOLS)))
    return Words(code, f"S-{dice.integers(1, 400)}", "26-104", "circumferential seam")


def some_pose(dice: np.random.Generator) -> Pose:
    """A hand that holds the phone nearly straight, somewhat out of focus, in the light of a shop."""
    turn, lean, swing = dice.uniform(-8, 8, 3)
    return Pose(
        wide=dice.uniform(0.7, 0.9), turn=turn, lean=lean, swing=swing, defocus=dice.uniform(0.6, 1.0),
        noise=dice.uniform(3, 8),
    )  # fmt: skip


def trials(parts: tuple[float, ...], placements: int, sheet: str, seed: int = 26) -> Iterator[tuple[float, str, bool]]:
    """Part of the area, name of the layout, and whether its link was read; all layouts under the same blot and view."""
    dice = np.random.default_rng(seed)
    size = SHEETS[sheet].label
    for part in parts:
        for _ in range(placements):
            words = some_words(dice)
            link = link_of(HOST, words.code)
            place, shade = (dice.random(), dice.random()), int(dice.choice([GREASE, PAINT]))
            pose = some_pose(dice)
            eye = int(dice.integers(2**32))
            for name, made in LAYOUTS.items():
                paper = blotted(printed(link, words, size, made), part, place, shade)
                found = read(seen(paper, pose, np.random.default_rng(eye)))
                assert all(text == link for text in found), f"read wrong: {found}"
                yield part, name, link in found


def rates(parts: tuple[float, ...], placements: int, sheet: str) -> dict[tuple[float, str], float]:
    """The part of the labels that was read, by the blot's part of the area and the layout."""
    count: dict[tuple[float, str], int] = {}
    for part, name, hit in trials(parts, placements, sheet):
        count[part, name] = count.get((part, name), 0) + hit
    return {key: hits / placements for key, hits in count.items()}


def main(placements: int, sheet: str) -> None:
    found = rates(PARTS, placements, sheet)
    print(f"{SHEETS[sheet].says}; {placements} placements of each blot; read through either symbol")
    print(f"{'blot of the area':18}" + "".join(f"{name:>18}" for name in LAYOUTS))
    for part in PARTS:
        print(f"{part:<18.0%}" + "".join(f"{found[part, name]:18.1%}" for name in LAYOUTS))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else PLACEMENTS, sys.argv[2] if len(sys.argv) > 2 else SHEET)
