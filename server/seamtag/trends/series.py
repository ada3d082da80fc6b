"""One item's values as a chart needs them: limits, control limits, average, signals, capability and groups."""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from itertools import compress
from typing import Any

import numpy as np
from sqlalchemy.orm import Session

from seamtag.core.standing import IN_FORCE, VOID
from seamtag.core.verdict import CLOSE, OUT, UNJUDGED
from seamtag.people.staff import names_of_people
from seamtag.trends.drift import BASELINE
from seamtag.trends.measured import Columns, about, newest
from seamtag.trends.models import Series
from seamtag.trends.rules import USUAL_RULES, USUAL_WEIGHT
from seamtag.trends.statistics import (
    Individuals,
    autocorrelation,
    capability,
    ewma,
    ewma_limits,
    individuals,
    one_sided_capability,
    signals,
    summary,
    wilson,
)
from seamtag.trends.warning import position
from seamtag.trends.watching import rules_of

MOST = 2_000
"""The newest values of an item that are looked at; all filters work within these."""
SMALL = 30
"""Values below which a share or a spread is called small: it may well be chance."""
WIDTH = 3.0
"""Half the distance of the limits of the average, in its standard deviations."""
FLAGGED = (OUT, CLOSE, UNJUDGED)
SETTLED = 1e-9
"""How near the limits of the average come to where they end, as a share, before they are taken to be there."""
LARGEST = 1e100
"""Beyond it squares of a value are no numbers any more."""
GROUPED = {"gauge": "gauge", "maker": "by", "procedure": "procedure", "kind": "kind"}
FILTERED = {"job": "job", **GROUPED}
POINT = ("job", "piece", "mark", "station", "at", "by", "gauge", "value", "lower", "upper", "verdict")

Counts = Mapping[str, Counter[str]]
"""How many values there are of each job, gauge, maker, procedure and kind."""

Chosen = Mapping[str, Any]
"""job, gauge, maker, procedure, kind: '' lets all through. show: 'left' or 'found'. rules: ids. weight: of the average.
baseline: 'first' or 'all'."""

USUAL: Chosen = {**dict.fromkeys(FILTERED, ""), "show": "left", "rules": USUAL_RULES, "weight": USUAL_WEIGHT,
                 "baseline": "first"}  # fmt: skip


@dataclass(frozen=True)
class Scale:
    """What the statistics are worked out from, and the limits on that scale where all values have the same.

    name: 'value', as measured; 'position', where each value lies by its own limits; 'none', where values cannot be
    compared. unit: 'uom', or 'half tolerance'. alike: whether the tolerances are all as wide.
    """

    name: str
    values: list[float]
    lower: float | None = None
    upper: float | None = None
    unit: str = "uom"
    alike: bool = True
    why: str = ""


def trend_of(session: Session, series: Series, chosen: Chosen, with_names: bool) -> dict[str, Any]:
    """All that the screen shows of one item. with_names: whether makers are compared by person."""
    looked_at = newest(session, (series.plan, series.step, series.item), MOST)
    shown = only(looked_at, [stands(one, chosen["show"]) for one in looked_at["standing"]])
    values = filtered(shown, chosen)
    counts = counts_of(shown)
    scale = scale_of(values)
    points: dict[str, Any] = {name: values[name] for name in POINT}
    if not with_names:
        points["by"] = []
    if scale.name == "position":
        points["position"] = scale.values
    count = len(looked_at["record"])
    return {
        **about(series),
        "looked_at": count, "most": MOST, "older": series.count > count >= MOST,
        "watched": rules_of(session, (series.plan, series.step, series.item)),
        "show": chosen["show"], "names_left_out": not with_names,
        "people": people_in(session, counts["maker"]) if with_names else {},
        "filters": filters_of(counts, with_names),
        "scale": scale.name, "unit": scale.unit, "lower": scale.lower, "upper": scale.upper,
        "points": points,
        **statistics_of(scale, chosen),
        "verdicts": dict(Counter(values["verdict"])),
        "groups": groups_of(values, counts if values is shown else counts_of(values), scale, with_names),
    }  # fmt: skip


def only(columns: Columns, kept: Sequence[bool]) -> Columns:
    return columns if all(kept) else {name: list(compress(column, kept)) for name, column in columns.items()}


def filtered(columns: Columns, chosen: Chosen) -> Columns:
    for name, column in FILTERED.items():
        if chosen[name]:
            columns = only(columns, [one == chosen[name] for one in columns[column]])
    return columns


def counts_of(columns: Columns) -> Counts:
    return {name: Counter(columns[column]) for name, column in FILTERED.items()}


def people_in(session: Session, makers: Iterable[str]) -> dict[str, str]:
    names = names_of_people(session)
    return {one: names.get(one, one) for one in sorted(makers)}


def stands(standing: str, show: str) -> bool:
    return standing == IN_FORCE if show == "left" else standing != VOID


def filters_of(counts: Counts, with_names: bool) -> dict[str, list[dict[str, Any]]]:
    """What the values looked at can be filtered by, with how many there are of each, the most frequent first."""
    return {name: [{"value": one, "count": count} for one, count in of_it.most_common()]
            for name, of_it in counts.items() if name != "maker" or with_names}  # fmt: skip


def scale_of(columns: Columns) -> Scale:
    values, lowers, uppers = (columns[name] for name in ("value", "lower", "upper"))
    limits = {*zip(lowers, uppers, strict=True)}
    if len(limits) <= 1:
        lower, upper = next(iter(limits), (None, None))
        return Scale("value", values, lower, upper)
    sides = {(lower is None, upper is None) for lower, upper in limits}
    if len(sides) > 1:
        return Scale("none", values, why="limits on different sides")
    positions = list(map(position, values, lowers, uppers))
    below, above = sides.pop()
    if below or above:
        return Scale("position", positions, None if below else 0.0, None if above else 0.0)
    widths = [upper - lower for lower, upper in limits]
    alike = max(widths) - min(widths) <= SETTLED * max(map(abs, widths))
    return Scale("position", positions, -1.0, 1.0, "half tolerance", alike)


def statistics_of(scale: Scale, chosen: Chosen) -> dict[str, Any]:
    """Control limits, average and signals; `why` says why there are none."""
    why = why_none(scale)
    found: dict[str, Any] = {
        "summary": None,
        "control": None,
        "ewma": None,
        "signals": {},
        "why": why,
        "correlation": None,
    }
    if scale.values and why in ("", "one value", "no spread"):
        whole = summary(scale.values)
        found["summary"] = {**asdict(whole), "least": min(scale.values), "most": max(scale.values)}
    found["capability"] = capability_of(scale, why)
    if why:
        return found
    baseline = scale.values[:BASELINE] if chosen["baseline"] == "first" else scale.values
    control = individuals(baseline)
    found["correlation"] = autocorrelation(scale.values)
    found["control"] = {**asdict(control), "baseline": len(baseline)}
    if control.sigma == 0:
        return {**found, "why": "no spread in the baseline"}
    found["ewma"] = average_of(scale.values, control, chosen["weight"])
    found["signals"] = signals(scale.values, control.centre, control.sigma, chosen["rules"])
    return found


def why_none(scale: Scale) -> str:
    values = scale.values
    if scale.why or not values:
        return scale.why or "no values"
    if len(values) < 2:
        return "one value"
    if max(max(values), -min(values)) > LARGEST:
        return "values too large"
    return "no spread" if min(values) == max(values) else ""


def average_of(values: Sequence[float], control: Individuals, weight: float) -> dict[str, Any]:
    """The moving average with its limits: they widen over the first points, and the last ones hold for all after."""
    lower, upper = [], []
    for count in range(1, len(values) + 1):
        limits = ewma_limits(control.centre, control.sigma, weight, WIDTH, count)
        lower.append(limits.low)
        upper.append(limits.high)
        if (1 - weight) ** (2 * count) < SETTLED:
            break
    return {"weight": weight, "values": ewma(values, weight, control.centre).tolist(), "lower": lower, "upper": upper}


def capability_of(scale: Scale, why: str) -> dict[str, Any]:
    """Cp and Cpk against two limits, the one index against a single limit; `why` says why there is none."""
    none = {"sides": "", "cp": None, "cpk": None, "why": why}
    if why:
        return none
    if scale.lower is None and scale.upper is None:
        return {**none, "why": "no limits"}
    if not scale.alike:
        return {**none, "why": "tolerances differ"}
    whole = summary(scale.values)
    assert whole.sd is not None
    if scale.lower is None or scale.upper is None:
        index = one_sided_capability(whole.mean, whole.sd, whole.n, lower=scale.lower, upper=scale.upper)
        return {**none, "sides": "upper" if scale.lower is None else "lower", "cpk": asdict(index)}
    if not scale.lower < scale.upper:
        return {**none, "why": "no tolerance"}
    both = capability(whole.mean, whole.sd, whole.n, scale.lower, scale.upper)
    return {"sides": "both", "cp": asdict(both.cp), "cpk": asdict(both.cpk), "why": ""}


def groups_of(columns: Columns, counts: Counts, scale: Scale, with_names: bool) -> dict[str, list[dict[str, Any]]]:
    """By gauge, maker, procedure and kind of piece; on the statistics' scale, the largest groups first."""
    values = np.asarray(scale.values, dtype=np.float64)
    flagged = np.array([one in FLAGGED for one in columns["verdict"]], dtype=bool)
    figures = scale.name != "none" and why_none(scale) != "values too large"
    found = {}
    for name, column in GROUPED.items():
        if name == "maker" and not with_names:
            continue
        places = places_of(columns[column], counts[name])
        lines = []
        for one, count in sorted(counts[name].items(), key=lambda pair: (-pair[1], pair[0])):
            whole = summary(values[places[one]]) if figures else None
            lines.append({"name": one, "mean": whole and whole.mean, "sd": whole and whole.sd,
                          **share_of(int(flagged[places[one]].sum()), count)})  # fmt: skip
        found[name] = lines
    return found


def places_of(column: Sequence[str], counts: Collection[str]) -> Mapping[str, Any]:
    """What picks the places of each group out of an array as long as a column."""
    if len(counts) == 1:
        return dict.fromkeys(counts, slice(None))
    codes = {one: code for code, one in enumerate(counts)}
    coded = np.fromiter(map(codes.__getitem__, column), dtype=np.intp, count=len(column))
    return {one: coded == code for one, code in codes.items()}


def share_of(flagged: int, n: int) -> dict[str, Any]:
    """A share flagged with its 95 % interval after Wilson; n is above 0."""
    interval = wilson(flagged, n)
    return {"n": n, "flagged": flagged, "share": flagged / n, "low": interval.low, "high": interval.high,
            "small": n < SMALL}  # fmt: skip
