"""What gauges may be wrong by, as formulas and tables a plan could hold, and the ratio of tolerance to uncertainty.

Tapes: UK SI 2016/1153, Schedule 1I, paragraph 2. Pressure gauges: a United States Army course, MM0486, and UFC
4-390-01 (2003). Ratio: ANSI/NCSL Z540-1-1994, 10.2 b, as reported in public; the worked ratios are constructed.
"""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from math import ceil

import pytest

from seamtag.core import verdict
from seamtag.core.limits import Limits
from tests.reference.plan_limits import Rows, bounds, exact, is_in, value

# a, b, and c for an end hook, of (a + b L) + c, L in metres rounded up. Classes I, II, III.
TAPES = {"I": ("0.1", "0.1", "0.1"), "II": ("0.3", "0.2", "0.2"), "III": ("0.6", "0.4", "0.3")}
GRADE_B = "(0.02 if p >= R/4 and p <= 3*R/4 else 0.03)*R"
GRADE_A = "(0.01 if p >= R/4 and p <= 3*R/4 else 0.015)*R"


def tape(grade: str) -> Rows:
    """A row a metre, since a formula cannot round up."""
    a, b, _ = TAPES[grade]
    return [("from" if metre == 0 else "after", str(metre), f"{a} + {b}*{metre + 1}") for metre in range(30)]


@pytest.mark.source("UK SI 2016/1153")
@pytest.mark.parametrize(
    ("grade", "length", "hook", "most"),
    [
        ("II", "5", "0", "1.3"), ("II", "10", "0", "2.3"), ("II", "2.5", "0", "0.9"), ("II", "2.5", "1", "1.1"),
        ("I", "10", "0", "1.1"), ("III", "10", "0", "4.6"), ("II", "5.001", "0", "1.5"), ("II", "0.5", "0", "0.5"),
        ("II", "1", "0", "0.5"), ("II", "1.001", "0", "0.7"), ("I", "10", "1", "1.2"), ("III", "3", "1", "2.1"),
    ],
)  # fmt: skip
def test_greatest_error_of_a_tape(grade: str, length: str, hook: str, most: str) -> None:
    text = f"table('tape', L) + ({TAPES[grade][2]} if hook == 1 else 0)"
    assert value(text, {"tape": tape(grade)}, L=length, hook=hook) == Decimal(most)


@pytest.mark.source("UK SI 2016/1153")
@pytest.mark.parametrize("grade", list(TAPES))
def test_greatest_error_of_a_tape_every_quarter_metre(grade: str, checked: Callable[[int], None]) -> None:
    a, b, _ = (exact(figure) for figure in TAPES[grade])
    for quarters in range(1, 121):
        found = value("table('tape', L)", {"tape": tape(grade)}, L=str(Decimal(quarters) / 4))
        assert Fraction(found) == a + b * ceil(Fraction(quarters, 4))
    checked(120)


@pytest.mark.source("MM0486")
@pytest.mark.parametrize(
    ("reading", "error"),
    [
        ("150", "6"), ("50", "9"), ("75", "6"), ("74.9", "9"), ("225", "6"), ("225.1", "9"), ("0", "9"), ("300", "9"),
        ("100", "6"),
    ],
)  # fmt: skip
def test_a_gauge_of_grade_b_is_better_in_the_middle_half(reading: str, error: str) -> None:
    assert value(GRADE_B, R="300", p=reading) == Decimal(error)


@pytest.mark.source("MM0486")
@pytest.mark.parametrize(("reading", "error"), [("150", "3"), ("50", "4.5"), ("75", "3"), ("225", "3"), ("226", "4.5")])
def test_a_gauge_of_grade_a_is_twice_as_good(reading: str, error: str) -> None:
    """Of its two figures the page cuts off the first; 1 % is what the rest of it leaves."""
    assert value(GRADE_A, R="300", p=reading) == Decimal(error)


@pytest.mark.source("UFC 4-390-01")
@pytest.mark.parametrize(
    ("typed", "good"), [("74.9", False), ("75", True), ("225", True), ("225.1", False), ("150", True)]
)
def test_a_gauge_is_used_between_a_quarter_and_three_quarters_of_its_scale(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("R/4", "3*R/4", R="300")) is good


@pytest.mark.source("ANSI/NCSL Z540")
@pytest.mark.parametrize(
    ("half", "uncertainty", "ratio"),
    [("0.5", "0.1", "5"), ("0.010", "0.002", "5"), ("0.010", "0.0025", "4"), ("0.005", "0.0006", "8.333")],
)
def test_a_gauge_four_times_finer_than_half_the_tolerance_is_fine_enough(
    half: str, uncertainty: str, ratio: str
) -> None:
    """The ratio is the span of the tolerance over twice the expanded uncertainty."""
    assert float(Decimal(half) / Decimal(uncertainty)) == pytest.approx(float(ratio), abs=5e-4)
    found = verdict.too_coarse(Limits(-Decimal(half), Decimal(half)), verdict.Gauge(Decimal(uncertainty)))
    assert not found


@pytest.mark.source("ANSI/NCSL Z540")
@pytest.mark.parametrize(
    ("half", "uncertainty", "ratio"),
    [("0.5", "0.26", "1.923"), ("0.010", "0.006", "1.667"), ("0.5", "0.5", "1"), ("0.010", "0.0201", "0.4975")],
)
def test_a_gauge_not_even_twice_as_fine_is_too_coarse(half: str, uncertainty: str, ratio: str) -> None:
    assert float(Decimal(half) / Decimal(uncertainty)) == pytest.approx(float(ratio), abs=5e-4)
    assert verdict.too_coarse(Limits(-Decimal(half), Decimal(half)), verdict.Gauge(Decimal(uncertainty)))


@pytest.mark.source("ANSI/NCSL Z540")
@pytest.mark.parametrize(
    ("half", "uncertainty"), [("0.5", "0.1251"), ("0.5", "0.2"), ("0.010", "0.0026"), ("0.010", "0.005")]
)
def test_a_gauge_between_two_and_four_times_as_fine_is_too_coarse(half: str, uncertainty: str) -> None:
    assert verdict.too_coarse(Limits(-Decimal(half), Decimal(half)), verdict.Gauge(Decimal(uncertainty)))
