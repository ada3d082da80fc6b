"""A lost phone: its keys are shut out since a named time, until a supervisor lets them in again."""

from typing import Any

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from seamtag.people.models import Key
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry


class ShutError(ValueError):
    """There is no such phone. The message says so."""


def shut_out(session: Session, device: str, since: int, reason: str, now: int, by: str = "") -> list[str]:
    """Shut out every key of a phone, inside a writing transaction; an entry of the chain. The kids that it were.

    since: Unix seconds, since when what the phone made is in doubt. What it sent after that is flagged, what it sends
    from now on is not taken in until a supervisor adopts it. Raises ShutError where no key is of this phone.
    """
    return mark(session, "shut-out", device, since, {"reason": reason}, now, by)


def let_in(session: Session, device: str, now: int, by: str = "") -> list[str]:
    """Trust a phone again, inside a writing transaction; an entry of the chain. Raises ShutError as shut_out does."""
    return mark(session, "let in", device, None, {}, now, by)


def mark(
    session: Session, kind: str, device: str, since: int | None, more: dict[str, str], now: int, by: str
) -> list[str]:
    keys = session.scalars(select(Key).where(Key.device == device)).all()
    if not keys:
        raise ShutError(f"No phone called '{device}' is enrolled here. The day review lists the phones by name.")
    kids = sorted(key.kid for key in keys)
    chain.announce(session, kind, chain.SHOP, {"device": device, "kids": kids, "since": since, **more}, now, by)
    return kids


@derives("shut-out")
@derives("let in")
def derive_shut(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.execute(update(Key).where(Key.kid.in_(body["kids"])).values(shut_since=body["since"]))
