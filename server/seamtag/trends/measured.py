"""Values for the trends, out of the records: what was read, and what was worked out from readings."""

import hashlib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from operator import lt
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.core.job import Job as CoreJob
from seamtag.core.judging import Judged
from seamtag.core.limits import Limits
from seamtag.core.progress import PieceProgress, Progress
from seamtag.core.standing import IN_FORCE
from seamtag.core.verdict import OUT
from seamtag.rows import Row, Stamps, bring_up_to_date
from seamtag.trends.models import Measured, Series

SeriesKey = tuple[str, str, str]
"""Code of the plan, code of the step, code of the item."""

LARGEST = 1e300
"""Beyond it a value is no use in a chart."""

CHARTED = ("record", "job", "piece", "mark", "kind", "station", "at", "by", "gauge", "procedure", "value", "lower",
           "upper", "verdict", "standing")  # fmt: skip
"""What a chart needs of a value."""

RECENT = 50
"""The newest values in force of an item that tell how it stands now."""

Columns = dict[str, list[Any]]
"""Lists as long as each other, by the names of CHARTED."""


def keep_measured(session: Session, progress: Progress, job: str, pieces: set[str], stamps: Stamps) -> set[SeriesKey]:
    """Bring the values of pieces up to date; the series in which any is new or stands otherwise than it did."""
    wanted = [row for piece in sorted(pieces) for row in measured_of(progress, job, piece, stamps)]
    where = (Measured.job == job, Measured.piece.in_(pieces))
    written, gone = bring_up_to_date(session, Measured, where, wanted)
    changed: dict[SeriesKey, int] = {}
    for rows, sign in ((written, 1), (gone, -1)):
        for row in rows:
            key = (row["plan"], row["step"], row["item"])
            changed[key] = changed.get(key, 0) + sign
    newest: dict[SeriesKey, int] = {}
    for row in written:
        key = (row["plan"], row["step"], row["item"])
        newest[key] = max(newest.get(key, 0), row["received"])
    for key, more in changed.items():
        count(session, progress.job, key, more, newest.get(key, 0))
    return set(changed)


def count(session: Session, job: CoreJob, key: SeriesKey, more: int, received: int) -> None:
    found = session.get(Series, key)
    plan, step, item = key
    asked, what = job.steps.get(step), job.item(step, item)
    if found is None:
        found = Series(plan=plan, step=step, item=item, step_number="", step_name=step, name=item, uom="", count=0,
                       last=0)  # fmt: skip
        session.add(found)
    if asked is not None and what is not None and job.plan["plan"] == plan:
        found.step_number, found.step_name = asked["number"], asked["name"]
        found.name, found.uom = what["name"], what.get("uom") or ""
    found.count += more
    found.last = max(found.last, received)


def measured_of(progress: Progress, job: str, piece: str, stamps: Stamps) -> Iterator[Row]:
    own = progress.piece(piece)
    one = progress.job.pieces.get(piece)
    if one is None:
        return
    common = {"job": job, "piece": piece, "mark": one["mark"], "kind": one["kind"], "procedure": procedure_on(own)}
    for record in own.records:
        if record.type == "reading" and record.id in stamps and usable(record.value):
            yield {**common, **of_reading(progress.job, own, record), **stamped(record, stamps)}
    for code, state in own.steps.items():
        for item, found in state.items.items():
            for station, (value, word) in found.derived.items():
                newest = own.bench.newest_input(progress.job.steps[code], item_of(progress.job, code, item), station)
                if newest in stamps and usable(value):
                    place = (piece, code, item, station)
                    yield {**common, **of_derived(progress.job, place, value, word.word),
                           **stamped(own.standing.records[newest], stamps), "gauge": ""}  # fmt: skip


def usable(value: Decimal | None) -> bool:
    return value is not None and abs(value) < LARGEST


def item_of(job: CoreJob, step: str, item: str) -> Mapping[str, object]:
    return next(one for one in job.steps[step]["items"] if one["code"] == item)


def stamped(record: Judged, stamps: Stamps) -> Row:
    number, received = stamps[record.id]
    return {"record": record.id, "number": number, "received": received, "by": record.payload["by"],
            "at": record.payload["at"], "gauge": record.body.get("gauge") or ""}  # fmt: skip


def of_reading(job: CoreJob, own: PieceProgress, record: Judged) -> Row:
    piece, step, item, station = record.place
    basis = record.payload["basis"]
    asked = job.item(step, item, basis["plan"]) or {}
    limits = job.limits(piece, step, item, basis["plan"], basis["figures"])
    plan = job.data["plans"].get(basis["plan"], {}).get("plan") or job.plan["plan"]
    return {"id": record.id, "plan": plan, "step": step, "item": item, "station": station,
            "value": float(record.value or 0), **sides(limits), "uom": asked.get("uom") or record.body["uom"],
            "verdict": record.verdict.word, "standing": own.standing.of(record)}  # fmt: skip


def of_derived(job: CoreJob, place: tuple[str, str, str, str], value: Decimal | None, word: str) -> Row:
    piece, step, item, station = place
    limits = job.limits(piece, step, item, job.basis["plan"], job.basis["figures"])
    asked = job.item(step, item) or {}
    name = hashlib.sha256("\n".join(place).encode()).hexdigest()[:32]
    return {"id": name, "plan": job.plan["plan"], "step": step, "item": item, "station": station,
            "value": float(value or 0), **sides(limits), "uom": asked.get("uom") or "", "verdict": word,
            "standing": IN_FORCE}  # fmt: skip


def sides(limits: Limits) -> dict[str, float | None]:
    return {side: None if (limit := getattr(limits, side)) is None or not usable(limit) else float(limit)
            for side in ("lower", "upper")}  # fmt: skip


def procedure_on(own: PieceProgress) -> str:
    """The procedure of the newest pass welded on a piece; '' where none is."""
    welds = [r for r in own.records if r.type == "weld" and own.standing.in_force(r)]
    return str(welds[-1].body["procedure"])[:200] if welds else ""


def values_of(session: Session, key: SeriesKey, most: int, oldest: bool = False) -> list[Measured]:
    """Of a series the newest values in force, or the oldest, each in the order in which they came."""
    plan, step, item = key
    query = select(Measured).where(Measured.plan == plan, Measured.step == step, Measured.item == item)
    query = query.where(Measured.standing == IN_FORCE)
    order = Measured.number if oldest else Measured.number.desc()
    rows = session.scalars(query.order_by(order).limit(most)).all()
    return list(rows) if oldest else list(reversed(rows))


def newest(session: Session, key: SeriesKey, most: int) -> Columns:
    """Of a series the newest values however they stand, in columns, in the order in which they were made."""
    of = Measured.__table__.c
    query = select(*(of[name] for name in CHARTED))
    query = query.where(*(of[name] == code for name, code in zip(("plan", "step", "item"), key, strict=True)))
    rows = list(session.connection().execute(query.order_by(of.number.desc()).limit(most)).all())
    rows.reverse()
    columns = dict(zip(CHARTED, map(list, zip(*rows, strict=True)) if rows else [[] for _ in CHARTED], strict=True))
    records = columns["record"]
    if all(map(lt, records, records[1:])):
        return columns
    made = list(zip(records, columns["station"], strict=True))
    order = sorted(range(len(made)), key=made.__getitem__)
    return {name: [column[place] for place in order] for name, column in columns.items()}


def series_named(session: Session, plan: str, step: str, item: str) -> Series | None:
    """A series by its codes; where no plan is named, the one of all plans in which a value came in last."""
    query = select(Series).where(Series.step == step, Series.item == item, Series.count > 0)
    if plan:
        query = query.where(Series.plan == plan)
    return session.scalars(query.order_by(Series.last.desc(), Series.plan).limit(1)).first()


def about(series: Series) -> dict[str, Any]:
    names = ("plan", "step", "item", "step_number", "step_name", "name", "uom", "count", "last")
    return {name: getattr(series, name) for name in names}


def listed(session: Session) -> list[dict[str, Any]]:
    """Every item that has values, the one with the newest first; of each, how many of its newest values are out."""
    last = (
        select(Measured.verdict)
        .where(Measured.plan == Series.plan, Measured.step == Series.step, Measured.item == Series.item)
        .where(Measured.standing == IN_FORCE)
        .order_by(Measured.number.desc())
        .limit(RECENT)
        .correlate(Series)
        .subquery()
    )
    recent = select(func.count()).select_from(last)
    out = recent.where(last.c.verdict == OUT).scalar_subquery()
    query = select(Series, recent.scalar_subquery(), out).where(Series.count > 0).order_by(Series.last.desc())
    return [{**about(row), "recent": count, "out": beyond} for row, count, beyond in session.execute(query)]
