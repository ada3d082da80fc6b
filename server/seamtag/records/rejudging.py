"""Judging anew: verdicts are derived, records are not.

Asked for where a plan revision, figures, a gauge's certificate or the judging itself has changed. Rows are worked out
in slices, so that intake goes on in between.
"""

import time
from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import exists, select
from sqlalchemy.orm import Session

from seamtag.core.job import Job as CoreJob
from seamtag.database import db, writing
from seamtag.jobs.floor import core_job
from seamtag.jobs.models import Job, Piece
from seamtag.records import jws
from seamtag.records.intake import SCHEMA, Verified, judge, row_of, store, touched, verify
from seamtag.records.models import Record, Refusal
from seamtag.review.flagging import flag_pieces, refresh_lists
from seamtag.review.models import PieceState
from seamtag.sync.models import Entry, Mark

SLICE = 200
"""Records judged in one writing transaction, about 100 ms."""
DERIVED = "3"
"""What this server derives from records beside their verdicts; another where it comes to keep more, or otherwise."""
JUDGED = ("verdict", "reason", "value", "value_float", "margin")


@dataclass(frozen=True)
class Change:
    """A record whose verdict differs from the one it had."""

    id: str
    job: str
    piece: str
    before: str
    after: str


def rejudge(job: str = "") -> Iterator[Change]:
    """Judge the records of a job anew, or of all, work out their flags, and try again what an older server refused.

    Needs an application context; each slice is a transaction of its own.
    """
    readmit()
    wanted = select(Record.job, Record.number).order_by(Record.job, Record.number)
    numbers: dict[str, list[int]] = {}
    for name, number in db.session.execute(wanted.where(Record.job == job) if job else wanted).all():
        numbers.setdefault(name, []).append(number)
    for name, all_of_job in numbers.items():
        for start in range(0, len(all_of_job), SLICE):
            with writing() as session:
                changes = rejudge_records(session, name, all_of_job[start : start + SLICE])
            yield from changes
        reflag(name)


def rejudge_records(session: Session, job: str, numbers: list[int]) -> list[Change]:
    """Judge records of one job anew, inside a writing transaction."""
    core = core_job(session, job)
    query = select(Record, Entry.body).join(Entry, Entry.number == Record.number).where(Record.number.in_(numbers))
    rows = session.execute(query.order_by(Record.number)).all()
    return [change for record, body in rows if (change := rejudged(record, body, core))]


def rejudged(record: Record, body: str, core: CoreJob | None) -> Change | None:
    decoded = jws.decode(body)
    fresh = row_of(decoded, record.number, judge(decoded.payload, record.role, core), record.received)
    before = record.verdict
    for name in JUDGED:
        setattr(record, name, getattr(fresh, name))
    return None if before == record.verdict else Change(record.id, record.job, record.piece, before, record.verdict)


def reflag(job: str) -> None:
    """Work out the flags of a job anew, some pieces at a time."""
    known = select(Piece.id).where(Piece.job == job)
    named = select(Record.piece).where(Record.job == job).distinct()
    pieces = sorted({*db.session.scalars(known), *db.session.scalars(named)})
    for start in range(0, len(pieces), 20):
        with writing() as session:
            flag_pieces(session, {(job, piece) for piece in pieces[start : start + 20]})
    with writing() as session:
        refresh_lists(session, job, int(time.time()))


def derive_anew() -> None:
    """Work out what the review and the trends keep of every job, where an older server kept less of it."""
    mark = db.session.get(Mark, "derived")
    if mark is not None and mark.value == DERIVED:
        return
    for job in db.session.scalars(select(Job.id).order_by(Job.id)).all():
        reflag(job)
    with writing() as session:
        session.merge(Mark(name="derived", value=DERIVED))


def readmit() -> None:
    """Take in what was refused because its schema was not known yet and is now."""
    now = int(time.time())
    for digest in db.session.scalars(select(Refusal.digest).where(Refusal.reason == SCHEMA, Refusal.adopted.is_(None))):
        kept = db.session.get_one(Refusal, digest)
        verified = verify(db.session(), kept.text)
        if isinstance(verified, Verified):
            with writing() as session:
                relinked: set[tuple[str, str]] = set()
                store(session, verified, now, relinked)
                flag_pieces(session, touched(session, [verified]) | relinked, now)


def jobs_with(session: Session, kind: str) -> list[str]:
    """The jobs that have records of a type."""
    return list(session.scalars(select(Record.job).where(Record.type == kind).distinct().order_by(Record.job)))


def reflag_now(session: Session, job: str, kind: str) -> None:
    """Work out anew the flags of a job's pieces with records of a type, inside the writing transaction that changes
    what their flags go by."""
    query = select(Record.piece).where(Record.job == job, Record.type == kind).distinct()
    flag_pieces(session, {(job, piece) for piece in session.scalars(query)})


def rejudge_now(session: Session, job: str) -> None:
    """Judge a whole job anew inside the writing transaction that changes its master data."""
    numbers = session.scalars(select(Record.number).where(Record.job == job)).all()
    if numbers:
        rejudge_records(session, job, list(numbers))
        session.flush()
        flag_pieces(session, {(job, piece) for piece in pieces_with_rows(session, job)})
    refresh_lists(session, job, int(time.time()))


def pieces_with_rows(session: Session, job: str) -> set[str]:
    """The pieces of a job of which something is kept, all of it where a point was set: it may hold any of them."""
    found = {*session.scalars(select(Record.piece).where(Record.job == job).distinct())}
    found |= {*session.scalars(select(PieceState.piece).where(PieceState.job == job))}
    if session.scalar(select(exists().where(Record.job == job, Record.type == "point"))):
        found |= {*session.scalars(select(Piece.id).where(Piece.job == job))}
    return found
