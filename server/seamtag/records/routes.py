import json
import zlib
from dataclasses import asdict
from typing import Any

from flask import Response, request
from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.database import db
from seamtag.guard.errors import refuse
from seamtag.guard.limits import gate
from seamtag.guard.sessions import settings
from seamtag.records.intake import UNREADABLE, take_in
from seamtag.records.schemas import PushAnswerSchema, PushSchema
from seamtag.sync import chain, devices
from seamtag.sync.epoch import epoch

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
        outcomes = take_in(db.session(), texts)
        unreadable = sum(one.outcome == UNREADABLE for one in outcomes)
        if unreadable:
            if unreadable == len(outcomes):
                gate().check("unreadable")
            gate().count("unreadable", unreadable)
        if len(outcomes) > unreadable:
            devices.heard(push.get("device"), push.get("waiting"))
        return answer_of([asdict(one) for one in outcomes])


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
    body = {"epoch": epoch(db.session()), "head": {"number": number, "hash": last}, "outcomes": outcomes}
    return Response(json.dumps(body), 200, content_type=MEDIA_TYPE)
