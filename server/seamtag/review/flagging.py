"""Flags kept in step with the records: worked out anew for every piece that a push touched."""

import hashlib
from collections.abc import Iterable

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from seamtag.core.flags import ORDER, Flag, flags_of
from seamtag.core.progress import Progress
from seamtag.jobs.floor import core_job
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of
from seamtag.review.models import FlagRow


def flag_pieces(session: Session, touched: Iterable[tuple[str, str]]) -> None:
    """Work out anew the flags of pieces, by job, and of those with records that wait for one not here yet."""
    by_job: dict[str, set[str]] = {}
    for job, piece in touched:
        by_job.setdefault(job, set()).add(piece)
    for job, pieces in by_job.items():
        waiting = session.scalars(select(Record.piece).where(Record.job == job, Record.waiting).distinct())
        flag_job(session, job, pieces | set(waiting))


def flag_job(session: Session, job: str, pieces: set[str]) -> None:
    found = core_job(session, job)
    if found is None:
        return
    progress = Progress(found, payloads_of(session, job, pieces))
    flags = [flag for piece in sorted(pieces) for flag in flags_of(progress, piece)]
    named = select(Record.id, Record.number).where(Record.id.in_({flag.record for flag in flags}))
    numbers = dict(session.execute(named).all())
    session.execute(delete(FlagRow).where(FlagRow.job == job, FlagRow.piece.in_(pieces)))
    session.add_all(row_of(job, flag, numbers) for flag in flags)
    for piece in sorted(pieces):
        mark_waiting(session, progress, job, piece)
    session.flush()


def mark_waiting(session: Session, progress: Progress, job: str, piece: str) -> None:
    waiting = [r.id for r in progress.by_piece.get(piece, []) if progress.past_hold(r) is None]
    session.execute(
        update(Record).where(Record.job == job, Record.piece == piece, Record.waiting).values(waiting=False)
    )
    if waiting:
        session.execute(update(Record).where(Record.id.in_(waiting)).values(waiting=True))


def row_of(job: str, flag: Flag, numbers: dict[str, int]) -> FlagRow:
    key = "\n".join((job, flag.kind, flag.record, flag.piece, flag.step, flag.item, flag.station))
    return FlagRow(
        id=hashlib.sha256(key.encode()).hexdigest()[:20], kind=flag.kind, state=flag.state, job=job, piece=flag.piece,
        step=flag.step, item=flag.item, station=flag.station, record=flag.record, number=numbers.get(flag.record, 0),
        disposition=flag.disposition, reason=flag.reason, past=None if flag.past is None else float(flag.past),
        rank=ORDER.index(flag.kind),
    )  # fmt: skip
