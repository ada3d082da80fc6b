"""Material trace: which pieces a heat or lot number went into, and which numbers a piece is made of."""

from collections.abc import Iterator
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.core.job import Job as CoreJob
from seamtag.core.judging import Judged
from seamtag.core.progress import Progress
from seamtag.jobs.floor import core_job
from seamtag.keeping import Keeper
from seamtag.records import jws
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of
from seamtag.sync.models import Entry

CARRIES = {"text": "value", "weld": "lot"}
"""Types of record that name a heat or a lot, and under what."""
MOST_FOUND = 200

Line = dict[str, Any]

keeper: Keeper[dict[str, list[str]]] = Keeper()
"""Of each job the ids of its records by the number they name."""


def bare(text: str) -> str:
    """A number without its blanks and without its case, as it is looked for."""
    return "".join(text.split()).casefold()


def numbers_of(session: Session, job: str) -> dict[str, list[str]]:
    """The ids of a job's records by the heat or lot number they name, bare."""
    kinds = Record.job == job, Record.type.in_(CARRIES)
    newest = session.scalar(select(func.max(Record.number)).where(*kinds)) or 0

    def make() -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        rows = session.execute(select(Entry.body).join(Record, Record.number == Entry.number).where(*kinds))
        for (body,) in rows:
            payload = jws.json_of(body.split(".")[1])
            found.setdefault(bare(number_in(payload["type"], payload["body"])), []).append(payload["id"])
        return found

    return keeper.get((session.get_bind(), job), newest, make)


def number_in(kind: str, body: Any) -> str:
    return str(body.get(CARRIES[kind]) or "")


def uses_of(session: Session, heat: str) -> list[Line]:
    """Where a heat or lot number was recorded, over all jobs, and what each of these pieces went into."""
    found: list[Line] = []
    wanted = bare(heat)
    for job in session.scalars(select(Record.job).where(Record.type.in_(CARRIES)).distinct().order_by(Record.job)):
        ids = numbers_of(session, job).get(wanted, []) if wanted else []
        core = core_job(session, job) if ids else None
        if core is not None:
            progress = Progress(core, payloads_of(session, job))
            records = [progress.records[one] for one in ids if one in progress.records]
            found += [{**line(progress, record), "into": list(into(progress, record.place[0]))} for record in records]
    return grouped(found)[:MOST_FOUND]


def made_of(session: Session, job: str, piece: str) -> list[Line] | None:
    """The heat and lot numbers in a piece: its own, those of its parts and of what it joins, and of the joints between.

    None where the job has no such piece.
    """
    core = core_job(session, job)
    if core is None or piece not in core.pieces:
        return None
    progress = Progress(core, payloads_of(session, job))
    found = [(record, how) for one, how in reached(core, piece).items() for record in named_at(progress, one)]
    lots = {bare(number_in(record.type, record.body)) for record, _ in found if record.type == "weld"}
    fillers = [one for one in core.pieces if bare(core.pieces[one]["mark"]) in lots]
    found += [(record, "filler") for one in fillers for record in named_at(progress, one)]
    return grouped([{**line(progress, record), "how": how} for record, how in found])


def named_at(progress: Progress, piece: str) -> list[Judged]:
    """The records of a piece that name a heat or lot number."""
    return [record for record in progress.by_piece.get(piece, [])
            if record.type in CARRIES and bare(number_in(record.type, record.body))]  # fmt: skip


def grouped(lines: list[Line]) -> list[Line]:
    """The lines of one piece that say the same stand once, with how many there are: the newest of them."""
    found: dict[tuple[str, ...], Line] = {}
    for one in lines:
        key = (one["job"], one["piece"], one["what"], bare(one["number"]), one["standing"])
        before = found.get(key, {"count": 0, "at": ""})
        found[key] = {**max(one, before, key=lambda line: str(line["at"])), "count": before["count"] + 1}
    return list(found.values())


def reached(core: CoreJob, piece: str) -> dict[str, str]:
    """The pieces whose numbers are in a piece, with how each comes into it."""
    found = {piece: "itself"}
    for part in all_parts(core, piece):
        found.setdefault(part, "part")
    for here in list(found):
        for joined in core.pieces[here]["joins"]:
            for one in [joined, *all_parts(core, joined)] if joined in core.pieces else []:
                found.setdefault(one, "joined")
    for joint, one in core.pieces.items():
        if piece in one["joins"]:
            found.setdefault(joint, "joint")
    return found


def all_parts(core: CoreJob, piece: str) -> list[str]:
    """The parts of a piece and their parts, those that were remade among them."""
    found, waiting = [], [piece]
    while waiting:
        whole = waiting.pop(0)
        for one in core.pieces.values():
            if whole in one["part_of"] and one["id"] not in found:
                found.append(one["id"])
                waiting.append(one["id"])
    return found


def into(progress: Progress, piece: str) -> Iterator[Line]:
    """What a piece went into: what it is part of, the joints of these, the seams it is the filler of, and what all
    these are part of."""
    core = progress.job
    found: dict[str, str] = dict.fromkeys(core.wholes(piece), "part of")
    touched = {piece, *found}
    for joint, joining in core.pieces.items():
        if touched & {*joining["joins"]}:
            found.setdefault(joint, "joined by")
    for seam in welded_with(progress, core.pieces.get(piece, {}).get("mark", "")):
        found.setdefault(seam, "welded with")
    for one in list(found):
        found |= {whole: "part of" for whole in core.wholes(one) if whole not in found}
    for one, how in found.items():
        if one in core.pieces and one != piece:
            yield {**about(core, one), "how": how}


def welded_with(progress: Progress, mark: str) -> Iterator[str]:
    """The pieces with passes whose lot is named by the mark of a piece, as of a filler lot."""
    for record in progress.records.values() if mark else ():
        if record.type == "weld" and bare(record.body.get("lot") or "") == bare(mark):
            yield record.place[0]


def about(core: CoreJob, piece: str) -> Line:
    one = core.pieces.get(piece, {"mark": piece, "kind": ""})
    return {"piece": piece, "mark": one["mark"], "kind": one["kind"], "name": one.get("name", ""),
            "remade": bool(one.get("remade"))}  # fmt: skip


def line(progress: Progress, record: Judged) -> Line:
    """One record of a number, with whether it still counts."""
    piece, step, item, _ = record.place
    core = progress.job
    asked = core.item(step, item, record.payload["basis"]["plan"]) or {"name": item}
    return {
        **about(core, piece), "job": core.data["id"], "record": record.id, "what": asked["name"], "type": record.type,
        "number": number_in(record.type, record.body), "by": record.payload["by"], "at": record.payload["at"],
        "standing": progress.piece(piece).standing.of(record),
    }  # fmt: skip
