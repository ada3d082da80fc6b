"""Readings as they would be typed: within limits, in the way the gauge is read."""

import random
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from seamtag.core.job import Job
from seamtag.core.numbers import shown_inches, text_of

BY_FRACTIONS = ("hi-lo gauge", "fillet gauge", "taper gauge", "steel rule", "tape", "undercut gauge")
PLACES = {"in": 3, "deg": 1, "degF": 0, "psi": 0, "%": 1, "count": 0, "min": 0}


def stations_of(item: Mapping[str, Any], piece_kind: str) -> list[str]:
    """The stations to record at; an open list gets names such as hole 14-7."""
    stations = item.get("stations") or {}
    if stations.get("names"):
        return list(stations["names"])
    least = stations.get("least")
    if least is None:
        return [""]
    word = stations["word"]
    return [f"{word} {row}-{place}" for row in range(2, 40, 3) for place in (3, 7)][:least]


def within_limits(job: Job, piece: str, step: str, item: Mapping[str, Any], dice: random.Random) -> str:
    """A value inside the item's limits, as it would be typed."""
    basis = job.basis
    limits = job.limits(piece, step, item["code"], basis["plan"], basis["figures"])
    lower, upper = limits.lower, limits.upper
    share = Decimal(dice.randint(25, 75)) / 100
    if lower is not None and upper is not None:
        value = lower + (upper - lower) * share
    elif upper is not None:
        value = upper * share
    elif lower is not None:
        value = lower + abs(lower) * share / 10
    else:
        value = nominal(job, piece, item["code"], dice)
    return typed(value, item, limits.lower, limits.upper)


def nominal(job: Job, piece: str, code: str, dice: random.Random) -> Decimal:
    """What a measure without limits of its own comes near to: a bore, a diameter."""
    figures = job.names(piece, job.basis).figures
    near = {"idb": figures.get("tube_od", Decimal(0)) - 2 * figures.get("tube_wall", Decimal(0)) - Decimal("0.004")}
    kind = job.pieces[piece]["kind"]
    shell = figures.get("D_furn" if "furnace" in kind else "D_shell", figures.get("D", Decimal(24)))
    return near.get(code, shell) + Decimal(dice.randint(-30, 30)) / 1000


def typed(value: Decimal, item: Mapping[str, Any], lower: Decimal | None, upper: Decimal | None) -> str:
    """The value at the gauge's own fineness, never past a limit by rounding."""
    by_fractions = item.get("gauge") in BY_FRACTIONS and item["uom"] == "in"
    mark = Decimal(1) / 32 if by_fractions else Decimal(1).scaleb(-PLACES.get(item["uom"], 3))
    marks = (value / mark).to_integral_value()
    if upper is not None and marks * mark > upper:
        marks -= 1
    if lower is not None and marks * mark < lower:
        marks += 1
    return shown_inches(marks * mark) if by_fractions else text_of(marks * mark)
