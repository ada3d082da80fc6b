"""Marks of the feed. Its epoch: renewed by a restore, so that a phone knows to send and pull from the start."""

import secrets

from sqlalchemy.orm import Session

from seamtag.sync.models import Mark


def epoch(session: Session) -> str:
    """The epoch of this database; '' before set_up."""
    mark = session.get(Mark, "epoch")
    return mark.value if mark else ""


def covered(session: Session) -> int:
    """The number of the last entry that is in a verified backup; 0 where there is none."""
    mark = session.get(Mark, "covered")
    return int(mark.value) if mark else 0


def cover(session: Session, number: int) -> None:
    """Note that a verified backup holds the entries up to a number, inside a writing transaction."""
    session.merge(Mark(name="covered", value=str(number)))


def renew(session: Session) -> None:
    """A new epoch, after a restore, inside a writing transaction."""
    session.merge(Mark(name="epoch", value=secrets.token_hex(8)))


def set_up(session: Session) -> None:
    """Give a new database its epoch, inside a writing transaction."""
    if not session.get(Mark, "epoch"):
        session.add(Mark(name="epoch", value=secrets.token_hex(8)))
