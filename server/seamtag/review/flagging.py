"""Flags kept in step with the records: worked out anew for every piece that a push touched.

To the flags of the core come those that only the server can see: gaps and forks of a key's chain, what a phone sent
that is shut out now, and what has waited too long for a record it relies on.
"""

import hashlib
import time
from collections.abc import Iterable, Iterator

from sqlalchemy import and_, exists, select, update
from sqlalchemy.orm import Session, aliased

from seamtag.core.flags import (
    CLOSED,
    DECIDED,
    NO_PHOTO,
    OPEN,
    ORDER,
    PAST_HOLD,
    SHAKEN_FLAG,
    Flag,
    flags_of,
    rests_on_welds,
    state_of_signoff,
)
from seamtag.core.job import REQUIRED
from seamtag.core.judging import Judged
from seamtag.core.progress import RELEASED, Progress
from seamtag.core.signing import WAITING
from seamtag.core.standing import ASKS_NEW
from seamtag.jobs.floor import core_job
from seamtag.people.models import Key
from seamtag.photos.store import not_here
from seamtag.records.keychain import FORK, GAP
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of
from seamtag.review.decisions import keep_decisions
from seamtag.review.lists import keep_lists, keep_reports, keep_states
from seamtag.review.models import FlagRow, Released
from seamtag.review.places import shown_of
from seamtag.rows import Row, Stamps, bring_up_to_date
from seamtag.sync.models import Device
from seamtag.trends.measured import SeriesKey, keep_measured
from seamtag.trends.models import Measured
from seamtag.trends.watching import rules_of

CHAIN_GAP, CHAIN_FORK, SHUT, CLOCK = "chain gap", "chain fork", "phone shut out", "clock far off"
DRIFT = "run rule broken"
RANKS = (SHUT, CHAIN_FORK, *ORDER, DRIFT, CLOCK, CHAIN_GAP)
PATIENCE = 24 * 3600
"""Seconds after which what a record waits for should have come."""
NEVER_CAME = "what it relies on has not come"
NOT_BEFORE_IT = "the record before it of this key has not come"
PICTURE_LATE = 3600
"""Seconds after which the picture of a photo's record should have come."""
NO_PICTURE = "its picture has not come from the phone yet"


def flag_pieces(session: Session, touched: Iterable[tuple[str, str]], now: int | None = None) -> None:
    """Work out anew the flags of pieces, by job."""
    moment = int(time.time()) if now is None else now
    by_job: dict[str, set[str]] = {}
    for job, piece in touched:
        by_job.setdefault(job, set()).add(piece)
    for job, pieces in by_job.items():
        flag_job(session, job, pieces, moment)


def flag_device(session: Session, device: str, now: int) -> None:
    """Look again at every piece that a phone has recorded on."""
    rows = session.execute(select(Record.job, Record.piece).where(Record.device == device).distinct())
    flag_pieces(session, {(row.job, row.piece) for row in rows}, now)


def flag_job(session: Session, job: str, pieces: set[str], now: int) -> None:
    """Work out anew, of some pieces of a job, all that the review and the trends keep."""
    found = core_job(session, job)
    if found is None:
        return
    arrived = set(session.scalars(select(Record.id).where(Record.job == job)))
    progress = Progress(found, payloads_of(session, job, pieces), arrived)
    tied = tied_by_welders(progress, pieces)
    if tied:
        pieces = pieces | tied
        progress = Progress(found, payloads_of(session, job, pieces), arrived)
    stamps = stamps_of(session, job, pieces)
    flags = [flag for piece in sorted(pieces) for flag in flags_of(progress, piece)]
    flags += flags_of_server(session, progress, job, pieces, stamps, now)
    rows = [row_of(progress, job, flag, stamps) for flag in flags]
    bring_up_to_date(session, FlagRow, (FlagRow.job == job, FlagRow.piece.in_(pieces)), rows)
    keep_decisions(session, progress, job, pieces, flags, stamps)
    keep_rest(session, progress, job, pieces, stamps, now)
    for piece in sorted(pieces):
        mark_waiting(session, progress, job, piece)
    session.flush()


def keep_rest(session: Session, progress: Progress, job: str, pieces: set[str], stamps: Stamps, now: int) -> None:
    """How the steps stand, the lists that follow from it, and the values of the trends with their warnings."""
    keep_reports(session, progress, job, pieces, {one: received for one, (_, received) in stamps.items()})
    where = (Released.job == job, Released.piece.in_(pieces))
    bring_up_to_date(session, Released, where, released(progress, job, pieces, stamps))
    if keep_states(session, progress, job, pieces):
        keep_lists(session, job, progress.job, now)
    for series in sorted(keep_measured(session, progress, job, pieces, stamps)):
        session.flush()
        keep_watch(session, progress, series)


def keep_watch(session: Session, progress: Progress, series: SeriesKey) -> None:
    """Raise the flag of a series that breaks a rule by which it is watched, unless one about it is open."""
    rules = rules_of(session, series)
    if not rules:
        return
    from seamtag.trends.warning import warn  # with numpy and scipy, which few starts need

    told = warnings_about(session, series)
    if all(state != OPEN for state, _ in told):
        warned = warn(session, series, rules, max((number for _, number in told), default=0))
        if warned is not None:
            add_warning(session, progress, warned.value, warned.reason)


def warnings_about(session: Session, series: SeriesKey) -> list[tuple[str, int]]:
    """State and number of each warning about a series."""
    plan, step, item = series
    of_series = exists().where(Measured.record == FlagRow.record, Measured.job == FlagRow.job, Measured.plan == plan)
    query = select(FlagRow.state, FlagRow.number).where(FlagRow.kind == DRIFT, FlagRow.step == step)
    return [(row.state, row.number) for row in session.execute(query.where(FlagRow.item == item, of_series))]


def stamps_of(session: Session, job: str, pieces: set[str]) -> Stamps:
    query = select(Record.id, Record.number, Record.received).where(Record.job == job, Record.piece.in_(pieces))
    return {row.id: (row.number, row.received) for row in session.execute(query)}


def released(progress: Progress, job: str, pieces: set[str], stamps: Stamps) -> Iterator[Row]:
    for piece in sorted(pieces & progress.job.pieces.keys()):
        own = progress.piece(piece)
        for code, state in own.steps.items():
            signing = own.signings[code]
            signed = [[stamps.get(one.id, (0, 0))[1] for one in signing.valid(point["party"])]
                      for point in signing.points if point["point"] in REQUIRED]  # fmt: skip
            if state.state == RELEASED and signed and all(signed):
                yield {"job": job, "piece": piece, "step": code, "received": max(min(one) for one in signed)}


def tied_by_welders(progress: Progress, pieces: set[str]) -> set[str]:
    """Other pieces with welds by the welders of these, who by paper alone were not qualified any more on their day: so
    what is logged or made void here may have kept them qualified there."""
    job = progress.job
    if not job.qualifications:
        return set()
    welds = [r for r in progress.records.values() if r.type == "weld"]
    here = {r.body["welder"] for r in welds if r.place[0] in pieces}
    return {r.place[0] for r in welds if r.body["welder"] in here and rests_on_welds(job, r)} - pieces


def flags_of_server(
    session: Session, progress: Progress, job: str, pieces: set[str], stamps: Stamps, now: int
) -> Iterator[Flag]:
    """What the core cannot see, since it knows neither keys nor phones, nor other jobs."""
    yield from flags_of_phones(session, progress, job, pieces, now)
    warned = select(FlagRow.record, FlagRow.item, FlagRow.step, FlagRow.station, FlagRow.reason)
    for row in session.execute(warned.where(FlagRow.job == job, FlagRow.piece.in_(pieces), FlagRow.kind == DRIFT)):
        one = progress.records.get(row.record)
        if one is not None:
            yield flag_about(progress, one, DRIFT, row.reason, (row.step, row.item, row.station))
    photos = [progress.records[one] for one, (_, received) in stamps.items() if now - received > PICTURE_LATE
              and one in progress.records and progress.records[one].type == "photo"]  # fmt: skip
    missed = not_here(session, {photo.body["sha256"] for photo in photos})
    for photo in sorted(photos, key=lambda one: one.id):
        if photo.body["sha256"] in missed:
            yield flag_about(progress, photo, NO_PHOTO, NO_PICTURE)


def flags_of_phones(session: Session, progress: Progress, job: str, pieces: set[str], now: int) -> Iterator[Flag]:
    before = aliased(Record)
    rows = session.execute(
        select(Record, Key.shut_since, Device.waiting.label("left"), Device.last_heard, before.clock.label("was"))
        .join(Key, Key.kid == Record.kid)
        .outerjoin(before, and_(before.kid == Record.kid, before.seq == Record.seq - 1))
        .outerjoin(Device, Device.id == Record.device)
        .where(Record.job == job, Record.piece.in_(pieces))
        .where((Record.link != "") | Key.shut_since.is_not(None) | Record.waiting | (Record.clock != 0))
        .order_by(Record.number)
    ).all()
    for record, shut_since, left, last_heard, was in rows:
        one = progress.records.get(record.id)
        if one is None:
            continue
        all_sent = left == 0 and (last_heard or 0) >= record.received
        overdue = all_sent or now - record.received > PATIENCE
        if record.link == FORK:
            yield flag_about(progress, one, CHAIN_FORK, "another record follows the same one of this key")
        if record.link == GAP and overdue:
            yield flag_about(progress, one, CHAIN_GAP, NOT_BEFORE_IT)
        if shut_since is not None and record.received >= shut_since:
            yield flag_about(progress, one, SHUT, "sent by a phone that is shut out")
        if record.clock and not was:
            yield flag_about(progress, one, CLOCK, clock_reason(record.clock))
        if overdue and progress.past_hold(one) is None:
            yield flag_about(progress, one, PAST_HOLD, NEVER_CAME)
        elif overdue and releases_nothing_yet(progress, one):
            state, disposition = state_of_signoff(progress.piece(one.place[0]), one, SHAKEN_FLAG)
            yield Flag(SHAKEN_FLAG, one.id, *one.place, state, NEVER_CAME, disposition=disposition)


def releases_nothing_yet(progress: Progress, record: Judged) -> bool:
    """Whether a record is a sign-off of which a record that it lists or names is not here."""
    signing = progress.piece(record.place[0]).signings.get(record.place[1])
    return signing is not None and signing.reasons.get(record.id) == WAITING


def clock_reason(seconds: int) -> str:
    """What is wrong with a phone's clock. seconds: by how much it is fast at least; below zero, slow."""
    minutes = max(1, round(abs(seconds) / 60))
    if seconds > 0:
        return f"the phone's clock is fast by {minutes} min or more: it came in before it was made"
    return f"the phone's clock is slow by {minutes} min or more: it had seen what came in later"


def flag_about(
    progress: Progress, record: Judged, kind: str, reason: str, place: tuple[str, str, str] | None = None
) -> Flag:
    """Closed by any word of a supervisor about this kind of flag: what is asked is to have seen it. One that asks for a
    new record waits for that.

    place: step, item and station, where they are not the record's own.
    """
    standing = progress.piece(record.place[0]).standing
    about = [d for d in standing.about.get(record.id, []) if d.body["about"]["flag"] == kind]
    decided = max(about, key=lambda d: d.id, default=None)
    mended = record.id in standing.voids or record.id in standing.replaced_by
    asked = decided is not None and decided.body["disposition"] in ASKS_NEW and not mended
    state = DECIDED if asked else CLOSED if decided or record.id in standing.voids else OPEN
    step, item, station = place or record.place[1:]
    return Flag(kind, record.id, record.place[0], step, item, station, state, reason,
                disposition=decided.id if decided else "")  # fmt: skip


def add_warning(session: Session, progress: Progress, values: Measured, reason: str) -> None:
    """Raise the flag of a rule that was broken; where the value is another job's, with that job's words."""
    core = progress.job if values.job == progress.job.data["id"] else core_job(session, values.job)
    if core is None:
        return
    if core is not progress.job:
        progress = Progress(core, payloads_of(session, values.job, [values.piece]))
    one = progress.records.get(values.record)
    if one is None:
        return
    flag = flag_about(progress, one, DRIFT, reason, (values.step, values.item, values.station))
    session.merge(FlagRow(**row_of(progress, values.job, flag, {values.record: (values.number, values.received)})))


def mark_waiting(session: Session, progress: Progress, job: str, piece: str) -> None:
    waiting = [r.id for r in progress.by_piece.get(piece, [])
               if progress.past_hold(r) is None or releases_nothing_yet(progress, r)]  # fmt: skip
    session.execute(
        update(Record).where(Record.job == job, Record.piece == piece, Record.waiting).values(waiting=False)
    )
    if waiting:
        session.execute(update(Record).where(Record.id.in_(waiting)).values(waiting=True))


def row_of(progress: Progress, job: str, flag: Flag, stamps: Stamps) -> Row:
    key = "\n".join((job, flag.kind, flag.record, flag.piece, flag.step, flag.item, flag.station))
    number, received = stamps.get(flag.record, (0, 0))
    past = None if flag.past is None else float(flag.past)
    record, shown = progress.records.get(flag.record), shown_of(progress, flag)
    return {
        "id": hashlib.sha256(key.encode()).hexdigest()[:20], "kind": flag.kind, "state": flag.state, "job": job,
        "piece": flag.piece, "step": flag.step, "item": flag.item, "station": flag.station, "record": flag.record,
        "number": number, "disposition": flag.disposition, "reason": flag.reason, "past": past,
        "rank": RANKS.index(flag.kind), "severity": -(past or 0.0), "stage": shown["stage"],
        "by": record.payload["by"] if record else "", "received": received, "shown": shown,
    }  # fmt: skip


def refresh_lists(session: Session, job: str, now: int) -> None:
    """The lists of a job whose pieces, plan or figures have changed, though no record has."""
    keep_lists(session, job, core_job(session, job), now)
