"""One reading against its limits and its gauge."""

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from math import erf, sqrt

from seamtag.core.limits import Limits
from seamtag.core.numbers import CONTEXT

IN = "in tolerance"
OUT = "out of tolerance"
CLOSE = "too close to call"
UNJUDGED = "unjudged"
RECORDED = "recorded"

WORSE = {IN: 0, RECORDED: 0, CLOSE: 1, UNJUDGED: 2, OUT: 3}
"""How far from good each verdict is, to tell when judging anew made one worse."""


@dataclass(frozen=True)
class Gauge:
    """What a gauge's certificate says: expanded uncertainty U (k = 2) in the item's uom, if known."""

    uncertainty: Decimal | None


@dataclass(frozen=True)
class Verdict:
    """word: the verdict. margin: distance to the nearer limit in the item's uom, negative when past it.

    Either may lack: an item with no limits is 'recorded', one whose limit is not known 'unjudged' with its reason.
    probability: of conformance, a plain float for show, None where U is not known.
    """

    word: str
    margin: Decimal | None = None
    reason: str = ""
    probability: float | None = None


def judge(
    value: Decimal, limits: Limits, gauge: Gauge | None = None, rule: str = "simple", place: Decimal | None = None
) -> Verdict:
    """The verdict on a value.

    rule: 'simple' compares; 'guarded' asks to be inside by U to be in, outside by U to be out (ISO 14253-1, JCGM 106).
    place: round the value to this place first (ASTM E29 rounding method), e.g. Decimal('0.01'); None compares as typed.
    """
    if limits.reason:
        return Verdict(UNJUDGED, reason=limits.reason)
    if limits.lower is None and limits.upper is None:
        return Verdict(RECORDED)
    compared = rounded(value, place) if place is not None else value
    margin = margin_of(compared, limits)
    uncertainty = gauge.uncertainty if gauge else None
    probability = None if uncertainty is None else conformance(compared, limits, uncertainty)
    if rule == "guarded":
        return guarded(margin, uncertainty, probability)
    return Verdict(IN if margin >= 0 else OUT, margin, probability=probability)


def margin_of(value: Decimal, limits: Limits) -> Decimal:
    sides = []
    if limits.lower is not None:
        sides.append(CONTEXT.subtract(value, limits.lower))
    if limits.upper is not None:
        sides.append(CONTEXT.subtract(limits.upper, value))
    return min(sides) + 0


def guarded(margin: Decimal, uncertainty: Decimal | None, probability: float | None) -> Verdict:
    if uncertainty is None:
        return Verdict(UNJUDGED, margin, "the gauge's uncertainty is not known")
    if margin >= uncertainty:
        return Verdict(IN, margin, probability=probability)
    if margin < -uncertainty:
        return Verdict(OUT, margin, probability=probability)
    return Verdict(CLOSE, margin, "nearer to the limit than the gauge can tell", probability)


def rounded(value: Decimal, place: Decimal) -> Decimal:
    """To the place by ASTM E29's rounding method: half to even."""
    steps = CONTEXT.divide(value, place).to_integral_value(ROUND_HALF_EVEN)
    return CONTEXT.multiply(steps, place)


def conformance(value: Decimal, limits: Limits, uncertainty: Decimal) -> float:
    """Probability that the true value lies within the limits, normal with u = U/2 (JCGM 106, k = 2)."""
    if uncertainty <= 0:
        return 1.0 if margin_of(value, limits) >= 0 else 0.0
    u = float(uncertainty) / 2
    above = 1.0 if limits.upper is None else normal((float(limits.upper) - float(value)) / u)
    below = 0.0 if limits.lower is None else normal((float(limits.lower) - float(value)) / u)
    return above - below


def normal(z: float) -> float:
    return (1 + erf(z / sqrt(2))) / 2


def too_coarse(limits: Limits, gauge: Gauge | None) -> bool:
    """Whether the gauge's U is over a quarter of the tolerance (common practice, 4:1)."""
    if gauge is None or gauge.uncertainty is None or limits.tolerance is None:
        return False
    return CONTEXT.multiply(gauge.uncertainty, Decimal(4)) > limits.tolerance


def shown_probability(probability: float) -> str:
    """The probability in whole per cent, never 0 or 100."""
    percent = int(Decimal(repr(probability * 100)).to_integral_value(ROUND_HALF_UP))
    return f"{min(max(percent, 1), 99)} %"
