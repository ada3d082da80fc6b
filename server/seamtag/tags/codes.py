"""Drawing tag codes that nobody has drawn before."""

import secrets

from sqlalchemy.orm import Session

from seamtag.core.tagcode import SYMBOLS, code_of
from seamtag.tags.models import Tag


def draw(session: Session, piece: str) -> Tag:
    """A new tag for a piece, its code at random, inside a writing transaction."""
    while True:
        code = code_of(secrets.randbelow(32**SYMBOLS))
        if code is not None and session.get(Tag, code) is None:
            tag = Tag(code=code, piece=piece, retired=False)
            session.add(tag)
            session.flush()
            return tag
