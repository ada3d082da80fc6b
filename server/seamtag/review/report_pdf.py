"""The report of a day on paper, A4 or Letter: black on white, with the head of the chain at the foot of each page."""

from collections.abc import Sequence

from seamtag.review import report as words
from seamtag.review.paper import HEAVY, LEADING, LINE, SIDE, TOP, Paper, columns_of, wrapped
from seamtag.review.report import COUNTS, Report, Section
from seamtag.review.tables import Table
from seamtag.tags.layout import BOLD, PLAIN

TITLE, UNDER, SECTION, TEXT, SMALL, FIGURE = 20.0, 11.0, 11.0, 8.0, 7.0, 17.0
"""Sizes of type."""
BETWEEN = 20.0
"""Over the head of a section."""


def report_pdf(report: Report, paper: str = "a4") -> bytes:
    """paper: 'a4' or 'letter'."""
    sheet = Paper(paper)
    opening(sheet, report)
    contents = Contents(sheet, report.sections)
    for section in report.sections:
        contents.note(draw_section(sheet, section))
    closing(sheet, report)
    contents.draw()
    title = f"{words.TITLE} {report.day.name}, {report.shop}"
    return sheet.drawn(title, lambda one, page, pages: each_page(one, report, page, pages))


def opening(sheet: Paper, report: Report) -> None:
    """Shop, day and shift, when it was made, and the counts."""
    sheet.down = SIDE
    sheet.paragraph(report.shop, UNDER, BOLD)
    sheet.skip(TITLE * 1.25)
    sheet.text(sheet.left, sheet.down, words.TITLE, TITLE, BOLD)
    sheet.skip(6)
    sheet.paragraph(report.when(), UNDER)
    sheet.skip(2)
    sheet.paragraph(report.made_line(), TEXT)
    if not report.ended:
        sheet.paragraph(words.NOT_ENDED, TEXT, BOLD)
    sheet.skip(8)
    sheet.rule(sheet.down, HEAVY)
    draw_counts(sheet, report)
    sheet.rule(sheet.down)
    sheet.skip(3)
    sheet.paragraph(words.AS_OF, SMALL)
    sheet.skip(12)


def draw_counts(sheet: Paper, report: Report) -> None:
    baseline = sheet.down + FIGURE * 1.25
    for (name, label), (left, _) in zip(COUNTS, columns_of([1] * len(COUNTS), sheet.left, sheet.width, 8), strict=True):
        sheet.text(left, baseline, str(report.counts[name]), FIGURE, BOLD)
        sheet.text(left, baseline + 1.4 * SMALL * LEADING, label, SMALL)
    sheet.skip(FIGURE * 1.25 + 2 * SMALL * LEADING + 2)


class Contents:
    """The sections with how many lines each has and the page it begins on, in two columns."""

    ROW = SMALL * 1.75

    def __init__(self, sheet: Paper, sections: Sequence[Section]) -> None:
        self.sheet, self.sections = sheet, sections
        self.first = sheet.pages[-1]
        self.pages: list[int] = []
        sheet.text(sheet.left, sheet.down, words.CONTENTS, TEXT, BOLD)
        sheet.skip(6)
        self.top = sheet.down
        self.half = (len(sections) + 1) // 2
        sheet.rule(sheet.down, LINE)
        sheet.skip(self.half * self.ROW)

    def note(self, page: int) -> None:
        self.pages.append(page)

    def draw(self) -> None:
        """On the first page, now that the pages are known."""
        pages, self.sheet.pages = self.sheet.pages, [self.first]
        places = columns_of([1, 1], self.sheet.left, self.sheet.width, 24)
        for number, (section, page) in enumerate(zip(self.sections, self.pages, strict=True)):
            column, row = divmod(number, self.half)
            left, wide = places[column]
            baseline = self.top + (row + 0.72) * self.ROW
            self.sheet.text(left, baseline, section.kind.title, SMALL)
            self.sheet.text(left + wide * 0.8, baseline, str(len(section.lines)), SMALL, BOLD, right=True)
            self.sheet.text(left + wide, baseline, f"page {page}", SMALL, right=True)
            self.sheet.rule(self.top + (row + 1) * self.ROW, left=left, right=left + wide)
        self.sheet.pages = pages


def draw_section(sheet: Paper, section: Section) -> int:
    """A section with its head, note and table; the page it begins on. Its head never stands alone at a page's end."""
    kind = section.kind
    table = Table(sheet, kind.columns, words.CONTINUED.format(title=kind.title))
    note = wrapped(kind.note, sheet.width, SMALL)
    top = BETWEEN + SECTION * LEADING + len(note) * SMALL * LEADING + 4
    first = table.head_high + min(table.high(section.lines[0]), 150) if section.lines else TEXT * 2
    sheet.need(top + first)
    if sheet.down > TOP:
        sheet.skip(BETWEEN)
    page = len(sheet.pages)
    sheet.skip(SECTION)
    sheet.text(sheet.left, sheet.down, kind.title, SECTION, BOLD)
    sheet.text(sheet.right, sheet.down, str(len(section.lines)), SECTION, BOLD, right=True)
    sheet.skip(4)
    if note and section.lines:
        sheet.paragraph(kind.note, SMALL)
    sheet.skip(2)
    sheet.rule(sheet.down, HEAVY)
    if not section.lines:
        sheet.skip(3)
        sheet.paragraph(words.NONE, TEXT)
        return page
    table.head()
    for line in section.lines:
        table.row(line)
    return page


def closing(sheet: Paper, report: Report) -> None:
    """Where the supervisor signs, the cautions, and how the paper is held against the chain; kept together."""
    texts = [words.CAUTIONS, words.TO_VERIFY, *([words.LETTERS] if sheet.lacks else [])]
    high = sum(len(wrapped(text, sheet.width, SMALL)) * SMALL * LEADING + 5 for text in texts)
    sheet.need(BETWEEN + SECTION * LEADING + 52 + high)
    sheet.skip(BETWEEN + SECTION)
    sheet.text(sheet.left, sheet.down, words.SIGNED, SECTION, BOLD)
    sheet.skip(34)
    places = columns_of([4, 5, 2.5], sheet.left, sheet.width, 14)
    for label, (left, wide) in zip((words.NAME, words.SIGNATURE, words.DATE), places, strict=True):
        sheet.rule(sheet.down, LINE, left, left + wide)
        sheet.text(left, sheet.down + SMALL * LEADING, label, SMALL)
    sheet.skip(18)
    for text in texts:
        sheet.skip(5)
        sheet.paragraph(text, SMALL)


def each_page(sheet: Paper, report: Report, page: int, pages: int) -> None:
    """From the second page on whose report it is, on top; at the foot the head of the chain and the page's number."""
    if page > 1:
        day = report.day
        named = f"{words.TITLE} {day.name}" + (f", shift {day.shift}" if day.shift else "")
        sheet.text(sheet.left, SIDE * 0.8, named, SMALL)
        shop = wrapped(report.shop, sheet.width * 0.6, SMALL)[:1]
        sheet.text(sheet.right, SIDE * 0.8, shop[0] if shop else "", SMALL, right=True)
        sheet.rule(SIDE * 0.8 + 4)
    foot = sheet.high - SIDE * 0.72
    sheet.rule(foot - SMALL * 1.5)
    number = words.PAGE.format(page=page, pages=pages)
    sheet.text(sheet.left, foot, report.head_line(), 6.2, PLAIN)
    sheet.text(sheet.right, foot, number, SMALL, BOLD, right=True)
