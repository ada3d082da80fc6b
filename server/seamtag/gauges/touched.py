"""The readings that were taken with a gauge since a day: what to look at when it was dropped or found to be off."""

from collections.abc import Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.job import Job
from seamtag.core.progress import Progress
from seamtag.core.standing import IN_FORCE
from seamtag.jobs.floor import core_job
from seamtag.people.staff import names_of_people
from seamtag.records import jws
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of
from seamtag.sync.models import Entry

MOST_SHOWN = 2000


def touched(session: Session, gauge: str, since: str) -> tuple[int, list[dict[str, Any]]]:
    """How many readings name a gauge from a day on, and the newest of them. since: ISO day, by the phones' own clocks.

    Nothing is judged anew by it.
    """
    query = select(Record, Entry.body).join(Entry, Entry.number == Record.number)
    rows = session.execute(query.where(Record.type == "reading", Record.at >= since).order_by(Record.at.desc()))
    found = [(row, body) for row, text in rows if (body := body_of(text)).get("gauge") == gauge]
    people = names_of_people(session)
    shown = found[:MOST_SHOWN]
    jobs = {name: core_job(session, name) for name in {row.job for row, _ in shown}}
    stand = standings(session, jobs, [row for row, _ in shown])
    return len(found), [
        {**line(row, body, people, jobs[row.job]), "standing": stand.get(row.id, IN_FORCE)} for row, body in shown
    ]


def standings(session: Session, jobs: Mapping[str, Job | None], rows: list[Record]) -> dict[str, str]:
    """Which readings are void or replaced by now, of jobs that are known."""
    found: dict[str, str] = {}
    for name, job in jobs.items():
        pieces = {row.piece for row in rows if row.job == name}
        if job is None:
            continue
        progress = Progress(job, payloads_of(session, name, pieces))
        for piece in pieces & job.pieces.keys():
            own = progress.piece(piece)
            found |= {record.id: own.standing.of(record) for record in own.records}
    return found


def body_of(text: str) -> dict[str, Any]:
    body = jws.json_of(text.split(".")[1]).get("body")
    return body if isinstance(body, dict) else {}


def line(row: Record, body: dict[str, Any], people: dict[str, str], job: Job | None) -> dict[str, Any]:
    item = job and job.item(row.step, row.item)
    return {
        "record": row.id, "job": row.job, "piece": row.piece, "step": row.step, "item": row.item,
        "mark": job.pieces[row.piece]["mark"] if job and row.piece in job.pieces else row.piece,
        "name": item["name"] if item else row.item, "station": row.station,
        "entered": body.get("entered", ""), "uom": body.get("uom", ""), "by": people.get(row.by, row.by),
        "at": row.at, "verdict": row.verdict,
    }  # fmt: skip
