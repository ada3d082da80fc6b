"""When each phone was heard from, and what it said was still waiting."""

import time
from typing import Any

from seamtag.database import writing
from seamtag.sync.models import Device

LAST_SECOND = 2**31 - 1
"""Beyond it PostgreSQL has no room in its column; a large disk holds out for longer."""


def heard(device: Any, waiting: Any, person: str = "", oldest: Any = None, holds: Any = None) -> int:
    """Note that a phone was heard from, and how many records it says still wait there; that number is returned.

    device: its id; anything else is let pass unnoticed. oldest: for how many seconds the oldest record has waited.
    holds: for how many seconds the phone can hold out before its storage may run short. Both 0 where it cannot tell,
    None where it said nothing, so that what it said before stands.
    """
    if not isinstance(device, str) or not 0 < len(device) <= 64 or not device.isprintable():
        return 0
    count, age, left = (one if isinstance(one, int) and 0 <= one < 2**30 else 0 for one in (waiting, oldest, holds))
    with writing() as session:
        found = session.get(Device, device)
        if found is None:
            found = Device(id=device, last_heard=0, waiting=0, person="")
            session.add(found)
        now = int(time.time())
        found.last_heard, found.waiting = now, count
        if oldest is not None or count == 0:
            found.oldest = now - age if age and count else 0
        if holds is not None:
            found.holds_until = min(now + left, LAST_SECOND) if left else 0
        found.person = person or found.person
    return count
