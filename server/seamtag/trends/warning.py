"""The drift warning: an item's values wander toward a limit, as those of a tube roller that wears."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from seamtag.trends.drift import BASELINE, Drift, drifting, heading_out
from seamtag.trends.measured import SeriesKey, values_of
from seamtag.trends.models import Measured
from seamtag.trends.rules import RULES
from seamtag.trends.statistics import individuals, signals
from seamtag.trends.watching import DRIFT_RULE

WATCHED = 200
"""The newest values of a series that are looked at, beside those it is held against."""


@dataclass(frozen=True)
class Warned:
    """The value at which a series was found to drift, and what is to be told of it."""

    value: Measured
    reason: str


def warn(session: Session, key: SeriesKey, rules: Collection[str], told_up_to: int) -> Warned | None:
    """Whether a series breaks one of some rules. told_up_to: number of the value that the last warning was about, 0
    where there was none; watching begins anew after it."""
    first = values_of(session, key, BASELINE, oldest=True)
    if len(first) < BASELINE:
        young = by_making(one for one in first if one.number > told_up_to)
        return heading(young) if DRIFT_RULE in rules and comparable(young) else None
    seen = max(first[-1].number, told_up_to)
    whole = [*first, *by_making(one for one in values_of(session, key, WATCHED) if one.number > seen)]
    if not comparable(whole):
        return None
    found = drifting(on_one_scale(whole), *limits_of(whole)) if DRIFT_RULE in rules else None
    if found is not None:
        return Warned(whole[found.index], says(whole, found))
    return broken(whole, [rule for rule in rules if rule in RULES])


def broken(whole: Sequence[Measured], rules: Collection[str]) -> Warned | None:
    """The newest value at which a run rule fires, by centre and sigma of the baseline."""
    values = on_one_scale(whole)
    baseline = individuals(values[:BASELINE])
    if not rules or baseline.sigma == 0:
        return None
    fired = signals(values[BASELINE:], baseline.centre, baseline.sigma, rules)
    newest = max(((places[-1], rule) for rule, places in fired.items() if places), default=None)
    return None if newest is None else Warned(whole[BASELINE + newest[0]], newest[1])


def heading(values: Sequence[Measured]) -> Warned | None:
    """Of a series too young to have a baseline."""
    found = heading_out(on_one_scale(values), *limits_of(values)) if values else None
    return None if found is None else Warned(values[found.index], says(values, found))


def by_making(values: Iterable[Measured]) -> list[Measured]:
    """In the order in which they were made, as the ids of their records tell it."""
    return sorted(values, key=lambda one: (one.record, one.station))


def says(values: Sequence[Measured], found: Drift) -> str:
    """What is told: the averages in the item's uom, where the limits differ the distances from them; where there are
    two that differ, in half tolerances."""
    alike = len({(one.lower, one.upper) for one in values}) == 1
    uom = values[0].uom if alike or None in limits_of(values) else "of half the tolerance"
    return f"{found.direction}: the average went from {found.centre:.4g} to {found.level:.4g} {uom}".rstrip()


def comparable(values: Sequence[Measured]) -> bool:
    """Whether values can stand on one scale: all have limits on the same sides."""
    return len({(one.lower is None, one.upper is None) for one in values}) <= 1


def on_one_scale(values: Sequence[Measured]) -> list[float]:
    """As measured where all have the same limits, else by where each lies between its own: see position()."""
    if len({(one.lower, one.upper) for one in values}) == 1:
        return [one.value for one in values]
    return [position(one.value, one.lower, one.upper) for one in values]


def limits_of(values: Sequence[Measured]) -> tuple[float | None, float | None]:
    """The limits on the scale of on_one_scale(); None where there is none on that side, or not for every value."""
    limits = {(one.lower, one.upper) for one in values}
    if len(limits) == 1:
        return next(iter(limits))
    sides = {(lower is None, upper is None) for lower, upper in limits}
    if len(sides) > 1:
        return (None, None)
    return {(False, False): (-1.0, 1.0), (True, False): (None, 0.0), (False, True): (0.0, None)}.get(
        sides.pop(), (None, None)
    )


def position(value: float, lower: float | None, upper: float | None) -> float:
    """Where a value lies by its limits: -1 at the lower, 1 at the upper; with one limit the distance from it in the
    item's uom, below zero under it; without any the value itself."""
    if lower is not None and upper is not None:
        return (2 * value - lower - upper) / (upper - lower) if upper > lower else value - upper
    limit = upper if lower is None else lower
    return value if limit is None else value - limit
