"""Backups and what is made of them: the chain as lines of JSON, gzipped, and the photos' bytes beside it.

A backup is one folder: `chain.jsonl.gz` (a first line that says what it is, then an entry or a refusal a line) and
`photos/SHA256`. It is read back and checked before the server tells its phones that it covers their records. It does
for SQLite and PostgreSQL alike, and a server of either kind is restored from it.
"""

import gzip
import hashlib
import json
import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.core.records import SHA256
from seamtag.database import db, writing
from seamtag.photos.models import Photo
from seamtag.photos.store import PhotoError, Vault, note
from seamtag.records.models import Refusal
from seamtag.records.rejudging import rejudge
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.epoch import cover, renew, set_up
from seamtag.sync.models import Entry
from seamtag.sync.replaying import Line, replay

FORMAT = "seamtag chain 1"
CHAIN = "chain.jsonl.gz"
REFUSAL = ("digest", "id", "kid", "reason", "received", "text", "adopted")


class BackupError(ValueError):
    """The backup cannot be made or cannot be believed. The message says why."""


@dataclass(frozen=True)
class Summary:
    number: int
    hash: str
    refusals: int
    photos: int
    missing: int


def back_up(session: Session, vault: Vault, folder: Path) -> Summary:
    """Write a backup, read it back, and note that it covers the chain up to its head. Raises BackupError, OSError.

    A folder that holds an older backup is brought up to date; photos that are there already are not copied again. Where
    photos are missing on the server nothing is said to be covered: a phone may be the only one to hold them.
    """
    (folder / "photos").mkdir(parents=True, exist_ok=True)
    session.rollback()
    number, digest = chain.head(session)
    fresh = folder / f"{CHAIN}.new"
    write_chain(session, fresh, number)
    wanted = session.scalars(select(Photo.sha256).where(Photo.stored).order_by(Photo.sha256)).all()
    missing = sum(not copied(vault, sha256, folder / "photos" / sha256) for sha256 in wanted)
    summary = check(fresh, folder, number, digest, missing)
    fresh.replace(folder / CHAIN)
    sync_folder(folder)
    if not missing:
        with writing() as transaction:
            cover(transaction, number)
    return summary


def write_chain(session: Session, file: Path, last: int) -> None:
    with file.open("wb") as raw, gzip.GzipFile(fileobj=raw, mode="wb", mtime=0) as out:
        out.write(as_line({"format": FORMAT, "last": last}))
        for start in range(0, last, 1000):
            query = select(*(getattr(Entry, name) for name in Line._fields)).order_by(Entry.number)
            for row in session.execute(query.where(Entry.number > start, Entry.number <= min(start + 1000, last))):
                out.write(as_line({"entry": list(row)}))
        for kept in session.scalars(select(Refusal).order_by(Refusal.digest)):
            out.write(as_line({"refusal": {name: getattr(kept, name) for name in REFUSAL}}))
    with file.open("rb") as written:
        os.fsync(written.fileno())


def as_line(value: dict[str, Any]) -> bytes:
    return json.dumps(value, ensure_ascii=False).encode() + b"\n"


def copied(vault: Vault, sha256: str, to: Path) -> bool:
    """Whether a photo's bytes are in the backup, brought there where they were not."""
    if to.is_file() and hashlib.sha256(to.read_bytes()).hexdigest() == sha256:
        return True
    try:
        content = vault.original(sha256)
    except PhotoError:
        return False
    fresh = to.with_suffix(".new")
    with fresh.open("wb") as out:
        out.write(content)
        out.flush()
        os.fsync(out.fileno())
    fresh.replace(to)
    return hashlib.sha256(to.read_bytes()).hexdigest() == sha256


def sync_folder(folder: Path) -> None:
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def check(file: Path, folder: Path, number: int, digest: str, missing: int) -> Summary:
    """Read a backup back. Raises BackupError where its chain does not hold up to the head."""
    previous, count, refusals = chain.START, 0, 0
    for line in lines_of(file):
        if isinstance(line, dict):
            refusals += 1
            continue
        count += 1
        if line.number != count or line.hash != chain.entry_hash(previous, *without_hash(line)):
            raise BackupError(f"Entry {count} of the backup does not fit the one before it. Run `seamtag verify`.")
        previous = line.hash
    if (count, previous) != (number, digest):
        raise BackupError(f"The backup ends at entry {count}, the server's chain at {number}. Try again.")
    photos = sum(1 for one in (folder / "photos").iterdir() if len(one.name) == 64)
    return Summary(number, digest, refusals, photos, missing)


def without_hash(line: Line) -> tuple[int, str, str, str, str]:
    return (line.number, line.kind, line.scope, line.body, line.stamp)


def lines_of(file: Path) -> Iterator[Line | dict[str, Any]]:
    """The entries of a backup, then its refusals. Raises BackupError where it cannot be read."""
    try:
        with gzip.open(file, "rt", encoding="utf-8") as source:
            first = json.loads(next(source))
            if first.get("format") != FORMAT:
                raise BackupError(f"{file.name} is no backup of this Seamtag, or of a newer one.")
            for text in source:
                value = json.loads(text)
                yield Line(*value["entry"]) if "entry" in value else dict(value["refusal"])
    except (OSError, EOFError, ValueError, KeyError, TypeError, StopIteration) as error:
        if isinstance(error, BackupError):
            raise
        raise BackupError(f"{file.name} cannot be read to its end: {error}") from error


def restore(vault: Vault, folder: Path, now: int) -> Summary:
    """Make a server of a backup, in an empty database; phones then send and pull from the start.

    Needs an application context. Raises BackupError where there is something in the database already, or the backup
    cannot be believed.
    """
    file = folder / CHAIN
    if not file.is_file():
        raise BackupError(f"There is no {CHAIN} in this folder. Name the folder that `seamtag backup` wrote.")
    if db.session.scalar(select(func.count()).select_from(Entry)):
        raise BackupError("The database is not empty. A backup is restored into an empty one; set SEAMTAG_DATABASE.")
    head = last_of(file)
    found = check(file, folder, head.number, head.hash, 0)
    with writing() as session:
        for line in lines_of(file):
            if isinstance(line, dict):
                session.merge(Refusal(**line))
        replay(session, (line for line in lines_of(file) if isinstance(line, Line)))
        set_up(session)
        renew(session)
        body = {"after": found.number, "hash": found.hash}
        chain.announce(session, "restore", chain.SHOP, body, now)
    named = set(db.session.scalars(select(Photo.sha256)))
    carried = {file.name for file in (folder / "photos").glob("*") if SHA256.fullmatch(file.name)}
    missing = sum(not brought_back(vault, sha256, folder) for sha256 in sorted(named | carried))
    for _ in rejudge():
        pass
    return Summary(found.number, found.hash, found.refusals, found.photos, missing)


def last_of(file: Path) -> Line:
    last = Line(0, chain.START, "", "", "", "")
    for line in lines_of(file):
        last = line if isinstance(line, Line) else last
    return last


def brought_back(vault: Vault, sha256: str, folder: Path) -> bool:
    """Whether a photo is here again, named by a record yet or not; one that a phone has still to send is not."""
    source = folder / "photos" / sha256
    if not source.is_file():
        return False
    content = source.read_bytes()
    try:
        shown = vault.seal(sha256, content)
    except PhotoError:
        return False
    note(sha256, len(content), shown)
    return True


@derives("restore")
def derive_restore(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    """Nothing: that it was done is all there is to say."""
