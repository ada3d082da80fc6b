"""Conversions against pint, a general library of units, and against the exact factors of law and standards."""

import random
from decimal import Decimal
from fractions import Fraction
from itertools import product
from typing import Any

import pint
import pytest

from seamtag.core import limits, numbers, uoms
from seamtag.core.limits import Limits
from seamtag.plans.fitting import AS_PINT, registry

OFFSET = {"degF": "degree_Fahrenheit", "degC": "degree_Celsius"}
PAIRS = [(a, b) for a, b in product(uoms.UOMS, repeat=2) if uoms.UOMS[a].quantity == uoms.UOMS[b].quantity]


@pytest.mark.source("pint")
@pytest.mark.parametrize(("a", "b"), PAIRS)
def test_a_conversion_is_that_of_pint(a: str, b: str) -> None:
    units: pint.UnitRegistry[Any] = registry()
    way = uoms.conversion(a, b)
    assert way is not None
    for value in (-40.0, 0.0, 1.0, 7.25):
        quantity = units.Quantity(value, units.Unit(OFFSET.get(a) or AS_PINT.get(a, a)))
        wanted = float(quantity.to(units.Unit(OFFSET.get(b) or AS_PINT.get(b, b))).magnitude)
        assert float(way.of(Decimal(str(value))).value()) == pytest.approx(wanted, rel=1e-12, abs=1e-9)


@pytest.mark.source("pint")
def test_pint_and_we_agree_on_what_cannot_be_converted(checked: Any) -> None:
    """But for torque and energy, and temperatures and their intervals, which pint takes for alike."""
    alike = {
        "torque": "energy",
        "energy by length": "force",
        "temperature interval": "temperature",
        "share": "number",
        "slope": "number",
    }
    units = registry()
    for a, b in product(uoms.UOMS, repeat=2):
        ours = {alike.get(uoms.UOMS[uom].quantity, uoms.UOMS[uom].quantity) for uom in (a, b)}
        theirs = {units.Unit(AS_PINT.get(uom, uom)).dimensionality for uom in (a, b)}
        assert (len(ours) == 1) is (len(theirs) == 1), (a, b)
        checked(1)


# Exact by definition: the International Yard and Pound (1959), standard gravity (CGPM, 1901); NIST SP 811, Appendix B,
# prints them to seven digits.
EXACT = [
    ("in", "mm", "127/5"), ("ft", "m", "381/1250"), ("mil", "um", "127/5"), ("lb", "kg", "45359237/100000000"),
    ("lbf", "N", "8896443230521/2000000000000"), ("psi", "Pa", "8896443230521/1290320000"),
    ("ksi", "MPa", "8896443230521/1290320000000"), ("ft.lbf", "J", "3389544870828501/2500000000000000"),
    ("lbf.ft", "N.m", "3389544870828501/2500000000000000"), ("kJ/in", "kJ/mm", "5/127"), ("in/min", "mm/s", "127/300"),
    ("ft3/h", "L/min", "18435447/39062500"), ("degF interval", "degC interval", "5/9"),
]  # fmt: skip


@pytest.mark.source("NIST SP 811")
@pytest.mark.parametrize(("a", "b", "factor"), EXACT)
def test_the_factor_is_exact(a: str, b: str, factor: str) -> None:
    there, back = uoms.conversion(a, b), uoms.conversion(b, a)
    assert there is not None
    assert back is not None
    assert Fraction(there.times) / Fraction(there.over) == Fraction(factor)
    assert Fraction(back.times) / Fraction(back.over) == 1 / Fraction(factor)


# t/degC = (t/degF - 32)/1.8, exact (NIST SP 811).
@pytest.mark.source("NIST SP 811")
@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [("-40", "-40"), ("0", "-160/9"), ("32", "0"), ("50", "10"), ("70", "190/9"), ("212", "100"), ("250", "1090/9"),
     ("300", "1340/9"), ("350", "530/3"), ("400", "1840/9"), ("600", "2840/9"), ("1150", "5590/9")],
)  # fmt: skip
def test_a_temperature_is_exact(fahrenheit: str, celsius: str) -> None:
    way = uoms.conversion("degF", "degC")
    assert way is not None
    found = way.of(Decimal(fahrenheit))
    assert Fraction(found.over) / Fraction(found.under) == Fraction(celsius)


@pytest.mark.source("pint")
def test_a_temperature_is_no_interval(checked: Any) -> None:
    for a, b in (("degF", "degF interval"), ("degC", "degC interval"), ("degF", "degC interval")):
        assert uoms.conversion(a, b) is None
        checked(1)


@pytest.mark.source("ASME A112.18.1 Annex A e")
def test_a_converted_limit_is_never_relaxed(checked: Any) -> None:
    """Rounded within the limits, so that the original limit is never passed; worked with Python's fractions."""
    dice = random.Random(1)
    for _ in range(2000):
        a, b = dice.choice(PAIRS)
        if b not in ("mm", "in", "degC", "degF", "psi", "bar", "kJ/mm", "m"):
            continue
        way, place = uoms.conversion(a, b), Decimal(dice.choice(("1", "0.1", "0.01", "0.015625", "0.0001")))
        assert way is not None
        limit = Decimal(dice.randint(-(10**6), 10**6)) / 10 ** dice.randint(0, 6)
        exact = Fraction(way.of(limit).over) / Fraction(way.of(limit).under)
        upper = Fraction(limits.shown_inward(limit, True, place, way))
        lower = Fraction(limits.shown_inward(limit, False, place, way))
        assert exact - Fraction(place) < upper <= exact <= lower < exact + Fraction(place)
        checked(2)


@pytest.mark.source("pint")
def test_an_inch_goes_to_millimetres_and_back_the_same(checked: Any) -> None:
    there, back = uoms.conversion("in", "mm"), uoms.conversion("mm", "in")
    assert there is not None
    assert back is not None
    for marks in range(-64 * 4, 64 * 96):
        inches = Decimal(marks) / 64
        assert back.of(there.of(inches).value()).value() == inches
        checked(1)


@pytest.mark.source("ASME A112.18.1 Annex A e")
def test_limits_are_shown_in_the_other_system() -> None:
    """1/16 in is 1.5875 mm and 1/8 in is 3.175 mm: shown as 1.59 to 3.17."""
    found = limits.in_counterpart(Limits(numbers.parse("1/16").value, numbers.parse("1/8").value), "in")
    assert found == (Limits(Decimal("1.59"), Decimal("3.17")), "mm")
