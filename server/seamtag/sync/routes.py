import json
import time
from typing import Any

from flask import Response, g
from flask.views import MethodView
from flask_smorest import Blueprint
from sqlalchemy import select

from seamtag.database import db
from seamtag.guard.sessions import asks
from seamtag.people.models import Key
from seamtag.records.models import Record
from seamtag.records.routes import MEDIA_TYPE
from seamtag.review.overdue import look_back
from seamtag.sync import chain, devices
from seamtag.sync.epoch import covered, epoch
from seamtag.sync.models import Entry
from seamtag.sync.schemas import FeedQuerySchema, FeedSchema

blueprint = Blueprint("feed", __name__, url_prefix="/api/v1", description="What is new, by the server's sequence")


@blueprint.route("/feed")
class Feed(MethodView):
    @blueprint.arguments(FeedQuerySchema, location="query")
    @blueprint.response(200, FeedSchema, content_type=MEDIA_TYPE)
    @asks()
    def get(self, query: dict[str, Any]) -> Response:
        """The entries of a scope after a number. A new epoch, or a head behind the phone's own, means: start over."""
        session = db.session()
        key = session.get(Key, g.kid)
        if key is not None and key.device == query["device"]:  # nobody speaks for another's phone
            devices.heard(key.device, query["waiting"], g.person.id, query["oldest"], query["holds"])
        look_back(int(time.time()))
        number, last = chain.head(session)
        rows = session.execute(
            select(Entry.number, Entry.kind, Entry.body, Entry.stamp, Record.verdict)
            .outerjoin(Record, Record.number == Entry.number)
            .where(Entry.scope == query["scope"], Entry.number > query["after"], Entry.number <= number)
            .order_by(Entry.number)
            .limit(query["most"] + 1)
        ).all()
        entries = [entry_of(*row) for row in rows[: query["most"]]]
        body = {"epoch": epoch(session), "head": {"number": number, "hash": last}, "entries": entries,
                "covered": covered(session), "more": len(rows) > query["most"]}  # fmt: skip
        return Response(json.dumps(body), 200, content_type=MEDIA_TYPE)


def entry_of(number: int, kind: str, body: str, stamp: str, verdict: str | None) -> dict[str, Any]:
    found = {"number": number, "kind": kind, "stamp": json.loads(stamp)}
    if kind == "record":
        return {**found, "body": body, "verdict": verdict or ""}
    return {**found, "body": json.loads(body)}
