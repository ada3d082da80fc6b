"""Drawing tag codes that nobody has drawn before."""

import secrets

from sqlalchemy.orm import Session

from seamtag.core.tagcode import SYMBOLS, code_of
from seamtag.tags.models import Tag


def draw(session: Session, many: int) -> list[str]:
    """So many new codes at random, each for one tag for good."""
    found: dict[str, None] = {}
    while len(found) < many:
        code = code_of(secrets.randbelow(32**SYMBOLS))
        if code is not None and session.get(Tag, code) is None:
            found[code] = None
    return list(found)
