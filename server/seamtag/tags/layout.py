"""Where everything of a tag stands on a label or a plate: two symbols apart, and lines of type between. In millimetres.

The origin is the top left corner. Type is Bitstream Vera, which comes with reportlab; its width is known before it is
drawn, so that PDF and SVG place it alike.
"""

import functools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import qrcode
import reportlab
from qrcode.constants import ERROR_CORRECT_H
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

QUIET = 4
"""Modules of quiet zone, as ISO/IEC 18004 asks."""
DOT = 0.125
"""A dot of a label printer of 8 dots a millimetre (203 dpi): a module is a whole number of them."""
MARGIN = 1.0
"""What a printer may be off by, without cutting into the quiet zone."""
NARROWEST = 0.55
"""The type between the symbols is at least so wide, in sides of a symbol."""
LEADING = 1.2
SMALLEST = 1.3
"""Type is never set smaller than this; what does not fit then is cut short."""
PLAIN, BOLD = "Vera", "VeraBd"

Matrix = tuple[tuple[bool, ...], ...]
Loop = list[tuple[int, int]]


@dataclass(frozen=True)
class Words:
    """What a tag says beside its link."""

    code: str
    mark: str
    job: str
    kind: str


@dataclass(frozen=True)
class Line:
    """A line of type: the middle of its baseline, and its size."""

    text: str
    middle: float
    baseline: float
    size: float
    face: str


@dataclass(frozen=True)
class Layout:
    """module: its side. symbols: where the first module of each stands, behind the quiet zone."""

    module: float
    symbols: tuple[tuple[float, float], ...]
    lines: tuple[Line, ...]


@functools.lru_cache(maxsize=4096)
def modules(link: str, level: int = ERROR_CORRECT_H) -> Matrix:
    """Which modules of a link's symbol are dark, row by row, without the quiet zone."""
    code: qrcode.QRCode[Any] = qrcode.QRCode(error_correction=level, border=0)
    code.add_data(link)
    code.make(fit=True)
    return tuple(tuple(bool(dark) for dark in row) for row in code.get_matrix())


@functools.lru_cache(maxsize=512)
def outlines(matrix: Matrix) -> list[Loop]:
    """The edges of what is dark, as closed loops of corners: no seam lies between two dark modules.

    Inside lies to the right of each loop, and a hole runs the other way round.
    """
    onward: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for start, end in edges(matrix):
        onward.setdefault(start, []).append(end)
    loops = []
    while onward:
        start = next(iter(onward))
        loop, here = [start], step_on(onward, start)
        while here != start:
            loop.append(here)
            here = step_on(onward, here)
        loops.append([here for before, here, after in zip([loop[-1], *loop], loop, [*loop[1:], loop[0]], strict=False)
                      if (before[0] == here[0]) != (here[0] == after[0])])  # fmt: skip
    return loops


def step_on(onward: dict[tuple[int, int], list[tuple[int, int]]], corner: tuple[int, int]) -> tuple[int, int]:
    ends = onward[corner]
    end = ends.pop()
    if not ends:
        del onward[corner]
    return end


def edges(matrix: Matrix) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    """The sides of dark modules that touch a light one, each from corner to corner with the dark on its right."""
    side = len(matrix)

    def dark(x: int, y: int) -> bool:
        return 0 <= x < side and 0 <= y < side and matrix[y][x]

    for y in range(side):
        for x in range(side):
            if not matrix[y][x]:
                continue
            if not dark(x, y - 1):
                yield (x, y), (x + 1, y)
            if not dark(x + 1, y):
                yield (x + 1, y), (x + 1, y + 1)
            if not dark(x, y + 1):
                yield (x + 1, y + 1), (x, y + 1)
            if not dark(x - 1, y):
                yield (x, y + 1), (x, y)


def laid_out(width: float, height: float, across: int, words: Words, above: float = 0.0) -> Layout:
    """A tag on a label of this size. across: modules of a symbol's side. above: kept free over the type, for a hole."""
    module = module_for(width, height, across + 2 * QUIET)
    side, quiet = (across + 2 * QUIET) * module, QUIET * module
    top = (height - side) / 2
    places = ((MARGIN + quiet, top + quiet), (width - MARGIN - side + quiet, top + quiet))
    box = (MARGIN + side, MARGIN + above, width - 2 * (MARGIN + side), height - 2 * MARGIN - above)
    return Layout(module, places, tuple(typeset(words, *box)))


def module_for(width: float, height: float, across: int) -> float:
    """The largest module of whole printer dots that leaves room for the type; less than a dot where there is none."""
    room = min(height - 2 * MARGIN, (width - 2 * MARGIN) / (2 + NARROWEST)) / across
    dots = math.floor(room / DOT + 1e-9)
    return dots * DOT if dots else room


def typeset(words: Words, left: float, top: float, width: float, height: float) -> Iterator[Line]:
    """The lines one under the other in the middle of a box: code, mark, job, kind."""
    half = len(words.code) // 2
    code = fitting([[words.code], [words.code[:half], words.code[half:]]], width, height * 0.30, BOLD)
    mark = fitting(ways(words.mark), width, height * 0.20, BOLD)
    job = fitting([[f"Job {words.job}"]], width, height * 0.11, PLAIN)
    kind = fitting(ways(words.kind), width, height * 0.10, PLAIN)
    blocks = [block for block in (code, mark, job, kind) if block[0] != [""]]
    gap = height * 0.03
    high = sum(len(texts) * size * LEADING for texts, size, _ in blocks) + gap * (len(blocks) - 1)
    shrunk = min(1.0, height / high)
    down = top + (height - high * shrunk) / 2
    for texts, size, face in blocks:
        for text in texts:
            down += size * LEADING * shrunk
            yield Line(text, left + width / 2, down - size * 0.26 * shrunk, size * shrunk, face)
        down += gap * shrunk


def ways(text: str) -> list[list[str]]:
    """A text on one line, or on two, parted at a blank or behind a hyphen."""
    cuts = [place + (text[place] == "-") for place in range(1, len(text) - 1) if text[place] in " -"]
    return [[text], *([text[:cut].strip(), text[cut:].strip()] for cut in cuts)]


def fitting(choices: list[list[str]], width: float, most: float, face: str) -> tuple[list[str], float, str]:
    """The lines that can be set largest, and their size; most: in millimetres. Two lines must earn their room."""
    sized = [(min(most, width / max(length(text, face) for text in texts)), texts) for texts in choices]
    size, texts = max(sized, key=lambda one: one[0] / (1 if len(one[1]) == 1 else 1.35))
    if size >= SMALLEST:
        return texts, size, face
    return [cut_short(text, width / SMALLEST, face) for text in texts], SMALLEST, face


def cut_short(text: str, width: float, face: str) -> str:
    if length(text, face) <= width:
        return text
    while text and length(f"{text}…", face) > width:
        text = text[:-1]
    return f"{text}…"


def length(text: str, face: str) -> float:
    """Width of a text in sizes of its type."""
    add_faces()
    return max(0.01, pdfmetrics.stringWidth(text, face, 1))


@functools.cache
def add_faces() -> None:
    for face in (PLAIN, BOLD):
        pdfmetrics.registerFont(TTFont(face, face_file(face)))


def face_file(face: str) -> str:
    return str(Path(reportlab.__file__).parent / "fonts" / f"{face}.ttf")
