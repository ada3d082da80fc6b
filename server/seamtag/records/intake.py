"""The one way a record goes: decode, verify, store and chain, judge, flag. Called once, in that order, here."""

import time
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from seamtag.core import records as rules
from seamtag.core.job import Job as CoreJob
from seamtag.core.judging import Judged, judged
from seamtag.core.numbers import text_of
from seamtag.core.verdict import UNJUDGED, Verdict
from seamtag.database import writing
from seamtag.jobs.floor import core_job
from seamtag.people.models import Key
from seamtag.people.staff import role_held
from seamtag.photos.store import name_photos
from seamtag.records import jws
from seamtag.records.models import Record, Refusal
from seamtag.review.flagging import flag_pieces
from seamtag.sync import chain

TAKEN_IN, NOT_TAKEN_IN, UNREADABLE = "taken in", "not taken in", "unreadable"

SAME_ID = "another record has this id"
WRONG_MAKER = "by and device are not the key's"
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


def take_in(session: Session, texts: Iterable[Any], now: int | None = None) -> list[Outcome]:
    """Take in what verifies of a push, in one transaction. One outcome an element, in its order; never raises for one.

    texts: compact JWS. now: Unix seconds, the clock's where None.
    """
    moment = int(time.time()) if now is None else now
    read = [verify(session, text) for text in texts]
    if not any(isinstance(one, Verified) for one in read):
        return [one for one in read if isinstance(one, Outcome)]
    with writing() as transaction:
        outcomes = [one if isinstance(one, Outcome) else store(transaction, one, moment) for one in read]
        flag_pieces(transaction, touched(one for one in read if isinstance(one, Verified)))
    return outcomes


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


def store(session: Session, verified: Verified, now: int) -> Outcome:
    """Chain and store one verified record, or keep it as not taken in; a repeat gets the stored outcome again."""
    record = verified.record
    record_id = id_of(record.payload)
    stored = session.get(Record, record_id)
    if stored and stored.digest == record.digest:
        return Outcome(record_id, TAKEN_IN, number=stored.number, verdict=stored.verdict)
    reason = SAME_ID if stored else not_acceptable(verified)
    if reason:
        return refuse(session, verified, record_id, reason, now)
    job = core_job(session, record.payload["job"])
    role = role_of(session, record.payload, job)
    scope = chain.scope_of(record.payload["job"])
    entry = chain.append(session, "record", scope, record.text, {"at": now, "role": role})
    row = row_of(record, entry.number, judge(record.payload, role, job), now)
    session.add(row)
    name_photos(session, record.payload)
    session.flush()
    return Outcome(record_id, TAKEN_IN, number=entry.number, verdict=row.verdict)


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


def refuse(session: Session, verified: Verified, record_id: str, reason: str, now: int) -> Outcome:
    kept = session.get(Refusal, verified.record.digest)
    if kept is None:
        kept = Refusal(digest=verified.record.digest, id=record_id, kid=verified.record.kid, reason=reason,
                       received=now, text=verified.record.text)  # fmt: skip
        session.add(kept)
        session.flush()
    return Outcome(record_id, NOT_TAKEN_IN, kept.reason)


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
        margin=None if margin is None else text_of(margin), waiting=False,
    )  # fmt: skip


def touched(verified: Iterable[Verified]) -> set[tuple[str, str]]:
    """The pieces, by job, that a push says something about."""
    payloads = [one.record.payload for one in verified]
    return {
        (p["job"], p["piece"]) for p in payloads if isinstance(p.get("job"), str) and isinstance(p.get("piece"), str)
    }
