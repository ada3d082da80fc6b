"""The report of a day as a workbook: a sheet a section, numbers and times as such, and texts that stay texts."""

import io
from datetime import datetime
from decimal import Decimal
from typing import Any

from openpyxl import Workbook
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE
from openpyxl.styles import Alignment, Border, Font, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.header_footer import HeaderFooterItem, _HeaderFooterPart
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from seamtag.review import report as words
from seamtag.review.report import COUNTS, STANDING_COUNTS, Line, Report, Section, on_mark

MOMENT, TEXT, FRACTION = "yyyy-mm-dd hh:mm", "@", "# ??/??"
IN_UOM = ("value", "lower", "upper")
"""Fields that hold a number in the uom of their line."""
WRAP_FROM = 30
"""Texts in columns that are at least so many characters wide are set over several lines."""
MOST = 32_000
"""Characters of a cell; a spreadsheet takes 767 more."""
BELOW = Border(bottom=Side("thin"))


def report_xlsx(report: Report) -> bytes:
    workbook = Workbook()
    workbook.remove(workbook.active)  # type: ignore[arg-type]
    workbook.properties.title = f"{words.TITLE} {report.day.name}, {clean(report.shop)}"
    workbook.properties.creator = "Seamtag"
    about(workbook.create_sheet(words.TITLE), report)
    for section in report.sections:
        fill(workbook.create_sheet(section.kind.sheet), section)
    out = io.BytesIO()
    workbook.save(out)
    return out.getvalue()


def about(sheet: Worksheet, report: Report) -> None:
    """Shop, day, when it was made, head of the chain, counts and cautions."""
    day = report.day
    values = (report.shop, report.when(), day.shift or None, report.moment(day.start), report.moment(day.end + 1),
              report.made, report.zone.key, report.by, *report.head)  # fmt: skip
    rows: list[tuple[str, Any]] = list(zip(words.ABOUT, values, strict=True))
    for scope, counts in ((report.of_day(), COUNTS), (words.AS_IT_STOOD, STANDING_COUNTS)):
        rows += [("", None), (scope, None), *((label, report.counts[name]) for name, label in counts)]
    rows.append(("", None))
    for number, (label, value) in enumerate(rows, 1):
        put(sheet.cell(number, 1), label).font = Font(bold=True)
        put(sheet.cell(number, 2), value).alignment = Alignment(horizontal="left")
    texts = [words.AS_OF, words.CAUTIONS, words.TO_VERIFY]
    for number, text in enumerate([words.NOT_ENDED, *texts] if not report.ended else texts, len(rows) + 1):
        put(sheet.cell(number, 2), text).alignment = Alignment(wrap_text=True, vertical="top")
    sheet.column_dimensions["A"].width, sheet.column_dimensions["B"].width = 30, 90
    print_setup(sheet)


def fill(sheet: Worksheet, section: Section) -> None:
    fields = section.kind.fields
    for place, field in enumerate(fields, 1):
        head = put(sheet.cell(1, place), field.head)
        head.font, head.border = Font(bold=True), BELOW
        head.alignment = Alignment(wrap_text=True, vertical="bottom")
        sheet.column_dimensions[get_column_letter(place)].width = field.wide
    for row, line in enumerate(section.lines, 2):
        for place, field in enumerate(fields, 1):
            cell = put(sheet.cell(row, place), line[field.name])
            if as_fraction(line, field.name):
                cell.number_format = FRACTION
            cell.alignment = Alignment(wrap_text=field.wide >= WRAP_FROM, vertical="top")
    if not section.lines:
        put(sheet.cell(2, 1), words.NONE)
    sheet.freeze_panes = "A2"
    if section.lines:
        sheet.auto_filter.ref = f"A1:{get_column_letter(len(fields))}{len(section.lines) + 1}"
    sheet.print_title_rows = "1:1"
    print_setup(sheet)


def as_fraction(line: Line, name: str) -> bool:
    """Whether a number is shown as a fraction of an inch; it stays the number it is."""
    value = line[name]
    return name in IN_UOM and isinstance(value, Decimal) and value % 1 != 0 and on_mark(value, line["uom"])


def print_setup(sheet: Worksheet) -> None:
    """On a landscape page, as wide as it is, with its name and the number of pages at the foot."""
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.HeaderFooter.oddFooter = HeaderFooterItem(left=_HeaderFooterPart("&A"), right=_HeaderFooterPart("&P / &N"))


def put(cell: Any, value: Any) -> Any:
    """A value into a cell: a number or a time as such; a text as text, though it begins like a formula."""
    if isinstance(value, datetime):
        cell.value, cell.number_format = value.replace(tzinfo=None, microsecond=0), MOMENT
    elif isinstance(value, Decimal | int):
        cell.value = value
    elif value:
        cell.value = clean(value)
        cell.data_type, cell.number_format = "s", TEXT
    return cell


NO_CHARACTERS = {0xFFFE: " ", 0xFFFF: " "}
"""Code points that are no characters of XML, though Unicode counts them."""


def clean(text: str) -> str:
    """Without the characters that a workbook cannot hold."""
    return str(ILLEGAL_CHARACTERS_RE.sub(" ", text)).translate(NO_CHARACTERS)[:MOST]
