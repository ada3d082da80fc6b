"""Limits and verdicts against figures from outside, typed in; each says where it is from.

They are no substitute for the code edition in force: they show that the engine works out what such a table says.
"""

import json
from decimal import Decimal
from itertools import pairwise
from typing import Any

import pytest

from seamtag.core import formula, numbers, verdict
from seamtag.core.limits import Limits

Rows = list[tuple[str, str, str]]


def table(rows: Rows) -> dict[str, Any]:
    """Rows of (reached, edge, value): 'from' is reached at its edge, 'after' past it."""
    return {"rows": [{"reached": reached, "edge": formula.parse(edge), "value": formula.parse(value)}
                     for reached, edge, value in rows]}  # fmt: skip


def limit(rows: Rows, thickness: str, **figures: str) -> Decimal:
    """The value of a table at a thickness; json makes it what a phone is sent."""
    known = {name: Decimal(value) for name, value in figures.items()} | {"t": numbers.parse(thickness).value}
    tables = json.loads(json.dumps({"limit": table(rows)}))
    return formula.work_out(formula.parse("table('limit', t)"), formula.Names(known, lambda step, item: [], tables))


# Offset of abutting edges, inches. UW-33 of Section VIII Division 1 as publicly tabulated (a quick-reference card on
# slideshare.net, number 258051662, agreeing with the millimetre table at piping-ndt.blogsky.com, post 515).
# A: longitudinal joints; B: circumferential joints.
OFFSET_A: Rows = [("from", "0", "t/4"), ("after", "1/2", "1/8"), ("after", "2", "min(t/16, 3/8)")]
OFFSET_B: Rows = [
    ("from", "0", "t/4"),
    ("after", "3/4", "3/16"),
    ("after", "3/2", "t/8"),
    ("after", "2", "min(t/8, 3/4)"),
]


@pytest.mark.parametrize(
    ("thickness", "category", "most"),
    [
        ("3/8", "A", "0.09375"), ("1/2", "A", "0.125"), ("5/8", "A", "0.125"), ("5/8", "B", "0.15625"),
        ("3/4", "B", "0.1875"), ("1", "A", "0.125"), ("1", "B", "0.1875"), ("1 1/2", "B", "0.1875"),
        ("1 3/4", "A", "0.125"), ("1 3/4", "B", "0.21875"), ("2", "A", "0.125"), ("2", "B", "0.25"),
        ("3", "A", "0.1875"), ("3", "B", "0.375"), ("8", "A", "0.375"), ("8", "B", "0.75"),
    ],
)  # fmt: skip
def test_offset_as_uw_33_is_tabulated(thickness: str, category: str, most: str) -> None:
    assert limit(OFFSET_A if category == "A" else OFFSET_B, thickness) == Decimal(most)


@pytest.mark.parametrize("rows", [OFFSET_A, OFFSET_B], ids=["A", "B"])
def test_offset_never_jumps_and_never_falls(rows: Rows) -> None:
    """In inches the table is continuous in the thickness (worked out from the table itself)."""
    found = [limit(rows, numbers.shown_inches(Decimal(marks) / 64)) for marks in range(1, 64 * 14)]
    assert all(Decimal(0) <= after - before <= Decimal(1) / 256 for before, after in pairwise(found))


# Height of weld reinforcement, inches, each face. 46 CFR 56.70-15, Table 1 (law text as on casetext).
COLD_OR_HOT: Rows = [("from", "0", "1/16"), ("after", "1/2", "3/32"), ("after", "1", "1/8"), ("after", "2", "5/32")]
MIDDLE: Rows = [("from", "0", "3/32"), ("after", "1/8", "1/8"), ("after", "3/16", "5/32"), ("after", "1/2", "3/16"),
                ("after", "1", "1/4"), ("after", "2", "max(1/4, w/8)")]  # fmt: skip
COOL: Rows = [("from", "0", "3/16"), ("after", "1", "1/4"), ("after", "2", "max(1/4, w/8)")]


@pytest.mark.parametrize(
    ("rows", "thickness", "most"),
    [
        (MIDDLE, "1/8", "0.09375"), (MIDDLE, "3/16", "0.125"), (MIDDLE, "1/4", "0.15625"), (MIDDLE, "1/2", "0.15625"),
        (MIDDLE, "3/4", "0.1875"), (MIDDLE, "1 1/2", "0.25"), (MIDDLE, "2", "0.25"), (MIDDLE, "2 1/2", "0.375"),
        (COLD_OR_HOT, "1/8", "0.0625"), (COLD_OR_HOT, "1/4", "0.0625"), (COLD_OR_HOT, "3/4", "0.09375"),
        (COLD_OR_HOT, "1 1/2", "0.125"), (COLD_OR_HOT, "2 1/2", "0.15625"),
        (COOL, "1/2", "0.1875"), (COOL, "1", "0.1875"), (COOL, "1 1/2", "0.25"), (COOL, "2 1/2", "0.375"),
    ],
)  # fmt: skip
def test_reinforcement_as_46_cfr_56_70_15_has_it(rows: Rows, thickness: str, most: str) -> None:
    assert limit(rows, thickness, w="3") == Decimal(most)


# Rounding of observed values, the table of cases of ASTM E29 from memory; the half-even values below are printed by
# smtl.co.uk (210, rounding of test results) and ASME A112.18.1 Annex A.
# value, least, most, place, by rounding, by the absolute method
E29 = [
    ("35940", "36000", None, "100", False, False), ("35950", "36000", None, "100", True, False),
    ("35960", "36000", None, "100", True, False),
    ("56.4", "57", None, "1", False, False), ("56.5", "57", None, "1", False, False),
    ("56.6", "57", None, "1", True, False),
    ("40.4", None, "40", "1", True, False), ("40.5", None, "40", "1", True, False),
    ("40.6", None, "40", "1", False, False),
    ("0.54", None, "0.5", "0.1", True, False), ("0.55", None, "0.5", "0.1", False, False),
    ("0.56", None, "0.5", "0.1", False, False),
]  # fmt: skip


@pytest.mark.parametrize(("value", "least", "most", "place", "by_rounding", "absolute"), E29)
def test_both_methods_of_astm_e29(
    value: str, least: str | None, most: str | None, place: str, by_rounding: bool, absolute: bool
) -> None:
    limits = Limits(None if least is None else Decimal(least), None if most is None else Decimal(most))
    observed = numbers.parse(value).value
    assert (verdict.judge(observed, limits, place=Decimal(place)).word == verdict.IN) is by_rounding
    assert (verdict.judge(observed, limits).word == verdict.IN) is absolute


@pytest.mark.parametrize(
    ("value", "place", "rounded"),
    [
        ("3.967", ".01", "3.97"), ("3.943", ".01", "3.94"), ("3.965", ".01", "3.96"), ("3.955", ".01", "3.96"),
        ("127.5", "1", "128"), ("126.5", "1", "126"), ("125.5", "1", "126"), ("1.655000", ".01", "1.66"),
        ("1.625000", ".01", "1.62"), ("2.15", ".1", "2.2"), ("2.675", ".01", "2.68"), ("1.005", ".01", "1.00"),
    ],
)  # fmt: skip
def test_half_goes_to_even_by_the_digits_as_typed(value: str, place: str, rounded: str) -> None:
    """Of the last three a binary float makes 2.1, 2.67 and 1.0."""
    assert verdict.rounded(numbers.parse(value).value, Decimal(place)) == Decimal(rounded)


# Probability of conformance, JCGM 106:2012 clause 7, worked with scipy.stats.norm. The first is its example of a Zener
# diode's voltage, from memory, printed 0.92.
# value, expanded uncertainty (k = 2), least, most, probability
CONFORMANCE = [
    ("-5.47", "0.10", None, "-5.40", 0.919243340766), ("1.8838", "0.0012", "1.865", "1.885", 0.977249868052),
    ("1.884013", "0.0012", "1.865", "1.885", 0.950015094461), ("1.885", "0.0012", "1.865", "1.885", 0.5),
    ("1.878", "0.0012", "1.865", "1.885", 1.0), ("0", "2", "-1", "1", 0.682689492137),
    ("0", "2", "-1.96", "1.96", 0.950004209704), ("10", "4", "9", "11", 0.382924922548),
]  # fmt: skip


@pytest.mark.parametrize(("value", "uncertainty", "least", "most", "probability"), CONFORMANCE)
def test_the_probability_of_conformance(
    value: str, uncertainty: str, least: str | None, most: str, probability: float
) -> None:
    limits = Limits(None if least is None else Decimal(least), Decimal(most))
    found = verdict.judge(Decimal(value), limits, verdict.Gauge(Decimal(uncertainty)))
    assert found.probability == pytest.approx(probability, abs=1e-9)


@pytest.mark.parametrize(
    ("value", "simple", "guarded"),
    [
        ("1.8780", verdict.IN, verdict.IN), ("1.8838", verdict.IN, verdict.IN), ("1.8845", verdict.IN, verdict.CLOSE),
        ("1.8850", verdict.IN, verdict.CLOSE), ("1.8855", verdict.OUT, verdict.CLOSE),
        ("1.8865", verdict.OUT, verdict.OUT),
    ],
)  # fmt: skip
def test_both_rules_about_one_limit(value: str, simple: str, guarded: str) -> None:
    """Limits 1.865 to 1.885, U = 0.0012: guard band w = U as in ISO 14253-1 of 1998 and 2013, acceptance closed."""
    limits, gauge = Limits(Decimal("1.865"), Decimal("1.885")), verdict.Gauge(Decimal("0.0012"))
    assert verdict.judge(Decimal(value), limits, gauge).word == simple
    assert verdict.judge(Decimal(value), limits, gauge, "guarded").word == guarded


def test_the_risk_left_at_the_guard_band() -> None:
    """At the edge of the acceptance zone, w = U, 2.28 % of risk is left (normal, k = 2)."""
    limits, gauge = Limits(None, Decimal(1)), verdict.Gauge(Decimal("0.1"))
    found = verdict.judge(Decimal("0.9"), limits, gauge, "guarded")
    assert found.word == verdict.IN
    assert found.probability is not None
    assert 1 - found.probability == pytest.approx(0.0228, abs=5e-5)
