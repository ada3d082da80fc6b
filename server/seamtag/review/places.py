"""What the review says of a flag: its place by name, its value and its limits; kept with the flag."""

from decimal import Decimal
from typing import Any

from seamtag.core.flags import Flag
from seamtag.core.job import Job as CoreJob
from seamtag.core.judging import Judged
from seamtag.core.limits import Limits
from seamtag.core.numbers import text_of
from seamtag.core.progress import Progress

NOTHING = {"value": None, "margin": None, "uom": "", "limits": None, "verdict": "", "at": ""}


def shown_of(progress: Progress, flag: Flag) -> dict[str, Any]:
    """Piece, step, item and stage by their names; value, margin, uom, limits, verdict and claimed time."""
    record = progress.records.get(flag.record)
    found = {**names_of(progress.job, flag.piece, flag.step, flag.item), **NOTHING}
    if record is not None:
        found |= {"verdict": record.verdict.word, "at": record.payload["at"], **value_of(progress, flag, record)}
    return found


def names_of(job: CoreJob, piece: str, step: str, item: str) -> dict[str, Any]:
    """Mark, step and item by their names; what a formula is about is never guessed at."""
    one = job.pieces.get(piece, {"mark": piece, "kind": "", "name": ""})
    asked = job.steps.get(step, {"number": "", "name": step, "stage": ""})
    what = job.item(step, item) or {"name": item, "binds": "", "source": ""}
    return {
        "piece": {"id": piece, "mark": one["mark"], "kind": one["kind"], "name": one["name"]},
        "step": {"code": step, "number": asked["number"], "name": asked["name"]},
        "item": {"code": item, "name": what["name"], "binds": what.get("binds", ""), "source": what.get("source", "")},
        "stage": asked.get("stage") or "",
    }


def value_of(progress: Progress, flag: Flag, record: Judged) -> dict[str, Any]:
    """Of a reading, by the revision it names; of a value worked out, by what is in force now."""
    piece, step, item, _ = record.place
    if (step, item) != (flag.step, flag.item):
        return derived_value(progress, flag)
    if record.type != "reading":
        return {}
    basis = record.payload["basis"]
    asked = progress.job.item(step, item, basis["plan"]) or {}
    limits = progress.job.limits(piece, step, item, basis["plan"], basis["figures"])
    return {"value": text(record.value), "margin": text(record.verdict.margin), "limits": as_limits(limits),
            "uom": asked.get("uom") or record.body["uom"]}  # fmt: skip


def derived_value(progress: Progress, flag: Flag) -> dict[str, Any]:
    state = progress.piece(flag.piece).steps.get(flag.step)
    item = state.items.get(flag.item) if state else None
    if item is None or flag.station not in item.derived:
        return {}
    value, found = item.derived[flag.station]
    basis = progress.job.basis
    limits = progress.job.limits(flag.piece, flag.step, flag.item, basis["plan"], basis["figures"])
    asked = progress.job.item(flag.step, flag.item) or {}
    return {"value": text(value), "margin": text(found.margin), "limits": as_limits(limits), "verdict": found.word,
            "uom": asked.get("uom") or ""}  # fmt: skip


def text(value: Decimal | None) -> str | None:
    return None if value is None else text_of(value)


def as_limits(limits: Limits) -> dict[str, str | None]:
    return {"lower": text(limits.lower), "upper": text(limits.upper)}
