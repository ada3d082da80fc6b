"""Heat treatment after welding by UCS-56, P-No. 1 groups 1 to 3, and UCS-57, Section VIII Division 1.

Second hand: UCS-56 from a table of 2013 (dokumen.tips) and a thread of eng-tips.com (450740), UCS-57 from a
quick-reference card (slideshare.net, number 258051662). degF, inches, hours.
"""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest

from seamtag.core import numbers
from tests.reference.plan_limits import Rows, asked, exact, value

HOURS: Rows = [("from", "0", "max(1/4, t)"), ("after", "2", "2 + (t - 2)/4")]
ASKED = "t > 3/2 or (t > 1 + 1/4 and preheat < 200)"
EXEMPT_NOZZLE = "groove <= 1/2 and throat <= 1/2 and bore <= 2 and preheat >= 200"
EXEMPT_P4_TUBE = "t <= 5/8 and carbon <= 0.15 and preheat >= 250"
RADIOGRAPHED_OVER = {"1": "1 1/4", "3": "3/4", "4": "5/8", "5": "0"}


@pytest.mark.source("UCS-56")
@pytest.mark.parametrize(
    ("thickness", "hours"),
    [
        ("0.2", "0.25"), ("1/4", "0.25"), ("0.3", "0.3"), ("1 1/4", "1.25"), ("2", "2"), ("2.1", "2.025"),
        ("3", "2.25"), ("4", "2.5"), ("6", "3"), ("1/8", "0.25"),
    ],
)  # fmt: skip
def test_holding_time_by_thickness(thickness: str, hours: str) -> None:
    assert value("table('hours', t)", {"hours": HOURS}, t=thickness) == Decimal(hours)
    assert value("max(1/4, t) if t <= 2 else 2 + (t - 2)/4", t=thickness) == Decimal(hours)


@pytest.mark.source("UCS-56")
def test_holding_time_rises_without_a_jump(checked: Callable[[int], None]) -> None:
    found = []
    for marks in range(1, 64 * 6 + 1):
        found.append(value("table('hours', t)", {"hours": HOURS}, t=numbers.shown_inches(Decimal(marks) / 64)))
        t = Fraction(marks, 64)
        assert Fraction(found[-1]) == (max(Fraction(1, 4), t) if t <= 2 else 2 + (t - 2) / 4)
    assert all(Decimal(0) <= after - before <= Decimal(1) / 64 for before, after in pairwise(found))
    checked(len(found))


@pytest.mark.source("UCS-56")
@pytest.mark.parametrize(
    ("thickness", "preheat", "asks"),
    [
        ("1 3/8", "200", False), ("1 3/8", "150", True), ("1 3/8", "199", True), ("1 1/4", "70", False),
        ("1.251", "70", True), ("1 1/2", "200", False), ("1 1/2", "199", True), ("1.501", "300", True),
        ("2", "200", True), ("1/2", "50", False),
    ],
)  # fmt: skip
def test_heat_treatment_is_asked_by_thickness_and_preheat(thickness: str, preheat: str, asks: bool) -> None:
    assert asked(ASKED, t=thickness, preheat=preheat) is asks


@pytest.mark.source("UCS-56")
@pytest.mark.parametrize(
    ("groove", "throat", "bore", "preheat", "exempt"),
    [
        ("1/2", "1/2", "2", "200", True), ("33/64", "1/2", "2", "200", False), ("1/2", "33/64", "2", "200", False),
        ("1/2", "1/2", "2.001", "200", False), ("1/2", "1/2", "2", "199", False), ("1/4", "3/8", "1 1/2", "250", True),
    ],
)  # fmt: skip
def test_small_nozzles_are_exempt_when_all_four_hold(
    groove: str, throat: str, bore: str, preheat: str, exempt: bool
) -> None:
    assert asked(EXEMPT_NOZZLE, groove=groove, throat=throat, bore=bore, preheat=preheat) is exempt
    assert asked(f"not ({EXEMPT_NOZZLE})", groove=groove, throat=throat, bore=bore, preheat=preheat) is not exempt


@pytest.mark.source("UCS-56")
@pytest.mark.parametrize(
    ("thickness", "carbon", "preheat", "exempt"),
    [("5/8", "0.15", "250", True), ("41/64", "0.15", "250", False), ("5/8", "0.16", "250", False),
     ("5/8", "0.15", "249", False)],
)  # fmt: skip
def test_butt_joints_of_p_4_tubes_are_exempt_when_all_three_hold(
    thickness: str, carbon: str, preheat: str, exempt: bool
) -> None:
    assert asked(EXEMPT_P4_TUBE, t=thickness, carbon=carbon, preheat=preheat) is exempt


@pytest.mark.source("UCS-57")
@pytest.mark.parametrize("p_number", list(RADIOGRAPHED_OVER))
def test_full_radiography_is_asked_past_a_thickness_by_p_number(p_number: str, checked: Callable[[int], None]) -> None:
    """The P-number is the figure a table is asked for; P-2 is not in it."""
    text = "t > (1 + 1/4 if p == 1 else 3/4 if p == 3 else 5/8 if p == 4 else 0)"
    edge = exact(RADIOGRAPHED_OVER[p_number])
    for marks in range(1, 129):
        thickness = numbers.shown_inches(Decimal(marks) / 64)
        assert asked(text, t=thickness, p=p_number) is (Fraction(marks, 64) > edge)
    checked(128)
