"""Offset of abutting edges by UW-33 of Section VIII Division 1.

Second hand: as publicly tabulated on a quick-reference card (slideshare.net, number 258051662), agreeing with the
millimetre table at piping-ndt.blogsky.com, post 515. A: longitudinal joints; B: circumferential joints, and C and D.
The code edition in force decides; this shows that the engine works out what such a table says.
"""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest

from seamtag.core import numbers
from tests.reference.plan_limits import Rows, limit, sides

INCHES: dict[str, Rows] = {
    "A": [("from", "0", "t/4"), ("after", "1/2", "1/8"), ("after", "2", "min(t/16, 3/8)")],
    "B": [
        ("from", "0", "t/4"),
        ("after", "3/4", "3/16"),
        ("after", "3/2", "t/8"),
        ("after", "2", "min(t/8, 3/4)"),
    ],
}
MILLIMETRES: dict[str, Rows] = {
    "A": [("from", "0", "t/4"), ("after", "13", "3"), ("after", "51", "min(t/16, 10)")],
    "B": [("from", "0", "t/4"), ("after", "19", "5"), ("after", "38", "t/8"), ("after", "51", "min(t/8, 19)")],
}


@pytest.mark.source("UW-33")
@pytest.mark.parametrize(
    ("thickness", "category", "most"),
    [
        ("3/8", "A", "0.09375"), ("1/2", "A", "0.125"), ("5/8", "A", "0.125"), ("5/8", "B", "0.15625"),
        ("3/4", "B", "0.1875"), ("1", "A", "0.125"), ("1", "B", "0.1875"), ("1 1/2", "B", "0.1875"),
        ("1 3/4", "A", "0.125"), ("1 3/4", "B", "0.21875"), ("2", "A", "0.125"), ("2", "B", "0.25"),
        ("3", "A", "0.1875"), ("3", "B", "0.375"), ("8", "A", "0.375"), ("8", "B", "0.75"),
        ("3/8", "B", "0.09375"), ("1/2", "B", "0.125"), ("3/4", "A", "0.125"), ("1 1/2", "A", "0.125"),
        ("6", "A", "0.375"), ("6", "B", "0.75"), ("5 15/16", "A", "0.37109375"), ("5 15/16", "B", "0.7421875"),
    ],
)  # fmt: skip
def test_offset_as_uw_33_is_tabulated(thickness: str, category: str, most: str) -> None:
    assert limit(INCHES[category], thickness) == Decimal(most)


def by_hand(t: Fraction, category: str) -> Fraction:
    """The card's rows once more, in fractions."""
    if category == "A":
        return t / 4 if t <= Fraction(1, 2) else Fraction(1, 8) if t <= 2 else min(t / 16, Fraction(3, 8))
    if t <= Fraction(3, 4):
        return t / 4
    if t <= Fraction(3, 2):
        return Fraction(3, 16)
    return t / 8 if t <= 2 else min(t / 8, Fraction(3, 4))


@pytest.mark.source("UW-33")
@pytest.mark.parametrize("category", ["A", "B"])
def test_offset_at_every_mark_of_a_rule_up_to_ten_inches(category: str, checked: Callable[[int], None]) -> None:
    for marks in range(1, 641):
        found = limit(INCHES[category], numbers.shown_inches(Decimal(marks) / 64))
        assert Fraction(found) == by_hand(Fraction(marks, 64), category)
    checked(640)


@pytest.mark.source("UW-33")
@pytest.mark.parametrize("category", ["A", "B"])
def test_offset_in_inches_never_jumps_and_never_falls(category: str, checked: Callable[[int], None]) -> None:
    """In inches the table is continuous in the thickness (worked out from the table itself)."""
    found = [limit(INCHES[category], numbers.shown_inches(Decimal(marks) / 64)) for marks in range(1, 64 * 14)]
    assert all(Decimal(0) <= after - before <= Decimal(1) / 256 for before, after in pairwise(found))
    checked(len(found))


@pytest.mark.source("UW-33")
@pytest.mark.parametrize(
    ("category", "edge"), [("A", "1/2"), ("A", "2"), ("A", "6"), ("B", "3/4"), ("B", "1 1/2"), ("B", "2"), ("B", "6")]
)
def test_offset_in_inches_is_the_same_on_both_sides_of_each_edge(category: str, edge: str) -> None:
    (at, _), (past, _) = sides([edge], ["", ""], by="0.000000001")
    assert abs(limit(INCHES[category], past) - limit(INCHES[category], at)) < Decimal("0.000000001")


@pytest.mark.source("UW-33")
@pytest.mark.parametrize(
    ("thickness", "category", "most"),
    [
        ("12", "A", "3"), ("13", "A", "3.25"), ("13.001", "A", "3"), ("19", "A", "3"), ("38", "A", "3"),
        ("51", "A", "3"), ("51.2", "A", "3.2"), ("80", "A", "5"), ("160", "A", "10"), ("160.1", "A", "10"),
        ("12", "B", "3"), ("13", "B", "3.25"), ("13.2", "B", "3.3"), ("19", "B", "4.75"), ("19.001", "B", "5"),
        ("38", "B", "5"), ("38.4", "B", "4.8"), ("51", "B", "6.375"), ("51.2", "B", "6.4"), ("152", "B", "19"),
        ("152.1", "B", "19"),
    ],
)  # fmt: skip
def test_offset_as_the_millimetre_table_has_it(thickness: str, category: str, most: str) -> None:
    assert limit(MILLIMETRES[category], thickness) == Decimal(most)


@pytest.mark.source("UW-33")
@pytest.mark.parametrize(
    ("category", "edge", "jump"),
    [
        ("A", "13", "-0.25"), ("A", "19", "0"), ("A", "38", "0"), ("A", "51", "0.1875"),
        ("B", "13", "0"), ("B", "19", "0.25"), ("B", "38", "-0.25"), ("B", "51", "0"),
    ],
)  # fmt: skip
def test_offset_in_millimetres_jumps_where_the_rounded_column_does(category: str, edge: str, jump: str) -> None:
    """The millimetre column is rounded, not converted, so it is kept as it is tabulated."""
    (at, _), (past, _) = sides([edge], ["", ""], by="0.000000001")
    found = limit(MILLIMETRES[category], past) - limit(MILLIMETRES[category], at)
    assert abs(found - Decimal(jump)) < Decimal("0.000000001")


@pytest.mark.source("UW-33")
def test_the_two_columns_are_not_conversions_of_each_other() -> None:
    """A plate of 0.51 in is 12.954 mm: past the edge in inches, before it in millimetres."""
    assert limit(INCHES["A"], "0.51") * Decimal("25.4") == Decimal("3.175")
    assert limit(MILLIMETRES["A"], "12.954") == Decimal("3.2385")
