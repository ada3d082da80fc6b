"""Adding welding procedures or new revisions of them; each an entry of the chain.

A new revision under the same id judges the passes already logged by that id as well. Where they are to be judged as
they were, give the revision an id of its own, and the old procedure the day it was withdrawn on.
"""

from collections.abc import Iterable
from typing import Any

from sqlalchemy.orm import Session

from seamtag.core.welding import EFFICIENCY, FHVO
from seamtag.fields import MOST_ID, FieldError, Fields
from seamtag.procedures.models import Procedure
from seamtag.records.rejudging import jobs_with, rejudge_now
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry

FIELDS = ("id", "revision", "name", "process", "positions", "thickness", "preheat_min", "interpass_max", "volts",
          "amps", "travel", "heat_input_max", "fillers", "note", "source", "withdrawn")  # fmt: skip


def put(session: Session, rows: Iterable[Any], now: int, by: str = "") -> list[Procedure]:
    """Add or renew procedures, inside a writing transaction, and judge anew every job with welds in it.

    rows: each by FIELDS: thickness {from, to} in inches, temperatures in degF, travel in in/min, heat input in kJ/in;
    what a procedure does not say is left out. Raises FieldError with every fault, and then adds none.
    """
    bodies, faults = [], []
    for row in rows:
        try:
            bodies.append(read(row))
        except FieldError as error:
            faults += error.faults
    if faults:
        raise FieldError(faults)
    for body in bodies:
        chain.announce(session, "procedure", chain.SHOP, body, now, by)
    for job in jobs_with(session, "weld") if bodies else []:
        rejudge_now(session, job)
    return [session.get_one(Procedure, body["id"]) for body in bodies]


def read(row: Any) -> dict[str, Any]:
    """The body of a procedure's entry. Raises FieldError with every fault."""
    fields = Fields(row, "procedure", FIELDS)
    body = {
        "id": fields.text("id", MOST_ID),
        "revision": fields.text("revision", MOST_ID, needed=False),
        "name": fields.text("name"),
        "process": fields.choice("process", EFFICIENCY),
        "positions": fields.texts("positions", FHVO),
        "thickness": thickness_of(fields),
        **{name: fields.number(name) for name in ("preheat_min", "interpass_max")},
        **{name: fields.ends(name) for name in ("volts", "amps", "travel")},
        "heat_input_max": fields.number("heat_input_max", above_zero=True),
        "fillers": fields.texts("fillers"),
        "note": fields.text("note", needed=False),
        "source": fields.text("source", needed=False),
        "withdrawn": fields.day("withdrawn"),
    }
    if not fields.given.get("positions"):
        fields.fault("positions", f"name at least one of {', '.join(FHVO)}")
    fields.done()
    return body


def thickness_of(fields: Fields) -> dict[str, str] | None:
    given = fields.given.get("thickness")
    if given is None:
        return None
    if not isinstance(given, dict) or given.keys() != {"from", "to"}:
        fields.fault("thickness", "must be from and to, in inches")
        return None
    found = fields.ends("thickness", [given["from"], given["to"]])
    return None if found is None else {"from": found[0], "to": found[1]}


@derives("procedure")
def derive_procedure(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.merge(Procedure(id=body["id"], document=body))
