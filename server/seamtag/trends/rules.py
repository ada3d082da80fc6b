"""What a trend can be asked for: the run rules, and what is usual. The figures are in statistics.py."""

from collections.abc import Mapping
from types import MappingProxyType

RULES: Mapping[str, str] = MappingProxyType(
    {
        "beyond-3": "The point is more than 3 sigma from the centre.",
        "two-of-three-beyond-2": "The point and another of the last three are beyond 2 sigma on the same side.",
        "four-of-five-beyond-1": "The point and three others of the last five are beyond 1 sigma on the same side.",
        "eight-on-one-side": "The last eight points are on one side of the centre.",
        "nine-on-one-side": "The last nine points are on one side of the centre.",
        "six-rising-or-falling": "Each of the last six points is above the one before it, or each is below it.",
        "fourteen-alternating": "The last fourteen points go up and down by turns.",
        "fifteen-within-1": "The last fifteen points are all less than 1 sigma from the centre.",
        "eight-outside-1": "The last eight points are all more than 1 sigma from the centre, on both sides of it.",
    }
)
"""Run rules, by id. A point on a line is not beyond it, and equal points neither rise nor fall.

A rule fires at the newest point of what it counts, and that point is itself beyond the line. Two of three need not wait
for a third point, nor four of five for a fifth: only so are the published run lengths met (Champ and Woodall 1987).
Six points rise in five steps. Eight outside 1 sigma on the same side do not fire.
"""

USUAL_RULES = ("beyond-3", "eight-on-one-side")
USUAL_WEIGHT = 0.2
"""Of a new value in the moving average."""
