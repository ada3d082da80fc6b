"""Undercut and reinforcement by UW-35 of Section VIII Division 1, in inches.

Undercut and the first two rows of the reinforcement were read second hand (scribd.com, documents 478544200 and
460592937). The other rows are from memory; those of butt joints up to 2 in are the same in 46 CFR 56.70-15.
"""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest

from seamtag.core import numbers
from tests.reference.plan_limits import Rows, bounds, exact, is_in, limit, value

UNDERCUT = "min(1/32, 0.1*t)"
UNDERCUT_MM = "min(0.8, 0.1*t)"

# First two rows second hand, the others from memory.
BUTT: Rows = [("from", "0", "3/32"), ("from", "3/32", "1/8"), ("after", "3/16", "5/32"), ("after", "1/2", "3/16"),
              ("after", "1", "1/4"), ("after", "5", "5/16")]  # fmt: skip
OTHER: Rows = [
    ("from", "0", "1/32"), ("from", "3/32", "1/16"), ("after", "3/16", "3/32"), ("after", "1", "1/8"),
    ("after", "2", "5/32"), ("after", "3", "7/32"), ("after", "4", "1/4"), ("after", "5", "5/16"),
]  # fmt: skip

# 46 CFR 56.70-15, 350 to 750 degF, up to 2 in.
MARINE: Rows = [("from", "0", "3/32"), ("after", "1/8", "1/8"), ("after", "3/16", "5/32"), ("after", "1/2", "3/16"),
                ("after", "1", "1/4")]  # fmt: skip


@pytest.mark.source("UW-35")
@pytest.mark.parametrize(
    ("thickness", "most"),
    [("1/8", "0.0125"), ("1/4", "0.025"), ("0.312", "0.0312"), ("5/16", "0.03125"), ("0.313", "0.03125"),
     ("1/2", "0.03125"), ("2", "0.03125")],
)  # fmt: skip
def test_undercut_is_a_tenth_of_the_thickness_up_to_a_thirty_second(thickness: str, most: str) -> None:
    assert value(UNDERCUT, t=thickness) == Decimal(most)


@pytest.mark.source("UW-35")
@pytest.mark.parametrize(("thickness", "most"), [("6", "0.6"), ("7.9", "0.79"), ("8", "0.8"), ("8.1", "0.8")])
def test_undercut_in_millimetres(thickness: str, most: str) -> None:
    assert value(UNDERCUT_MM, t=thickness) == Decimal(most)


@pytest.mark.source("UW-35")
@pytest.mark.parametrize(
    ("typed", "good"),
    [("0", True), ("1/64", True), (".025", True), (".0251", False), ("1/32", False)],
)
def test_undercut_of_a_quarter_inch_plate_is_judged(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("0", UNDERCUT, t="1/4")) is good


@pytest.mark.source("UW-35")
@pytest.mark.parametrize(
    ("thickness", "butt", "other"),
    [
        ("1/16", "3/32", "1/32"), ("0.09374", "3/32", "1/32"), ("3/32", "1/8", "1/16"), ("3/16", "1/8", "1/16"),
        # From memory:
        ("0.188", "5/32", "3/32"), ("1/2", "5/32", "3/32"), ("0.501", "3/16", "3/32"), ("1", "3/16", "3/32"),
        ("1.001", "1/4", "1/8"), ("2", "1/4", "1/8"), ("2.001", "1/4", "5/32"), ("3", "1/4", "5/32"),
        ("3.001", "1/4", "7/32"), ("4", "1/4", "7/32"), ("4.001", "1/4", "1/4"), ("5", "1/4", "1/4"),
        ("5.001", "5/16", "5/16"), ("8", "5/16", "5/16"),
    ],
)  # fmt: skip
def test_reinforcement_as_uw_35_is_tabulated(
    thickness: str, butt: str, other: str, checked: Callable[[int], None]
) -> None:
    assert Fraction(limit(BUTT, thickness)) == exact(butt)
    assert Fraction(limit(OTHER, thickness)) == exact(other)
    checked(2)


@pytest.mark.source("UW-35")
@pytest.mark.parametrize("rows", [BUTT, OTHER], ids=["butt", "other"])
def test_more_thickness_never_allows_less(rows: Rows, checked: Callable[[int], None]) -> None:
    found = [limit(rows, numbers.shown_inches(Decimal(marks) / 64)) for marks in range(1, 64 * 6)]
    assert all(before <= after for before, after in pairwise(found))
    checked(len(found))


@pytest.mark.source("UW-35")
def test_butt_joints_are_as_in_the_marine_table_but_for_the_first_edge(checked: Callable[[int], None]) -> None:
    """UW-35 goes on to 1/8 from 3/32 on, the marine table only past 1/8; elsewhere up to 2 in they are the same."""
    for marks in range(1, 257):
        thickness = numbers.shown_inches(Decimal(marks) / 128, 128)
        same = limit(BUTT, thickness) == limit(MARINE, thickness)
        assert same is not (12 <= marks <= 16)
    checked(256)
