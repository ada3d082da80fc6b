import json
import re
import time
from typing import Any

from flask import Response, g, jsonify
from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.database import db, writing
from seamtag.fields import FieldError
from seamtag.guard.errors import refuse
from seamtag.guard.limits import gate
from seamtag.guard.sessions import asks, begin, end, new_challenge, settings
from seamtag.people import office
from seamtag.people.badges import symbol_of
from seamtag.people.models import Challenge, Key, Person
from seamtag.people.office import DECIDING
from seamtag.people.qualifications import put
from seamtag.people.schemas import (
    ChallengeSchema,
    EngagedSchema,
    EnrolledSchema,
    InvitationSchema,
    ListedPersonSchema,
    PersonSchema,
    ProofSchema,
    QualificationSchema,
    QualificationsSchema,
    ShutOutSchema,
    ShutSchema,
    WantedSchema,
)
from seamtag.people.shutting import ShutError, let_in, shut_out
from seamtag.people.staff import InvitationError, add_key, address_of, invite, invited
from seamtag.records import jws
from seamtag.review.calendar import today
from seamtag.review.flagging import flag_device

DEVICE = re.compile(r"[^\x00]{1,64}")

blueprint = Blueprint("people", __name__, url_prefix="/api/v1", description="People, keys and sessions")


def proven(text: str, purpose: str) -> jws.Decoded:
    """A proof taken apart. Aborts with 400 where it is none or was made for something else."""
    try:
        decoded = jws.decode(text)
    except jws.UnreadableError as error:
        refuse(400, f"The proof cannot be read: {error}.")
    if decoded.payload.get("purpose") != purpose:
        refuse(400, f"The proof was not made to {purpose}.")
    return decoded


def as_data(person: Person) -> dict[str, Any]:
    return {"id": person.id, "name": person.name, "roles": person.roles, "stamp": person.stamp}


@blueprint.route("/keys")
class Keys(MethodView):
    @blueprint.arguments(ProofSchema)
    @blueprint.response(201, EnrolledSchema)
    def post(self, data: dict[str, str]) -> dict[str, Any]:
        """Enrol a browser's key by an invitation.

        The proof's payload: purpose 'enrol', invitation, device, jwk (the public key). It is signed by that key.
        """
        gate().check("attempt")
        gate().count("attempt")
        decoded = proven(data["proof"], "enrol")
        claim = decoded.payload
        jwk, device, code = claim.get("jwk"), claim.get("device"), claim.get("invitation")
        if not isinstance(jwk, dict) or not isinstance(device, str) or not isinstance(code, str):
            refuse(400, "The proof lacks jwk, device or invitation.")
        if not DEVICE.fullmatch(device):
            refuse(400, "The device needs a name of 1 to 64 characters.")
        try:
            if jws.thumbprint(jwk) != decoded.kid:
                refuse(400, "The proof's kid is not the thumbprint of its key.")
            jws.verify(decoded, jwk)
        except jws.UnreadableError as error:
            refuse(400, f"The key cannot be enrolled: {error}.")
        return enrol(decoded.kid, jwk, device, code)


def enrol(kid: str, jwk: dict[str, Any], device: str, code: str) -> dict[str, Any]:
    now = int(time.time())
    try:
        with writing() as session:
            invitation = invited(session, code, now)
            if session.get(Key, kid):
                refuse(409, "This key is enrolled already.")
            invitation.used = now
            add_key(session, Key(kid=kid, person=invitation.person, device=device, jwk=jwk), now, invitation.inviter)
            person = session.get(Person, invitation.person)
            return {"person": as_data(person), "kid": kid} if person else {}
    except InvitationError as error:
        refuse(403, str(error))


@blueprint.route("/challenges")
class Challenges(MethodView):
    @blueprint.response(201, ChallengeSchema)
    def post(self) -> dict[str, str]:
        """A nonce to sign in with."""
        gate().check("challenge")
        gate().count("challenge")
        return {"nonce": new_challenge()}


@blueprint.route("/sessions")
class Sessions(MethodView):
    @blueprint.arguments(ProofSchema)
    @blueprint.response(201, PersonSchema)
    def post(self, data: dict[str, str]) -> Response:
        """Sign in by a key's signature over the server's nonce.

        The proof's payload: purpose 'sign in', nonce. The answer sets the session's cookie.
        """
        gate().check("attempt")
        decoded = proven(data["proof"], "sign in")
        key = db.session.get(Key, decoded.kid)
        try:
            if key is None:
                raise jws.UnreadableError("its key is not enrolled here")
            jws.verify(decoded, key.jwk)
        except jws.UnreadableError as error:
            gate().count("attempt")
            refuse(403, f"Signing in failed: {error}. A new invitation enrols this browser again.")
        person_id, kid = key.person, key.kid
        if not spend(str(decoded.payload.get("nonce", ""))):
            gate().count("attempt")
            refuse(403, "The sign-in took too long. Try again.")
        person = db.session.get(Person, person_id)
        answer = Response(json.dumps(as_data(person) if person else {}), 201, mimetype="application/json")
        return begin(answer, person_id, kid)

    @blueprint.response(200, PersonSchema)
    @asks()
    def get(self) -> dict[str, Any]:
        """Who is signed in."""
        return as_data(g.person)

    @blueprint.response(204)
    def delete(self) -> Response:
        """Sign out."""
        return end(Response(status=204))


def spend(nonce: str) -> bool:
    """Use a nonce up; whether it was good."""
    with writing() as session:
        found = session.get(Challenge, nonce)
        if found is None:
            return False
        session.delete(found)
        return found.expires >= int(time.time())


@blueprint.route("/invitations")
class Invitations(MethodView):
    @blueprint.arguments(WantedSchema)
    @blueprint.response(201, InvitationSchema)
    @asks("supervisor", "planner")
    def post(self, data: dict[str, str]) -> Response:
        """A new one-time invitation for a person; only a supervisor invites those who release or decide."""
        wanted = db.session.get(Person, data["person"])
        if wanted and set(wanted.roles) & set(DECIDING) and "supervisor" not in g.person.roles:
            refuse(403, "Only a supervisor invites somebody who releases or decides.")
        inviter, now, life = g.person.id, int(time.time()), settings().invitation_life
        try:
            with writing() as session:
                code = invite(session, data["person"], now, life, inviter)
        except InvitationError as error:
            refuse(404, str(error))
        address = address_of(settings().host, code)
        symbol = symbol_of(address)
        answer = jsonify({"invitation": code, "address": address, "expires": now + life,
                          "symbol": {"side": symbol.side, "path": symbol.path}})  # fmt: skip
        answer.status_code = 201
        return answer


@blueprint.route("/people")
class People(MethodView):
    @blueprint.response(200, ListedPersonSchema(many=True))
    @asks("supervisor", "planner")
    def get(self) -> list[dict[str, Any]]:
        """Everybody with their roles, and their phones with when each was last heard from."""
        return office.everybody(db.session())

    @blueprint.arguments(EngagedSchema)
    @blueprint.response(201, EngagedSchema)
    @asks("supervisor", "planner")
    def post(self, data: dict[str, Any]) -> dict[str, Any]:
        """Engage somebody or change their roles; of those who release or decide only a supervisor may.

        Nobody is ever deleted: who leaves keeps no role, and what they signed stays.
        """
        roles, by = g.person.roles, g.person.id
        try:
            with writing() as session:
                return office.as_data(office.change(session, data, roles, int(time.time()), by))
        except FieldError as error:
            refuse(422, "Not kept. " + " · ".join(error.faults))
        except office.NotAllowedError as error:
            refuse(403, str(error))


@blueprint.route("/qualifications")
class Qualifications(MethodView):
    @blueprint.response(200, QualificationsSchema)
    @asks("supervisor", "planner", "engineer", "foreman", "inspector")
    def get(self) -> dict[str, Any]:
        """The makers' qualifications, and the day on which each lapses, the first to lapse first."""
        return office.qualifications(db.session(), today(db.session()))

    @blueprint.arguments(QualificationSchema)
    @blueprint.response(201, QualificationSchema)
    @asks("supervisor", "planner", "engineer")
    def post(self, data: dict[str, Any]) -> dict[str, Any]:
        """Add a qualification, or put what its welder's log now says in its place; passes are flagged anew by it."""
        try:
            with writing() as session:
                row = put(session, [data], int(time.time()), g.person.id)[0]
                return {**row.as_data(), "certificate": row.certificate}
        except FieldError as error:
            refuse(422, "Not kept. " + " · ".join(error.faults))


@blueprint.route("/devices/<device>/shut-out")
class ShutOut(MethodView):
    @blueprint.arguments(ShutOutSchema)
    @blueprint.response(200, ShutSchema)
    @blueprint.alt_response(404, description="No such phone is enrolled here")
    @asks("supervisor")
    def put(self, data: dict[str, Any], device: str) -> dict[str, Any]:
        """Shut out a lost phone since a named time: what it sent since is flagged, what it sends is not taken in."""
        now, by, since = int(time.time()), g.person.id, int(data["since"].timestamp())
        try:
            with writing() as session:
                kids = shut_out(session, device, since, data["reason"], now, by)
                flag_device(session, device, now)
        except ShutError as error:
            refuse(404, str(error))
        return {"device": device, "kids": kids}

    @blueprint.response(200, ShutSchema)
    @blueprint.alt_response(404, description="No such phone is enrolled here")
    @asks("supervisor")
    def delete(self, device: str) -> dict[str, Any]:
        """Let a phone in again that was found."""
        now, by = int(time.time()), g.person.id
        try:
            with writing() as session:
                kids = let_in(session, device, now, by)
                flag_device(session, device, now)
        except ShutError as error:
            refuse(404, str(error))
        return {"device": device, "kids": kids}
