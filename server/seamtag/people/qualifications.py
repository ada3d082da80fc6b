"""What the shop's welders are qualified for: adding their tests and proofs, and when each process lapses.

A qualification holds for one test of one process. It is an entry of the chain; put it again with a new day in
`continued` when the welder's log shows that he has gone on welding by the process.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.progress import Progress
from seamtag.core.qualifications import last_proof, proofs_of
from seamtag.core.welding import EFFICIENCY, POSITIONS, has_lapsed, lapses_on
from seamtag.fields import MOST_ID, FieldError, Fields
from seamtag.jobs.floor import core_job
from seamtag.people.models import Person, Qualification
from seamtag.records import jws
from seamtag.records.models import Record
from seamtag.records.rejudging import jobs_with, reflag_now
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry

FIELDS = ("id", "person", "process", "test", "coupon", "layers", "coupon_od", "tested", "certificate", "continued")


def put(session: Session, rows: Iterable[Any], now: int, by: str = "") -> list[Qualification]:
    """Add or renew qualifications, inside a writing transaction, and flag anew the pieces with welds on them.

    rows: each by FIELDS: test a key of welding.POSITIONS, coupon and coupon_od in inches, days as ISO dates. Raises
    FieldError with every fault, and then adds none.
    """
    bodies, faults = [], []
    for row in rows:
        try:
            bodies.append(read(session, row))
        except FieldError as error:
            faults += error.faults
    if faults:
        raise FieldError(faults)
    for body in bodies:
        chain.announce(session, "qualification", chain.SHOP, body, now, by)
    for job in jobs_with(session, "weld") if bodies else []:
        reflag_now(session, job, "weld")
    return [session.get_one(Qualification, body["id"]) for body in bodies]


def read(session: Session, row: Any) -> dict[str, Any]:
    """The body of a qualification's entry. Raises FieldError with every fault."""
    fields = Fields(row, "qualification", FIELDS)
    body: dict[str, Any] = {
        "id": fields.text("id", MOST_ID),
        "person": fields.text("person"),
        "process": fields.choice("process", EFFICIENCY),
        "test": fields.choice("test", POSITIONS),
        "coupon": fields.number("coupon", above_zero=True),
        "layers": fields.whole("layers"),
        "coupon_od": fields.number("coupon_od", above_zero=True),
        "tested": fields.day("tested", needed=True),
        "certificate": fields.text("certificate", needed=False),
        "continued": fields.day("continued"),
    }
    if body["coupon"] is None and fields.given.get("coupon") is None:
        fields.fault("coupon", "is missing")
    if body["person"] and session.get(Person, body["person"]) is None:
        fields.fault("person", f"there is nobody called '{body['person']}' here")
    if body["tested"] and body["continued"] and body["continued"] < body["tested"]:
        fields.fault("continued", f"{body['continued']} is before the test, {body['tested']}")
    known = session.get(Qualification, body["id"])
    if known is not None and known.person != body["person"]:
        fields.fault("id", f"it is a qualification of {known.person}; give this one an id of its own")
    fields.done()
    return body


@derives("qualification")
def derive_qualification(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.merge(Qualification(**body))


@dataclass(frozen=True)
class Continuity:
    """How long a welder's qualification for a process still holds: until the day it lapses on, by the last proof."""

    person: str
    name: str
    stamp: str
    process: str
    last: str
    lapses: str
    lapsed: bool


def continuity(session: Session, today: str) -> list[Continuity]:
    """Of every welder and process, the first to lapse first, from the proofs on paper and the welds of every job."""
    held: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for row in session.scalars(select(Qualification).order_by(Qualification.id)):
        held.setdefault((row.person, row.process), []).append(row.as_data())
    jobs = [progress for job in jobs_with(session, "weld") if (progress := welds_of(session, job)) is not None]
    found = []
    for (person, process), of_process in held.items():
        welds = [day for progress in jobs for day in progress.days_welded(person, process)]
        last = last_proof(proofs_of(of_process), welds, today)
        who = session.get_one(Person, person)
        if last:
            lapses = lapses_on(last)
            found.append(Continuity(person, who.name, who.stamp, process, last, lapses, has_lapsed(last, today)))
    return sorted(found, key=lambda one: (one.lapses, one.person, one.process))


def welds_of(session: Session, job: str) -> Progress | None:
    """A job's weld records and what makes any of them void; None where there is no such job."""
    core = core_job(session, job)
    query = select(Entry.body, Record.role).join(Record, Record.number == Entry.number)
    rows = session.execute(query.where(Record.job == job, Record.type.in_(("weld", "void")))).all()
    return None if core is None else Progress(core, [(jws.json_of(body.split(".")[1]), role) for body, role in rows])
