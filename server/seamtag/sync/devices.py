"""When each phone was heard from, and what it said was still waiting."""

import time
from typing import Any

from seamtag.database import writing
from seamtag.sync.models import Device


def heard(device: Any, waiting: Any, person: str = "") -> int:
    """Note that a phone was heard from, and how many records it says still wait there; that number is returned.

    device: its id; anything else is let pass unnoticed.
    """
    if not isinstance(device, str) or not 0 < len(device) <= 64 or not device.isprintable():
        return 0
    count = waiting if isinstance(waiting, int) and 0 <= waiting < 2**31 else 0
    with writing() as session:
        found = session.get(Device, device)
        if found is None:
            found = Device(id=device, last_heard=0, waiting=0, person="")
            session.add(found)
        found.last_heard, found.waiting = int(time.time()), count
        found.person = person or found.person
    return count
