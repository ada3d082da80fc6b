"""Flags kept in step with the records: worked out anew for every piece that a push touched.

To the flags of the core come those that only the server can see: gaps and forks of a key's chain, what a phone sent
that is shut out now, and what has waited too long for a record it relies on.
"""

import hashlib
import time
from collections.abc import Iterable, Iterator

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from seamtag.core.flags import CLOSED, OPEN, ORDER, PAST_HOLD, Flag, flags_of, rests_on_welds
from seamtag.core.progress import Progress
from seamtag.jobs.floor import core_job
from seamtag.people.models import Key
from seamtag.records.keychain import FORK, GAP
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of
from seamtag.review.models import FlagRow
from seamtag.sync.models import Device

CHAIN_GAP, CHAIN_FORK, SHUT = "chain gap", "chain fork", "phone shut out"
RANKS = (SHUT, CHAIN_FORK, *ORDER, CHAIN_GAP)
PATIENCE = 24 * 3600
"""Seconds after which what a record waits for should have come."""
NEVER_CAME = "what it relies on has not come"


def flag_pieces(session: Session, touched: Iterable[tuple[str, str]], now: int | None = None) -> None:
    """Work out anew the flags of pieces, by job, and of those with records that wait for one not here yet."""
    moment = int(time.time()) if now is None else now
    by_job: dict[str, set[str]] = {}
    for job, piece in touched:
        by_job.setdefault(job, set()).add(piece)
    for job, pieces in by_job.items():
        waiting = session.scalars(select(Record.piece).where(Record.job == job, Record.waiting).distinct())
        flag_job(session, job, pieces | set(waiting), moment)


def flag_device(session: Session, device: str, now: int) -> None:
    """Look again at every piece that a phone has recorded on."""
    rows = session.execute(select(Record.job, Record.piece).where(Record.device == device).distinct())
    flag_pieces(session, {(row.job, row.piece) for row in rows}, now)


def flag_overdue(session: Session, device: str, now: int) -> None:
    """Look again at what waits of a phone that says it has nothing left to send, or has waited for too long."""
    waiting = select(Record.job, Record.piece).where(Record.device == device, Record.waiting | (Record.link == GAP))
    touched = {(row.job, row.piece) for row in session.execute(waiting.distinct())}
    if touched:
        flag_pieces(session, touched, now)


def flag_job(session: Session, job: str, pieces: set[str], now: int) -> None:
    found = core_job(session, job)
    if found is None:
        return
    progress = Progress(found, payloads_of(session, job, pieces))
    tied = tied_by_welders(progress, pieces)
    if tied:
        pieces = pieces | tied
        progress = Progress(found, payloads_of(session, job, pieces))
    flags = [flag for piece in sorted(pieces) for flag in flags_of(progress, piece)]
    flags += flags_of_server(session, progress, job, pieces, now)
    named = select(Record.id, Record.number).where(Record.id.in_({flag.record for flag in flags}))
    numbers = dict(session.execute(named).all())
    session.execute(delete(FlagRow).where(FlagRow.job == job, FlagRow.piece.in_(pieces)))
    session.add_all(row_of(job, flag, numbers) for flag in flags)
    for piece in sorted(pieces):
        mark_waiting(session, progress, job, piece)
    session.flush()


def tied_by_welders(progress: Progress, pieces: set[str]) -> set[str]:
    """Other pieces with welds by the welders of these, who by paper alone were not qualified any more on their day: so
    what is logged or made void here may have kept them qualified there."""
    job = progress.job
    if not job.qualifications:
        return set()
    welds = [r for r in progress.records.values() if r.type == "weld"]
    here = {r.body["welder"] for r in welds if r.place[0] in pieces}
    return {r.place[0] for r in welds if r.body["welder"] in here and rests_on_welds(job, r)} - pieces


def flags_of_server(session: Session, progress: Progress, job: str, pieces: set[str], now: int) -> Iterator[Flag]:
    """What the core cannot see, since it knows neither keys nor phones."""
    rows = session.execute(
        select(Record, Key.shut_since, Device.waiting.label("left"), Device.last_heard)
        .join(Key, Key.kid == Record.kid)
        .outerjoin(Device, Device.id == Record.device)
        .where(Record.job == job, Record.piece.in_(pieces))
        .where((Record.link != "") | Key.shut_since.is_not(None) | Record.waiting)
        .order_by(Record.number)
    ).all()
    for record, shut_since, left, last_heard in rows:
        all_sent = left == 0 and (last_heard or 0) >= record.received
        overdue = all_sent or now - record.received > PATIENCE
        if record.link == FORK:
            yield flag_about(progress, record, CHAIN_FORK, "another record follows the same one of this key")
        if record.link == GAP and overdue:
            yield flag_about(progress, record, CHAIN_GAP, "the record before it of this key has not come")
        if shut_since is not None and record.received >= shut_since:
            yield flag_about(progress, record, SHUT, "sent by a phone that is shut out")
        one = progress.records.get(record.id)
        if overdue and one is not None and progress.past_hold(one) is None:
            yield flag_about(progress, record, PAST_HOLD, NEVER_CAME)


def flag_about(progress: Progress, record: Record, kind: str, reason: str) -> Flag:
    """Closed by any word of a supervisor about this kind of flag: what is asked is to have seen it."""
    standing = progress.piece(record.piece).standing
    about = [d for d in standing.about.get(record.id, []) if d.body["about"]["flag"] == kind]
    decided = max(about, key=lambda d: d.id, default=None)
    state = CLOSED if decided or record.id in standing.voids else OPEN
    return Flag(kind, record.id, record.piece, record.step, record.item, record.station, state, reason,
                disposition=decided.id if decided else "")  # fmt: skip


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
        rank=RANKS.index(flag.kind),
    )  # fmt: skip
