"""Probability of conformance, JCGM 106:2012 clause 7, and guarded acceptance, ISO 14253-1.

Worked with scipy.stats.norm: the figures below were, and a grid of random values is at each run. The formula and the
two worked examples of the guide are from memory.
"""

import random
from collections.abc import Callable
from decimal import Decimal

import pytest
from scipy.stats import norm

from seamtag.core import verdict
from seamtag.core.limits import Limits

# The first is the guide's example of a Zener diode's voltage, from memory, printed 0.92.
# value, expanded uncertainty (k = 2), least, most, probability
CONFORMANCE = [
    ("-5.47", "0.10", None, "-5.40", 0.919243340766), ("1.8838", "0.0012", "1.865", "1.885", 0.977249868052),
    ("1.884013", "0.0012", "1.865", "1.885", 0.950015094461), ("1.885", "0.0012", "1.865", "1.885", 0.5),
    ("1.878", "0.0012", "1.865", "1.885", 1.0), ("0", "2", "-1", "1", 0.682689492137),
    ("0", "2", "-1.96", "1.96", 0.950004209704), ("10", "4", "9", "11", 0.382924922548),
]  # fmt: skip


def optional(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)


def probability(value: Decimal, uncertainty: Decimal, least: Decimal | None, most: Decimal | None) -> float:
    found = verdict.judge(value, Limits(least, most), verdict.Gauge(uncertainty)).probability
    assert found is not None
    return found


@pytest.mark.source("JCGM 106")
@pytest.mark.parametrize(("value", "uncertainty", "least", "most", "wanted"), CONFORMANCE)
def test_the_probability_of_conformance(
    value: str, uncertainty: str, least: str | None, most: str | None, wanted: float
) -> None:
    found = probability(Decimal(value), Decimal(uncertainty), optional(least), optional(most))
    assert found == pytest.approx(wanted, abs=1e-9)


@pytest.mark.source("JCGM 106")
def test_the_probability_of_random_readings_is_as_scipy_has_it(checked: Callable[[int], None]) -> None:
    """Two limits, only an upper and only a lower one; well inside, about a limit, and far out."""
    rng = random.Random(106)
    kinds = dict.fromkeys(("two", "upper", "lower"), 0)
    middling = 0
    for place in range(600):
        kind = ("two", "upper", "lower")[place % 3]
        middle, half = Decimal(rng.randrange(-20000, 20000)) / 1000, Decimal(rng.randrange(1, 2000)) / 1000
        uncertainty = half * Decimal(rng.randrange(1, 300)) / 100
        value = middle + half * Decimal(rng.randrange(-200, 201)) / 100
        least = middle - half if kind != "upper" else None
        most = middle + half if kind != "lower" else None
        u = float(uncertainty / 2)
        wanted = norm.cdf(float(most - value) / u) if most is not None else 1.0
        wanted -= norm.cdf(float(least - value) / u) if least is not None else 0.0
        assert probability(value, uncertainty, least, most) == pytest.approx(wanted, abs=1e-9)
        kinds[kind] += 1
        middling += 0.02 < wanted < 0.98
    assert min(kinds.values()) == 200
    assert middling > 200
    checked(600)


@pytest.mark.source("JCGM 106")
@pytest.mark.parametrize(
    ("wanted", "z"), [(0.80, "0.8416"), (0.90, "1.2816"), (0.95, "1.6449"), (0.99, "2.3263"), (0.999, "3.0902")]
)
def test_how_far_inside_one_limit_a_probability_is_reached(wanted: float, z: str) -> None:
    """In standard uncertainties, by the table of the guide (from memory, worked again): U of 2 is u of 1."""
    assert probability(-Decimal(z), Decimal(2), None, Decimal(0)) == pytest.approx(wanted, abs=5e-5)
    assert probability(Decimal(z), Decimal(2), Decimal(0), None) == pytest.approx(wanted, abs=5e-5)


@pytest.mark.source("JCGM 106")
def test_how_fast_a_car_is_beyond_doubt_past_100() -> None:
    """The guide's guarded rejection, from memory: u is 2 % of the reading, 99.9 % sure from 106.59 on, printed 107."""
    speed = Decimal("106.587")
    assert 1 - probability(speed, speed * Decimal("0.04"), None, Decimal(100)) == pytest.approx(0.999, abs=1e-5)
    assert 1 - probability(Decimal(107), Decimal("4.28"), None, Decimal(100)) > 0.999
    assert 1 - probability(Decimal(106), Decimal("4.24"), None, Decimal(100)) < 0.999


@pytest.mark.source("ISO 14253-1")
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


@pytest.mark.source("ISO 14253-1")
@pytest.mark.parametrize(
    ("value", "wanted"),
    [("1.8780", 1.0), ("1.8838", 0.97725), ("1.8845", 0.7977), ("1.8850", 0.5), ("1.8855", 0.2023), ("1.8865", 0.0062)],
)
def test_the_probability_beside_each_of_those_verdicts(value: str, wanted: float) -> None:
    found = probability(Decimal(value), Decimal("0.0012"), Decimal("1.865"), Decimal("1.885"))
    assert found == pytest.approx(wanted, abs=5e-5)


@pytest.mark.source("ISO 14253-1")
def test_the_risk_left_at_the_guard_band() -> None:
    """At the edge of the acceptance zone, w = U, 2.28 % of risk is left (normal, k = 2)."""
    limits, gauge = Limits(None, Decimal(1)), verdict.Gauge(Decimal("0.1"))
    found = verdict.judge(Decimal("0.9"), limits, gauge, "guarded")
    assert found.word == verdict.IN
    assert found.probability is not None
    assert 1 - found.probability == pytest.approx(0.0228, abs=5e-5)


@pytest.mark.source("ILAC-G8")
@pytest.mark.parametrize(
    ("share", "risk", "within"),
    [("0", 0.5, 1e-12), ("0.83", 0.0485, 5e-5), ("1", 0.0228, 5e-5), ("1.5", 0.00135, 5e-6), ("3", 9.9e-10, 1e-11)],
)
def test_the_risk_left_by_the_width_of_the_guard_band(share: str, risk: float, within: float) -> None:
    """w as a share of U: simple, ISO 14253-1 of 2017, of 1998, three sigma, six sigma (the table from memory)."""
    found = probability(-Decimal(share), Decimal(1), None, Decimal(0))
    assert 1 - found == pytest.approx(risk, abs=within)
