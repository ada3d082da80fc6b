"""The decision rules of ILAC-G8:09/2019, 4.2, by our two rules, with a guard band w of the expanded uncertainty U.

Its four ways need both rules: pass is in by the guarded rule; conditional pass is in by the simple rule and too close
by the guarded one; conditional fail is out by the simple rule and too close by the guarded one; fail is out by the
guarded rule. Which boundary belongs where: 'pass' is up to and with TL - w, as in JCGM 106, whose acceptance interval
is closed; a reading exactly at TL is a conditional pass, exactly at TL + w a conditional fail; 'fail' is only beyond.
"""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from seamtag.core import verdict
from seamtag.core.limits import Limits

PASS, CONDITIONAL_PASS, CONDITIONAL_FAIL, FAIL = "pass", "conditional pass", "conditional fail", "fail"
WAYS = {
    (verdict.IN, verdict.IN): PASS,
    (verdict.IN, verdict.CLOSE): CONDITIONAL_PASS,
    (verdict.OUT, verdict.CLOSE): CONDITIONAL_FAIL,
    (verdict.OUT, verdict.OUT): FAIL,
}
BOTH = Limits(Decimal("1.865"), Decimal("1.885"))
GAUGE = verdict.Gauge(Decimal("0.0012"))


def way(value: str, limits: Limits, gauge: verdict.Gauge) -> str:
    simple = verdict.judge(Decimal(value), limits, gauge).word
    return WAYS[simple, verdict.judge(Decimal(value), limits, gauge, "guarded").word]


@pytest.mark.source("ILAC-G8")
@pytest.mark.parametrize(
    ("value", "wanted"),
    [
        ("1.8780", PASS), ("1.8838", PASS), ("1.88381", CONDITIONAL_PASS), ("1.8845", CONDITIONAL_PASS),
        ("1.8850", CONDITIONAL_PASS), ("1.88501", CONDITIONAL_FAIL), ("1.8855", CONDITIONAL_FAIL),
        ("1.8862", CONDITIONAL_FAIL), ("1.88621", FAIL), ("1.8865", FAIL),
        # About the lower limit, mirrored:
        ("1.8662", PASS), ("1.86619", CONDITIONAL_PASS), ("1.8650", CONDITIONAL_PASS),
        ("1.86499", CONDITIONAL_FAIL), ("1.8638", CONDITIONAL_FAIL), ("1.86379", FAIL),
    ],
)  # fmt: skip
def test_the_four_ways_about_both_limits(value: str, wanted: str) -> None:
    assert way(value, BOTH, GAUGE) == wanted


@pytest.mark.source("ILAC-G8")
@pytest.mark.parametrize("side", ["upper", "lower"])
def test_the_four_ways_step_by_step_across_one_limit(side: str, checked: Callable[[int], None]) -> None:
    """Limit 0, U 0.05, from -0.1 to 0.1 by thousandths, decided beside in fractions."""
    limits = Limits(None, Decimal(0)) if side == "upper" else Limits(Decimal(0), None)
    band = Fraction(50, 1000)
    for step in range(-100, 101):
        past = Fraction(step, 1000) if side == "upper" else Fraction(-step, 1000)
        wanted = (
            PASS if past <= -band else CONDITIONAL_PASS if past <= 0 else CONDITIONAL_FAIL if past <= band else FAIL
        )
        assert way(str(Decimal(step) / 1000), limits, verdict.Gauge(Decimal("0.05"))) == wanted
    checked(201)


@pytest.mark.source("ILAC-G8")
@pytest.mark.parametrize(
    ("value", "passes"), [("1.885", True), ("1.88501", False), ("1.865", True), ("1.86499", False), ("1.875", True)]
)
def test_binary_with_simple_acceptance(value: str, passes: bool) -> None:
    assert (verdict.judge(Decimal(value), BOTH).word == verdict.IN) is passes


@pytest.mark.source("ILAC-G8")
@pytest.mark.parametrize(
    ("value", "passes"), [("1.8838", True), ("1.88381", False), ("1.8662", True), ("1.86619", False), ("1.885", False)]
)
def test_binary_with_a_guard_band_passes_only_what_is_in_by_the_guarded_rule(value: str, passes: bool) -> None:
    assert (verdict.judge(Decimal(value), BOTH, GAUGE, "guarded").word == verdict.IN) is passes


@pytest.mark.source("ILAC-G8")
def test_without_a_known_uncertainty_the_guarded_rule_decides_nothing() -> None:
    for gauge in (None, verdict.Gauge(None)):
        assert verdict.judge(Decimal("1.875"), BOTH, gauge, "guarded").word == verdict.UNJUDGED
