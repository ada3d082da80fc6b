"""Figures over the readings of one item: summary, individuals chart, EWMA, run rules, capability, shares.

Readings are in the order in which they were taken and in one unit, which all results share unless said otherwise.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from itertools import accumulate
from math import sqrt
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import special

from seamtag.trends.rules import RULES

Values = NDArray[np.float64]
Hits = NDArray[np.bool_]

RANGE_TO_SIGMA = 1.128
"""d2 for two values: mean range over sigma. NIST/SEMATECH e-Handbook 6.3.2.2."""
RANGE_LIMIT = 3.267
"""D4 for two values: upper limit of a moving range over their mean. NIST/SEMATECH e-Handbook 6.3.2.2."""


@dataclass(frozen=True)
class Summary:
    """n: how many values. sd: standard deviation with n - 1, None for a single value."""

    n: int
    mean: float
    sd: float | None


@dataclass(frozen=True)
class Individuals:
    """Chart of single values.

    centre: their mean. mr_bar: mean moving range. lower, upper: centre less and plus 3 sigma. mr_upper: upper limit of
    a moving range.
    """

    centre: float
    mr_bar: float
    sigma: float
    lower: float
    upper: float
    mr_upper: float


@dataclass(frozen=True)
class Interval:
    low: float
    high: float


@dataclass(frozen=True)
class Index:
    """A capability index, without unit, and its confidence interval."""

    value: float
    interval: Interval


@dataclass(frozen=True)
class Capability:
    """cp: tolerance over 6 sd. cpl, cpu: mean to a limit over 3 sd. cpk: the lesser of these two."""

    cp: Index
    cpk: Index
    cpl: Index
    cpu: Index


def series(values: ArrayLike, least: int) -> Values:
    """The values as numbers in a row. Raises ValueError where there are fewer than least, or one is not finite."""
    array = np.asarray(values, dtype=np.float64)
    if array.ndim != 1 or len(array) < least:
        raise ValueError(f"{array.size} values were given; at least {least} in a row are needed.")
    if not np.isfinite(array).all():
        raise ValueError("A value is not a finite number.")
    return array


def summary(values: ArrayLike) -> Summary:
    """Raises ValueError where there is no value."""
    array = series(values, 1)
    return Summary(len(array), float(array.mean()), float(array.std(ddof=1)) if len(array) > 1 else None)


def autocorrelation(values: ArrayLike) -> float:
    """Of each value with the one before it, from -1 to 1. Raises ValueError where fewer than two values differ.

    Source: NIST/SEMATECH e-Handbook 1.3.5.12, lag 1.
    """
    array = series(values, 2)
    off = array - array.mean()
    squares = float(off @ off)
    if squares == 0:
        raise ValueError("All values are equal, so none depends on the one before it.")
    return float(off[1:] @ off[:-1]) / squares


def moving_ranges(values: ArrayLike) -> Values:
    """Distances of each value from the one before it, one fewer than the values. Raises ValueError below two values."""
    ranges: Values = np.abs(np.diff(series(values, 2)))
    return ranges


def individuals(values: ArrayLike) -> Individuals:
    """Raises ValueError below two values. Source: NIST/SEMATECH e-Handbook 6.3.2.2."""
    array = series(values, 2)
    centre, mr_bar = float(array.mean()), float(moving_ranges(array).mean())
    sigma = mr_bar / RANGE_TO_SIGMA
    return Individuals(centre, mr_bar, sigma, centre - 3 * sigma, centre + 3 * sigma, RANGE_LIMIT * mr_bar)


def ewma(values: ArrayLike, weight: float, start: float | Values) -> Values:
    """Exponentially weighted moving average: each is the one before it, moved by weight towards the new value.

    values: in order along the last axis. weight: above 0, at most 1. start: what stands before the first value, for all
    series or for each. Returns the shape of the values. Raises ValueError for another weight.
    Source: NIST/SEMATECH e-Handbook 6.3.2.4.
    """
    check_weight(weight)
    array = np.asarray(values, dtype=np.float64)
    if array.ndim == 1:
        stepped = accumulate(array.tolist(), lambda last, value: last + weight * (value - last), initial=float(start))
        return np.array(list(stepped)[1:])
    averages = np.empty_like(array)
    level: Values = np.broadcast_to(np.asarray(start, dtype=np.float64), array.shape[:-1])
    for place in range(array.shape[-1]):
        level = level + weight * (array[..., place] - level)
        averages[..., place] = level
    return averages


def ewma_limits(centre: float, sigma: float, weight: float, width: float, count: int | None = None) -> Interval:
    """Limits of an EWMA that began at the centre.

    sigma: of single values. width: half the distance of the limits, in standard deviations of the average. count:
    values averaged so far, 1 at the first; None for the limits that they approach. Raises ValueError for a weight that
    is not above 0 and at most 1, and for a count below 1. Source: NIST/SEMATECH e-Handbook 6.3.2.4.
    """
    check_weight(weight)
    if count is not None and count < 1:
        raise ValueError(f"The limits of point {count} were asked for; the first point is 1.")
    reached = 1.0 if count is None else 1 - (1 - weight) ** (2 * count)
    reach = width * sigma * sqrt(weight / (2 - weight) * reached)
    return Interval(centre - reach, centre + reach)


def check_weight(weight: float) -> None:
    if not 0 < weight <= 1:
        raise ValueError(f"The weight is {weight}; it has to be above 0 and at most 1.")


def signals(values: ArrayLike, centre: float, sigma: float, rules: Collection[str]) -> dict[str, list[int]]:
    """Places of the points, from 0, at which each of the rules fires.

    rules: ids out of RULES. Raises ValueError for another id, and where sigma is not above 0.
    """
    if not sigma > 0:
        raise ValueError(f"Sigma is {sigma}; run rules need one above 0.")
    scaled = (series(values, 0) - centre) / sigma
    return {rule: np.flatnonzero(fires(scaled, rule)).tolist() for rule in rules}


def fires(scaled: Values, rule: str) -> Hits:
    """At which points a rule fires; points along the last axis, in sigmas from the centre. Raises ValueError."""
    if rule not in FIRING:
        raise ValueError(f"There is no run rule '{rule}'. The run rules are: {', '.join(RULES)}.")
    return FIRING[rule](scaled)


def among(hits: Hits, window: int) -> NDArray[np.int64]:
    """How many of the last points, this one included, are hits; fewer than window stand before the first points."""
    sums = np.cumsum(hits, axis=-1, dtype=np.int64)
    counts = sums.copy()
    counts[..., window:] -= sums[..., :-window]
    return counts


def share_beyond(scaled: Values, line: float, wanted: int, window: int) -> Hits:
    above, below = scaled > line, scaled < -line
    found: Hits = (above & (among(above, window) >= wanted)) | (below & (among(below, window) >= wanted))
    return found


def steps(scaled: Values) -> tuple[Hits, Hits]:
    """Whether each point is above the one before it, and whether it is below; the first is neither."""
    change = np.diff(scaled, axis=-1, prepend=scaled[..., :1])
    return change > 0, change < 0


def six_rising_or_falling(scaled: Values) -> Hits:
    rising, falling = steps(scaled)
    found: Hits = (among(rising, 5) == 5) | (among(falling, 5) == 5)
    return found


def fourteen_alternating(scaled: Values) -> Hits:
    rising, falling = steps(scaled)
    turns = np.zeros_like(rising)
    turns[..., 1:] = (rising[..., 1:] & falling[..., :-1]) | (falling[..., 1:] & rising[..., :-1])
    found: Hits = among(turns, 12) == 12
    return found


def eight_outside(scaled: Values) -> Hits:
    above, below = among(scaled > 1, 8), among(scaled < -1, 8)
    found: Hits = (above + below == 8) & (above > 0) & (below > 0)
    return found


FIRING: Mapping[str, Callable[[Values], Hits]] = MappingProxyType(
    {
        "beyond-3": lambda scaled: np.abs(scaled) > 3,
        "two-of-three-beyond-2": lambda scaled: share_beyond(scaled, 2, 2, 3),
        "four-of-five-beyond-1": lambda scaled: share_beyond(scaled, 1, 4, 5),
        "eight-on-one-side": lambda scaled: share_beyond(scaled, 0, 8, 8),
        "nine-on-one-side": lambda scaled: share_beyond(scaled, 0, 9, 9),
        "six-rising-or-falling": six_rising_or_falling,
        "fourteen-alternating": fourteen_alternating,
        "fifteen-within-1": lambda scaled: among(np.abs(scaled) < 1, 15) == 15,
        "eight-outside-1": eight_outside,
    }
)


def capability(
    mean: float, sd: float, count: int, lower: float | None, upper: float | None, confidence: float = 0.95
) -> Capability:
    """Capability against two limits, of readings that number count.

    sd: standard deviation of the readings. The interval of cp follows from chi-square, the others are Bissell's.
    Raises ValueError where a limit lacks or the lower is not below the upper (one_sided_capability is for a single
    limit), where sd is not above 0, and below two readings. Source: NIST/SEMATECH e-Handbook 6.1.6.
    """
    if lower is None or upper is None:
        raise ValueError("Capability against two limits needs a lower and an upper limit; one of them lacks.")
    if not lower < upper:
        raise ValueError(f"The lower limit {lower} is not below the upper limit {upper}.")
    check_spread(sd, count)
    cp = (upper - lower) / (6 * sd)
    degrees, beside = count - 1, (1 - confidence) / 2
    low, high = (
        cp * sqrt(2 * float(special.gammaincinv(degrees / 2, part)) / degrees) for part in (beside, 1 - beside)
    )
    cpl = bissell((mean - lower) / (3 * sd), count, confidence)
    cpu = bissell((upper - mean) / (3 * sd), count, confidence)
    return Capability(Index(cp, Interval(low, high)), min(cpl, cpu, key=lambda index: index.value), cpl, cpu)


def one_sided_capability(
    mean: float,
    sd: float,
    count: int,
    *,
    lower: float | None = None,
    upper: float | None = None,
    confidence: float = 0.95,
) -> Index:
    """Distance of the mean from the single limit over 3 sd: cpl to a lower limit, cpu to an upper one.

    Raises ValueError unless one limit is given, where sd is not above 0, and below two readings.
    """
    check_spread(sd, count)
    if upper is not None and lower is None:
        return bissell((upper - mean) / (3 * sd), count, confidence)
    if lower is not None and upper is None:
        return bissell((mean - lower) / (3 * sd), count, confidence)
    raise ValueError("Capability against a single limit needs a lower or an upper limit, and not both.")


def check_spread(sd: float, count: int) -> None:
    if count < 2:
        raise ValueError(f"Readings given: {count}. Capability needs at least two.")
    if not sd > 0:
        raise ValueError(f"The standard deviation is {sd}; capability needs readings that differ.")


def bissell(value: float, count: int, confidence: float) -> Index:
    """An index of the mean and one limit with Bissell's interval (1990), as NIST/SEMATECH e-Handbook 6.1.6 has it."""
    reach = z_of(confidence) * sqrt(1 / (9 * count) + value * value / (2 * (count - 1)))
    return Index(value, Interval(value - reach, value + reach))


def wilson(count: int, total: int, confidence: float = 0.95) -> Interval:
    """Interval of a share, count out of total, each from 0 to 1.

    Raises ValueError where the total is below 1 or the count is not from 0 to the total.
    Source: NIST/SEMATECH e-Handbook 7.2.4.1.
    """
    if total < 1 or not 0 <= count <= total:
        raise ValueError(f"{count} of {total} is no share.")
    z, share = z_of(confidence), count / total
    middle = (share + z * z / (2 * total)) / (1 + z * z / total)
    reach = z * sqrt(share * (1 - share) / total + z * z / (4 * total * total)) / (1 + z * z / total)
    return Interval(0.0 if count == 0 else middle - reach, 1.0 if count == total else middle + reach)


def z_of(confidence: float) -> float:
    """Half the width, in standard deviations, of the middle part of a normal distribution."""
    if not 0 < confidence < 1:
        raise ValueError(f"The confidence is {confidence}; it has to be between 0 and 1.")
    return float(special.ndtri((1 + confidence) / 2))
