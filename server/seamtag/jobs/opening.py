"""Opening a job: its figures, drawing revisions and pieces, read from YAML and checked against its plan."""

from collections.abc import Mapping
from typing import Any

import yaml
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.core import numbers
from seamtag.jobs.models import Basis, Job, Piece
from seamtag.plans.models import PlanRevision
from seamtag.records.rejudging import rejudge_now
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
    found = []
    values = source.get("figures") or {}
    found += [f"figure {name} is missing ({figure['what']}, {figure['uom']})"
              for name, figure in document["figures"].items() if name not in values]  # fmt: skip
    for name, typed in values.items():
        try:
            numbers.parse(str(typed))
        except numbers.NumberError as error:
            found.append(f"figure {name}: {error}")
    marks = [str(piece.get("mark")) for piece in source["pieces"]]
    found += [f"mark {mark} stands twice" for mark in sorted({m for m in marks if marks.count(m) > 1})]
    for piece in source["pieces"]:
        for key in ("part_of", "joins"):
            found += [f"piece {piece.get('mark')}: {key} names {other}, which is no piece of this job"
                      for other in piece.get(key) or [] if other not in marks]  # fmt: skip
    return found


def open_job(session: Session, source: Mapping[str, Any], plan: PlanRevision, now: int, by: str = "") -> Job:
    """Open a job on a plan revision, with a tag for each piece, inside a writing transaction. Raises JobError."""
    number = str(source["job"])
    faults = faults_of(source, plan.document)
    if session.get(Job, number):
        faults.append(f"job {number} is open already")
    if faults:
        raise JobError(faults)
    body = {"id": number, "title": str(source.get("title", "")), "open": True}
    chain.announce(session, "job", chain.SHOP, body, now, by)
    set_basis(session, number, plan.hash, texts(source.get("figures")), texts(source.get("drawings")), "", now, by)
    add_pieces(session, number, source["pieces"], now, by)
    return session.get_one(Job, number)


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


def add_pieces(session: Session, job: str, rows: list[Mapping[str, Any]], now: int, by: str) -> None:
    """Pieces of a job, each with a tag; one entry for the pieces, one for their tags."""
    ids = {str(row["mark"]): f"{job}.{row['mark']}" for row in rows}
    pieces = [
        {
            "id": ids[str(row["mark"])], "mark": str(row["mark"]), "kind": str(row["kind"]),
            "name": str(row.get("name", "")), "part_of": [ids[m] for m in row.get("part_of") or []],
            "joins": [ids[m] for m in row.get("joins") or []], "figures": texts(row.get("figures")),
            "sheet": str(row.get("sheet") or ""), "place": str(row.get("place") or ""),
        }
        for row in rows
    ]  # fmt: skip
    chain.announce(session, "pieces", chain.scope_of(job), {"pieces": pieces}, now, by)
    codes = draw(session, len(pieces))
    tags = {code: piece["id"] for code, piece in zip(codes, pieces, strict=True)}
    chain.announce(session, "tags", chain.scope_of(job), {"tags": tags}, now, by)
    rejudge_now(session, job)


@derives("pieces")
def derive_pieces(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    job = chain.job_of(entry.scope)
    before = session.scalar(select(func.count()).select_from(Piece).where(Piece.job == job)) or 0
    session.add_all(Piece(job=job, position=before + place, **piece) for place, piece in enumerate(body["pieces"]))


@derives("tags")
def derive_tags(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.add_all(Tag(code=code, piece=piece, retired=False) for code, piece in body["tags"].items())
