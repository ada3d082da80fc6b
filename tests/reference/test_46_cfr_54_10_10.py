"""Hydrostatic test of pressure vessels by 46 CFR 54.10-10(b), as revised in 2004: psi."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest

from tests.reference.plan_limits import bounds, close, is_in, value

PRESSURE = "1.5*P*max(1, S_test/S_design)"


@pytest.mark.source("46 CFR 54.10-10")
@pytest.mark.parametrize(
    ("at_test", "at_design", "pressure"),
    [
        ("20000", "17100", Fraction(3000000, 17100)), ("17100", "20000", Fraction(150)),
        ("20000", "20000", Fraction(150)), ("20001", "20000", Fraction(1500075, 10000)),
    ],
)  # fmt: skip
def test_the_ratio_of_stresses_is_never_below_one(at_test: str, at_design: str, pressure: Fraction) -> None:
    assert close(value(PRESSURE, P="100", S_test=at_test, S_design=at_design), pressure)


@pytest.mark.source("46 CFR 54.10-10")
def test_the_pressure_as_worked() -> None:
    found = value(PRESSURE, P="100", S_test="20000", S_design="17100")
    assert abs(found - Decimal("175.439")) <= Decimal("0.0005")


@pytest.mark.source("46 CFR 54.10-10")
def test_the_test_pressure_goes_with_the_working_pressure(checked: Callable[[int], None]) -> None:
    found = [value(PRESSURE, P=str(p), S_test="20000", S_design="17100") for p in range(1, 301)]
    assert all(before < after for before, after in pairwise(found))
    for p, pressure in enumerate(found, 1):
        assert close(pressure, Fraction(3 * p, 2) * Fraction(20000, 17100))
    checked(300)


@pytest.mark.source("46 CFR 54.10-10")
@pytest.mark.parametrize(("typed", "good"), [("34200", True), ("34201", False), ("30000", True)])
def test_stress_in_the_test_is_not_over_ninety_per_cent_of_yield(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("", "0.9*yield_", yield_="38000")) is good
