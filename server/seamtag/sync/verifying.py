"""Whether the server still holds what it took in: its chain, every key's chain, every photo, every derived row."""

import hashlib
import json
from collections.abc import Iterator
from typing import Any, NamedTuple

from sqlalchemy import create_engine, inspect, select
from sqlalchemy.orm import DeclarativeBase, Session, sessionmaker

from seamtag import models
from seamtag.database import Base
from seamtag.photos.store import PhotoError, Vault
from seamtag.records import jws
from seamtag.records.keychain import FOLLOWS, GAP
from seamtag.records.rejudging import rejudge_now
from seamtag.review.flagging import CHAIN_GAP, DRIFT, NEVER_CAME, NO_PICTURE
from seamtag.review.overdue import LOOKED
from seamtag.sync import chain
from seamtag.sync.models import Entry, Mark
from seamtag.sync.replaying import Line, replay

DERIVED: tuple[type[DeclarativeBase], ...] = (
    models.Person, models.RoleChange, models.Key, models.Gauge, models.Procedure, models.Qualification,
    models.PlanRevision, models.Job, models.Basis, models.Piece, models.Tag, models.Drawing, models.Record,
    models.Refusal, models.FlagRow, models.Decision, models.Released, models.Measured, models.Watched,
)  # fmt: skip
LOCAL = ("epoch", "covered", "derived", LOOKED)
"""Marks that no entry stands for."""
MOST_SHOWN = 60


class Finding(NamedTuple):
    """kind: chain, signature, key chain, photo, row, refusal. where: what it is about. says: what is wrong."""

    kind: str
    where: str
    says: str


def verify(session: Session, vault: Vault, heads: dict[int, str] | None = None) -> Iterator[Finding]:
    """Every fault that can be found. heads: entries by number and hash known from elsewhere, as from a printed report
    or a phone, which the chain must still hold."""
    lines = [Line(*row) for row in session.execute(select(*columns()).order_by(Entry.number))]
    yield from chain_faults(lines, heads or {})
    believed = list(signature_faults(lines))
    yield from believed
    yield from link_faults(session)
    yield from refusal_faults(session)
    yield from photo_faults(session, vault)
    yield from row_faults(session, lines)


def columns() -> list[Any]:
    return [getattr(Entry, name) for name in Line._fields]


def chain_faults(lines: list[Line], heads: dict[int, str]) -> Iterator[Finding]:
    """Numbers in a row, each hash over the one before, and every head that is known from elsewhere."""
    previous, hashes = chain.START, {0: chain.START}
    for place, line in enumerate(lines, 1):
        if line.number != place:
            yield Finding("chain", f"entry {place}", f"is missing; entry {line.number} stands in its place")
            return
        if line.hash != chain.entry_hash(previous, line.number, line.kind, line.scope, line.body, line.stamp):
            yield Finding("chain", f"entry {line.number}", "does not fit the entry before it: one of them was altered")
        previous = hashes[line.number] = line.hash
    for number, digest in sorted(heads.items()):
        if hashes.get(number) != digest:
            what = "is not in the chain any more" if number > len(lines) else "has another hash now"
            yield Finding("chain", f"entry {number}", f"was known as {digest[:12]} and {what}")
    yield from seen_faults(lines, hashes)


def seen_faults(lines: list[Line], hashes: dict[int, str]) -> Iterator[Finding]:
    """Records that had seen a head which the chain does not hold: its tail was cut, or they were made elsewhere.

    After a restore that is as it must be: phones had seen what the backup did not hold.
    """
    restored = min((after for line in lines if line.kind == "restore" and
                    isinstance(after := object_of(line).get("after"), int)), default=None)  # fmt: skip
    for line in lines:
        if line.kind != "record":
            continue
        try:
            seen = jws.decode(line.body).payload["seen"]
            number, digest = int(seen["number"]), seen["hash"]
        except (jws.UnreadableError, ValueError, KeyError, TypeError):
            continue  # said of its signature
        known = hashes.get(number) == digest or (restored is not None and number > restored)
        if not known:
            yield Finding("chain", f"entry {line.number}", f"its maker had seen entry {number} as {str(digest)[:12]}, "
                          "which is not in the chain")  # fmt: skip


def object_of(line: Line) -> dict[str, Any]:
    """The body of an entry of master data; empty where it was altered so that it is none."""
    try:
        body = json.loads(line.body)
    except ValueError:
        return {}
    return body if isinstance(body, dict) else {}


def signature_faults(lines: list[Line]) -> Iterator[Finding]:
    """Every record's signature, under the key that an entry before it enrolled, and that it is its key's."""
    keys: dict[str, dict[str, Any]] = {}
    for line in lines:
        if line.kind == "key":
            body = object_of(line)
            keys[str(body.get("kid"))] = body
        if line.kind != "record":
            continue
        fault = signature_fault(line, keys)
        if fault:
            yield Finding("signature", f"entry {line.number}", fault)


def signature_fault(line: Line, keys: dict[str, dict[str, Any]]) -> str:
    try:
        decoded = jws.decode(line.body)
        key = keys.get(decoded.kid)
        if key is None:
            return "its key was not enrolled before it"
        jws.verify(decoded, key["jwk"])
    except jws.UnreadableError as error:
        return str(error)
    except (KeyError, TypeError):
        return "its key's entry cannot be read"
    payload = decoded.payload
    if payload.get("by") != key.get("person") or payload.get("device") != key.get("device"):
        return "by and device are not the key's"
    return "" if line.scope == chain.scope_of(str(payload.get("job"))) else "it stands under another job"


def link_faults(session: Session) -> Iterator[Finding]:
    """Gaps and forks of each key's chain, where they were made."""
    query = select(models.Record).where(models.Record.link != FOLLOWS).order_by(models.Record.number)
    for record in session.scalars(query):
        says = "the record before it is not here" if record.link == GAP else "another record follows the same one"
        yield Finding("key chain", f"record {record.id}", f"{says} (key {record.kid[:12]}, number {record.seq})")


def refusal_faults(session: Session) -> Iterator[Finding]:
    for kept in session.scalars(select(models.Refusal).order_by(models.Refusal.digest)):
        key = session.get(models.Key, kept.kid)
        try:
            decoded = jws.decode(kept.text)
            jws.verify(decoded, key.jwk if key else {})
        except (jws.UnreadableError, ValueError) as error:
            yield Finding("refusal", kept.digest[:12], str(error))
            continue
        if decoded.digest != kept.digest or decoded.kid != kept.kid:
            yield Finding("refusal", kept.digest[:12], "its text is another record's")


def photo_faults(session: Session, vault: Vault) -> Iterator[Finding]:
    """Photos that a record names and that are not here, or are others than they were."""
    for photo in session.scalars(select(models.Photo).order_by(models.Photo.sha256)):
        if not photo.stored:
            if photo.named:
                yield Finding("photo", photo.sha256[:12], "a record names it; it has not come")
            continue
        try:
            content = vault.original(photo.sha256)
        except PhotoError:
            yield Finding("photo", photo.sha256[:12], "its bytes are gone")
            continue
        if hashlib.sha256(content).hexdigest() != photo.sha256 or len(content) != photo.bytes:
            yield Finding("photo", photo.sha256[:12], "its bytes were altered")


def row_faults(session: Session, lines: list[Line]) -> Iterator[Finding]:
    """Derived rows that differ from those which the chain gives when it is replayed."""
    engine = create_engine("sqlite://")
    try:
        Base.metadata.create_all(engine)
        with sessionmaker(engine)() as fresh:
            copy_local(session, fresh)
            replay(fresh, lines)
            for job in fresh.scalars(select(models.Job.id)).all():
                rejudge_now(fresh, job)
            fresh.flush()
            for model in DERIVED:
                yield from differing(model, session, fresh)
            yield from differing_marks(session, fresh)
    except Exception as error:  # an altered entry can break the replay anywhere
        says = (str(error).splitlines() or [type(error).__name__])[0]
        yield Finding("row", "all", f"the chain cannot be replayed: {shown(says)}")
    finally:
        engine.dispose()


def copy_local(session: Session, fresh: Session) -> None:
    """What no entry stands for and flags look at: the phones, and what was refused."""
    for model in (models.Device, models.Refusal):
        for row in session.scalars(select(model)):
            values = as_dict(row)
            fresh.add(model(**values))
    fresh.flush()


def as_dict(row: Any) -> dict[str, Any]:
    return {column.key: getattr(row, column.key) for column in inspect(type(row)).columns}


def differing(model: type[DeclarativeBase], session: Session, fresh: Session) -> Iterator[Finding]:
    name = model.__tablename__
    key = [str(column.key) for column in inspect(model).primary_key]
    ours, theirs = ({tuple(row[k] for k in key): row for row in map(as_dict, one.scalars(select(model)))
                     if not by_the_clock(row)} for one in (session, fresh))  # fmt: skip
    for missing in sorted(theirs.keys() - ours.keys(), key=str):
        yield Finding("row", f"{name} {shown(missing)}", "is missing")
    for strange in sorted(ours.keys() - theirs.keys(), key=str):
        yield Finding("row", f"{name} {shown(strange)}", "no entry of the chain stands for it")
    for both in sorted(ours.keys() & theirs.keys(), key=str):
        fields = [field for field, value in ours[both].items() if value != theirs[both][field]]
        if fields:
            first = fields[0]
            told = f"is {shown(ours[both][first])}, from the chain it is {shown(theirs[both][first])}"
            yield Finding("row", f"{name} {shown(both)}", f"{', '.join(fields)} differ: {first} {told}")


def by_the_clock(row: dict[str, Any]) -> bool:
    """Whether a row is a flag that comes with time alone, or with the order in which values were looked at."""
    return row.get("kind") in (CHAIN_GAP, DRIFT) or row.get("reason") in (NEVER_CAME, NO_PICTURE)


def differing_marks(session: Session, fresh: Session) -> Iterator[Finding]:
    ours, theirs = ({m.name: m.value for m in one.scalars(select(Mark)) if m.name not in LOCAL}
                    for one in (session, fresh))  # fmt: skip
    for name in sorted(ours.keys() | theirs.keys()):
        if ours.get(name) != theirs.get(name):
            yield Finding("row", f"mark {name}", f"is {ours.get(name)}, from the chain it is {theirs.get(name)}")


def shown(value: Any) -> str:
    text = " ".join(map(str, value)) if isinstance(value, tuple) else str(value)
    return text if len(text) <= MOST_SHOWN else text[:MOST_SHOWN] + "..."
