"""What should have come by now: looked for when its phone says that it has nothing left, and of all phones as time
passes, since one that is lost will never say so."""

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from seamtag.core.flags import NO_PHOTO
from seamtag.database import db, writing
from seamtag.photos.models import Photo
from seamtag.records.keychain import GAP
from seamtag.records.models import Record
from seamtag.review.flagging import NO_PICTURE, PATIENCE, PICTURE_LATE, flag_pieces
from seamtag.review.models import FlagRow
from seamtag.sync.models import Mark

LOOKED = "overdue"
"""The mark that holds the Unix second up to which all phones were looked after."""
EVERY = 60
"""Seconds between two looks at all phones."""

PLACES: Select[str, str] = select(Record.job, Record.piece).distinct()
WAITING = PLACES.where(Record.waiting | (Record.link == GAP))
WITHOUT_PICTURE = PLACES.join(Photo, Photo.record == Record.id).where(~Photo.stored)


def all_sent(session: Session, device: str, now: int) -> None:
    """Look again at what waits of a phone that says it has nothing left to send."""
    here = Record.device == device
    flag_places(session, [WAITING.where(here), WITHOUT_PICTURE.where(here, Record.received < now - PICTURE_LATE)], now)


def look_back(now: int) -> None:
    """Look again at what has become overdue since this was last done; once a minute, however often it is called. Where
    the clock was set back since, at all that is overdue."""
    mark = db.session.get(Mark, LOOKED)
    last = int(mark.value) if mark and int(mark.value) <= now else 0
    if now - last < EVERY:
        return
    with writing() as session:
        due = [query.where(Record.received >= last - patience, Record.received < now - patience)
               for query, patience in ((WAITING, PATIENCE), (WITHOUT_PICTURE, PICTURE_LATE))]  # fmt: skip
        flag_places(session, due, now)
        session.merge(Mark(name=LOOKED, value=str(now)))


def picture_came(session: Session, sha256: str, now: int) -> None:
    """Look again at a piece of which a picture was missed that has come now."""
    missed = select(FlagRow.job, FlagRow.piece).outerjoin(Photo, Photo.record == FlagRow.record)
    missed = missed.where(FlagRow.kind == NO_PHOTO, FlagRow.reason == NO_PICTURE)
    missed = missed.where((Photo.sha256 == sha256) | Photo.sha256.is_(None))
    touched = {(row.job, row.piece) for row in session.execute(missed)}
    if touched:
        with writing() as transaction:
            flag_pieces(transaction, touched, now)


def flag_places(session: Session, queries: list[Select[str, str]], now: int) -> None:
    touched = {(row.job, row.piece) for query in queries for row in session.execute(query)}
    if touched:
        flag_pieces(session, touched, now)
