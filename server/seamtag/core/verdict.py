"""One reading against its limits and its gauge."""

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from math import erf, sqrt

from seamtag.core.limits import Limits
from seamtag.core.numbers import CONTEXT, WIDE, Quotient
from seamtag.core.uoms import SAME, Conversion

IN = "in tolerance"
OUT = "out of tolerance"
CLOSE = "too close to call"
UNJUDGED = "unjudged"
RECORDED = "recorded"

WORSE = {IN: 0, RECORDED: 0, CLOSE: 1, UNJUDGED: 2, OUT: 3}
"""How far from good each verdict is, to tell when judging anew made one worse."""

ONE, TWO, FOUR, EIGHT = Decimal(1), Decimal(2), Decimal(4), Decimal(8)


@dataclass(frozen=True)
class Gauge:
    """What a gauge's certificate says: expanded uncertainty U (k = 2), if known, and its way to the item's uom."""

    uncertainty: Decimal | None
    conversion: Conversion = SAME

    def quotient(self) -> Quotient | None:
        """U in the item's uom, not yet divided."""
        return None if self.uncertainty is None else self.conversion.of_interval(self.uncertainty)


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
    value: Decimal,
    limits: Limits,
    gauge: Gauge | None = None,
    rule: str = "simple",
    place: Decimal | None = None,
    conversion: Conversion = SAME,
) -> Verdict:
    """The verdict on a value.

    rule: 'simple' compares; 'guarded' asks to be inside by U to be in, outside by U to be out (ISO 14253-1, JCGM 106).
    place: round the value to this place first (ASTM E29 rounding method), e.g. Decimal('0.01'); None compares as typed.
    conversion: from the uom of the value to that of the limits. Value and limit are compared by cross-multiplying.
    """
    if limits.reason:
        return Verdict(UNJUDGED, reason=limits.reason)
    if limits.lower is None and limits.upper is None:
        return Verdict(RECORDED)
    compared = conversion.of(value) if place is None else Quotient(rounded(value, place, conversion), ONE)
    sides = sides_of(compared, limits)
    nearer = nearer_of(sides)
    uncertainty = gauge.quotient() if gauge else None
    probability = None if uncertainty is None else conformance(sides, uncertainty)
    margin = nearer.value()
    if rule == "guarded":
        return guarded(nearer, margin, uncertainty, probability)
    return Verdict(IN if nearer.over >= 0 else OUT, margin, probability=probability)


Sides = tuple[Quotient | None, Quotient | None]


def sides_of(value: Quotient, limits: Limits) -> Sides:
    """How far the value is above the lower limit and below the upper, where there are such."""
    return (
        None if limits.lower is None else value.less(limits.lower),
        None if limits.upper is None else value.less(limits.upper).negative(),
    )


def nearer_of(sides: Sides) -> Quotient:
    """The distance to the nearer limit; both have the same 'under'."""
    return min((side for side in sides if side is not None), key=lambda side: side.over)


def guarded(nearer: Quotient, margin: Decimal, uncertainty: Quotient | None, probability: float | None) -> Verdict:
    if uncertainty is None:
        return Verdict(UNJUDGED, margin, "the gauge's uncertainty is not known")
    if nearer.compare(uncertainty) >= 0:
        return Verdict(IN, margin, probability=probability)
    if nearer.compare(uncertainty.negative()) < 0:
        return Verdict(OUT, margin, probability=probability)
    return Verdict(CLOSE, margin, "nearer to the limit than the gauge can tell", probability)


def rounded(value: Decimal, place: Decimal, conversion: Conversion = SAME) -> Decimal:
    """To the place by ASTM E29's rounding method: half to even. place: in the uom converted to."""
    exact = conversion.of(value)
    steps = WIDE.divide(exact.over, WIDE.multiply(exact.under, place)).to_integral_value(ROUND_HALF_EVEN)
    return WIDE.multiply(steps, place)


def conformance(sides: Sides, uncertainty: Quotient) -> float:
    """Probability that the true value lies within the limits, normal with u = U/2 (JCGM 106, k = 2)."""
    if uncertainty.over <= 0:
        return 1.0 if nearer_of(sides).over >= 0 else 0.0
    u = CONTEXT.divide(uncertainty.value(), TWO)
    lower, upper = sides
    above = 1.0 if upper is None else normal(float(CONTEXT.divide(upper.value(), u)))
    below = 0.0 if lower is None else normal(float(CONTEXT.divide(-lower.value(), u)))
    return above - below


def normal(z: float) -> float:
    return (1 + erf(z / sqrt(2))) / 2


def too_coarse(limits: Limits, gauge: Gauge | None) -> str:
    """Why the gauge is too coarse for the limits: its U is over a quarter of the tolerance to either side of the
    middle, or of the limit where there is only an upper one. '' where it is not, or nobody knows.

    That is a ratio of 4:1, the span over twice U (ANSI/NCSL Z540-1-1994 10.2 b as reported, read at second hand).
    """
    uncertainty = gauge.quotient() if gauge else None
    quarter, name = (None if limits.tolerance is None else Quotient(limits.tolerance, EIGHT), "tolerance")
    if quarter is None and limits.lower is None and limits.upper:
        quarter, name = (Quotient(abs(limits.upper), FOUR), "limit")
    if uncertainty is None or quarter is None:
        return ""
    return f"uncertainty over a quarter of the {name}" if uncertainty.compare(quarter) > 0 else ""


def shown_probability(probability: float) -> str:
    """The probability in whole per cent, never 0 or 100."""
    percent = int(Decimal(repr(probability * 100)).to_integral_value(ROUND_HALF_UP))
    return f"{min(max(percent, 1), 99)} %"
