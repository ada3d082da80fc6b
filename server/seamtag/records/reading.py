"""Reading records back out of the chain."""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.records import jws
from seamtag.records.models import Record
from seamtag.sync.models import Entry

OF_OTHERS = ("sign-off", "call", "point", "void", "weld")


def payloads_of(session: Session, job: str, pieces: Iterable[str] | None = None) -> list[tuple[dict[str, Any], str]]:
    """Payload and role stamp of the records of a job, in the order they came.

    pieces: only these pieces in whole, of the others what signs, calls, sets a point, makes void or welds;
    None means all.
    """
    query = select(Entry.body, Record.role).join(Record, Record.number == Entry.number).where(Record.job == job)
    if pieces is not None:
        query = query.where(Record.piece.in_(list(pieces)) | Record.type.in_(OF_OTHERS))
    rows = session.execute(query.order_by(Entry.number)).all()
    return [(jws.json_of(body.split(".")[1]), role) for body, role in rows]
