"""Pages filled from top to bottom, drawn as a PDF once it is known how many there are. Sizes are points (1/72 in)."""

import functools
import io
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from seamtag.tags import sheets
from seamtag.tags.layout import PLAIN, Matrix, add_faces, outlines

SIZES = {"a4": sheets.A4, "letter": sheets.LETTER}
"""Of paper, in millimetres."""
SIDE, TOP, BOTTOM = 15 * mm, 21 * mm, 19 * mm
"""Margins: of the sides, and what is kept for the running head and the foot."""
LEADING = 1.28
HAIR, LINE, HEAVY = 0.35, 0.7, 1.4
"""Widths of lines."""
BREAK_BEHIND = "-/.,;:_@"
"""Where a word that is longer than its column is parted, if it can be."""
LACKING = "?"
NEAREST = {"Đ": "D", "đ": "d", "Ħ": "H", "ħ": "h", "Ŧ": "T", "ŧ": "t", "ı": "i", "‐": "-", "‑": "-", "′": "'", "″": '"'}
"""Letters and signs that have no decomposition in Unicode, by what comes nearest to them."""

Draw = Callable[[Canvas, float], None]
"""Draws something of a page. Takes the page's height: a PDF counts upward."""


@dataclass
class Page:
    """What stands on a page, drawn in order."""

    drawn: list[Draw] = field(default_factory=list)


class Paper:
    """Pages under way. down: how far from the top of the page the next thing stands. lacks: whether some letter was
    not in the typeface."""

    def __init__(self, paper: str) -> None:
        add_faces()
        self.wide, self.high = (side * mm for side in SIZES[paper])
        self.left, self.right = SIDE, self.wide - SIDE
        self.pages = [Page()]
        self.down = TOP
        self.lacks = False

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def room(self) -> float:
        return self.high - BOTTOM - self.down

    @property
    def whole(self) -> float:
        """The height of a page that is still empty."""
        return self.high - BOTTOM - TOP

    def turn(self) -> None:
        """Go on to a new page."""
        self.pages.append(Page())
        self.down = TOP

    def need(self, height: float) -> bool:
        """Turn the page where it has no room for a height; whether it was turned."""
        if height <= self.room or self.down == TOP:
            return False
        self.turn()
        return True

    def skip(self, height: float) -> None:
        self.down += height

    def put(self, draw: Draw) -> None:
        self.pages[-1].drawn.append(draw)

    def text(self, x: float, baseline: float, text: str, size: float, face: str = PLAIN, right: bool = False) -> None:
        """A line of type. x: its left end, or its right end. baseline: from the top of the page."""
        self.lacks = self.lacks or printable(text, face).count(LACKING) > text.count(LACKING)
        self.put(typed(x, baseline, text, size, face, right))

    def rule(self, down: float, weight: float = HAIR, left: float | None = None, right: float | None = None) -> None:
        ends = self.left if left is None else left, self.right if right is None else right

        def draw(canvas: Canvas, high: float) -> None:
            canvas.setLineWidth(weight)
            canvas.line(ends[0], high - down, ends[1], high - down)

        self.put(draw)

    def box(self, left: float, top: float, side: float) -> None:
        """A square to tick."""

        def draw(canvas: Canvas, high: float) -> None:
            canvas.setLineWidth(LINE)
            canvas.rect(left, high - top - side, side, side)

        self.put(draw)

    def symbol(self, left: float, top: float, side: float, matrix: Matrix) -> None:
        """A QR symbol without its quiet zone."""

        def draw(canvas: Canvas, high: float) -> None:
            canvas.saveState()
            canvas.translate(left, high - top)
            canvas.scale(side / len(matrix), -side / len(matrix))
            path = canvas.beginPath()
            for loop in outlines(matrix):
                path.moveTo(*loop[0])
                for point in loop[1:]:
                    path.lineTo(*point)
                path.close()
            canvas.drawPath(path, stroke=0, fill=1)
            canvas.restoreState()

        self.put(draw)

    def paragraph(self, text: str, size: float, face: str = PLAIN, width: float | None = None) -> None:
        """A text over the width, at once below what stands there; kept together."""
        lines = wrapped(text, width or self.width, size, face)
        self.need(len(lines) * size * LEADING)
        for line in lines:
            self.down += size * LEADING
            self.text(self.left, self.down - size * (LEADING - 1), line, size, face)

    def drawn(self, title: str, each: Callable[["Paper", int, int], None]) -> bytes:
        """The PDF. each: adds to a page what stands on every one, by its number from 1 and the number of pages."""
        pages = self.pages
        for number in range(1, len(pages) + 1):
            self.pages = [pages[number - 1]]
            each(self, number, len(pages))
        self.pages = pages
        out = io.BytesIO()
        # Without a first font of ours it would name one that is not in the file. (Its stub says that it is a number.)
        canvas = Canvas(out, (self.wide, self.high), initialFontName=PLAIN, pageCompression=1)  # type: ignore[arg-type]
        canvas.setTitle(title)
        canvas.setCreator("Seamtag")
        for page in pages:
            for draw in page.drawn:
                draw(canvas, self.high)
            canvas.showPage()
        canvas.save()
        return out.getvalue()


def typed(x: float, baseline: float, text: str, size: float, face: str, right: bool) -> Draw:
    said = printable(text, face)

    def draw(canvas: Canvas, high: float) -> None:
        canvas.setFont(face, size)
        (canvas.drawRightString if right else canvas.drawString)(x, high - baseline, said)

    return draw


def wrapped(text: str, width: float, size: float, face: str = PLAIN) -> list[str]:
    """The lines of a text that fit a width; a word that is longer is parted, so that nothing is cut off."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        for part in parted(word, width / size, face):
            longer = f"{line} {part}" if line else part
            if not line or length(longer, face) <= width / size:
                line = longer
            else:
                lines.append(line)
                line = part
    return [*lines, line] if line else lines


def parted(word: str, most: float, face: str) -> Iterator[str]:
    """A word as it is, or in pieces no wider than a width (in sizes of its type)."""
    while length(word, face) > most:
        cut = 1
        while cut < len(word) and length(word[: cut + 1], face) <= most:
            cut += 1
        behind = max((word.rfind(sign, 0, cut) + 1 for sign in BREAK_BEHIND), default=0)
        cut = behind if behind > cut * 0.5 else cut
        yield word[:cut]
        word = word[cut:]
    if word:
        yield word


@functools.lru_cache(maxsize=20_000)
def length(text: str, face: str) -> float:
    """Width of a text in sizes of its type."""
    add_faces()
    return float(pdfmetrics.stringWidth(printable(text, face), face, 1))


@functools.lru_cache(maxsize=20_000)
def printable(text: str, face: str) -> str:
    """The text in letters that the typeface has: else the letter without its accent, else a question mark."""
    known = letters_of(face)
    return "".join(one if ord(one) in known else nearest(one, known) for one in text)


def nearest(letter: str, known: frozenset[int]) -> str:
    plain = NEAREST.get(letter) or unicodedata.normalize("NFKD", letter)[:1]
    if plain and ord(plain[0]) in known:
        return plain
    return "" if unicodedata.category(letter) in ("Mn", "Cf") else " " if letter.isspace() else LACKING


@functools.cache
def letters_of(face: str) -> frozenset[int]:
    add_faces()
    font: Any = pdfmetrics.getFont(face)
    return frozenset(code for code, glyph in font.face.charToGlyph.items() if glyph and code >= 32)


def columns_of(shares: Sequence[float], left: float, width: float, gap: float) -> list[tuple[float, float]]:
    """Left end and width of each column, with a gap between them."""
    free, whole = width - gap * (len(shares) - 1), sum(shares)
    found = []
    for share in shares:
        found.append((left, free * share / whole))
        left += free * share / whole + gap
    return found
