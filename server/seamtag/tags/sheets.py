"""Labels as a PDF in their true size: sheets to print and peel or cut, and single labels of a label printer."""

import io
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import TypeVar

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from seamtag.core.tagcode import link_of
from seamtag.tags import layout
from seamtag.tags.layout import BOLD, PLAIN, QUIET, Layout, Words, laid_out, modules, outlines
from seamtag.tags.stickers import gauge_link

Thing = TypeVar("Thing")

INCH = 25.4
CUT = 2.0
"""Length of a mark to cut by, its middle on the corner of a label."""


@dataclass(frozen=True)
class Sheet:
    """A page of labels in millimetres. left, top: of the first label. gap: between columns and between rows."""

    id: str
    says: str
    page: tuple[float, float]
    columns: int
    rows: int
    label: tuple[float, float]
    left: float = 0.0
    top: float = 0.0
    gap: tuple[float, float] = (0.0, 0.0)

    @property
    def many(self) -> int:
        return self.columns * self.rows

    def corner(self, place: int) -> tuple[float, float]:
        """Top left corner of a label by its place from 0, row by row."""
        row, column = divmod(place, self.columns)
        across, down = self.label[0] + self.gap[0], self.label[1] + self.gap[1]
        return self.left + column * across, self.top + row * down


A4, LETTER = (210.0, 297.0), (215.9, 279.4)


def centred(id: str, says: str, page: tuple[float, float], columns: int, rows: int, label: tuple[float, float],
            gap: tuple[float, float] = (0.0, 0.0)) -> Sheet:  # fmt: skip
    """A grid in the middle of its page."""
    left = (page[0] - columns * label[0] - (columns - 1) * gap[0]) / 2
    top = (page[1] - rows * label[1] - (rows - 1) * gap[1]) / 2
    return Sheet(id, says, page, columns, rows, label, round(left, 3), round(top, 3), gap)


def single(id: str, says: str, width: float, height: float) -> Sheet:
    return Sheet(id, says, (width, height), 1, 1, (width, height))


SHEETS = {sheet.id: sheet for sheet in (
    centred("a4-3x8", "A4, 3 × 8 of 63.5 × 33.9 mm", A4, 3, 8, (63.5, 33.9), (2.5, 0.0)),
    centred("a4-2x5", "A4, 2 × 5 of 99.1 × 57 mm", A4, 2, 5, (99.1, 57.0), (2.5, 0.0)),
    centred("letter-3x10", "Letter, 3 × 10 of 66.7 × 25.4 mm", LETTER, 3, 10, (66.7, 25.4), (3.1, 0.0)),
    centred("letter-2x5", "Letter, 2 × 5 of 101.6 × 50.8 mm", LETTER, 2, 5, (101.6, 50.8), (4.8, 0.0)),
    single("50x25", "one a page, 50 × 25 mm", 50.0, 25.0),
    single("76x51", "one a page, 76 × 51 mm", 76.0, 51.0),
    single("100x50", "one a page, 100 × 50 mm", 100.0, 50.0),
    single("2x1in", "one a page, 2 × 1 in", 2 * INCH, 1 * INCH),
    single("4x2in", "one a page, 4 × 2 in", 4 * INCH, 2 * INCH),
)}  # fmt: skip


def tags_pdf(host: str, tags: Sequence[Words], sheet: Sheet, start: int = 1, cuts: bool = False) -> bytes:
    """The labels of tags. start: place of the first, from 1, on a sheet that is part used. cuts: marks to cut by."""
    out = io.BytesIO()
    paper = begun(out, sheet, "Tags")
    for corner, words in placed(paper, tags, sheet, start, cuts):
        matrix = modules(link_of(host, words.code))
        draw_layout(paper, sheet, corner, laid_out(*sheet.label, len(matrix), words), [matrix] * 2)
    paper.save()
    return out.getvalue()


def gauges_pdf(host: str, gauges: Sequence[tuple[str, str]], sheet: Sheet, start: int = 1, cuts: bool = False) -> bytes:
    """Stickers of gauges, each an id and a name: one symbol, the id over the name beside it."""
    out = io.BytesIO()
    paper = begun(out, sheet, "Gauge stickers")
    for corner, (gauge, name) in placed(paper, gauges, sheet, start, cuts):
        matrix = modules(gauge_link(host, gauge))
        draw_layout(paper, sheet, corner, sticker(*sheet.label, len(matrix), gauge, name), [matrix])
    paper.save()
    return out.getvalue()


def sticker(width: float, height: float, across: int, gauge: str, name: str) -> Layout:
    whole = across + 2 * QUIET
    room = min(height - 2 * layout.MARGIN, (width - 2 * layout.MARGIN) * 0.55) / whole
    module = max(1, int(room / layout.DOT + 1e-9)) * layout.DOT if room >= layout.DOT else room
    side = whole * module
    left, wide = layout.MARGIN + side, width - side - 2 * layout.MARGIN
    lines = []
    down = height / 2 - height * 0.05
    for texts, size, face in (layout.fitting(layout.ways(gauge), wide, height * 0.22, BOLD),
                              layout.fitting(layout.ways(name), wide, height * 0.11, PLAIN)):  # fmt: skip
        for text in texts:
            lines.append(layout.Line(text, left + wide / 2, down, size, face))
            down += size * layout.LEADING
        down += height * 0.06
    top = (height - side) / 2 + QUIET * module
    return Layout(module, ((layout.MARGIN + QUIET * module, top),), tuple(lines))


def begun(out: io.BytesIO, sheet: Sheet, title: str) -> Canvas:
    layout.add_faces()
    size = (sheet.page[0] * mm, sheet.page[1] * mm)
    # Without a first font of ours it would name one that is not in the file. (Its stub says that it is a number.)
    paper = Canvas(out, pagesize=size, initialFontName=PLAIN, pageCompression=1)  # type: ignore[arg-type]
    paper.setTitle(title)
    paper.setCreator("Seamtag")
    # A print is to be as large as it says; a printer's 'fit to page' makes every label miss its place.
    paper.setViewerPreference("PrintScaling", "None")
    return paper


def placed(
    paper: Canvas, things: Iterable[Thing], sheet: Sheet, start: int, cuts: bool
) -> Iterator[tuple[tuple[float, float], Thing]]:
    """Each thing with the top left corner of its label, page after page."""
    left = iter(things)
    first = start - 1
    while chunk := list(islice(left, sheet.many - first)):
        if cuts:
            draw_cuts(paper, sheet)
        yield from ((sheet.corner(first + place), thing) for place, thing in enumerate(chunk))
        paper.showPage()
        first = 0


def draw_layout(
    paper: Canvas, sheet: Sheet, corner: tuple[float, float], made: Layout, symbols: list[layout.Matrix]
) -> None:
    """A label's symbols, drawn in modules, and its lines; a PDF counts upward."""
    x, y = corner
    high = sheet.page[1]
    for (across, down), matrix in zip(made.symbols, symbols, strict=True):
        paper.saveState()
        paper.translate((x + across) * mm, (high - y - down) * mm)
        paper.scale(made.module * mm, -made.module * mm)
        path = paper.beginPath()
        for loop in outlines(matrix):
            path.moveTo(*loop[0])
            for point in loop[1:]:
                path.lineTo(*point)
            path.close()
        paper.drawPath(path, stroke=0, fill=1)
        paper.restoreState()
    for line in made.lines:
        paper.setFont(line.face, line.size * mm)
        paper.drawCentredString((x + line.middle) * mm, (high - y - line.baseline) * mm, line.text)


def draw_cuts(paper: Canvas, sheet: Sheet) -> None:
    """A cross of hairlines at each corner of each label, short enough to keep off what is printed."""
    paper.setLineWidth(0.25)
    half = CUT / 2
    for place in range(sheet.many):
        x, y = sheet.corner(place)
        for right in (x, x + sheet.label[0]):
            for down in (y, y + sheet.label[1]):
                up = sheet.page[1] - down
                paper.line((right - half) * mm, up * mm, (right + half) * mm, up * mm)
                paper.line(right * mm, (up - half) * mm, right * mm, (up + half) * mm)
