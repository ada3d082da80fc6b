"""Drawing tag codes that nobody has drawn before."""

import secrets
from collections.abc import Callable, Collection

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.tagcode import SYMBOLS, code_of
from seamtag.tags.models import Tag

AT_ONCE = 500
"""Codes that are looked for by one question to the database."""


def draw(session: Session, many: int) -> list[str]:
    """So many new codes at random, each for one tag for good."""
    return drawn(many, lambda codes: set(session.scalars(select(Tag.code).where(Tag.code.in_(codes)))))


def drawn(many: int, taken: Callable[[Collection[str]], Collection[str]]) -> list[str]:
    """So many codes at random, all different. taken: which of some codes are in use already, or were once."""
    found: dict[str, None] = {}
    while len(found) < many:
        wanted = min(many - len(found), AT_ONCE)
        codes = [code for _ in range(wanted) if (code := code_of(secrets.randbelow(32**SYMBOLS)))]
        used = taken(codes)
        found |= dict.fromkeys(code for code in codes if code not in used)
    return list(found)
