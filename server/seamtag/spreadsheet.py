"""Tables out of a workbook (XLSX) or a CSV file, each row with its place, so that a fault can say where it stands.

A cell is what is typed in it, as text. What would be read otherwise than it is seen (dates, merged cells, formulas of
the spreadsheet) is a fault, not a guess.

openpyxl is imported where it is used: it would make every start of the server and of a command longer.
"""

import csv
import io
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

MOST_BYTES = 10_000_000
MOST_UNPACKED = 100_000_000
MOST_ROWS = 20_000
SMALL = 5_000_000
"""Unpacked; the rows of a workbook that is larger are counted before it is read as a whole."""
MOST_COLUMNS = 100
LAST_COLUMN, LAST_ROW = 16_384, 1_048_576
MOST_MERGED = 10_000
"""Cells under merged ranges: each of them is made anew when a workbook is opened."""
MOST_CHARACTERS = 5_000
"""Of one cell."""


class SheetError(ValueError):
    """faults: every fault of the file, a sentence each, with its place."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


@dataclass(frozen=True)
class Column:
    """A column of a table: the name on top, and a hint for whoever fills it in. needed: without it nothing is read."""

    name: str
    hint: str = ""
    needed: bool = False
    wide: int = 14


@dataclass(frozen=True)
class Row:
    """A row's texts by column, '' where a cell is empty. place: `sheet Items, row 12`."""

    place: str
    cells: Mapping[str, str]

    def __getitem__(self, column: str) -> str:
        return self.cells.get(column, "")

    def at(self, column: str) -> str:
        return f"{self.place}, column {column}"


@dataclass(frozen=True)
class Table:
    """A sheet of a workbook, or a CSV file. name '' where it is a file of its own."""

    name: str
    columns: tuple[Column, ...]

    @property
    def place(self) -> str:
        return f"sheet {self.name}" if self.name else "the list"


def read_workbook(content: bytes, tables: Sequence[Table], faults: list[str]) -> dict[str, list[Row]]:
    """The rows of each table by its name; adds what is wrong to faults. Raises SheetError where it is no workbook."""
    workbook = opened(content)
    named = {sheet.title.strip().lower(): sheet for sheet in workbook.worksheets}
    found: dict[str, list[Row]] = {}
    for table in tables:
        sheet = named.pop(table.name.lower(), None)
        if sheet is None:
            near = get_close_matches(table.name.lower(), named, 1, 0.6)
            looks = f"; is '{named[near[0]].title}' meant?" if near else ""
            faults.append(f"sheet {table.name} is missing{looks}")
            continue
        found[table.name] = list(rows_of(table, grid_of(table, sheet, faults), faults))
    return found


def read_list(content: bytes, name: str, table: Table, faults: list[str]) -> list[Row]:
    """The rows of a list on its own: the first sheet of a workbook, or CSV (comma or semicolon, UTF-8)."""
    if len(content) > MOST_BYTES:
        raise SheetError([f"{name or 'The file'} is larger than {MOST_BYTES // 1_000_000} MB. Is it the right file?"])
    if content[:2] == b"PK":
        sheet = opened(content).worksheets[0]
        table = Table(sheet.title, table.columns)
        return list(rows_of(table, grid_of(table, sheet, faults), faults))
    return list(rows_of(Table("", table.columns), csv_grid(content), faults))


def opened(content: bytes) -> "Workbook":
    """Raises SheetError where the bytes are no workbook, or one that unpacks to more than a plan can be."""
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    if len(content) > MOST_BYTES:
        raise SheetError([f"The workbook is larger than {MOST_BYTES // 1_000_000} MB. Is it the right file?"])
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            unpacked = sum(part.file_size for part in packed.infolist())
        if unpacked > MOST_UNPACKED:
            raise SheetError(["The workbook is far larger inside than a plan is. Delete empty rows and sheets."])
        if unpacked > SMALL:
            count_rows(content)
        count_merged(content)
        workbook = load_workbook(io.BytesIO(content), rich_text=False)
    except SheetError:
        raise
    except (zipfile.BadZipFile, InvalidFileException, KeyError, ValueError, TypeError, OSError, SyntaxError) as error:
        reason = str(error).split("\n")[0][:100]
        raise SheetError([f"This is no workbook that can be read (XLSX). Save it again as XLSX. ({reason})"]) from None
    if not workbook.worksheets:
        raise SheetError(["The workbook has no sheet."])
    refuse([sheet.title for sheet in workbook.worksheets if sheet.max_row > MOST_ROWS])
    return workbook


def count_rows(content: bytes) -> None:
    """Raises SheetError where a sheet has more rows than a plan or a joint list can have."""
    from openpyxl import load_workbook

    workbook = load_workbook(io.BytesIO(content), read_only=True)
    try:
        refuse(
            [
                sheet.title
                for sheet in workbook.worksheets
                if any(count > MOST_ROWS for count, _ in enumerate(sheet.iter_rows(values_only=True, max_col=1), 1))
            ]
        )
    finally:
        workbook.close()


def count_merged(content: bytes) -> None:
    """Raises SheetError where ranges of merged cells are so large that merely to open them fills the memory."""
    merged = 0
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        for name in packed.namelist():
            if not name.startswith("xl/") or not name.endswith(".xml"):
                continue
            with packed.open(name) as part:
                for _, element in ElementTree.iterparse(part):
                    if element.tag.rpartition("}")[2] == "mergeCell":
                        merged += cells_under(element.get("ref", ""))
                    element.clear()
            if merged > MOST_MERGED:
                raise SheetError(["Far too many cells are merged. Undo the merging, and bring the workbook in again."])


def cells_under(ref: str) -> int:
    """How many cells a range such as A1:C3 holds; whole rows and columns count to the end of a sheet."""
    from openpyxl.utils import range_boundaries

    left, top, right, bottom = range_boundaries(ref)
    return ((right or LAST_COLUMN) - (left or 1) + 1) * ((bottom or LAST_ROW) - (top or 1) + 1)


def refuse(sheets: list[str]) -> None:
    """Raises SheetError with the names of sheets that are too long."""
    if sheets:
        raise SheetError([f"sheet {name} has more than {MOST_ROWS:,} rows. Delete the empty ones." for name in sheets])


def grid_of(table: Table, sheet: "Worksheet", faults: list[str]) -> list[list[str]]:
    """The texts of a sheet's cells by row; merged cells and such are faults, and read as empty."""
    for merged in sheet.merged_cells.ranges:
        faults.append(f"{table.place}, cells {merged.coord} are merged. Unmerge them and fill in each.")
    grid: list[list[str]] = []
    for number, row in enumerate(sheet.iter_rows(max_col=min(sheet.max_column, MOST_COLUMNS)), 1):
        head = grid[0] if grid else []
        texts = []
        for place, cell in enumerate(row):
            column = head[place] if place < len(head) and head[place] else letter_of(place)
            text, fault = text_of(cell.value, cell.data_type)
            if fault:
                faults.append(f"{table.place}, row {number}, column {column}: {fault}")
            texts.append(text)
        grid.append(texts)
    return grid


def text_of(value: Any, kind: str) -> tuple[str, str]:
    """What is seen in a cell as text, and what is wrong with it."""
    match value:
        case None:
            return "", ""
        case bool():
            return ("yes" if value else "no"), ""
        case datetime() | date() | time():
            return "", f"holds a date ({value}). Type it as text: begin with an apostrophe, as in '4.10."
        case str():
            if kind == "f":
                return "", f"holds a formula of the spreadsheet ({value[:40]}). Put in its result as text."
            if kind == "e":
                return "", f"holds an error ({value})."
            if len(value) > MOST_CHARACTERS:
                return "", f"is longer than {MOST_CHARACTERS:,} characters."
            return value.strip(), ""
        case float() if value.is_integer() and abs(value) < 1e15:
            return str(int(value)), ""
        case float():
            return format_number(value), ""
        case int():
            return str(value), ""
    return "", "holds something that is no text and no number."


def format_number(value: float) -> str:
    """As a spreadsheet shows it: 15 digits at most, no exponent."""
    text = f"{value:.15g}"
    if "e" not in text:
        return text
    return f"{value:.20f}".rstrip("0").rstrip(".")


def csv_grid(content: bytes) -> list[list[str]]:
    """Raises SheetError where the bytes are no CSV in UTF-8."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise SheetError([f"line {line}: the list is not UTF-8. Save it as 'CSV UTF-8'."]) from None
    if "\0" in text:
        raise SheetError(["The list is neither a workbook (XLSX) nor CSV."])
    first = text.split("\n", 1)[0]
    separator = max(",;\t", key=first.count)
    try:
        grid = list(csv.reader(io.StringIO(text), delimiter=separator))
    except csv.Error as error:
        raise SheetError([f"The list is no CSV that can be read: {error}."]) from None
    if len(grid) > MOST_ROWS:
        raise SheetError([f"The list has more than {MOST_ROWS:,} rows. Delete the rows that are empty."])
    return [[cell.strip() for cell in row[:MOST_COLUMNS]] for row in grid]


def rows_of(table: Table, grid: list[list[str]], faults: list[str]) -> Iterator[Row]:
    """The rows below the first that has text, by the columns named in it; empty rows are passed over."""
    top = next((number for number, row in enumerate(grid) if any(row)), None)
    if top is None:
        faults.append(f"{table.place} is empty. Its first row names the columns: {names(table.columns)}.")
        return
    places = columns_at(table, grid[top], top + 1, faults)
    for number, row in enumerate(grid[top + 1 :], top + 2):
        cells = {name: row[place] for name, place in places.items() if place < len(row)}
        if any(cells.values()):
            yield Row(f"{table.place}, row {number}", cells)


def columns_at(table: Table, head: Sequence[str], number: int, faults: list[str]) -> dict[str, int]:
    """Where each column stands, by the names in a row; names that are not known, twice or missing are faults."""
    known = {column.name.lower(): column.name for column in table.columns}
    found: dict[str, int] = {}
    for place, text in enumerate(head):
        name = " ".join(text.lower().split())
        letter = letter_of(place)
        if not name:
            continue
        if name not in known:
            near = get_close_matches(name, known, 1, 0.6)
            looks = f" Is '{known[near[0]]}' meant?" if near else f" There are {names(table.columns)}."
            faults.append(f"{table.place}, row {number}, column {letter}: no column is named '{text[:40]}'.{looks}")
        elif known[name] in found:
            faults.append(f"{table.place}, row {number}, column {letter}: '{name}' stands twice")
        else:
            found[known[name]] = place
    missing = [column.name for column in table.columns if column.needed and column.name not in found]
    faults += [f"{table.place}, row {number}: the column '{name}' is missing" for name in missing]
    return found


def letter_of(place: int) -> str:
    """What a spreadsheet calls a column, by its place from 0."""
    from openpyxl.utils import get_column_letter

    return get_column_letter(place + 1)


def names(columns: Sequence[Column]) -> str:
    return ", ".join(column.name for column in columns)


def write_workbook(tables: Sequence[tuple[Table, Sequence[Mapping[str, str]]]]) -> bytes:
    """A workbook with a sheet a table: names on top, with their hints as notes; every cell is text."""
    from openpyxl import Workbook
    from openpyxl.comments import Comment
    from openpyxl.styles import Alignment, Font

    workbook = Workbook()
    workbook.remove(workbook.active)  # type: ignore[arg-type]
    for table, rows in tables:
        sheet = workbook.create_sheet(table.name)
        for place, column in enumerate(table.columns, 1):
            head = sheet.cell(1, place, column.name)
            head.font = Font(bold=True)
            if column.hint:
                head.comment = Comment(column.hint, "Seamtag", width=360, height=120)
            sheet.column_dimensions[letter_of(place - 1)].width = column.wide
        for number, row in enumerate(rows, 2):
            for place, column in enumerate(table.columns, 1):
                text = row.get(column.name, "")
                if text:
                    cell = sheet.cell(number, place)
                    cell.value, cell.data_type, cell.number_format = text, "s", "@"
                    cell.alignment = Alignment(wrap_text="\n" in text, vertical="top")
        sheet.freeze_panes = "A2"
    out = io.BytesIO()
    workbook.save(out)
    return out.getvalue()
