"""What should have come by now: looked for when its phone says that it has nothing left, and of all phones as time
passes, since one that is lost will never say so."""

import logging
from contextlib import suppress

from sqlalchemy import ColumnElement, Select, exists, select
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

PLACES: Select[str, str] = select(Record.job, Record.piece).distinct()


def not_told(reason: str) -> ColumnElement[bool]:
    """That a record has no flag with this reason: of what was told nothing changes until something comes."""
    return ~exists().where(FlagRow.record == Record.id, FlagRow.reason == reason)


WAITING = PLACES.where((Record.waiting & not_told(NEVER_CAME)) | ((Record.link == GAP) & not_told(NOT_BEFORE_IT)))
WITHOUT_PICTURE = PLACES.join(Photo, Photo.record == Record.id).where(~Photo.stored, not_told(NO_PICTURE))


def all_sent(device: str, now: int) -> None:
    """Look again at what waits of a phone that says it has nothing left to send."""
    here = Record.device == device
    flag_places([WAITING.where(here), WITHOUT_PICTURE.where(here, Record.received < now - PICTURE_LATE)], now)


def look_back(now: int) -> None:
    """Look again at what has become overdue since this was last done; once a minute, however often it is called. Where
    the clock was set back since, at all that is overdue. Where others are writing, the next who calls looks.
    """
    last = None
    try:
        last = begun(now)
        if last is not None:
            due = [query.where(Record.received >= last - patience, Record.received < now - patience)
                   for query, patience in ((WAITING, PATIENCE), (WITHOUT_PICTURE, PICTURE_LATE))]  # fmt: skip
            flag_places(due, now)
    except OperationalError:
        db.session.rollback()
        if last is not None:
            with suppress(OperationalError), writing() as session:
                session.merge(Mark(name=LOOKED, value=str(last)))


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
    """Some pieces at a time, so that others can write between them. One that fails is told in the server's log, and
    holds up no other. Raises OperationalError where the lock is not to be had."""
    session = db.session()
    places = sorted({(row.job, row.piece) for query in queries for row in session.execute(query)})
    for start in range(0, len(places), AT_ONCE):
        batch = places[start : start + AT_ONCE]
        if not flagged(batch, now):
            for place in batch:
                if not flagged([place], now):
                    log.error("what is overdue of piece %s of job %s cannot be told", place[1], place[0])


def flagged(places: list[tuple[str, str]], now: int) -> bool:
    """Whether pieces could be worked out anew, in one transaction."""
    try:
        with writing() as transaction:
            flag_pieces(transaction, places, now)
    except OperationalError:
        raise
    except Exception:
        log.exception("what is overdue cannot be told of %d pieces", len(places))
        return False
    return True
