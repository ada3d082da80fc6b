"""The drawings of a job: put in by the office, a sheet at a time; phones get them by the job's feed."""

import hashlib
from collections import Counter
from collections.abc import Sequence
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.drawings.models import Drawing
from seamtag.drawings.pictures import DrawingError, Sheet
from seamtag.jobs.models import Piece
from seamtag.photos.models import Photo
from seamtag.photos.store import Vault, note
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry

MOST_NAMED = 5
Pin = dict[str, Any]


def id_of(job: str, sheet: str) -> str:
    """A sheet has one drawing; its next revision takes the place of the one before."""
    return f"{job}.{sheet}"


def drawings_of(session: Session, job: str) -> list[Drawing]:
    """By sheet: 2 stands before 10."""
    found = session.scalars(select(Drawing).where(Drawing.job == job)).all()
    return sorted(found, key=lambda one: (len(one.sheet), one.sheet))


def keep(vault: Vault, sheet: Sheet) -> str:
    """Keep a picture's bytes as those of photos are; their SHA-256. Outside a transaction."""
    sha256 = hashlib.sha256(sheet.content).hexdigest()
    note(sha256, len(sheet.content), vault.seal(sha256, sheet.content))
    return sha256


def put(session: Session, job: str, about: dict[str, str], sheet: Sheet, sha256: str, pins: Sequence[Pin] | None,
        now: int, by: str = "") -> Drawing:  # fmt: skip
    """Put a sheet into a job, or its next revision; an entry of the chain. Raises DrawingError where a pin is wrong.

    about: sheet, revision, title. pins: None keeps those the sheet has.
    """
    key = id_of(job, about["sheet"])
    before = session.get(Drawing, key)
    kept = list(before.pins if before else []) if pins is None else plain(pins)
    body = {
        "id": key, "sheet": about["sheet"], "revision": about["revision"], "title": about["title"], "sha256": sha256,
        "media_type": sheet.media_type, "width": sheet.width, "height": sheet.height, "pins": kept,
    }  # fmt: skip
    return announce(session, job, body, now, by)


def pin(session: Session, drawing: Drawing, pins: Sequence[Pin], now: int, by: str = "") -> Drawing:
    """Change the pins of a drawing; an entry of the chain. Raises DrawingError where one is wrong."""
    return announce(session, drawing.job, {**drawing.as_data(), "pins": plain(pins)}, now, by)


def plain(pins: Sequence[Pin]) -> list[Pin]:
    return [{"piece": one["piece"], "x": one["x"], "y": one["y"]} for one in pins]


def announce(session: Session, job: str, body: dict[str, Any], now: int, by: str) -> Drawing:
    refuse_wrong(session, job, body["pins"])
    chain.announce(session, "drawing", chain.scope_of(job), body, now, by)
    return session.get_one(Drawing, body["id"])


def refuse_wrong(session: Session, job: str, pins: Sequence[Pin]) -> None:
    known = dict(session.execute(select(Piece.id, Piece.mark).where(Piece.job == job)).all())
    strange = sorted({str(one["piece"]) for one in pins} - known.keys())
    if strange:
        raise DrawingError(f"Job {job} has no piece {named(strange)}. Take the pin away, and choose one from the list.")
    twice = sorted(known[piece] for piece, count in Counter(one["piece"] for one in pins).items() if count > 1)
    if twice:
        raise DrawingError(f"{named(twice)}: pinned twice on this sheet. Take one of the two pins away.")


def named(words: list[str]) -> str:
    more = len(words) - MOST_NAMED
    return ", ".join(words[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


@derives("drawing")
def derive_drawing(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    """The row; and its picture is named, as a photo by its record: `seamtag verify` looks whether it is here."""
    session.merge(Drawing(job=chain.job_of(entry.scope), **body))
    photo = session.get(Photo, body["sha256"])
    if photo is None:
        session.add(Photo(sha256=body["sha256"], named=True, stored=False, bytes=0, shown=""))
    else:
        photo.named = True
