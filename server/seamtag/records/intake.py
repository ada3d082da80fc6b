"""The one way a record goes: decode, verify, store and chain, judge, flag. Called once, in that order, here."""

import json
import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core import records as rules
from seamtag.core.job import Job as CoreJob
from seamtag.core.judging import Judged, judged
from seamtag.core.numbers import text_of
from seamtag.core.verdict import UNJUDGED, Verdict
from seamtag.database import writing
from seamtag.jobs.floor import core_job
from seamtag.jobs.models import Piece
from seamtag.people.models import Key
from seamtag.people.staff import role_held
from seamtag.photos.store import name_photos
from seamtag.records import jws
from seamtag.records.keychain import relink
from seamtag.records.models import Record, Refusal
from seamtag.review.flagging import flag_pieces
from seamtag.sync import chain
from seamtag.sync.models import Entry

TAKEN_IN, NOT_TAKEN_IN, UNREADABLE = "taken in", "not taken in", "unreadable"

CLOCK_SLACK = 600
"""Seconds by which a phone's clock may be off without a word."""
MOST_NUMBER = 2**31 - 1

SAME_ID = "another record has this id"
WRONG_MAKER = "by and device are not the key's"
SHUT_OUT = "this phone is shut out; a supervisor can adopt what it sent"
SCHEMA = "the server does not know this schema; it must be brought up to date"


@dataclass(frozen=True)
class Outcome:
    """The server's word on one element of a push. id is '' where it could not be read."""

    id: str
    outcome: str
    reason: str = ""
    number: int | None = None
    verdict: str = ""


@dataclass(frozen=True)
class Verified:
    record: jws.Decoded
    key: Key


@dataclass(frozen=True)
class Intake:
    """devices: those whose keys signed at least one element."""

    outcomes: list[Outcome]
    devices: frozenset[str]


def take_in(session: Session, texts: Iterable[Any], now: int | None = None) -> list[Outcome]:
    """Take in what verifies of a push, in one transaction. One outcome an element, in its order; never raises for one.

    texts: compact JWS. now: Unix seconds, the clock's where None.
    """
    return intake(session, texts, now).outcomes


def intake(session: Session, texts: Iterable[Any], now: int | None = None) -> "Intake":
    """As take_in, with the devices whose signatures were believed."""
    moment = int(time.time()) if now is None else now
    read = [verify(session, text) for text in texts]
    verified = [one for one in read if isinstance(one, Verified)]
    if not verified:
        return Intake([one for one in read if isinstance(one, Outcome)], frozenset())
    with writing() as transaction:
        relinked: set[tuple[str, str]] = set()
        outcomes = [one if isinstance(one, Outcome) else store(transaction, one, moment, relinked) for one in read]
        flag_pieces(transaction, touched(transaction, verified) | relinked, moment)
    return Intake(outcomes, frozenset(one.key.device for one in verified))


def verify(session: Session, text: Any) -> Verified | Outcome:
    """The record with the enrolled key that signed it, or why it is unreadable."""
    try:
        if not isinstance(text, str):
            raise jws.UnreadableError("not a text")
        if len(text) > rules.MOST_BYTES:
            raise jws.UnreadableError("larger than 1 MB")
        decoded = jws.decode(text)
        key = session.get(Key, decoded.kid)
        if key is None:
            raise jws.UnreadableError("its key is not enrolled here")
        jws.verify(decoded, key.jwk)
    except jws.UnreadableError as error:
        return Outcome(claimed_id(text), UNREADABLE, str(error))
    return Verified(decoded, key)


def claimed_id(text: Any) -> str:
    """The id that an unreadable element claims, so that the phone knows which was meant; '' where it claims none."""
    try:
        return id_of(jws.json_of(text.split(".")[1]))
    except (jws.UnreadableError, AttributeError, IndexError):
        return ""


def id_of(payload: dict[str, Any]) -> str:
    found = payload.get("id")
    return found if isinstance(found, str) and len(found) <= 64 and "\x00" not in found else ""


def store(
    session: Session, verified: Verified, now: int, relinked: set[tuple[str, str]], adopted_by: str = ""
) -> Outcome:
    """Chain and store one verified record, or keep it as not taken in; a repeat gets the stored outcome again.

    relinked: gathers job and piece of the records whose place in their key's chain is seen anew.
    adopted_by: the supervisor who takes in what a phone that is shut out has sent.
    """
    record = verified.record
    record_id = id_of(record.payload)
    stored = session.get(Record, record_id)
    if stored and stored.digest == record.digest:
        return Outcome(record_id, TAKEN_IN, number=stored.number, verdict=stored.verdict)
    reason = SAME_ID if stored else not_acceptable(verified)
    if not reason and verified.key.shut_since is not None and not adopted_by:
        reason = SHUT_OUT
    if reason:
        return refuse(session, verified, record_id, reason, now, relinked)
    job = core_job(session, record.payload["job"])
    role = role_of(session, record.payload, job)
    scope = chain.scope_of(record.payload["job"])
    stamp = {"at": now, "role": role} | ({"adopted by": adopted_by} if adopted_by else {})
    entry = chain.append(session, "record", scope, record.text, stamp)
    row = derive_record(session, entry, record, job)
    relinked |= relink(session, row.kid, row.seq, row.prev, row.digest)
    return Outcome(record_id, TAKEN_IN, number=entry.number, verdict=row.verdict)


def derive_record(session: Session, entry: Entry, record: jws.Decoded, job: CoreJob | None) -> Record:
    """Write the rows of a record's entry: the record as read and judged, the photos it names, its refusal undone."""
    stamp = json.loads(entry.stamp)
    row = row_of(record, entry.number, judge(record.payload, stamp["role"], job), stamp["at"])
    row.clock = clock_off(session, record.payload, stamp["at"])
    session.add(row)
    name_photos(session, record.payload)
    refusal = session.get(Refusal, record.digest)
    if refusal is not None:
        refusal.adopted = stamp["at"]
    return row


def clock_off(session: Session, payload: dict[str, Any], received: int) -> int:
    """By how many seconds a phone's clock was fast or, below zero, slow, as far as the chain proves it: a record was
    made before it came in, and after the entry whose hash it names had come in. 0 within CLOCK_SLACK of that."""
    try:
        claimed = int(datetime.fromisoformat(payload["at"]).timestamp())
    except (ValueError, OverflowError):
        return 0
    if claimed - received > CLOCK_SLACK:
        return min(claimed - received, 2**31 - 1)
    seen = session.get(Entry, payload["seen"]["number"]) if payload["seen"]["number"] <= MOST_NUMBER else None
    if seen is None or seen.hash != payload["seen"]["hash"]:
        return 0
    late = json.loads(seen.stamp)["at"] - claimed
    return -min(late, 2**31 - 1) if late > CLOCK_SLACK else 0


def adopt(session: Session, digest: str, by: str, now: int) -> Outcome | None:
    """Take in, on a supervisor's word, what a phone sent that is shut out; None where no such record is kept.

    Whatever else keeps a record out keeps it out still.
    """
    kept = session.get(Refusal, digest)
    verified = verify(session, kept.text) if kept else None
    if not isinstance(verified, Verified):
        return None
    with writing() as transaction:
        relinked: set[tuple[str, str]] = set()
        outcome = store(transaction, verified, now, relinked, by)
        flag_pieces(transaction, touched(transaction, [verified]) | relinked, now)
    return outcome


def not_acceptable(verified: Verified) -> str:
    payload = verified.record.payload
    if payload.get("schema") != rules.SCHEMA:
        return SCHEMA
    faults = rules.faults(payload)
    if faults:
        return "; ".join(faults[:5])
    if payload["by"] != verified.key.person or payload["device"] != verified.key.device:
        return WRONG_MAKER
    return ""


def refuse(
    session: Session, verified: Verified, record_id: str, reason: str, now: int, relinked: set[tuple[str, str]]
) -> Outcome:
    record = verified.record
    kept = session.get(Refusal, record.digest)
    if kept is None:
        kept = Refusal(digest=record.digest, id=record_id, kid=record.kid, reason=reason, received=now,
                       text=record.text, adopted=None)  # fmt: skip
        session.add(kept)
        seq = record.payload.get("seq")
        if isinstance(seq, int) and 0 < seq < 2**53:
            relinked |= relink(session, record.kid, seq, str(record.payload.get("prev")), record.digest)
    kept.reason = reason
    session.flush()
    return Outcome(record_id, NOT_TAKEN_IN, reason)


def role_of(session: Session, payload: dict[str, Any], job: CoreJob | None) -> str:
    """The stamp: whether the maker held a role that may speak so; '' where the record asks none.

    Only to be confirmed ('changed') where the head that the record says it saw is none of this chain, or where the
    step is not known yet and so neither is the trade it asks.
    """
    step = job.steps.get(payload.get("step") or "") if job else None
    wanted = rules.speaking_roles(payload, step)
    if not wanted:
        return ""
    held = role_held(session, payload["by"], wanted, payload["seen"]["number"])
    unsure = not chain.was_head(session, payload["seen"]) or (payload["type"] == "sign-off" and step is None)
    return "changed" if held == "held" and unsure else held


def judge(payload: dict[str, Any], role: str, job: CoreJob | None) -> Judged:
    if job is None:
        return Judged(payload, role, Verdict(UNJUDGED, reason="the job is not known here"))
    return judged(payload, role, job)


def row_of(record: jws.Decoded, number: int, found: Judged, now: int) -> Record:
    payload = record.payload
    piece, step, item, station = found.place
    margin = found.verdict.margin
    return Record(
        id=payload["id"], number=number, type=payload["type"], job=payload["job"], piece=piece, step=step, item=item,
        station=station, by=payload["by"], device=payload["device"], kid=record.kid, seq=payload["seq"],
        prev=payload["prev"], digest=record.digest, at=payload["at"], received=now, role=found.role,
        verdict=found.verdict.word, reason=found.verdict.reason,
        value=None if found.value is None else text_of(found.value),
        value_float=None if found.value is None else float(found.value),
        margin=None if margin is None else text_of(margin), waiting=False, link="",
    )  # fmt: skip


def touched(session: Session, verified: Iterable[Verified]) -> set[tuple[str, str]]:
    """The pieces, by job, that a push says something about, and those with records that waited for one of it; all of a
    job where it sets a point."""
    verified = list(verified)
    found = waiting_for(session, [one.record.payload for one in verified])
    for one in verified:
        payload = one.record.payload
        if not isinstance(payload.get("job"), str) or not isinstance(payload.get("piece"), str):
            continue
        found.add((payload["job"], payload["piece"]))
        if rules.faults(payload) == [] and concerns_job(session, payload):
            pieces = session.scalars(select(Piece.id).where(Piece.job == payload["job"]))
            found |= {(payload["job"], piece) for piece in pieces}
    return found


def waiting_for(session: Session, payloads: Sequence[dict[str, Any]]) -> set[tuple[str, str]]:
    """The pieces, by job, with records that wait for one of those that have come."""
    ids = {id_of(payload) for payload in payloads}
    jobs = {job for payload in payloads if isinstance(job := payload.get("job"), str)}
    query = select(Record.job, Record.piece, Entry.body).join(Entry, Entry.number == Record.number)
    rows = session.execute(query.where(Record.job.in_(jobs), Record.waiting))
    return {(row.job, row.piece) for row in rows if ids & awaited(jws.json_of(row.body.split(".")[1]))}


def awaited(payload: dict[str, Any]) -> set[str]:
    """The ids of the records that a record relies on or lists."""
    return {*(payload.get("under") or []), *(payload["body"].get("covers") or [])}


def concerns_job(session: Session, payload: dict[str, Any]) -> bool:
    """Whether a record sets a point, which may hold what stands behind it on other pieces, or may take one back."""
    if payload["type"] == "void":
        target = session.get(Record, payload["body"]["record"])
        return target is not None and target.type == "point"
    return bool(payload["type"] == "point")
