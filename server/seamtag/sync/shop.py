"""The shop itself: its name, its time zone and its shifts."""

import json
from collections.abc import Sequence
from typing import Any

from sqlalchemy.orm import Session

from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry, Mark


def name_shop(session: Session, name: str, time_zone: str, now: int, by: str = "", shifts: Sequence[str] = ()) -> Entry:
    """Give the shop its name, IANA time zone and when its shifts begin, inside a writing transaction; an entry of the
    chain. shifts: such as 06:00, 14:00, 22:00, in the order of the day; none where it works one shift."""
    body = {"name": name, "time_zone": time_zone, **({"shifts": list(shifts)} if shifts else {})}
    return chain.announce(session, "shop", chain.SHOP, body, now, by)


@derives("shop")
def derive_shop(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.merge(Mark(name="shop", value=body["name"]))
    session.merge(Mark(name="time_zone", value=body["time_zone"]))
    session.merge(Mark(name="shifts", value=json.dumps(body.get("shifts", []))))
