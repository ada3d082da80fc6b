"""Furnaces and fire boxes by the Indian Boiler Regulations 1950, regs 220, 221, 546 and 593 (dpiit.gov.in).

t in thirty-seconds of an inch in the formulas of 220 and 221, all else in inches, pressures in psi.
"""

from collections.abc import Callable
from fractions import Fraction

import pytest

from tests.reference.plan_limits import Rows, asked, bounds, close, exact, is_in, value

BY_BENDING = "C*(32*t - 1)**2/(D*(L + 24))"
BY_CRUSHING = "C1*(10*(32*t - 1) - L)/D"
PLAIN = f"min({BY_BENDING}, {BY_CRUSHING})"
CORRUGATED = "C*(32*t - 1)/D"
LEAST_OF_FIRE_BOX: Rows = [("from", "0", "5/16"), ("from", "30", "3/8")]


def by_hand(thirty_seconds: int, diameter: int, length: int) -> tuple[Fraction, Fraction]:
    t = thirty_seconds - 1
    return Fraction(1450 * t * t, diameter * (length + 24)), Fraction(50 * (10 * t - length), diameter)


@pytest.mark.source("IBR 220")
@pytest.mark.parametrize(
    ("thickness", "diameter", "length", "pressure"),
    [
        # By the first formula:
        ("1/2", "36", "60", Fraction(1450 * 225, 36 * 84)), ("5/8", "36", "84", Fraction(1450 * 361, 36 * 108)),
        ("3/8", "30", "24", Fraction(1450 * 121, 30 * 48)), ("15/32", "3'", "5'", Fraction(1450 * 196, 36 * 84)),
        # By the second:
        ("1/2", "36", "12", Fraction(50 * 138, 36)), ("3/4", "40", "72", Fraction(50 * 158, 40)),
    ],
)  # fmt: skip
def test_working_pressure_of_a_plain_welded_furnace(
    thickness: str, diameter: str, length: str, pressure: Fraction
) -> None:
    found = value(PLAIN, t=thickness, D=diameter, L=length, C="1450", C1="50")
    assert close(found, pressure)


@pytest.mark.source("IBR 220")
def test_the_lesser_of_the_two_pressures_is_taken(checked: Callable[[int], None]) -> None:
    lesser = {"first": 0, "second": 0}
    for thirty_seconds in range(10, 29, 2):
        for diameter in (24, 30, 36, 42, 48):
            for length in (6, 12, 24, 48, 60, 84):
                first, second = by_hand(thirty_seconds, diameter, length)
                figures = {"t": f"{thirty_seconds}/32", "D": str(diameter), "L": str(length), "C": "1450", "C1": "50"}
                assert close(value(PLAIN, **figures), min(first, second))
                lesser["first" if first < second else "second"] += 1
    assert min(lesser.values()) > 20
    checked(sum(lesser.values()))


@pytest.mark.source("IBR 221")
@pytest.mark.parametrize(
    ("constant", "thickness", "diameter", "pressure"),
    [
        ("480", "1/2", "36", "200"), ("510", "1/2", "36", "212.5"), ("480", "5/8", "38", "240"),
        ("510", "9/16", "40", "216.75"), ("480", "3/8", "44", "120"),
    ],
)  # fmt: skip
def test_working_pressure_of_a_corrugated_furnace(constant: str, thickness: str, diameter: str, pressure: str) -> None:
    assert close(value(CORRUGATED, C=constant, t=thickness, D=diameter), exact(pressure))


@pytest.mark.source("IBR 221")
@pytest.mark.parametrize(("thickness", "good"), [("0.500", True), ("0.499", False), ("1/2", True), ("31/64", False)])
def test_a_thickness_measured_bears_the_working_pressure_or_not(thickness: str, good: bool) -> None:
    """The least thickness for 200 psi, C = 480, D = 36: the formula solved for t."""
    assert is_in(thickness, bounds("(P*D/C + 1)/32", "", P="200", D="36", C="480")) is good


@pytest.mark.source("IBR 593")
@pytest.mark.parametrize(
    ("diameter", "thickness", "good"),
    [
        ("2' 5 31/32\"", "5/16", True), ("2' 5 31/32\"", "19/64", False), ("2' 6\"", "3/8", True),
        ("2' 6\"", "23/64", False), ("2' 6\"", "5/16", False), ("30", "3/8", True), ("29.9", "5/16", True),
        ("48", "7/8", True), ("48", "57/64", False), ("24", "7/8", True), ("24", ".876", False),
    ],
)  # fmt: skip
def test_thickness_of_a_vertical_fire_box(diameter: str, thickness: str, good: bool) -> None:
    tables = {"least": LEAST_OF_FIRE_BOX}
    assert is_in(thickness, bounds("table('least', D)", "7/8", tables, D=diameter)) is good


@pytest.mark.source("IBR 593")
@pytest.mark.parametrize(("thickness", "good"), [("3/8", True), ("23/64", False), ("0.375", True), ("0.374", False)])
def test_a_corrugated_fire_box_is_not_under_three_eighths_even_when_small(thickness: str, good: bool) -> None:
    tables = {"least": LEAST_OF_FIRE_BOX}
    lower = "max(table('least', D), 3/8 if corrugated == 1 else 0)"
    assert is_in(thickness, bounds(lower, "7/8", tables, D="24", corrugated="1")) is good
    assert is_in(thickness, bounds(lower, "7/8", tables, D="24", corrugated="0"))


@pytest.mark.source("IBR 546")
@pytest.mark.parametrize(("typed", "good"), [("150", True), ("149.9", False), ("400", True)])
def test_successive_furnace_sections_break_joint_by_150_millimetres(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("150")) is good


@pytest.mark.source("IBR 546")
@pytest.mark.parametrize(
    ("length", "reverse_flame", "asks"), [("3000", "0", False), ("3001", "0", True), ("3001", "1", False)]
)
def test_a_plain_furnace_over_three_metres_asks_for_more_unless_of_reverse_flame(
    length: str, reverse_flame: str, asks: bool
) -> None:
    assert asked("L > 3000 and not reverse_flame == 1", L=length, reverse_flame=reverse_flame) is asks
