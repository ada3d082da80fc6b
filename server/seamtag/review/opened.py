"""One flag opened: all that is needed to decide about it."""

from collections.abc import Iterable, Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.flags import OPEN
from seamtag.core.judging import Judged
from seamtag.core.layers import layer_of
from seamtag.core.progress import PieceProgress, Progress
from seamtag.core.standing import Standing, about_finding
from seamtag.gauges.models import Gauge
from seamtag.jobs.floor import core_job
from seamtag.people.staff import names_of_people
from seamtag.photos.models import Photo
from seamtag.records.reading import payloads_of
from seamtag.review.day import line
from seamtag.review.models import FlagRow
from seamtag.trends.measured import values_of

SAYS = ("entered", "result", "value", "disposition", "stamp")
ABOUT_OTHERS = ("disposition", "agreement", "void")
"""Types that tell of other records, and name no place of their own but that of a value worked out."""
LAST = 30
"""Values of the item's trend that are shown beside a flag."""


def opened(session: Session, row: FlagRow) -> dict[str, Any]:
    """One flag with what was recorded at its place and on its piece, its photos, its trend, what the piece is of, and
    what a disposition must name."""
    people = names_of_people(session)
    found = {**line(row, people), "alike": alike(session, row)}
    job = core_job(session, row.job)
    if job is None:
        return {**found, "history": [], "others": [], "photos": [], "trend": [], "agree": [], "basis": None,
                "gauge": None, "material": [], "procedures": [], "steps": [], "cycle": 1}  # fmt: skip
    progress = Progress(job, payloads_of(session, row.job, [row.piece]))
    own = progress.piece(row.piece)
    here = told_here(own, row)
    told = {r.id for r in here}
    beside = [r for r in own.records if r.id not in told and r.place[1] == row.step and r.place[2]
              and r.type not in ABOUT_OTHERS]  # fmt: skip
    return {
        **found,
        "history": [history_line(r, own.standing, people) for r in here],
        "others": [{**history_line(r, own.standing, people), "item": item_name(progress, r)} for r in beside[-LAST:]],
        "photos": photo_lines(session, here, own),
        "trend": trend(session, job.plan["plan"], row),
        "agree": job.plan["agree"].get(found["item"]["binds"] or "shop", []),
        "steps": [{"code": s["code"], "number": s["number"], "name": s["name"]} for s in job.steps_of(row.piece)],
        "cycle": own.next_repair(row.record),
        "basis": dict(job.basis),
        "gauge": gauge_of(session, own.records, row.record),
        "material": material_of(progress, own),
        "procedures": procedures_of(own),
    }  # fmt: skip


def told_here(own: PieceProgress, row: FlagRow) -> list[Judged]:
    """What tells of a flag's place: what was recorded there, the words said about that, the agreements to these, what
    was lined out of it all, and notes of its step or that clear one of them."""
    here = {r.id for r in own.records if recorded_here(r, row)}
    here |= {r.id for r in own.records if r.type == "disposition" and decides_here(r, row, here, own.standing)}
    here |= {r.id for r in own.records if r.type == "agreement" and r.body["disposition"] in here}
    here |= {r.id for r in own.records if r.type == "note" and r.body.get("clears") in here}
    here |= {r.id for r in own.records if r.type == "void" and r.body["record"] in here}
    return [r for r in own.records if r.id in here]


def recorded_here(record: Judged, row: FlagRow) -> bool:
    """Whether a record is the flag's own or was made at its item and station, or is a note of its whole step."""
    _, step, item, station = record.place
    if record.id in (row.record, row.disposition):
        return True
    if record.type in ABOUT_OTHERS or step != row.step:
        return False
    if item != row.item:
        return record.type == "note" and not item
    return station == row.station or not row.item or not station


def decides_here(disposition: Judged, row: FlagRow, here: set[str], standing: Standing) -> bool:
    """Whether a disposition is about the flag's place, or about a record of it. A 'use as is' about a worked-out value
    only names the reading behind that value; and what is said of that reading is not said of the value."""
    about = disposition.body["about"]
    _, *place = disposition.place
    if row.item and place == [row.step, row.item, row.station]:
        return True
    if here.isdisjoint(about["records"]):
        return False
    if (standing.job.item(row.step, row.item) or {}).get("kind") == "derived":
        return bool(about["flag"] == row.kind and not about_finding(disposition))
    return disposition.body["disposition"] != "use as is" or not standing.speaks_of_derived(disposition)


def item_name(progress: Progress, record: Judged) -> str:
    return str((progress.job.item(record.place[1], record.place[2]) or {"name": record.place[2]})["name"])


def history_line(record: Judged, standing: Standing, people: Mapping[str, str]) -> dict[str, Any]:
    body = record.body
    says = next((str(body[name]) for name in SAYS if body.get(name)), "")
    return {
        "id": record.id, "type": record.type, "at": record.payload["at"], "station": record.place[3], "says": says,
        "by": people.get(record.payload["by"], record.payload["by"]), "verdict": record.verdict.word,
        "standing": standing.of(record), "why": record.payload.get("why") or "",
        "flag": body["about"]["flag"] if record.type == "disposition" else "",
        "note": body.get("note") or body.get("reason") or body.get("caption") or body.get("text") or "",
    }  # fmt: skip


def photo_lines(session: Session, here: Iterable[Judged], own: PieceProgress) -> list[dict[str, Any]]:
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


def gauge_of(session: Session, records: Iterable[Judged], record_id: str) -> dict[str, Any] | None:
    record = next((r for r in records if r.id == record_id), None)
    gauge = session.get(Gauge, record.body.get("gauge") or "") if record else None
    return {"name": gauge.name, "due": gauge.due, "uncertainty": gauge.uncertainty} if gauge else None


def material_of(progress: Progress, own: PieceProgress) -> list[dict[str, str]]:
    """Heat, lot and serial numbers in force on the piece, by the name of their item."""
    found = [r for r in own.records if r.type == "text" and own.standing.in_force(r)]
    return [{"name": item_name(progress, r), "value": r.body["value"], "station": r.place[3]} for r in found]


def procedures_of(own: PieceProgress) -> list[str]:
    """The welding procedures used on the piece."""
    welds = (r for r in own.records if r.type == "weld" and own.standing.in_force(r))
    return sorted({str(r.body["procedure"]).strip() for r in welds} - {""})


def trend(session: Session, plan: str, row: FlagRow) -> list[dict[str, Any]]:
    """The last values of this item on any piece of any job, oldest first."""
    if not row.item:
        return []
    values = values_of(session, (plan, row.step, row.item), LAST)
    return [{"id": one.record, "value": one.value, "lower": one.lower, "upper": one.upper, "verdict": one.verdict,
             "mark": one.mark, "job": one.job} for one in values]  # fmt: skip


def alike(session: Session, row: FlagRow) -> list[str]:
    """Other open flags of the same kind at the same item of the same job, which one word may settle together."""
    query = select(FlagRow.id).where(FlagRow.state == OPEN, FlagRow.job == row.job, FlagRow.kind == row.kind)
    query = query.where(FlagRow.step == row.step, FlagRow.item == row.item, FlagRow.id != row.id)
    return list(session.scalars(query.order_by(FlagRow.number).limit(100)))
