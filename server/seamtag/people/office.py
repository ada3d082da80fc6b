"""The office's view of people: who is here, on which phones, for how long the welders' qualifications hold, and
changes of roles."""

from collections.abc import Collection
from datetime import date
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.records import ROLES
from seamtag.fields import MOST_ID, FieldError, Fields
from seamtag.people import staff
from seamtag.people.models import Key, Person, Qualification
from seamtag.people.qualifications import continuity
from seamtag.sync.models import Device

ALL_ROLES = (*(role for roles in ROLES.values() for role in roles), "foreman", "planner")
DECIDING = ("supervisor", "engineer", "authorized inspector", "customer")
INSPECTOR = "authorized inspector"
FIELDS = ("id", "name", "roles", "stamp", "commission", "stands_in_for")


class NotAllowedError(ValueError):
    """Somebody else has to do it. The message says who."""


def everybody(session: Session) -> list[dict[str, Any]]:
    """Everybody by name, each with the phones they enrolled and when those were last heard from (Unix seconds)."""
    heard = {device.id: device for device in session.scalars(select(Device))}
    phones: dict[str, list[dict[str, Any]]] = {}
    for key in session.scalars(select(Key).order_by(Key.kid)):
        device = heard.get(key.device)
        phones.setdefault(key.person, []).append({
            "device": key.device, "kid": key.kid, "shut": key.shut_since is not None,
            "last_heard": device.last_heard if device else None, "waiting": device.waiting if device else 0,
        })  # fmt: skip
    people = session.scalars(select(Person).order_by(Person.name, Person.id))
    return [{**as_data(person), "phones": phones.get(person.id, [])} for person in people]


def as_data(person: Person) -> dict[str, Any]:
    return {name: getattr(person, name) for name in FIELDS}


def change(session: Session, data: dict[str, Any], asking: Collection[str], now: int, by: str) -> Person:
    """Engage somebody or change what is known of them, inside a writing transaction. asking: roles of who asks.

    Raises FieldError with every fault, and NotAllowedError where only a supervisor may.
    """
    body = read(session, data)
    known = session.get(Person, body["id"])
    roles = {*body["roles"], *(known.roles if known else ())}
    if roles & set(DECIDING) and "supervisor" not in asking:
        raise NotAllowedError("Only a supervisor engages or changes somebody who releases or decides.")
    if known and "supervisor" in known.roles and "supervisor" not in body["roles"]:
        others = session.scalars(select(Person).where(Person.id != known.id))
        if not any("supervisor" in one.roles for one in others):
            raise FieldError([f"{known.name} is the only supervisor. Make somebody else a supervisor first."])
    return staff.engage(session, Person(**body), now, by)


def read(session: Session, data: dict[str, Any]) -> dict[str, Any]:
    """A person's entry from a form. Raises FieldError with every fault."""
    fields = Fields(data, "person", FIELDS)
    body: dict[str, Any] = {
        "id": fields.text("id", MOST_ID),
        "name": fields.text("name"),
        "roles": fields.texts("roles", ALL_ROLES),
        "stamp": fields.text("stamp", MOST_ID, needed=False),
        "commission": fields.text("commission", MOST_ID, needed=False),
        "stands_in_for": fields.text("stands_in_for", MOST_ID, needed=False),
    }
    for name in staff.OF_INSPECTORS:
        if body[name] and INSPECTOR not in body["roles"]:
            fields.fault(name, f"is for the role {INSPECTOR} only")
    other = session.get(Person, body["stands_in_for"]) if body["stands_in_for"] else None
    if body["stands_in_for"] and (other is None or other.id == body["id"] or INSPECTOR not in other.roles):
        fields.fault("stands_in_for", f"'{body['stands_in_for']}' is no other {INSPECTOR} here")
    same = select(Person.name).where(Person.stamp == body["stamp"], Person.id != body["id"])
    if body["stamp"] and (holder := session.scalar(same.limit(1))):
        fields.fault("stamp", f"{body['stamp']} is the stamp of {holder}")
    fields.done()
    return body


def qualifications(session: Session, today: date) -> dict[str, Any]:
    """Every qualification of a maker, and when each process lapses, the first to lapse first."""
    names = staff.names_of_people(session)
    rows = session.scalars(select(Qualification).order_by(Qualification.person, Qualification.id))
    held = [
        {**row.as_data(), "certificate": row.certificate, "name": names.get(row.person, row.person)} for row in rows
    ]
    lapses = [{"person": one.person, "name": one.name, "stamp": one.stamp, "process": one.process, "last": one.last,
               "lapses": one.lapses, "lapsed": one.lapsed, "left": (date.fromisoformat(one.lapses) - today).days}
              for one in continuity(session, today.isoformat())]  # fmt: skip
    return {"held": held, "lapses": lapses}
