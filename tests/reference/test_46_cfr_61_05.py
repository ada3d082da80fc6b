"""Hydrostatic test of boilers by 46 CFR 61.05-5 and 61.05-10: water temperature in degF, pressure in psi.

Law text as on casetext.com and govregs.com, through September 2024. P is the maximum allowable working pressure.
"""

from collections.abc import Callable
from decimal import Decimal
from itertools import product

import pytest

from seamtag.core import verdict
from tests.reference.plan_limits import bounds, is_in, value, word

WATER = ("70", "100 if firetube == 1 else 160")
PRESSURE = "P*(1.5 if firetube == 1 and not entered == 1 or lap == 1 or repaired == 1 else 1.25)"


@pytest.mark.source("46 CFR 61.05-5")
@pytest.mark.parametrize(
    ("typed", "firetube", "good"),
    [
        ("69.9", "1", False), ("70", "1", True), ("100", "1", True), ("100.1", "1", False),
        ("69.9", "0", False), ("70", "0", True), ("100.1", "0", True), ("160", "0", True), ("160.1", "0", False),
        ("85", "1", True),
    ],
)  # fmt: skip
def test_temperature_of_the_water_by_kind_of_boiler(typed: str, firetube: str, good: bool) -> None:
    assert is_in(typed, bounds(*WATER, firetube=firetube)) is good


@pytest.mark.source("46 CFR 61.05-5")
def test_a_boiler_whose_kind_is_not_said_is_not_judged() -> None:
    assert word("120", bounds(*WATER)) == verdict.UNJUDGED


@pytest.mark.source("46 CFR 61.05-10")
@pytest.mark.parametrize(
    ("firetube", "entered", "lap", "repaired", "pressure"),
    [("1", "0", "0", "0", "225"), ("0", "1", "0", "0", "187.5"), ("1", "1", "0", "0", "187.5"),
     ("0", "1", "1", "0", "225"), ("0", "1", "0", "1", "225")],
)  # fmt: skip
def test_test_pressure_at_150_psi(firetube: str, entered: str, lap: str, repaired: str, pressure: str) -> None:
    found = value(PRESSURE, P="150", firetube=firetube, entered=entered, lap=lap, repaired=repaired)
    assert found == Decimal(pressure)


@pytest.mark.source("46 CFR 61.05-10")
def test_test_pressure_in_every_case_the_rule_tells_apart(checked: Callable[[int], None]) -> None:
    for firetube, entered, lap, repaired in product((False, True), repeat=4):
        strict = (firetube and not entered) or lap or repaired
        flags = {"firetube": firetube, "entered": entered, "lap": lap, "repaired": repaired}
        found = value(PRESSURE, P="120", **{name: str(int(flag)) for name, flag in flags.items()})
        assert found == (180 if strict else 150)
    checked(16)


@pytest.mark.source("46 CFR 61.05-10")
@pytest.mark.parametrize(("typed", "good"), [("224.9", False), ("225", True), ("230", True)])
def test_the_pressure_read_is_not_less_than_the_test_pressure(typed: str, good: bool) -> None:
    flags = {"firetube": "1", "entered": "0", "lap": "0", "repaired": "0"}
    assert is_in(typed, bounds(PRESSURE, "", P="150", **flags)) is good
