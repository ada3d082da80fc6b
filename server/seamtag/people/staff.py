"""People, their roles over time, and the invitations that let them enrol a browser."""

import hashlib
import secrets
from collections.abc import Sequence
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.tagcode import ALPHABET, forgiven_symbols
from seamtag.people.models import Invitation, Key, Person, RoleChange
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry

INVITATION_SYMBOLS = 12
OF_INSPECTORS = ("commission", "stands_in_for")
"""What is known of authorized inspectors only; entries of the chain hold it where there is any."""


class InvitationError(ValueError):
    """The invitation is unknown, used or too old. The message says what to do."""


def engage(session: Session, person: Person, now: int, by: str = "") -> Person:
    """Add a person, or change what is known of them; an entry of the chain."""
    body = {"id": person.id, "name": person.name, "roles": person.roles, "stamp": person.stamp}
    body |= {name: value for name in OF_INSPECTORS if (value := getattr(person, name))}
    chain.announce(session, "person", chain.SHOP, body, now, by)
    return session.get_one(Person, person.id)


@derives("person")
def derive_person(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.merge(Person(**{**dict.fromkeys(OF_INSPECTORS, ""), **body}))
    session.flush()
    session.add(RoleChange(number=entry.number, person=body["id"], roles=body["roles"]))


def names_of_people(session: Session) -> dict[str, str]:
    """The name of each person, by id."""
    return {row.id: row.name for row in session.execute(select(Person.id, Person.name))}


def role_held(session: Session, person: str, wanted: Sequence[str], since: int) -> str:
    """Whether a person held one of the roles throughout from an entry's number until now.

    'held'; 'changed', where it was held at only a part of that time; 'not held'.
    """
    changes = session.execute(
        select(RoleChange.number, RoleChange.roles).where(RoleChange.person == person).order_by(RoleChange.number)
    ).all()
    before = [roles for number, roles in changes if number <= since]
    spans = before[-1:] + [roles for number, roles in changes if number > since]
    held = [bool(set(roles) & set(wanted)) for roles in spans]
    if held and all(held):
        return "held" if before else "changed"
    return "changed" if any(held) else "not held"


def invite(session: Session, person: str, now: int, life: int, inviter: str = "") -> str:
    """A new one-time invitation, as four groups of three symbols. Raises InvitationError where nobody is so called."""
    if session.get(Person, person) is None:
        raise InvitationError(f"There is nobody called '{person}' here. Add the person first.")
    code = "".join(secrets.choice(ALPHABET) for _ in range(INVITATION_SYMBOLS))
    session.add(Invitation(digest=digest_of(code), person=person, expires=now + life, used=None, inviter=inviter))
    return "-".join(code[at : at + 3] for at in range(0, INVITATION_SYMBOLS, 3))


def address_of(host: str, code: str) -> str:
    """Where a phone goes with an invitation. Without https only on this computer itself."""
    name = host.rpartition(":")[0] or host
    plain = name in ("localhost", "127.0.0.1", "[::1]")
    return f"{'http' if plain else 'https'}://{host}/#/enrol/{code}"


def invited(session: Session, typed: str, now: int) -> Invitation:
    """The invitation that was typed. Raises InvitationError where it cannot be used."""
    invitation = session.get(Invitation, digest_of(forgiven_symbols(typed)))
    if invitation is None:
        raise InvitationError("This invitation is not known here. Check each symbol, or ask for a new one.")
    if invitation.used is not None:
        raise InvitationError("This invitation has been used. Ask for a new one.")
    if invitation.expires < now:
        raise InvitationError("This invitation is too old. Ask for a new one.")
    return invitation


def digest_of(code: str) -> str:
    return hashlib.sha256(code.encode()).hexdigest()


def add_key(session: Session, key: Key, now: int, inviter: str = "") -> None:
    """Enrol a public key; an entry of the chain, stamped with who invited."""
    body = {"kid": key.kid, "person": key.person, "device": key.device, "jwk": key.jwk}
    chain.announce(session, "key", chain.SHOP, body, now, inviter)


@derives("key")
def derive_key(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.add(Key(shut_since=None, **body))
