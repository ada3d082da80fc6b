"""Tables on paper: lines instead of boxes, heads that come again on each page, and rows of which nothing is cut off."""

from collections.abc import Sequence
from dataclasses import dataclass

from seamtag.review.paper import LEADING, LINE, Paper, columns_of, wrapped
from seamtag.review.report import Column, Line, shown
from seamtag.tags.layout import BOLD, PLAIN

HEAD, MAIN, BELOW = 6.4, 7.8, 7.0
"""Sizes of type: of a column's head, of the first field of a cell, of those under it."""
GAP = 8.0
"""Between two columns."""
PAD = 3.2
"""Over and under the lines of a row."""


@dataclass(frozen=True)
class Typed:
    """A line of type in a cell."""

    text: str
    size: float
    face: str

    @property
    def high(self) -> float:
        return self.size * LEADING


class Table:
    """A table under way on paper. title: over its heads where it goes on on another page."""

    def __init__(self, paper: Paper, columns: Sequence[Column], title: str) -> None:
        self.paper, self.columns, self.title = paper, columns, title
        self.places = columns_of([column.share for column in columns], paper.left, paper.width, GAP)
        wide = zip(columns, self.places, strict=True)
        self.heads = [wrapped(column.head, place[1], HEAD, BOLD) for column, place in wide]

    @property
    def head_high(self) -> float:
        return max(len(head) for head in self.heads) * HEAD * LEADING + 2 * PAD

    def head(self) -> None:
        """The names of the columns, their last lines level, over a line."""
        self.paper.skip(self.head_high)
        lowest = self.paper.down - PAD - 1
        for column, (left, wide), head in zip(self.columns, self.places, self.heads, strict=True):
            for place, text in enumerate(reversed(head)):
                x = left + wide if column.right else left
                self.paper.text(x, lowest - place * HEAD * LEADING, text, HEAD, BOLD, column.right)
        self.paper.rule(self.paper.down, LINE)

    def cells(self, line: Line) -> list[list[Typed]]:
        return [list(cell_of(column, line, wide)) for column, (_, wide) in zip(self.columns, self.places, strict=True)]

    def high(self, line: Line) -> float:
        return high_of(self.cells(line))

    def row(self, line: Line) -> None:
        """A row; on the next page where this one has no room. One that is longer than a page goes over several."""
        cells = self.cells(line)
        high = high_of(cells)
        if high > self.paper.room and (high <= self.paper.whole - self.head_high - MAIN * 3 or self.paper.room < 60):
            self.go_on()
        while high_of(cells) > self.paper.room:
            self.draw([first_of(cell, self.paper.room - 2 * PAD) for cell in cells])
            cells = [cell[len(first_of(cell, self.paper.room - 2 * PAD)) :] for cell in cells]
            self.go_on()
        self.draw(cells)
        self.paper.skip(high_of(cells))
        self.paper.rule(self.paper.down)

    def go_on(self) -> None:
        self.paper.turn()
        self.paper.skip(MAIN * LEADING)
        self.paper.text(self.paper.left, self.paper.down - 2, self.title, MAIN, BOLD)
        self.head()

    def draw(self, cells: Sequence[Sequence[Typed]]) -> None:
        for column, (left, wide), cell in zip(self.columns, self.places, cells, strict=True):
            down = self.paper.down + PAD
            for place, one in enumerate(cell):
                # All first lines of a row stand on one baseline, whatever their size.
                down += MAIN * LEADING if place == 0 else one.high
                x = left + wide if column.right else left
                self.paper.text(x, down - MAIN * (LEADING - 1), one.text, one.size, one.face, column.right)


def cell_of(column: Column, line: Line, wide: float) -> list[Typed]:
    face = BOLD if column.bold else PLAIN
    found = [Typed(text, MAIN, face) for text in wrapped(shown(line[column.main]), wide, MAIN, face)]
    for name in column.below:
        found += [Typed(text, BELOW, PLAIN) for text in wrapped(shown(line[name]), wide, BELOW)]
    return found


def high_of(cells: Sequence[Sequence[Typed]]) -> float:
    return max(sum(one.high for one in cell) for cell in cells) + 2 * PAD


def first_of(cell: Sequence[Typed], room: float) -> Sequence[Typed]:
    """As many of a cell's lines as have room."""
    high, many = 0.0, 0
    for one in cell:
        high += one.high
        if high > room:
            break
        many += 1
    return cell[:many]
