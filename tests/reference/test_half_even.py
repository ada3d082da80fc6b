"""Rounding half to even by the digits as typed.

The values are printed by smtl.co.uk (210, rounding of test results) and ASME A112.18.1 Annex A; those of ISO 80000-1
Annex B are from memory. Python's fractions and decimal answer beside them.
"""

import random
from collections.abc import Callable
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

import pytest

from seamtag.core import numbers, verdict
from seamtag.core.limits import Limits


def rounded(typed: str, place: str) -> Decimal:
    """What a reading is compared as: its distance from a lower limit of 0."""
    margin = verdict.judge(numbers.parse(typed).value, Limits(Decimal(0), None), place=Decimal(place)).margin
    assert margin is not None
    return margin


@pytest.mark.source("rounding half to even")
@pytest.mark.parametrize(
    ("value", "place", "to"),
    [
        ("3.967", ".01", "3.97"), ("3.943", ".01", "3.94"), ("3.965", ".01", "3.96"), ("3.955", ".01", "3.96"),
        ("127.5", "1", "128"), ("126.5", "1", "126"), ("125.5", "1", "126"), ("1.655000", ".01", "1.66"),
        ("1.625000", ".01", "1.62"), ("2.15", ".1", "2.2"), ("2.675", ".01", "2.68"), ("1.005", ".01", "1.00"),
    ],
)  # fmt: skip
def test_half_goes_to_even_by_the_digits_as_typed(value: str, place: str, to: str) -> None:
    """Of the last three a binary float makes 2.1, 2.67 and 1.0."""
    assert rounded(value, place) == Decimal(to)


@pytest.mark.source("ISO 80000-1 Annex B")
@pytest.mark.parametrize(
    ("value", "place", "to"),
    [
        # All from memory:
        ("12.223", ".1", "12.2"), ("12.251", ".1", "12.3"), ("12.275", ".1", "12.3"), ("1222.3", "10", "1220"),
        ("1225.1", "10", "1230"), ("1227.5", "10", "1230"), ("12.25", ".1", "12.2"), ("12.35", ".1", "12.4"),
        ("1225.0", "10", "1220"), ("1235.0", "10", "1240"),
    ],
)  # fmt: skip
def test_rounding_to_a_tenth_and_to_ten(value: str, place: str, to: str) -> None:
    assert rounded(value, place) == Decimal(to)


@pytest.mark.source("rounding half to even")
@pytest.mark.parametrize(("typed", "place", "digits"), [("2.15", "0.1", 1), ("2.675", "0.01", 2), ("1.115", "0.01", 2)])
def test_a_binary_float_would_round_it_wrong(typed: str, place: str, digits: int) -> None:
    assert rounded(typed, place) == Decimal(typed).quantize(Decimal(place), ROUND_HALF_EVEN)
    assert Decimal(str(round(float(typed), digits))) != rounded(typed, place)


@pytest.mark.source("rounding half to even")
def test_every_tie_of_hundredths_up_to_twenty(checked: Callable[[int], None]) -> None:
    """0.005, 0.015 and so on: about half of them go wrong by binary floats."""
    wrong_by_floats = 0
    for count in range(2000):
        typed = f"{count // 100}.{count % 100:02}5"
        wanted = round(Fraction(typed), 2)
        assert Fraction(rounded(typed, "0.01")) == wanted
        wrong_by_floats += Fraction(str(round(float(typed), 2))) != wanted
    assert wrong_by_floats > 500
    checked(2000)


@pytest.mark.source("rounding half to even")
def test_any_number_at_any_place_is_as_fractions_and_decimals_have_it(checked: Callable[[int], None]) -> None:
    rng = random.Random(29)
    for _ in range(1000):
        digits, place = rng.randrange(1, 7), rng.randrange(0, 6)
        typed = f"{'-' * rng.randrange(2)}{rng.randrange(1000)}.{rng.randrange(10**digits):0{digits}}"
        found = rounded(typed, f"1e-{place}")
        assert Fraction(found) == round(Fraction(typed), place)
        assert found == Decimal(typed).quantize(Decimal(f"1e-{place}"), ROUND_HALF_EVEN)
    checked(1000)
