"""General tolerances by ISO 2768-1, in millimetres (scribd.com, document 585640440, and fabriqax.com; second hand).

Of class c the first sheet prints 0.15 and 0.2 for the two smallest ranges, the second 0.2 and 0.3, which agrees with
the standard as remembered and is taken here.
"""

from decimal import Decimal

import pytest

from seamtag.core import formula
from tests.reference.plan_limits import Rows, bounds, is_in, sides, value

EDGES = ["3", "6", "30", "120", "400", "1000", "2000"]
LINEAR = {
    "f": ["0.05", "0.05", "0.1", "0.15", "0.2", "0.3", "0.5", ""],
    "m": ["0.1", "0.1", "0.2", "0.3", "0.5", "0.8", "1.2", "2"],
    "c": ["0.2", "0.3", "0.5", "0.8", "1.2", "2", "3", "4"],
    "v": ["", "0.5", "1", "1.5", "2.5", "4", "6", "8"],
}
ANGULAR_EDGES = ["10", "50", "120", "400"]
# Class m, by the shorter leg, in minutes.
ANGULAR = ["60", "30", "20", "10", "5"]


def rows_of(grade: str) -> Rows:
    """The columns from 0.5 to 4000; where the sheet is empty and past its end, a figure that no plan has."""
    starts = [("from", "0.5"), *(("after", edge) for edge in EDGES)]
    cells = zip(starts, LINEAR[grade], strict=True)
    return [
        *((reached, edge, cell or "not_tabulated") for (reached, edge), cell in cells),
        ("after", "4000", "not_tabulated"),
    ]


CASES = [(grade, at, cell) for grade, cells in LINEAR.items() for at, cell in sides(EDGES, cells)]


@pytest.mark.source("ISO 2768-1")
@pytest.mark.parametrize(("grade", "length", "most"), [case for case in CASES if case[2]])
def test_a_length_has_its_tolerance_on_both_sides_of_every_edge(grade: str, length: str, most: str) -> None:
    assert value("table('linear', L)", {"linear": rows_of(grade)}, L=length) == Decimal(most)


@pytest.mark.source("ISO 2768-1")
@pytest.mark.parametrize(
    ("grade", "length"),
    [
        *((grade, at) for grade, at, cell in CASES if not cell),
        ("v", "0.5"),
        ("f", "3000"),
        ("m", "4000.1"),
        ("c", "5000"),
    ],
)
def test_where_the_sheet_is_empty_or_ends_there_is_no_limit_and_no_verdict(grade: str, length: str) -> None:
    tables = {"linear": rows_of(grade)}
    with pytest.raises(formula.MissingValueError):
        value("table('linear', L)", tables, L=length)
    assert bounds("L - table('linear', L)", "", tables, L=length).reason == "limit not known: no not_tabulated"


@pytest.mark.source("ISO 2768-1")
@pytest.mark.parametrize("grade", list(LINEAR))
def test_below_half_a_millimetre_the_table_has_not_begun(grade: str) -> None:
    with pytest.raises(formula.FormulaError, match="begins above"):
        value("table('linear', L)", {"linear": rows_of(grade)}, L="0.49")


@pytest.mark.source("ISO 2768-1")
@pytest.mark.parametrize(
    ("typed", "good"), [("250.5", True), ("249.5", True), ("250.51", False), ("249.49", False), ("250", True)]
)
def test_a_medium_length_of_250_is_within_half_a_millimetre(typed: str, good: bool) -> None:
    found = bounds("L - table('linear', L)", "L + table('linear', L)", {"linear": rows_of("m")}, L="250")
    assert is_in(typed, found) is good


@pytest.mark.source("ISO 2768-1")
@pytest.mark.parametrize(("leg", "minutes"), [*sides(ANGULAR_EDGES, ANGULAR), ("1", "60"), ("5000", "5")])
def test_an_angle_has_its_tolerance_by_the_shorter_leg(leg: str, minutes: str) -> None:
    rows: Rows = [
        ("from", "0", "60"),
        ("after", "10", "30"),
        ("after", "50", "20"),
        ("after", "120", "10"),
        ("after", "400", "5"),
    ]
    assert value("table('angle', L)", {"angle": rows}, L=leg) == Decimal(minutes)
