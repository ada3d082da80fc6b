"""The server's chain: each entry's hash covers the one before it, its bytes and its stamp."""

import hashlib
import json
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.sync.deriving import derive
from seamtag.sync.models import Entry

START = "0" * 64
SHOP = "shop"


def scope_of(job: str) -> str:
    return f"job:{job}"


def job_of(scope: str) -> str:
    """The job of an entry's scope; '' for the shop's."""
    return scope.removeprefix("job:") if scope.startswith("job:") else ""


def canonical(value: Any) -> str:
    """JSON with sorted keys and no blanks, so that the same value always has the same bytes."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def entry_hash(previous: str, number: int, kind: str, scope: str, body: str, stamp: str) -> str:
    """SHA-256 in hexadecimal over previous hash, number, kind, scope, SHA-256 of the body, and stamp, a line each."""
    content = hashlib.sha256(body.encode()).hexdigest()
    return hashlib.sha256("\n".join((previous, str(number), kind, scope, content, stamp)).encode()).hexdigest()


def head(session: Session) -> tuple[int, str]:
    """Number and hash of the last entry; 0 and zeros before the first."""
    last = session.execute(select(Entry.number, Entry.hash).order_by(Entry.number.desc()).limit(1)).first()
    return (last.number, last.hash) if last else (0, START)


def was_head(session: Session, seen: dict[str, Any]) -> bool:
    """Whether number and hash are those of an entry of this chain, or of its start."""
    if seen["number"] == 0:
        return bool(seen["hash"] == START)
    return bool(session.scalar(select(Entry.hash).where(Entry.number == seen["number"])) == seen["hash"])


def append(session: Session, kind: str, scope: str, body: str, stamp: dict[str, Any]) -> Entry:
    """Add one entry, inside a writing transaction."""
    number, previous = head(session)
    stamped = canonical(stamp)
    entry = Entry(number=number + 1, kind=kind, scope=scope, body=body, stamp=stamped,
                  hash=entry_hash(previous, number + 1, kind, scope, body, stamped))  # fmt: skip
    session.add(entry)
    session.flush()
    return entry


def announce(session: Session, kind: str, scope: str, value: dict[str, Any], now: int, by: str = "") -> Entry:
    """Add master data as an entry, and write what is derived from it.

    by: who changed it, as far as the server knows. now: Unix seconds.
    """
    entry = append(session, kind, scope, canonical(value), {"at": now, "by": by})
    derive(session, entry)
    return entry
