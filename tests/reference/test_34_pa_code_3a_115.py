"""Hydrostatic test in the field by 34 Pa. Code 3a.115(a): psi and degF (casetext.com, through November 2024)."""

from decimal import Decimal

import pytest

from tests.reference.plan_limits import bounds, is_in, value

# kind 1: boilers; 2: locomotives; 3: glass-lined; 4: vessels of Section VIII Division 1 made after 1999.
FACTOR = "(1.25 if kind == 2 else 1 if kind == 3 else 1.3 if kind == 4 else 1.5)"
TEST = f"P*{FACTOR}"
CEILING = f"1.06*P*{FACTOR}"


@pytest.mark.source("34 Pa. Code 3a.115")
@pytest.mark.parametrize(
    ("kind", "test", "ceiling"),
    [("1", "225", "238.5"), ("2", "187.5", "198.75"), ("3", "150", "159"), ("4", "195", "206.7")],
)
def test_pressure_and_its_ceiling_at_150_psi(kind: str, test: str, ceiling: str) -> None:
    assert value(TEST, P="150", kind=kind) == Decimal(test)
    assert value(CEILING, P="150", kind=kind) == Decimal(ceiling)


@pytest.mark.source("34 Pa. Code 3a.115")
@pytest.mark.parametrize(
    ("typed", "good"),
    [("224.9", False), ("225", True), ("238", True), ("238.5", True), ("238.6", False), ("240", False)],
)
def test_the_pressure_read_is_never_more_than_106_per_cent_of_the_test_pressure(typed: str, good: bool) -> None:
    assert is_in(typed, bounds(TEST, CEILING, P="150", kind="1")) is good


@pytest.mark.source("34 Pa. Code 3a.115")
@pytest.mark.parametrize(
    ("typed", "good"), [("69.9", False), ("70", True), ("100.1", True), ("120", True), ("120.1", False)]
)
def test_water_is_between_70_and_120_degf(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("70", "120")) is good
