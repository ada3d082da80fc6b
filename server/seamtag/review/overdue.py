"""What should have come by now: looked for when its phone says that it has nothing left, and of all phones as time
passes, since one that is lost will never say so."""

import logging

from sqlalchemy import Select, exists, select
from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session

from seamtag.core.flags import NO_PHOTO
from seamtag.database import db, writing
from seamtag.photos.models import Photo
from seamtag.records.keychain import GAP
from seamtag.records.models import Record
from seamtag.review.flagging import NEVER_CAME, NO_PICTURE, NOT_BEFORE_IT, PATIENCE, PICTURE_LATE, flag_pieces
from seamtag.review.models import FlagRow
from seamtag.sync.models import Mark

log = logging.getLogger(__name__)

LOOKED = "overdue"
"""The mark that holds the Unix second up to which all phones were looked after."""
EVERY = 60
"""Seconds between two looks at all phones."""

AT_ONCE = 20
"""Pieces looked at in one writing transaction."""

TOLD = exists().where(FlagRow.record == Record.id, FlagRow.reason.in_((NEVER_CAME, NOT_BEFORE_IT, NO_PICTURE)))
PLACES: Select[str, str] = select(Record.job, Record.piece).where(~TOLD).distinct()
"""Of what was told already nothing changes until something comes."""
WAITING = PLACES.where(Record.waiting | (Record.link == GAP))
WITHOUT_PICTURE = PLACES.join(Photo, Photo.record == Record.id).where(~Photo.stored)


def all_sent(device: str, now: int) -> None:
    """Look again at what waits of a phone that says it has nothing left to send."""
    here = Record.device == device
    flag_places([WAITING.where(here), WITHOUT_PICTURE.where(here, Record.received < now - PICTURE_LATE)], now)


def look_back(now: int) -> None:
    """Look again at what has become overdue since this was last done; once a minute, however often it is called. Where
    the clock was set back since, at all that is overdue. Raises nothing: whoever calls has other work to do.
    """
    try:
        last = begun(now)
    except OperationalError:  # others are writing; the next one who calls will look
        return
    if last is not None:
        due = [query.where(Record.received >= last - patience, Record.received < now - patience)
               for query, patience in ((WAITING, PATIENCE), (WITHOUT_PICTURE, PICTURE_LATE))]  # fmt: skip
        flag_places(due, now)


def begun(now: int) -> int | None:
    """The second of the last look, where it is time for another, which is noted as done; else None."""
    if now - last_look(db.session(), now) < EVERY:
        return None
    with writing() as session:  # read again inside it: of several who call at once one looks
        last = last_look(session, now)
        if now - last < EVERY:
            return None
        session.merge(Mark(name=LOOKED, value=str(now)))
    return last


def last_look(session: Session, now: int) -> int:
    """0 where there was none, or where the clock was set back behind it."""
    mark = session.get(Mark, LOOKED)
    return int(mark.value) if mark and int(mark.value) <= now else 0


def picture_came(session: Session, sha256: str, now: int) -> None:
    """Look again at a piece of which a picture was missed that has come now."""
    missed = select(FlagRow.job, FlagRow.piece).outerjoin(Photo, Photo.record == FlagRow.record)
    missed = missed.where(FlagRow.kind == NO_PHOTO, FlagRow.reason == NO_PICTURE)
    missed = missed.where((Photo.sha256 == sha256) | Photo.sha256.is_(None))
    touched = {(row.job, row.piece) for row in session.execute(missed)}
    if touched:
        with writing() as transaction:
            flag_pieces(transaction, touched, now)


def flag_places(queries: list[Select[str, str]], now: int) -> None:
    """Some pieces at a time, so that others can write between them. A piece that fails is told in the server's log."""
    session = db.session()
    places = sorted({(row.job, row.piece) for query in queries for row in session.execute(query)})
    for start in range(0, len(places), AT_ONCE):
        try:
            with writing() as transaction:
                flag_pieces(transaction, places[start : start + AT_ONCE], now)
        except Exception:
            log.exception("What is overdue cannot be told of %s", places[start : start + AT_ONCE])
