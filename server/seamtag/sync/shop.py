"""The shop itself: its name and its time zone."""

from typing import Any

from sqlalchemy.orm import Session

from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry, Mark


def name_shop(session: Session, name: str, time_zone: str, now: int, by: str = "") -> Entry:
    """Give the shop its name and IANA time zone, inside a writing transaction; an entry of the chain."""
    return chain.announce(session, "shop", chain.SHOP, {"name": name, "time_zone": time_zone}, now, by)


@derives("shop")
def derive_shop(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.merge(Mark(name="shop", value=body["name"]))
    session.merge(Mark(name="time_zone", value=body["time_zone"]))
