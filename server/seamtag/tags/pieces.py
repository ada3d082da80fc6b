"""The tags of a job's pieces: which code is on which piece, where the tag is, and which are to be printed."""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.judging import Judged, judged
from seamtag.core.standing import Standing
from seamtag.core.tagcode import forgiven
from seamtag.jobs.floor import core_job
from seamtag.jobs.models import Piece
from seamtag.records import jws
from seamtag.records.models import Record
from seamtag.sync.models import Entry
from seamtag.tags.layout import Words
from seamtag.tags.models import Tag

MOST = 2000
"""Tags that are printed into one file."""
STAGE = "stage:"


class ChoiceError(ValueError):
    """Pieces that cannot be printed. The message says why."""


Row = dict[str, Any]


def tags_of(session: Session, job: str) -> list[Row]:
    """Every piece of a job with its code and where its tag is, in the order of the job's list.

    state: what was last done with the tag, '' where nobody has put it on yet.
    """
    codes: dict[str, list[Tag]] = {}
    for tag in session.scalars(select(Tag).join(Piece, Piece.id == Tag.piece).where(Piece.job == job)):
        codes.setdefault(tag.piece, []).append(tag)
    last = last_done(session, job)
    core = core_job(session, job)
    rows = []
    for piece in session.scalars(select(Piece).where(Piece.job == job).order_by(Piece.position)):
        own = codes.get(piece.id, [])
        live = next((tag.code for tag in own if not tag.retired), "")
        done = last.get(live)
        rows.append({
            "piece": piece.id, "mark": piece.mark, "kind": piece.kind, "name": piece.name, "place": piece.place,
            "code": live, "retired": sorted(tag.code for tag in own if tag.retired), "remade": piece.remade,
            "stages": sorted({step["stage"] for step in core.steps_of(piece.id)}) if core else [],
            "state": done.body["what"] if done else "", "why": done.body.get("why", "") if done else "",
            "at": done.payload["at"] if done else "", "by": done.payload["by"] if done else "",
        })  # fmt: skip
    return rows


def last_done(session: Session, job: str) -> dict[str, Judged]:
    """What was last done with each code, by the order in which records were made; what is void does not count."""
    core = core_job(session, job)
    if core is None:
        return {}
    query = select(Entry.body, Record.role).join(Record, Record.number == Entry.number)
    query = query.where(Record.job == job, Record.type.in_(("tagging", "void"))).order_by(Record.id)
    records = [judged(jws.json_of(body.split(".")[1]), role, core) for body, role in session.execute(query)]
    voids = Standing(records, core).voids
    return {record.body["code"]: record for record in records if record.type == "tagging" and record.id not in voids}


def chosen(rows: Iterable[Row], pieces: str) -> list[Row]:
    """The rows to print. pieces: 'all', 'new', 'stage:NUMBER', or codes with commas.

    New is what nobody has put on yet: whether a label was printed before is not known. Raises ChoiceError.
    """
    tagged = [row for row in rows if row["code"]]
    if pieces == "all":
        found = tagged
    elif pieces == "new":
        found = [row for row in tagged if not row["state"] and not row["remade"]]
    elif pieces.startswith(STAGE):
        found = [row for row in tagged if pieces.removeprefix(STAGE) in row["stages"]]
    else:
        found = ticked(tagged, [one for one in pieces.split(",") if one.strip()])
    if not found:
        raise ChoiceError("No piece is chosen, so there is nothing to print. Choose other pieces.")
    if len(found) > MOST:
        raise ChoiceError(f"{len(found)} tags are more than one file takes ({MOST}). Print a stage at a time.")
    return found


def ticked(rows: list[Row], codes: list[str]) -> list[Row]:
    wanted = {forgiven(code): code for code in codes}
    for code in set(wanted) - {row["code"] for row in rows}:
        raise ChoiceError(f"'{wanted[code][:20]}' is no code in use on this job. Choose the pieces again.")
    return [row for row in rows if row["code"] in wanted]


def words_of(rows: Iterable[Row], job: str) -> list[Words]:
    return [Words(row["code"], row["mark"], job, row["kind"]) for row in rows]
