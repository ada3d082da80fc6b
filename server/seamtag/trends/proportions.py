"""Which part of what each person measured was flagged, by item, in the last days."""

import time
from typing import Any

from sqlalchemy import case, func, select
from sqlalchemy.orm import Session

from seamtag.core.standing import VOID
from seamtag.people.staff import names_of_people
from seamtag.trends.models import Measured, Series
from seamtag.trends.series import FLAGGED, share_of

MOST_LINES = 500
DAY = 86_400


def proportions(session: Session, days: int, with_names: bool) -> dict[str, Any]:
    """Shares of the values that came in within some days and were not lined out, as they were found.

    Those first whose interval lies highest: of a few values even a large share says little. with_names: by person and
    item; else by item alone.
    """
    since = int(time.time()) - days * DAY
    by = [Measured.by] if with_names else []
    flagged = func.sum(case((Measured.verdict.in_(FLAGGED), 1), else_=0))
    place = (Measured.plan, Measured.step, Measured.item)
    query = select(*by, *place, func.count().label("n"), flagged.label("flagged"))
    query = query.where(Measured.received >= since, Measured.standing != VOID).group_by(*by, *place)
    names = names_of_people(session) if with_names else {}
    series = {(one.plan, one.step, one.item): one for one in session.scalars(select(Series))}
    lines = [line(row, series, names) for row in session.execute(query)]
    lines.sort(key=lambda one: (-one["low"], -one["share"], -one["n"], one["step_number"], one["person"]))
    return {"days": days, "since": since, "names_left_out": not with_names, "lines": lines[:MOST_LINES],
            "left_off": max(0, len(lines) - MOST_LINES)}  # fmt: skip


def line(row: Any, series: dict[tuple[str, str, str], Series], names: dict[str, str]) -> dict[str, Any]:
    found = series.get((row.plan, row.step, row.item))
    person = getattr(row, "by", "")
    return {
        "person": person, "person_name": names.get(person, person),
        "plan": row.plan, "step": row.step, "item": row.item,
        "step_number": found.step_number if found else "", "step_name": found.step_name if found else row.step,
        "name": found.name if found else row.item, **share_of(int(row.flagged), row.n),
    }  # fmt: skip
