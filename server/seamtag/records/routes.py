import json
import time
import zlib
from dataclasses import asdict
from typing import Any

from flask import Response, g, request
from flask.views import MethodView
from flask_smorest import Blueprint
from sqlalchemy import select

from seamtag.database import db
from seamtag.guard.errors import refuse
from seamtag.guard.limits import gate
from seamtag.guard.sessions import asks, settings
from seamtag.people.models import Key
from seamtag.records import jws
from seamtag.records.intake import UNREADABLE, adopt, intake
from seamtag.records.models import Refusal
from seamtag.records.schemas import OutcomeSchema, PushAnswerSchema, PushSchema, RefusalSchema
from seamtag.review.overdue import all_sent
from seamtag.sync import chain, devices
from seamtag.sync.epoch import covered, epoch

MEDIA_TYPE = "application/vnd.seamtag+json"
MOST_RECORDS = 1000
MOST_PARTS = 5000
"""Commas and brackets of a push: records hold none, so more of them are no records."""
TOO_LARGE = "The push is larger than 16 MB unzipped. Send fewer records at once."

blueprint = Blueprint("records", __name__, url_prefix="/api/v1", description="Signed records")


@blueprint.route("/records")
class Records(MethodView):
    @blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": PushSchema}}})
    @blueprint.response(200, PushAnswerSchema, content_type=MEDIA_TYPE)
    @blueprint.alt_response(413, description="Too large: send fewer at once")
    @blueprint.alt_response(429, description="Too many unreadable records from this address")
    def post(self) -> Response:
        """Push signed records. No session is asked: what counts is each record's signature.

        Whatever comes is answered, element by element, in its order. The body may be gzipped.
        """
        push = push_of(request.get_data())
        texts = push["records"]
        found = intake(db.session(), texts)
        outcomes = found.outcomes
        unreadable = sum(one.outcome == UNREADABLE for one in outcomes)
        if unreadable:
            if unreadable == len(outcomes):
                gate().check("unreadable")
            gate().count("unreadable", unreadable)
        device = push.get("device")
        if isinstance(device, str) and device in found.devices:
            hear(device, push)
        return answer_of([asdict(one) for one in outcomes])


def hear(device: str, push: dict[str, Any]) -> None:
    """Note what a phone says still waits; where nothing does, look again at what should have come."""
    if devices.heard(device, push.get("waiting"), "", push.get("oldest"), push.get("holds")) == 0:
        all_sent(device, int(time.time()))


@blueprint.route("/refusals")
class Refusals(MethodView):
    @blueprint.response(200, RefusalSchema(many=True))
    @asks("supervisor")
    def get(self) -> list[dict[str, Any]]:
        """Records that were not taken in, the newest first, with the reason."""
        query = select(Refusal, Key).join(Key, Key.kid == Refusal.kid).where(Refusal.adopted.is_(None))
        rows = db.session.execute(query.order_by(Refusal.received.desc()).limit(MOST_RECORDS)).all()
        return [refusal_data(kept, key) for kept, key in rows]


@blueprint.route("/refusals/<digest>/adopt")
class Adoption(MethodView):
    @blueprint.response(200, OutcomeSchema)
    @blueprint.alt_response(404, description="No such record is kept")
    @asks("supervisor")
    def post(self, digest: str) -> dict[str, Any]:
        """Take in what a phone sent that is shut out; other reasons keep a record out all the same."""
        outcome = adopt(db.session(), digest, g.person.id, int(time.time()))
        if outcome is None:
            refuse(404, "No record that was not taken in has this digest.")
        return asdict(outcome)


def refusal_data(kept: Refusal, key: Key) -> dict[str, Any]:
    payload = jws.json_of(kept.text.split(".")[1])
    named = {name: str(payload.get(name) or "")[:200] for name in ("type", "job", "piece")}
    return {"digest": kept.digest, "id": kept.id, "reason": kept.reason, "received": kept.received,
            "device": key.device, "person": key.person, **named}  # fmt: skip


def push_of(raw: bytes) -> dict[str, Any]:
    """The push's object. A body that is none is one unreadable element; only its size is refused as a whole."""
    if len(raw) > settings().most_push:
        refuse(413, TOO_LARGE)
    if request.headers.get("Content-Encoding") == "gzip":
        raw = unzipped(raw, settings().most_push)
    if raw.count(b",") + raw.count(b"[") + raw.count(b"{") > MOST_PARTS:
        refuse(413, TOO_LARGE)
    try:
        push = json.loads(raw)
    except (ValueError, RecursionError):
        return {"records": [None]}
    texts = push.get("records") if isinstance(push, dict) else None
    if not isinstance(texts, list):
        return {"records": [None]}
    if len(texts) > MOST_RECORDS:
        refuse(413, f"More than {MOST_RECORDS} records at once. Send fewer.")
    return {**push, "records": texts}


def unzipped(raw: bytes, most: int) -> bytes:
    """Gunzip, bounded; b'' where it is no gzip."""
    unzip = zlib.decompressobj(31)
    try:
        content = unzip.decompress(raw, most)
    except zlib.error:
        return b""
    if unzip.unconsumed_tail:
        refuse(413, TOO_LARGE)
    return content


def answer_of(outcomes: list[dict[str, Any]]) -> Response:
    number, last = chain.head(db.session())
    session = db.session()
    body = {"epoch": epoch(session), "head": {"number": number, "hash": last}, "covered": covered(session),
            "outcomes": outcomes}  # fmt: skip
    return Response(json.dumps(body), 200, content_type=MEDIA_TYPE)
