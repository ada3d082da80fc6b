"""A code taken out of use, and a new one for its piece: a lost tag that somebody else may find."""

from sqlalchemy.orm import Session

from seamtag.jobs.models import Piece
from seamtag.sync import chain
from seamtag.tags.codes import draw
from seamtag.tags.models import Tag


class RetiredError(ValueError):
    """The code is out of use already. The message says so."""


def replace(session: Session, code: str, reason: str, now: int, by: str) -> Tag:
    """The new tag of the piece, inside a writing transaction; an entry of the chain. Raises RetiredError."""
    old = session.get_one(Tag, code)
    if old.retired:
        raise RetiredError(f"Code {code} is out of use already. Look its piece up in the list of tags.")
    job = session.get_one(Piece, old.piece).job
    (new,) = draw(session, 1)
    body = {"tags": {new: old.piece}, "retired": {code: reason}}
    chain.announce(session, "tags", chain.scope_of(job), body, now, by)
    return session.get_one(Tag, new)
