"""The day review: what is wrong, worst first, what waits, and how much was done."""

import json
from collections import Counter
from collections.abc import Mapping
from typing import Any

from sqlalchemy import Select, Text, bindparam, cast, func, select
from sqlalchemy.orm import Session

from seamtag.core.flags import CLOSED, DECIDED, NOT_QUALIFIED, ON_THE_SPOT, OPEN
from seamtag.people.staff import names_of_people
from seamtag.records.models import Record
from seamtag.review.calendar import Day
from seamtag.review.models import FlagRow, Released

MOST_FLAGS = 150
OF_FLAG = ("id", "kind", "state", "job", "station", "record", "disposition", "reason", "past")
FILTERS = {"job": FlagRow.job, "stage": FlagRow.stage, "kind": FlagRow.kind, "person": FlagRow.by}
STATES = (OPEN, DECIDED, ON_THE_SPOT, CLOSED)
BY_DAY = (CLOSED, ON_THE_SPOT)
"""States in which flags stay for good: of these, only those of the day are listed."""
OF_DAY = {"open": OPEN, "decided": DECIDED, "on_the_spot": ON_THE_SPOT, "closed": CLOSED}


def flags(
    session: Session, day: Day, filters: Mapping[str, str], most: int | None = MOST_FLAGS,
    people: Mapping[str, str] | None = None,
) -> list[dict[str, Any]]:  # fmt: skip
    """Flags of a state, worst first: by kind, then by how far past the limit. filters: as chosen() takes them.

    most: so many at most; None for all. people: names by id, where they have been read already.
    """
    rows = session.execute(worst_first(day, filters, FlagRow.shown, most))
    people = names_of_people(session) if people is None else people
    return [line(row, people) for row in rows]


def written(session: Session, day: Day, filters: Mapping[str, str], people: Mapping[str, str]) -> str:
    """What flags() tells, as JSON. What is kept of each is passed on as it is: to read it all and write it again would
    take a third of the answer's time."""
    rows = session.execute(worst_first(day, filters, cast(FlagRow.shown, Text).label("shown"), MOST_FLAGS))
    return f"[{', '.join(spliced(row, people) for row in rows)}]"


def spliced(row: Any, people: Mapping[str, str]) -> str:
    own = told_of(row, people)
    rest = row.shown.strip()[1:]
    return json.dumps(own) if rest == "}" else f"{json.dumps(own)[:-1]}, {rest}"


def worst_first(day: Day, filters: Mapping[str, str], shown: Any, most: int | None) -> Select[*tuple[Any, ...]]:
    columns = [getattr(FlagRow, name) for name in (*OF_FLAG, "by")]
    order = (FlagRow.rank, FlagRow.severity, FlagRow.number)
    return chosen(select(*columns, shown), day, filters).order_by(*order).limit(most)


def chosen(query: Select[*tuple[Any, ...]], day: Day, filters: Mapping[str, str]) -> Select[*tuple[Any, ...]]:
    """filters: state, job, stage, kind, person; '' lets all through, without a state those of the day's records."""
    state = filters.get("state") or ""
    query = query.where(FlagRow.state == state) if state else query.where(FlagRow.state.in_(STATES))
    if not state or state in BY_DAY:
        query = query.where(FlagRow.received.between(day.start, day.end))
    for name, column in FILTERS.items():
        if filters.get(name):
            query = query.where(column == filters[name])
    return query


def line(row: Any, people: Mapping[str, str]) -> dict[str, Any]:
    """One flag as a line of the list."""
    return {**told_of(row, people), **row.shown}


def told_of(row: Any, people: Mapping[str, str]) -> dict[str, Any]:
    """What is kept of a flag in columns, with names in place of ids. Core, which knows no names, begins what a welder
    lacks with his id."""
    found = {**{name: getattr(row, name) for name in OF_FLAG}, "by": people.get(row.by, row.by)}
    if row.kind == NOT_QUALIFIED:
        welder, colon, lacks = row.reason.rpartition(": ")
        found["reason"] = f"{people.get(welder, welder)}{colon}{lacks}"
    return found


def filters_of(
    session: Session, day: Day, filters: Mapping[str, str], people: Mapping[str, str] | None = None
) -> dict[str, Any]:
    """What the flags of a state can be filtered by, with how many there are of each; and how many the filters leave.
    people: as of flags()."""
    columns = list(FILTERS.values())
    every = chosen(select(*columns, func.count()), day, {"state": filters.get("state") or ""})
    rows = session.execute(every.group_by(*columns)).all()
    people = names_of_people(session) if people is None else people
    found: dict[str, Any] = {}
    for place, name in enumerate(FILTERS):
        counts: Counter[str] = Counter()
        for row in rows:
            counts[row[place]] += row[-1]
        found[name] = [{"value": value, "name": people.get(value, value) if name == "person" else value, "count": count}
                       for value, count in sorted(counts.items()) if value]  # fmt: skip
    wanted = [filters.get(name) or "" for name in FILTERS]
    found["left"] = sum(row[-1] for row in rows if all(not w or w == r for w, r in zip(wanted, row, strict=False)))
    return found


def counted() -> Select[*tuple[Any, ...]]:
    """All counts of a day in one statement; start and end are given with it."""
    within: tuple[Any, Any] = (bindparam("start"), bindparam("end"))

    def flagged(what: Any, *where: Any) -> Any:
        return select(what).where(*where).scalar_subquery()

    return select(
        select(func.count()).select_from(Record).where(Record.received.between(*within)).scalar_subquery()
        .label("recorded"),
        flagged(func.count(func.distinct(FlagRow.record)), FlagRow.received.between(*within)).label("flagged"),
        *(flagged(func.count(FlagRow.id), FlagRow.state == state).label(state) for state in (OPEN, DECIDED)),
        *(flagged(func.count(FlagRow.id), FlagRow.state == state, FlagRow.received.between(*within))
          .label(f"day {name}") for name, state in OF_DAY.items()),
        select(func.count()).select_from(Released).where(Released.received.between(*within)).scalar_subquery()
        .label("released"),
    )  # fmt: skip


COUNTED = counted()


def counts(session: Session, day: Day) -> dict[str, Any]:
    """recorded, flagged, released, on_the_spot: records, flagged records, releases and flags of the day. open, decided:
    of all flags, whatever their day. of_day: the flags of the day's records by state."""
    found = dict(session.execute(COUNTED, {"start": day.start, "end": day.end}).mappings().one())
    of_day = {name: found.pop(f"day {name}") for name in OF_DAY}
    return {**found, "on_the_spot": of_day["on_the_spot"], "of_day": of_day}


def on_the_spot(session: Session, day: Day, most: int | None = MOST_FLAGS) -> list[dict[str, Any]]:
    """What was fixed on the spot that day: how often at each item, the most frequent first, with its flags."""
    found: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for one in flags(session, day, {"state": ON_THE_SPOT}, most):
        found.setdefault((one["step"]["number"], one["item"]["name"]), []).append(one)
    return [{"number": number, "item": item, "count": len(lines), "flags": lines}
            for (number, item), lines in sorted(found.items(), key=lambda pair: (-len(pair[1]), pair[0]))]  # fmt: skip
