"""Preheat and heat treatment after welding of P-1 materials by 46 CFR 56.85-10 and its table, degF and inches.

carbon in per cent, t the wall. The rows of P-1 were read; others were not.
"""

from decimal import Decimal

import pytest

from tests.reference.plan_limits import asked, bounds, exact, is_in, value

PREHEAT = "175 if carbon > 0.30 and t > 1 else 50"
POST_HEAT_ASKED = "t > 3/4"
HOURS = "max(1, t)"


@pytest.mark.source("46 CFR 56.85-10")
@pytest.mark.parametrize(
    ("carbon", "wall", "least"),
    [
        ("0.28", "1 1/2", "50"), ("0.30", "1 1/2", "50"), ("0.301", "1 1/2", "175"), ("0.31", "1", "50"),
        ("0.31", "1.001", "175"), ("0.31", "1 1/64", "175"), ("0.35", "2", "175"), ("0.35", "1/2", "50"),
        ("0.30", "4", "50"), ("0.20", "1/4", "50"),
    ],
)  # fmt: skip
def test_preheat_asks_more_only_of_high_carbon_and_a_thick_wall(carbon: str, wall: str, least: str) -> None:
    assert value(PREHEAT, carbon=carbon, t=wall) == Decimal(least)
    assert is_in(least, bounds(PREHEAT, "", carbon=carbon, t=wall))
    assert not is_in(f"{int(least) - 1}.9", bounds(PREHEAT, "", carbon=carbon, t=wall))


@pytest.mark.source("46 CFR 56.85-10")
@pytest.mark.parametrize(
    ("first", "second", "typed", "good"),
    [("50", "175", "174", False), ("50", "175", "175", True), ("50", "50", "50", True)],
)
def test_of_dissimilar_materials_the_higher_preheat_counts(first: str, second: str, typed: str, good: bool) -> None:
    assert is_in(typed, bounds("max(first, second)", "", first=first, second=second)) is good


@pytest.mark.source("46 CFR 56.85-10")
@pytest.mark.parametrize(
    ("wall", "asks"), [("1/2", False), ("3/4", False), ("0.751", True), ("49/64", True), ("2", True)]
)
def test_post_heat_is_asked_over_three_quarters(wall: str, asks: bool) -> None:
    assert asked(POST_HEAT_ASKED, t=wall) is asks


@pytest.mark.source("46 CFR 56.85-10")
@pytest.mark.parametrize(
    ("typed", "good"), [("1099", False), ("1100", True), ("1150", True), ("1200", True), ("1201", False)]
)
def test_post_heat_is_held_between_1100_and_1200_degf(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("1100", "1200")) is good


@pytest.mark.source("46 CFR 56.85-10")
@pytest.mark.parametrize(
    ("wall", "hours"),
    [("7/8", "1"), ("1", "1"), ("1 1/64", "1 1/64"), ("1 1/2", "1 1/2"), ("3", "3"), ("2 3/16", "2 3/16")],
)
def test_post_heat_is_an_hour_an_inch_and_at_least_one(wall: str, hours: str) -> None:
    assert value(HOURS, t=wall) == Decimal(float(exact(hours)))
