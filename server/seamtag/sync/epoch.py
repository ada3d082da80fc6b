"""The feed's epoch: renewed by a restore, so that a phone knows to send and pull from the start."""

import secrets

from sqlalchemy.orm import Session

from seamtag.sync.models import Mark


def epoch(session: Session) -> str:
    """The epoch of this database; '' before set_up."""
    mark = session.get(Mark, "epoch")
    return mark.value if mark else ""


def set_up(session: Session) -> None:
    """Give a new database its epoch, inside a writing transaction."""
    if not session.get(Mark, "epoch"):
        session.add(Mark(name="epoch", value=secrets.token_hex(8)))
