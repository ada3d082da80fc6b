"""Whether the readings of one item drift, so that a supervisor hears of it before one is out of tolerance.

An EWMA of the readings is held against the mean of the first BASELINE readings. tests/bench/drift.py simulates how soon
it warns and how often it warns falsely.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, isinf, sqrt
from typing import Literal

import numpy as np
from scipy.special import stdtrit

from seamtag.trends.statistics import individuals

BASELINE = 100
"""Readings at the start of a series that tell where it sits and how far it spreads."""
WEIGHT = 0.07
"""What a new reading counts in the average. From 0.05 to 0.1 false warnings are equally rare, outside more frequent."""
WIDTH = 2.35
"""Distance from the baseline's mean at which it warns, in standard deviations of the average."""
FARTHEST = 3.0
"""Distance in sigmas beyond which a reading counts no farther, so that a single wild one does not warn."""
LIMIT = WIDTH * sqrt(WEIGHT / (2 - WEIGHT))
"""The same distance in sigmas of a reading."""
NEAR = 4.5
"""Within so many sigmas of the average the limit ahead must lie for a warning: a process that holds its tolerance with
room to spare may wander."""
FEWEST = 12
"""Readings before a series without a baseline is looked at."""
MOST_CHANCE = 1e-5
"""How likely a slope may be by chance alone before it counts without a baseline."""
ARL = 183
"""Average run length in control: readings after the baseline up to the first warning, which then is false.

The mean over 100,000 simulated series of normal readings, each with a baseline of its own. Half of them last 108
readings or more. Where neighbouring readings correlate, false warnings are more frequent: 0.1 makes it about 98,
0.2 about 60.
"""


@dataclass(frozen=True)
class Drift:
    """A warning. index: place in the series, from 0, of the reading at which it came.

    centre, sigma: of the baseline, sigma from its mean moving range. level: where the average of the last readings
    stands. All three in the unit of the readings.
    """

    index: int
    centre: float
    sigma: float
    level: float
    direction: Literal["rising", "falling"]


def drifting(values: Sequence[float], lower: float | None = -inf, upper: float | None = inf) -> Drift | None:
    """The first warning in a series of readings, or None.

    values: the baseline, then in order the readings that nobody has seen a warning about yet. lower, upper: limits in
    the readings' unit; where there is none ahead (None), or it is farther off than NEAR, there is no warning. Left out,
    every drift is warned of. None also where no reading follows the baseline, and where its readings are all equal.
    """
    if len(values) <= BASELINE:
        return None
    baseline = individuals(values[:BASELINE])
    centre, sigma = baseline.centre, baseline.sigma
    if sigma == 0:
        return None
    level = 0.0
    for index in range(BASELINE, len(values)):
        distance = (values[index] - centre) / sigma
        level += WEIGHT * (max(-FARTHEST, min(FARTHEST, distance)) - level)
        if abs(level) > LIMIT and near(centre + level * sigma, sigma, upper if level > 0 else lower):
            return Drift(index, centre, sigma, centre + level * sigma, "rising" if level > 0 else "falling")
    return None


def near(level: float, sigma: float, limit: float | None) -> bool:
    """Whether the limit ahead lies within NEAR sigmas, or none was asked for."""
    return limit is not None and (isinf(limit) or abs(limit - level) < NEAR * sigma)


def heading_out(values: Sequence[float], lower: float | None, upper: float | None) -> Drift | None:
    """Of a series that has no baseline yet: whether its newest readings run along a line that crosses a limit before
    as many readings again, and that no chance explains. None with fewer than FEWEST readings.

    values: at most BASELINE, in order; limits in their unit. The slope's t is that of ordinary least squares.
    """
    count = len(values)
    if count < FEWEST:
        return None
    places = np.arange(count) - (count - 1) / 2
    readings = np.asarray(values, dtype=float)
    centre = float(readings.mean())
    spread = float(places @ places)
    slope = float(places @ (readings - centre)) / spread
    rest = readings - centre - slope * places
    sigma = sqrt(float(rest @ rest) / (count - 2))
    if abs(slope) * sqrt(spread) <= stdtrit(count - 2, 1 - MOST_CHANCE / 2) * sigma:
        return None
    ends = centre + slope * (places[-1] + count)
    crossed = (upper is not None and ends > upper) or (lower is not None and ends < lower)
    if not crossed:
        return None
    start, level = (centre + slope * float(places[place]) for place in (0, -1))
    return Drift(count - 1, start, sigma, level, "rising" if slope > 0 else "falling")
