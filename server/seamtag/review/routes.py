from typing import Any

from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.database import db
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks
from seamtag.review import day
from seamtag.review.lists import lists
from seamtag.review.models import FlagRow
from seamtag.review.schemas import OpenedFlagSchema, ReviewQuerySchema, ReviewSchema

blueprint = Blueprint("review", __name__, url_prefix="/api/v1", description="The supervisor's day review")


@blueprint.route("/review")
class Review(MethodView):
    @blueprint.arguments(ReviewQuerySchema, location="query")
    @blueprint.response(200, ReviewSchema)
    @asks()
    def get(self, query: dict[str, str]) -> dict[str, Any]:
        """The day: counts, four lists, phones not heard from, and the flags, worst first."""
        session = db.session()
        try:
            name, start, end = day.day_of(session, query["day"])
        except ValueError:
            refuse(422, f"'{query['day']}' is no day. Write it as 2026-11-26.")
        return {
            "day": name,
            "counts": day.counts(session, start, end),
            "lists": lists(session),
            "silent": day.silent(session),
            "flags": day.flags(session, query),
        }


@blueprint.route("/flags/<flag_id>")
class OpenedFlag(MethodView):
    @blueprint.response(200, OpenedFlagSchema)
    @asks()
    def get(self, flag_id: str) -> dict[str, Any]:
        """One flag, with the history of its place, its photos and its trend."""
        row = db.session.get(FlagRow, flag_id)
        if row is None:
            refuse(404, "This flag is no longer there; a later record has settled it. Go back to the list.")
        return day.opened(db.session(), row)
