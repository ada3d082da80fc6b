"""The same dimension of the same piece at several steps, side by side: what welding, heat or rolling did to it.

Which items of a plan are one dimension (the rule): both are numbers in the same uom; a piece of one kind comes to both
steps; and they have the same code, or the same name when letter case and a phrase with 'before' or 'after' ('antes de',
'después de') are left out of account. So 'Inside diameter before expanding' and 'Inside diameter after expanding' of a
tube field are one dimension, and the root openings of two different joints are not: no piece is both. Values belong
together where piece and station are the same.
"""

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.plans.models import PlanRevision
from seamtag.trends.measured import values_of
from seamtag.trends.models import Measured

NUMBERS = ("measure", "derived")
WHEN = re.compile(r"\b(before|after|antes de|después de)\b[^,;:()]*", re.IGNORECASE)
MOST = 2_000
"""The newest values in force of each item that are put side by side."""
MOST_ROWS = 500


@dataclass(frozen=True)
class Stage:
    """An item of a step. order: places of step and item in the plan."""

    order: tuple[int, int]
    step: dict[str, Any]
    item: dict[str, Any]

    @property
    def place(self) -> tuple[str, str]:
        return self.step["code"], self.item["code"]

    def is_of(self, other: "Stage") -> bool:
        """Whether two items are one dimension, by the rule above."""
        if self.item.get("uom", "") != other.item.get("uom", "") or not {*self.step["kinds"]} & {*other.step["kinds"]}:
            return False
        same_code = self.item["code"] == other.item["code"] and self.step is not other.step
        return same_code or plain(self.item["name"]) == plain(other.item["name"])


def plain(name: str) -> str:
    """A name without case, and without what it says of when; the name itself where nothing else is in it."""
    kept = " ".join(re.findall(r"\w+", WHEN.sub(" ", name).lower()))
    return kept or name.lower()


def dimensions(document: dict[str, Any]) -> list[list[Stage]]:
    """The items of a plan that are measured more than once on the same piece, each dimension in the plan's order."""
    stages = [
        Stage((step_place, item_place), step, item)
        for step_place, step in enumerate(document["steps"])
        for item_place, item in enumerate(step["items"])
        if item["kind"] in NUMBERS
    ]
    found: list[list[Stage]] = []
    for stage in stages:
        joined = [one for one in found if any(stage.is_of(other) for other in one)]
        found = [one for one in found if one not in joined]
        found.append([*(other for one in joined for other in one), stage])
    return [sorted(one, key=lambda stage: stage.order) for one in found if len(one) > 1]


def side_by_side(session: Session, plan: str, item: str, step: str = "") -> dict[str, Any] | None:
    """The dimensions of a plan's newest revision that an item belongs to, with the values of each piece.

    item '' for every dimension of the plan, without values. step '' for an item of any step. None where there is no
    such plan.
    """
    query = select(PlanRevision).where(PlanRevision.code == plan).order_by(PlanRevision.revision.desc()).limit(1)
    revision = session.scalars(query).first()
    if revision is None:
        return None
    found = [
        one
        for one in dimensions(revision.document)
        if not item or any(stage.item["code"] == item and step in ("", stage.step["code"]) for stage in one)
    ]
    return {"plan": plan, "item": item, "step": step, "most": MOST,
            "dimensions": [with_values(session, plan, one) if item else heads(one) for one in found]}  # fmt: skip


def heads(stages: Sequence[Stage]) -> dict[str, Any]:
    return {
        "stages": [
            {"step": one.step["code"], "step_number": one.step["number"], "step_name": one.step["name"],
             "item": one.item["code"], "name": one.item["name"], "uom": one.item.get("uom", "")}
            for one in stages
        ],
        "rows": [], "single": 0, "left_off": 0,
    }  # fmt: skip


def with_values(session: Session, plan: str, stages: Sequence[Stage]) -> dict[str, Any]:
    """rows: the newest first; single: how many pieces and stations have a value at one step only."""
    by_place: defaultdict[tuple[str, str, str], list[Measured | None]] = defaultdict(lambda: [None] * len(stages))
    for column, stage in enumerate(stages):
        for one in values_of(session, (plan, *stage.place), MOST):
            by_place[one.job, one.piece, one.station][column] = one
    rows = [row for row in by_place.values() if sum(one is not None for one in row) > 1]
    rows.sort(key=lambda row: -max(one.number for one in row if one))
    return {**heads(stages), "rows": [row_of(row) for row in rows[:MOST_ROWS]], "single": len(by_place) - len(rows),
            "left_off": max(0, len(rows) - MOST_ROWS)}  # fmt: skip


def row_of(row: Sequence[Measured | None]) -> dict[str, Any]:
    first = next(one for one in row if one)
    return {
        "job": first.job, "piece": first.piece, "mark": first.mark, "station": first.station,
        "values": [
            one and {"value": one.value, "lower": one.lower, "upper": one.upper, "verdict": one.verdict,
                     "record": one.record, "at": one.at}
            for one in row
        ],
        "changes": list(changes(row)),
    }  # fmt: skip


def changes(row: Sequence[Measured | None]) -> Iterator[float | None]:
    """From each value to the one before it in the plan's order; None at the first, and where the step has none."""
    before: float | None = None
    for one in row:
        yield None if one is None or before is None else one.value - before
        before = before if one is None else one.value
