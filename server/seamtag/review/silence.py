"""Who has not been heard from: phones that are silent, and people who recorded the day before and not today."""

import time
from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from sqlalchemy import bindparam, exists, func, select
from sqlalchemy.orm import Session

from seamtag.people.models import Key
from seamtag.people.staff import names_of_people
from seamtag.records.models import Record
from seamtag.review.calendar import Day, day_of
from seamtag.sync.models import Device

SILENT = 2 * 3600
"""Seconds after which a phone counts as not heard from."""
FORGOTTEN = 30 * 86_400
"""Seconds after which a phone with nothing left to send is not listed any more."""
LATE = (
    select(Device)
    .where(Device.last_heard < bindparam("late"))
    .where((Device.waiting > 0) | (Device.last_heard > bindparam("idle")))
    .where(
        ~exists().where(Key.device == Device.id, Key.shut_since.is_not(None))
        | exists().where(Key.device == Device.id, Key.shut_since.is_(None))
    )
)
LAST = (
    select(Record.by, func.max(Record.received).label("last"))
    .where(Record.received.between(bindparam("start"), bindparam("end")))
    .group_by(Record.by)
)
"""Put together once, since that takes longer than the database does."""


def silent(session: Session, now: int | None = None, people: Mapping[str, str] | None = None) -> list[dict[str, Any]]:
    """Phones not heard from for a while, what each said was waiting then, since when, and how long it can hold out;
    those with something to lose first. A phone that is shut out, or has long been idle with nothing left, is not told.

    people: names by id, where they have been read already.
    """
    moment = int(time.time()) if now is None else now
    people = names_of_people(session) if people is None else people
    rows = list(session.scalars(LATE, {"late": moment - SILENT, "idle": moment - FORGOTTEN}))
    rows.sort(key=lambda row: (row.waiting == 0, row.holds_until or moment + FORGOTTEN, row.last_heard))
    return [{"device": row.id, "person": people.get(row.person, row.person), "last_heard": row.last_heard,
             "waiting": row.waiting, "oldest": row.oldest, "holds_until": row.holds_until} for row in rows]  # fmt: skip


def missing(session: Session, day: Day, people: Mapping[str, str] | None = None) -> list[dict[str, Any]]:
    """Who recorded on the whole day before and nothing on this one, and when it came in. people: as above."""
    people = names_of_people(session) if people is None else people
    whole = day_of(session, day.name) if day.shift else day
    before = day_of(session, (date.fromisoformat(day.name) - timedelta(days=1)).isoformat())
    found = session.execute(LAST, {"start": before.start, "end": whole.end}).all()
    rows = sorted(found, key=lambda row: row.last)
    return [{"person": people.get(row.by, row.by), "last": row.last} for row in rows if row.last < whole.start]
