"""A plan as a workbook: out and in again without loss, and every fault with its sheet, row and column."""

import io
import random
import shutil
import subprocess
import time
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

import openpyxl
import pytest
import yaml
from click.testing import CliRunner
from openpyxl.worksheet.worksheet import Worksheet

from seamtag.cli import main
from seamtag.plans import workbook
from seamtag.plans.files import document_of, file_of, template
from seamtag.plans.reading import PlanError, read
from tests.server.made_plans import made

DEMO = Path(__file__).parents[2] / "seed_demo"
GENERATED = 60


@pytest.mark.parametrize("name", ["wetback_plan.yaml", "receiver_plan.yaml"])
@pytest.mark.parametrize("form", ["plan.xlsx", "plan.yaml"])
def test_the_demonstrations_plans_go_out_and_in_again(name: str, form: str) -> None:
    document = read((DEMO / name).read_text())
    assert document_of(file_of(document, form)) == document


def test_made_plans_go_out_and_in_again() -> None:
    dice = random.Random(20261125)
    items = 0
    for _ in range(GENERATED):
        document = read(yaml.safe_dump(made(dice)))
        assert document_of(file_of(document, "plan.xlsx")) == document
        assert document_of(file_of(document, "plan.yaml")) == document
        items += sum(len(step["items"]) for step in document["steps"])
    print(f"\n{GENERATED} plans, {items} items: each the same after XLSX and after YAML")


@pytest.mark.skipif(shutil.which("soffice") is None, reason="no LibreOffice here: apt-get install libreoffice-calc")
def test_a_workbook_saved_by_libreoffice(tmp_path: Path) -> None:
    document = read((DEMO / "wetback_plan.yaml").read_text())
    (tmp_path / "plan.xlsx").write_bytes(workbook.write(document))
    (tmp_path / "out").mkdir()
    command = ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile", "--convert-to", "xlsx",
               "--outdir", str(tmp_path / "out"), str(tmp_path / "plan.xlsx")]  # fmt: skip
    subprocess.run(command, check=True, capture_output=True, timeout=180)
    assert document_of((tmp_path / "out" / "plan.xlsx").read_bytes()) == document


def test_the_template_is_a_plan_without_faults_and_with_hints(tmp_path: Path) -> None:
    file = tmp_path / "begin.xlsx"
    made_it = CliRunner().invoke(main, ["plan", "template", str(file)])
    assert made_it.exit_code == 0
    checked = CliRunner().invoke(main, ["plan", "check", str(file)])
    assert checked.output.endswith("no faults.\n")
    sheets = openpyxl.load_workbook(file)
    for table in workbook.SHEETS:
        for place, column in enumerate(table.columns, 1):
            head = sheets[table.name].cell(1, place)
            assert (head.value, head.comment and head.comment.text) == (column.name, column.hint)


Breaking = Callable[[openpyxl.Workbook], str]
"""Breaks a workbook, and says the beginning of the fault it must give."""


def cell_at(sheet: Worksheet, column: str, row: int) -> openpyxl.cell.Cell:
    places = {cell.value: cell.column for cell in sheet[1]}
    found = sheet.cell(row, places[column])
    assert isinstance(found, openpyxl.cell.Cell)
    return found


def a_missing_column(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        table = dice.choice([t for t in workbook.SHEETS if t.name != "Tables"])
        column = dice.choice([c for c in table.columns if c.needed])
        sheet = book[table.name]
        sheet.delete_cols(cell_at(sheet, column.name, 1).column)
        return f"sheet {table.name}, row 1: the column '{column.name}' is missing"

    return broken


def a_missing_sheet(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        table = dice.choice(workbook.SHEETS)
        del book[table.name]
        return f"sheet {table.name} is missing"

    return broken


def a_misspelt_column(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        cell = cell_at(book["Items"], "gauge", 1)
        cell.value = "gage"
        return f"sheet Items, row 1, column {cell.column_letter}: no column is named 'gage'. Is 'gauge' meant?"

    return broken


def merged_cells(dice: random.Random) -> Breaking:
    row = dice.randint(2, 10)

    def broken(book: openpyxl.Workbook) -> str:
        book["Items"].merge_cells(f"C{row}:D{row + 1}")
        return f"sheet Items, cells C{row}:D{row + 1} are merged. Unmerge them"

    return broken


def a_formula(dice: random.Random) -> Breaking:
    row = dice.randint(2, 12)

    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Items"], "upper", row).value = "=1/8+1/16"
        return f"sheet Items, row {row}, column upper: holds a formula of the spreadsheet (=1/8+1/16)."

    return broken


def a_date(dice: random.Random) -> Breaking:
    row = dice.randint(2, 5)

    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Steps"], "number", row).value = date(2026, 10, 4)
        return f"sheet Steps, row {row}, column number: holds a date (2026-10-04"

    return broken


def a_code_twice(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        book["Items"].append([cell.value for cell in book["Items"][2]])
        return "sheet Items, row 2: step receipt, item heat: there are two items with this code"

    return broken


def an_unknown_step(dice: random.Random) -> Breaking:
    row = dice.randint(2, 12)

    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Items"], "step", row).value = "weldd"
        return f"sheet Items, row {row}, column step: there is no step 'weldd'"

    return broken


def an_unknown_name(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Items"], "lower", 4).value = "thick - 0.01"
        return "sheet Items, row 4: step receipt, item t_meas, lower: 'thick' is no figure of the plan or the piece"

    return broken


def a_word_that_is_none(dice: random.Random) -> Breaking:
    column, word = dice.choice([("kind", "look"), ("binds", "asme"), ("rule", "strict"), ("photo", "maybe")])

    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Items"], column, 4).value = word
        return f"sheet Items, row 4: step receipt, item t_meas, {column}: '{word}' is not one of"

    return broken


def neither_yes_nor_no(dice: random.Random) -> Breaking:
    row = 5

    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Plan"], "says", row).value = "maybe"
        return f"sheet Plan, row {row}, column says: 'maybe' is not yes or no"

    return broken


def a_point_that_is_none(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Steps"], "points", 3).value = "the inspector looks"
        return "sheet Steps, row 3, column points: 'the inspector looks' cannot be read."

    return broken


def stations_that_are_none(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Items"], "stations", 5).value = "all round"
        return "sheet Items, row 5, column stations: 'all round' cannot be read."

    return broken


def a_circle_of_derived_items(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        rows = {cell_at(book["Items"], "code", row).value: row for row in range(2, book["Items"].max_row + 1)}
        for code, formula in (("gap", "even + 1"), ("even", "gap * 2")):
            for column, value in (("kind", "derived"), ("formula", formula), ("stations", None)):
                cell_at(book["Items"], column, rows[code]).value = value
        return "circle between derived items: fit.gap -> fit.even -> fit.gap"

    return broken


def a_step_that_waits_for_itself(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Steps"], "not before", 3).value = "weld of piece"
        return (
            "sheet Steps, row 3: step fit, not_before: waits for itself: fit of long seam -> weld of long seam -> fit"
        )

    return broken


def a_weld_ahead_of_its_fit_up(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        fit, weld = ([cell.value for cell in book["Steps"][row]] for row in (3, 4))
        for row, values in ((3, weld), (4, fit)):
            for place, value in enumerate(values, 1):
                book["Steps"].cell(row, place).value = value
        for row in (3, 4):
            cell_at(book["Steps"], "not before", row).value = None
        return "sheet Steps, row 3: step weld, kinds: 'girth seam' is welded here, ahead of its own fit-up in step fit"

    return broken


def a_figure_twice(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        book["Figures"].append(["job", "t_shell", "in", "again"])
        return f"sheet Figures, row {book['Figures'].max_row}, column name: 't_shell' stands twice"

    return broken


def an_unknown_uom(dice: random.Random) -> Breaking:
    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Items"], "uom", 4).value = "inch"
        return "sheet Items, row 4: step receipt, item t_meas, uom: there is no uom 'inch'"

    return broken


def an_unreadable_limit(dice: random.Random) -> Breaking:
    text = dice.choice(["t_shell +", "1 7/8", "min(", "t_shell ** 9", "sin(t_shell)"])

    def broken(book: openpyxl.Workbook) -> str:
        cell_at(book["Items"], "lower", 4).value = text
        return "sheet Items, row 4: step receipt, item t_meas, lower:"

    return broken


KINDS = [
    a_missing_column, a_missing_sheet, a_misspelt_column, merged_cells, a_formula, a_date, a_code_twice,
    an_unknown_step, an_unknown_name, a_word_that_is_none, a_point_that_is_none, stations_that_are_none,
    neither_yes_nor_no, a_circle_of_derived_items,
    a_step_that_waits_for_itself, a_weld_ahead_of_its_fit_up, a_figure_twice, an_unknown_uom, an_unreadable_limit,
]  # fmt: skip
ALONE = {a_missing_sheet, a_missing_column, a_circle_of_derived_items, a_step_that_waits_for_itself, an_unknown_uom,
         a_weld_ahead_of_its_fit_up}  # fmt: skip
"""Seen only where the rest is whole, or what makes other faults invisible."""


def faults_of(content: bytes) -> list[str]:
    with pytest.raises(PlanError) as raised:
        document_of(content)
    return raised.value.faults


@pytest.mark.parametrize("number", range(96))
def test_broken_workbooks(number: int) -> None:
    """Each fault is named with its place; where a workbook has several, all of them at once."""
    dice = random.Random(number)
    first = KINDS[number % len(KINDS)]
    others = [kind for kind in KINDS if kind not in ALONE and kind is not first]
    more = [] if first in ALONE else dice.sample(others, dice.randint(0, 2))
    book = openpyxl.load_workbook(io.BytesIO(template()))
    wanted = [kind(dice)(book) for kind in (first, *more)]
    out = io.BytesIO()
    book.save(out)
    faults = faults_of(out.getvalue())
    for start in wanted:
        if not any(fault.startswith(start) for fault in faults) and not hidden(start, wanted):
            raise AssertionError(f"no fault begins '{start}' in:\n" + "\n".join(faults))


def hidden(start: str, wanted: list[str]) -> bool:
    """Whether two breaks fell on the same cell, or one took away what the other is about."""
    row = start.split(":")[0].split(", column")[0]
    return sum(other.split(":")[0].split(", column")[0] == row for other in wanted) > 1


def test_too_many_rows_are_refused_quickly() -> None:
    book = openpyxl.Workbook(write_only=True)
    sheet = book.create_sheet("Items")
    for number in range(50_000):
        sheet.append(["fit", f"item_{number}", "x", "visual"])
    out = io.BytesIO()
    book.save(out)
    begun = time.perf_counter()
    assert faults_of(out.getvalue()) == ["sheet Items has more than 20,000 rows. Delete the empty ones."]
    assert time.perf_counter() - begun < 5


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"PK\x03\x04 and nothing that follows", "This is no workbook that can be read (XLSX)."),
        (b"PK" + bytes(1000), "This is no workbook that can be read (XLSX)."),
        (b"PK" + bytes(10_000_001), "The workbook is larger than 10 MB."),
    ],
)
def test_what_is_no_workbook(content: bytes, says: str) -> None:
    assert faults_of(content)[0].startswith(says)


def test_a_workbook_that_unpacks_to_far_more_is_refused() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/worksheets/sheet1.xml", bytes(120_000_000))
    assert faults_of(out.getvalue())[0].startswith("The workbook is far larger inside than a plan is.")


def test_a_number_typed_as_a_number_is_read_as_it_is_seen() -> None:
    book = openpyxl.load_workbook(io.BytesIO(template()))
    cell_at(book["Items"], "lower", 4).value = 0.1
    cell_at(book["Stages"], "number", 2).value = 1
    out = io.BytesIO()
    book.save(out)
    document = document_of(out.getvalue())
    assert document["steps"][0]["items"][2]["lower"]["text"] == "0.1"
    assert document["stages"][0]["number"] == "1"
