"""Ends of fire tubes by 12 NYCRR 14-9.1, in inches: t of the tube, T of the tube sheet (casetext.com)."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from seamtag.core import verdict
from tests.reference.plan_limits import asked, bounds, close, is_in, value, word

PROJECTION = ("max(t, 1/8)", "min(2*t, 1/4)")
RECESS = ("max(t, 1/8)", "T/3")
RECESS_OF_A_THICK_TUBE = ("max(t, 1/8)", "T if t >= 0.150 else T/3")


@pytest.mark.source("12 NYCRR 14-9.1")
@pytest.mark.parametrize(
    ("wall", "least", "most"),
    [
        ("0.105", "0.125", "0.21"), ("0.134", "0.134", "0.25"), ("0.15", "0.15", "0.25"), ("0.125", "0.125", "0.25"),
        ("0.095", "0.125", "0.19"), ("0.120", "0.125", "0.24"), ("0.126", "0.126", "0.25"), ("1/16", "0.125", "0.125"),
        ("1/4", "0.25", "0.25"), ("0.180", "0.18", "0.25"),
    ],
)  # fmt: skip
def test_projection_without_a_recess(wall: str, least: str, most: str) -> None:
    found = bounds(*PROJECTION, t=wall)
    assert (found.lower, found.upper) == (Decimal(least), Decimal(most))


@pytest.mark.source("12 NYCRR 14-9.1")
@pytest.mark.parametrize(
    ("typed", "good"),
    [("7/64", False), ("1/8", True), ("3/16", True), (".21", True), (".2101", False), ("7/32", False), ("1/4", False)],
)
def test_projection_of_a_tube_of_105_thousandths_is_judged(typed: str, good: bool) -> None:
    assert is_in(typed, bounds(*PROJECTION, t="0.105")) is good


@pytest.mark.source("12 NYCRR 14-9.1")
@pytest.mark.parametrize("wall", ["0.062", "0.251"])
def test_where_the_rule_leaves_no_room_nothing_is_judged(wall: str) -> None:
    """Under 1/16 in and over 1/4 in of wall the least projection is above the most."""
    assert word("1/8", bounds(*PROJECTION, t=wall)) == verdict.UNJUDGED


@pytest.mark.source("12 NYCRR 14-9.1")
def test_projection_at_every_thousandth_of_wall(checked: Callable[[int], None]) -> None:
    for wall in range(63, 251):
        found = bounds(*PROJECTION, t=f"0.{wall:03}")
        t = Fraction(wall, 1000)
        assert found.lower is not None
        assert found.upper is not None
        assert Fraction(found.lower) == max(t, Fraction(1, 8))
        assert Fraction(found.upper) == min(2 * t, Fraction(1, 4))
    checked(2 * 188)


@pytest.mark.source("12 NYCRR 14-9.1")
@pytest.mark.parametrize(
    ("wall", "sheet", "least", "most"),
    [
        ("0.120", "1/2", "0.125", Fraction(1, 6)), ("0.134", "1/2", "0.134", Fraction(1, 6)),
        ("0.149", "1/2", "0.149", Fraction(1, 6)), ("0.150", "1/2", "0.150", Fraction(1, 2)),
        ("0.105", "3/8", "0.125", Fraction(1, 8)), ("0.120", "3/4", "0.125", Fraction(1, 4)),
    ],
)  # fmt: skip
def test_depth_of_a_recess(wall: str, sheet: str, least: str, most: Fraction) -> None:
    found = bounds(*RECESS_OF_A_THICK_TUBE, t=wall, T=sheet)
    assert found.lower == Decimal(least)
    assert found.upper is not None
    assert close(found.upper, most)


@pytest.mark.source("12 NYCRR 14-9.1")
@pytest.mark.parametrize(
    ("typed", "good"),
    [("1/8", True), ("0.124", False), ("0.1666", True), ("0.1667", False), ("5/32", True), ("11/64", False)],
)
def test_depth_of_a_recess_is_judged(typed: str, good: bool) -> None:
    assert is_in(typed, bounds(*RECESS, t="0.120", T="1/2")) is good


@pytest.mark.source("12 NYCRR 14-9.1")
@pytest.mark.parametrize(("wall", "capped"), [("0.149", True), ("0.150", False), ("0.151", False)])
def test_the_third_of_the_sheet_is_asked_only_of_tubes_under_150_thousandths(wall: str, capped: bool) -> None:
    """As two items, one with both limits and one with the lower alone, each under its own condition."""
    assert asked("t < 0.150", t=wall) is capped
    assert asked("t >= 0.150", t=wall) is not capped


@pytest.mark.source("12 NYCRR 14-9.1")
@pytest.mark.parametrize(
    ("typed", "good"), [("0.130", False), ("0.120", True), ("0.1201", False), ("1/8", False), ("7/64", True)]
)
def test_projection_with_a_recess_is_not_over_the_wall(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("", "t", t="0.120")) is good


@pytest.mark.source("12 NYCRR 14-9.1")
@pytest.mark.parametrize(("recessed", "least", "most"), [("0", "0.125", "0.24"), ("1", "0", "0.12")])
def test_one_item_can_hold_both_forms(recessed: str, least: str, most: str) -> None:
    lower, upper = "max(t, 1/8) if recessed == 0 else 0", "min(2*t, 1/4) if recessed == 0 else t"
    assert value(lower, t="0.120", recessed=recessed) == Decimal(least)
    assert value(upper, t="0.120", recessed=recessed) == Decimal(most)
