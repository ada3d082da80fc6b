"""The day review: what to see, worst first, with all that is needed to decide about it."""

import time
from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.core import judging
from seamtag.core.job import Job as CoreJob
from seamtag.core.layers import layer_of
from seamtag.core.limits import Limits
from seamtag.core.numbers import text_of
from seamtag.core.progress import PieceProgress, Progress
from seamtag.core.standing import Standing
from seamtag.gauges.models import Gauge
from seamtag.jobs.floor import core_job
from seamtag.people.models import Person
from seamtag.photos.models import Photo
from seamtag.records import jws
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of
from seamtag.review.models import FlagRow
from seamtag.sync.models import Device, Entry, Mark

SILENT = 2 * 3600
"""Seconds after which a phone counts as not heard from."""
MOST_FLAGS = 500
SAYS = ("entered", "result", "value", "disposition", "stamp")
OF_FLAG = ("id", "kind", "state", "job", "station", "record", "disposition", "reason", "past")


def time_zone(session: Session) -> ZoneInfo:
    mark = session.get(Mark, "time_zone")
    return ZoneInfo(mark.value if mark else "UTC")


def today(session: Session) -> date:
    """The shop's day."""
    return datetime.now(time_zone(session)).date()


def day_of(session: Session, text: str) -> tuple[str, int, int]:
    """The shop's day as ISO text with its first and last Unix second; today where text is ''. Raises ValueError."""
    zone = time_zone(session)
    day = datetime.fromisoformat(text).replace(tzinfo=zone) if text else datetime.now(zone)
    if not 1970 < day.year < 9999:
        raise ValueError
    start = day.replace(hour=0, minute=0, second=0, microsecond=0)
    return start.date().isoformat(), int(start.timestamp()), int((start + timedelta(days=1)).timestamp()) - 1


def flags(session: Session, filters: Mapping[str, str]) -> list[dict[str, Any]]:
    """Flags, worst first: by kind, then by how far past the limit. filters: state, job, kind; '' lets all through."""
    query = select(FlagRow)
    for name in ("state", "job", "kind"):
        if filters.get(name):
            query = query.where(getattr(FlagRow, name) == filters[name])
    rows = session.scalars(query.order_by(FlagRow.rank, FlagRow.past.desc(), FlagRow.number).limit(MOST_FLAGS)).all()
    people = dict(session.execute(select(Person.id, Person.name)).all())
    records = {r.id: r for r in session.scalars(select(Record).where(Record.id.in_({row.record for row in rows})))}
    return [line(session, row, records.get(row.record), people) for row in rows]


def line(session: Session, row: FlagRow, record: Record | None, people: Mapping[str, str]) -> dict[str, Any]:
    """One flag as a line of the list."""
    found: dict[str, Any] = {name: getattr(row, name) for name in OF_FLAG}
    job = core_job(session, row.job)
    found |= names_of(job, row.piece, row.step, row.item) if job else {}
    found |= {"value": None, "margin": None, "by": "", "at": "", "verdict": "", "limits": None, "uom": ""}
    if record is not None:
        found |= {"value": record.value, "margin": record.margin, "verdict": record.verdict, "at": record.at,
                  "by": people.get(record.by, record.by)}  # fmt: skip
        found |= limits_of(session, job, record) if job else {}
    return found


def names_of(job: CoreJob, piece: str, step: str, item: str) -> dict[str, Any]:
    """Mark, step and item by their names; what a formula is about is never guessed at."""
    one = job.pieces.get(piece, {"mark": piece, "kind": "unknown piece", "name": ""})
    asked = job.steps.get(step, {"number": "", "name": step})
    what = job.item(step, item) or {"name": item, "binds": "", "source": ""}
    return {
        "piece": {"id": piece, "mark": one["mark"], "kind": one["kind"], "name": one["name"]},
        "step": {"code": step, "number": asked["number"], "name": asked["name"]},
        "item": {"code": item, "name": what["name"], "binds": what.get("binds", ""), "source": what.get("source", "")},
    }


def limits_of(session: Session, job: CoreJob, record: Record) -> dict[str, Any]:
    """The limits a reading was judged by, under the revision it names."""
    if record.type != "reading":
        return {}
    entry = session.get(Entry, record.number)
    payload = jws.json_of(entry.body.split(".")[1]) if entry else {}
    basis = payload["basis"]
    limits = job.limits(record.piece, record.step, record.item, basis["plan"], basis["figures"])
    asked = job.item(record.step, record.item, basis["plan"]) or {}
    return {"limits": as_limits(limits), "uom": asked.get("uom") or payload["body"]["uom"]}


def as_limits(limits: Limits) -> dict[str, str | None]:
    return {
        side: None if getattr(limits, side) is None else text_of(getattr(limits, side)) for side in ("lower", "upper")
    }


def counts(session: Session, start: int, end: int) -> dict[str, int]:
    """Of the day's records, and of all flags still open."""
    recorded = session.scalar(select(func.count()).where(Record.received.between(start, end))) or 0
    flagged = session.scalar(
        select(func.count(func.distinct(FlagRow.record)))
        .join(Record, Record.id == FlagRow.record)
        .where(Record.received.between(start, end))
    )
    by_state = dict(session.execute(select(FlagRow.state, func.count()).group_by(FlagRow.state)).all())
    return {"recorded": recorded, "flagged": flagged or 0, "open": by_state.get("open", 0),
            "decided": by_state.get("decided", 0), "on_the_spot": by_state.get("fixed on the spot", 0)}  # fmt: skip


def silent(session: Session) -> list[dict[str, Any]]:
    """Phones not heard from for a while, the longest silent first, and what they said was waiting."""
    rows = session.scalars(
        select(Device).where(Device.last_heard < int(time.time()) - SILENT).order_by(Device.last_heard)
    )
    people = dict(session.execute(select(Person.id, Person.name)).all())
    return [{"device": d.id, "person": people.get(d.person, d.person), "last_heard": d.last_heard,
             "waiting": d.waiting} for d in rows]  # fmt: skip


def opened(session: Session, row: FlagRow) -> dict[str, Any]:
    """One flag with the history of its place, its photos, its trend, and what a disposition must name."""
    record = session.get(Record, row.record)
    people = dict(session.execute(select(Person.id, Person.name)).all())
    found = line(session, row, record, people)
    job = core_job(session, row.job)
    if job is None:
        return {**found, "history": [], "photos": [], "trend": [], "agree": [], "basis": None, "gauge": None}
    progress = Progress(job, payloads_of(session, row.job, [row.piece]))
    own = progress.piece(row.piece)
    here = [r for r in own.records if belongs(r, row)]
    binds = found["item"]["binds"] or "shop"
    return {
        **found,
        "history": [history_line(r, own.standing, people) for r in here],
        "photos": photo_lines(session, here, own),
        "trend": trend(session, row),
        "agree": job.plan["agree"].get(binds, []),
        "steps": [{"code": s["code"], "number": s["number"], "name": s["name"]} for s in job.steps_of(row.piece)],
        "repairs": own.repairs,
        "basis": dict(job.basis),
        "gauge": gauge_of(session, own.records, row.record),
    }  # fmt: skip


def belongs(record: judging.Judged, row: FlagRow) -> bool:
    """Whether a record tells of the flag's place: the same item, or decides or voids about it."""
    _, step, item, station = record.place
    if record.type in ("disposition", "agreement", "void", "note"):
        return True
    same = step == row.step and item == row.item
    return record.id == row.record or (same and (station == row.station or not row.item or not station))


def history_line(record: judging.Judged, standing: Standing, people: Mapping[str, str]) -> dict[str, Any]:
    body = record.body
    says = next((str(body[name]) for name in SAYS if body.get(name)), "")
    return {
        "id": record.id, "type": record.type, "at": record.payload["at"], "station": record.place[3], "says": says,
        "by": people.get(record.payload["by"], record.payload["by"]), "verdict": record.verdict.word,
        "standing": standing.of(record), "why": record.payload.get("why") or "",
        "note": body.get("note") or body.get("reason") or body.get("caption") or body.get("text") or "",
    }  # fmt: skip


def photo_lines(session: Session, here: list[judging.Judged], own: PieceProgress) -> list[dict[str, Any]]:
    """Each photo once, whether it is here and can be shown, and what was drawn over it."""
    named = {str(r.body["sha256"]): r.body for r in here if r.type == "photo"}
    shown = {photo.sha256: photo for photo in session.scalars(select(Photo).where(Photo.sha256.in_(named)))}
    return [
        {
            "sha256": sha, "here": sha in shown and shown[sha].stored,
            "shown": shown[sha].shown if sha in shown else "", "width": body["width"], "height": body["height"],
            "marks": layer_of(own.records, own.standing.voids, sha),
        }
        for sha, body in named.items()
    ]  # fmt: skip


def gauge_of(session: Session, records: list[judging.Judged], record_id: str) -> dict[str, Any] | None:
    record = next((r for r in records if r.id == record_id), None)
    gauge = session.get(Gauge, record.body.get("gauge") or "") if record else None
    return {"name": gauge.name, "due": gauge.due, "uncertainty": gauge.uncertainty} if gauge else None


def trend(session: Session, row: FlagRow) -> list[dict[str, Any]]:
    """The last readings of this item on any piece of any job, oldest first."""
    if not row.item:
        return []
    rows = session.execute(
        select(Record.id, Record.value_float, Record.verdict)
        .where(Record.step == row.step, Record.item == row.item, Record.value_float.is_not(None))
        .order_by(Record.number.desc())
        .limit(30)
    ).all()
    return [{"id": r.id, "value": r.value_float, "verdict": r.verdict} for r in reversed(rows)]
