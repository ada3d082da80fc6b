"""The shop's day and its shifts, by its own time zone."""

import json
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from seamtag.sync.models import Mark


@dataclass(frozen=True)
class Day:
    """A day of the shop, or one shift of it. start, end: its first and its last Unix second.

    name: ISO text. shift: its number, from 1; 0 for the whole day. shifts: when each begins, as 06:00. A day begins
    with its first shift, so the night shift belongs to the day on which it began.
    """

    name: str
    shift: int
    start: int
    end: int
    shifts: list[str]

    def as_data(self) -> dict[str, Any]:
        return {"day": self.name, "shift": self.shift, "shifts": self.shifts, "start": self.start, "end": self.end}


def time_zone(session: Session) -> ZoneInfo:
    mark = session.get(Mark, "time_zone")
    return ZoneInfo(mark.value if mark else "UTC")


def today(session: Session) -> date:
    """The date in the shop."""
    return datetime.now(time_zone(session)).date()


def shifts_of(session: Session) -> list[str]:
    mark = session.get(Mark, "shifts")
    return list(json.loads(mark.value)) if mark else []


def day_of(session: Session, text: str, shift: int = 0, now: datetime | None = None) -> Day:
    """A day by its ISO text, the one that it is now where text is ''. Raises ValueError where there is none such."""
    zone, shifts = time_zone(session), shifts_of(session)
    begins = [time.fromisoformat(one) for one in shifts] or [time(0)]
    if not 0 <= shift <= len(shifts):
        raise ValueError
    moment = now or datetime.now(zone)
    day = date.fromisoformat(text) if text else (moment - offset(begins[0])).date()
    if not 1970 < day.year < 9998:
        raise ValueError
    starts = [datetime.combine(day + timedelta(days=one < begins[0]), one, zone) for one in begins]
    starts.append(datetime.combine(day + timedelta(days=1), begins[0], zone))
    first, last = (starts[0], starts[-1]) if shift == 0 else (starts[shift - 1], starts[shift])
    return Day(day.isoformat(), shift, int(first.timestamp()), int(last.timestamp()) - 1, shifts)


def offset(begins: time) -> timedelta:
    return timedelta(hours=begins.hour, minutes=begins.minute)
