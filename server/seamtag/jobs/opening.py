"""Opening a job: its figures, drawing revisions and pieces, read from YAML and checked against its plan."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

import yaml
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.core import numbers
from seamtag.core.job import Job as CoreJob
from seamtag.jobs.models import Basis, Job, Piece
from seamtag.plans import order
from seamtag.plans.models import PlanRevision
from seamtag.records.rejudging import reflag_now, rejudge_now
from seamtag.review.flagging import refresh_lists
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry
from seamtag.tags.codes import draw
from seamtag.tags.models import Tag


class JobError(ValueError):
    """faults: every fault of the job, a sentence each."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


def read(text: str) -> dict[str, Any]:
    """The source of a job's YAML. Raises JobError where it is none."""
    try:
        source = yaml.safe_load(text)
    except (yaml.YAMLError, ValueError, RecursionError) as error:
        raise JobError(
            [f"The job file is not YAML: {getattr(error, 'problem', None) or 'it cannot be read'}."]
        ) from None
    if not isinstance(source, dict) or not source.get("job") or not source.get("pieces"):
        raise JobError(["The job file needs the keys job, title, plan, figures and pieces."])
    return source


def faults_of(source: Mapping[str, Any], document: Mapping[str, Any]) -> list[str]:
    """What keeps a job from being opened on a plan."""
    found = list(faults_of_figures(source.get("figures") or {}, document))
    marks = [str(piece.get("mark")) for piece in source["pieces"]]
    found += [f"mark {mark} stands twice" for mark, count in sorted(Counter(marks).items()) if count > 1]
    known = set(marks)
    for piece in source["pieces"]:
        if not piece.get("kind"):
            found.append(f"piece {piece.get('mark')}: its kind is missing")
        for key in ("part_of", "joins"):
            found += [f"piece {piece.get('mark')}: {key} names {other}, which is no piece of this job"
                      for other in piece.get(key) or [] if other not in known]  # fmt: skip
    return found or order.faults_of_job(trial_job(source, document))


def faults_of_figures(values: Mapping[str, Any], document: Mapping[str, Any]) -> Iterator[str]:
    """Figures of a job that are missing, or are no numbers."""
    for name, figure in document["figures"].items():
        if name not in values:
            yield f"figure {name} is missing ({figure['what']}, {figure['uom']})"
    for name, typed in values.items():
        try:
            numbers.parse(str(typed))
        except numbers.NumberError as error:
            yield f"figure {name}: {error}"


def trial_job(source: Mapping[str, Any], document: Mapping[str, Any]) -> CoreJob:
    """The job as it would be, without a record: to see what waits for what."""
    basis = {"plan": "", "figures": 1}
    sets = {"1": {"values": texts(source.get("figures")), "drawings": {}}}
    pieces = pieces_of(str(source["job"]), source["pieces"])
    return CoreJob({"id": str(source["job"]), "bases": [basis], "plans": {"": document}, "figure_sets": sets,
                      "pieces": pieces, "gauges": {}})  # fmt: skip


def open_job(session: Session, source: Mapping[str, Any], plan: PlanRevision, now: int, by: str = "") -> Job:
    """Open a job on a plan revision, with a tag for each piece, inside a writing transaction. Raises JobError."""
    number = str(source["job"])
    faults = faults_of(source, plan.document)
    if session.get(Job, number):
        faults.append(f"job {number} is open already")
    if faults:
        raise JobError(faults)
    set_open(session, Job(id=number, title=str(source.get("title", ""))), True, now, by)
    set_basis(session, number, plan.hash, texts(source.get("figures")), texts(source.get("drawings")), "", now, by)
    add_pieces(session, number, source["pieces"], now, by)
    return session.get_one(Job, number)


def set_open(session: Session, job: Job, is_open: bool, now: int, by: str) -> None:
    """Open or close a job; an entry of the chain. Phones carry the jobs that are open."""
    body = {"id": job.id, "title": job.title, "open": is_open}
    chain.announce(session, "job", chain.SHOP, body, now, by)
    refresh_lists(session, job.id, now)
    if is_open:
        reflag_now(session, job.id, "report")


@derives("job")
def derive_job(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.merge(Job(**body))


def texts(values: Mapping[Any, Any] | None) -> dict[str, str]:
    return {str(name): str(value) for name, value in (values or {}).items()}


def set_basis(
    session: Session, job: str, plan: str, values: dict[str, str], drawings: dict[str, str], reason: str, now: int,
    by: str = "",
) -> Basis:  # fmt: skip
    """Judge a job by a plan revision and a new number of figures from now on; an entry of the chain."""
    last = session.scalar(select(func.max(Basis.figures)).where(Basis.job == job)) or 0
    body = {"plan": plan, "figures": last + 1, "values": values, "drawings": drawings, "reason": reason}
    entry = chain.announce(session, "basis", chain.scope_of(job), body, now, by)
    rejudge_now(session, job)
    return session.get_one(Basis, entry.number)


@derives("basis")
def derive_basis(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.add(Basis(number=entry.number, job=chain.job_of(entry.scope), **body))


def pieces_of(job: str, rows: Iterable[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """The pieces as the chain keeps them, out of rows with marks."""
    return [
        {
            "id": f"{job}.{row['mark']}", "mark": str(row["mark"]), "kind": str(row["kind"]),
            "name": str(row.get("name", "")), "part_of": [f"{job}.{mark}" for mark in row.get("part_of") or []],
            "joins": [f"{job}.{mark}" for mark in row.get("joins") or []], "figures": texts(row.get("figures")),
            "sheet": str(row.get("sheet") or ""), "place": str(row.get("place") or ""),
        }
        for row in rows
    ]  # fmt: skip


def add_pieces(session: Session, job: str, rows: Sequence[Mapping[str, Any]], now: int, by: str) -> None:
    """Pieces of a job, each with a tag; one entry for the pieces, one for their tags."""
    pieces = pieces_of(job, rows)
    announce_pieces(session, job, pieces, [piece["id"] for piece in pieces], now, by)


def announce_pieces(
    session: Session, job: str, pieces: list[dict[str, Any]], tagged: list[str], now: int, by: str
) -> None:
    """An entry for pieces that are new or renewed, and one for the tags of those that get one."""
    chain.announce(session, "pieces", chain.scope_of(job), {"pieces": pieces}, now, by)
    tags = dict(zip(draw(session, len(tagged)), tagged, strict=True))
    chain.announce(session, "tags", chain.scope_of(job), {"tags": tags}, now, by)
    rejudge_now(session, job)


@derives("pieces")
def derive_pieces(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    """New pieces come after those that are there; one that is there already is renewed in its place."""
    job = chain.job_of(entry.scope)
    known = {piece.id: piece for piece in session.scalars(select(Piece).where(Piece.job == job))}
    position = len(known)
    for piece in body["pieces"]:
        old = known.get(piece["id"])
        if old is None:
            session.add(Piece(job=job, position=position, **piece))
            position += 1
            continue
        for name, value in piece.items():
            setattr(old, name, value)


@derives("tags")
def derive_tags(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    """New tags; codes that the entry names as out of use from now on, each with the reason, are kept as retired."""
    session.add_all(Tag(code=code, piece=piece, retired=False) for code, piece in body["tags"].items())
    for code in body.get("retired", {}):
        session.get_one(Tag, code).retired = True
