"""The report of a day on paper, A4 or Letter: black on white, with the head of the chain at the foot of each page."""

from seamtag.review import report as words
from seamtag.review.paper import HEAVY, LEADING, LINE, SIDE, TOP, Paper, columns_of, length, wrapped
from seamtag.review.report import COUNTS, STANDING_COUNTS, Report, Section
from seamtag.review.tables import Table
from seamtag.tags.layout import BOLD, PLAIN

TITLE, UNDER, SECTION, TEXT, SMALL, FIGURE = 20.0, 11.0, 11.0, 8.0, 7.0, 17.0
"""Sizes of type."""
BETWEEN = 20.0
"""Over the head of a section."""
COUNT = 0.9
"""The width of a count of the day, in that of one of what stood."""


def report_pdf(report: Report, paper: str = "a4") -> bytes:
    """paper: 'a4' or 'letter'."""
    sheet = Paper(paper)
    opening(sheet, report)
    contents = Contents(sheet, report)
    for section in report.sections:
        contents.note(draw_section(sheet, section, report.scope(section.kind)))
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
    """Counts under what they are of: the day or shift, or what stood when the report was made."""
    labels = [*COUNTS, *STANDING_COUNTS]
    places = columns_of([COUNT] * len(COUNTS) + [1] * len(STANDING_COUNTS), sheet.left, sheet.width, 8)
    sheet.skip(SMALL * 1.7)
    for scope, (left, _) in ((report.of_day(), places[0]), (words.AS_IT_STOOD, places[len(COUNTS)])):
        sheet.text(left, sheet.down, scope, SMALL, BOLD)
    baseline = sheet.down + FIGURE * 1.25
    rows = [wrapped(label, wide, SMALL) for (_, label), (_, wide) in zip(labels, places, strict=True)]
    for (name, _), (left, _), row in zip(labels, places, rows, strict=True):
        sheet.text(left, baseline, str(report.counts[name]), FIGURE, BOLD)
        for number, text in enumerate(row, 1):
            sheet.text(left, baseline + (number + 0.4) * SMALL * LEADING, text, SMALL)
    sheet.skip(FIGURE * 1.25 + (max(map(len, rows)) + 1) * SMALL * LEADING + 2)


class Contents:
    """The sections with how many lines each has and the page it begins on, in two columns: what is of the day or shift,
    and what stood when the report was made."""

    ROW = SMALL * 1.75

    def __init__(self, sheet: Paper, report: Report) -> None:
        self.sheet, self.sections = sheet, report.sections
        self.first = sheet.pages[-1]
        self.pages: list[int] = []
        self.places = columns_of([1, 1], sheet.left, sheet.width, 24)
        sheet.text(sheet.left, sheet.down, words.CONTENTS, TEXT, BOLD)
        sheet.skip(SMALL * 1.7)
        for scope, (left, wide) in zip((report.of_day(), words.AS_IT_STOOD), self.places, strict=True):
            sheet.text(left, sheet.down, scope, SMALL)
            sheet.rule(sheet.down + 4, LINE, left, left + wide)
        sheet.skip(4)
        self.top = sheet.down
        of_day = sum(section.kind.of_day for section in self.sections)
        sheet.skip(max(of_day, len(self.sections) - of_day) * self.ROW)

    def note(self, page: int) -> None:
        self.pages.append(page)

    def draw(self) -> None:
        """On the first page, now that the pages are known."""
        pages, self.sheet.pages = self.sheet.pages, [self.first]
        rows = [0, 0]
        for section, page in zip(self.sections, self.pages, strict=True):
            column = 0 if section.kind.of_day else 1
            left, wide = self.places[column]
            top = self.top + rows[column] * self.ROW
            baseline = top + 0.72 * self.ROW
            self.sheet.text(left, baseline, section.kind.title, SMALL)
            self.sheet.text(left + wide * 0.8, baseline, str(len(section.lines)), SMALL, BOLD, right=True)
            self.sheet.text(left + wide, baseline, f"page {page}", SMALL, right=True)
            self.sheet.rule(top + self.ROW, left=left, right=left + wide)
            rows[column] += 1
        self.sheet.pages = pages


def draw_section(sheet: Paper, section: Section, scope: str) -> int:
    """A section with its head, note and table; the page it begins on. Its head never stands alone at a page's end.
    scope: what it tells of."""
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
    many = str(len(section.lines))
    sheet.text(sheet.right, sheet.down, many, SECTION, BOLD, right=True)
    sheet.text(sheet.right - length(many, BOLD) * SECTION - 6, sheet.down, scope, SMALL, right=True)
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
