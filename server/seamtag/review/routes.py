import json
from typing import Any

from flask import Response
from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.answers import answered
from seamtag.database import db
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks, settings
from seamtag.people.staff import names_of_people
from seamtag.review import day, decisions, lists, silence
from seamtag.review.calendar import Day, day_of
from seamtag.review.models import FlagRow
from seamtag.review.opened import opened
from seamtag.review.schemas import (
    DayQuerySchema,
    DecisionQuerySchema,
    DecisionSchema,
    HeadNumberSchema,
    ListQuerySchema,
    OpenedFlagSchema,
    ReviewQuerySchema,
    ReviewSchema,
    SpotSchema,
    WaitingLineSchema,
)
from seamtag.sync import chain

READERS = ("supervisor", "inspector", "planner", "engineer", "foreman", "authorized inspector")
"""Who may see how a day went, on the screen or on paper."""

blueprint = Blueprint("review", __name__, url_prefix="/api/v1", description="The supervisor's day review")


def asked_day(query: dict[str, Any]) -> Day:
    try:
        return day_of(db.session(), query["day"], query["shift"])
    except ValueError:
        refuse(422, f"There is no day '{query['day']}' or no shift {query['shift']}. Write a day as 2026-11-26.")


@blueprint.route("/review")
class Review(MethodView):
    @blueprint.arguments(ReviewQuerySchema, location="query")
    @blueprint.response(200, ReviewSchema)
    @asks(*READERS)
    def get(self, query: dict[str, Any]) -> Response:
        """The day: four lists, counts, phones not heard from, and the flags of a state, worst first."""
        session = db.session()
        asked = asked_day(query)
        people = names_of_people(session)
        body = {
            **asked.as_data(),
            "report_days": settings().report_days,
            "counts": day.counts(session, asked),
            "lists": lists.first_lines(session),
            "silent": silence.silent(session, people=people),
            "missing": silence.missing(session, asked, people),
            "filters": day.filters_of(session, asked, query, people),
        }
        written = f'{json.dumps(body)[:-1]}, "flags": {day.written(session, asked, query, people)}}}'
        return Response(written, 200, content_type="application/json")


@blueprint.route("/review/lists/<name>")
class WholeList(MethodView):
    @blueprint.arguments(ListQuerySchema, location="query")
    @blueprint.response(200, WaitingLineSchema(many=True))
    @asks(*READERS)
    def get(self, query: dict[str, str], name: str) -> Response:
        """One of the four lists in whole, what waits longest first."""
        if name not in lists.NAMES:
            refuse(404, f"There is no list '{name}'.")
        return answered(lists.list_named(db.session(), name, query["job"]))


@blueprint.route("/review/on-the-spot")
class OnTheSpot(MethodView):
    @blueprint.arguments(DayQuerySchema, location="query")
    @blueprint.response(200, SpotSchema(many=True))
    @asks(*READERS)
    def get(self, query: dict[str, Any]) -> Response:
        """What was fixed on the spot that day, by item, the most frequent first."""
        return answered(day.on_the_spot(db.session(), asked_day(query)))


@blueprint.route("/decisions")
class Decisions(MethodView):
    @blueprint.arguments(DecisionQuerySchema, location="query")
    @blueprint.response(200, DecisionSchema(many=True))
    @asks(*READERS)
    def get(self, query: dict[str, str]) -> Response:
        """What was decided about findings and is not carried out yet, the oldest first; or all of it."""
        return answered(decisions.listed(db.session(), query["which"], query["job"]))


@blueprint.route("/flags/<flag_id>")
class OpenedFlag(MethodView):
    @blueprint.response(200, OpenedFlagSchema)
    @asks(*READERS)
    def get(self, flag_id: str) -> Response:
        """One flag, with the history of its place, its photos and its trend."""
        row = db.session.get(FlagRow, flag_id)
        if row is None:
            refuse(404, "This flag is no longer there; a later record has settled it. Go back to the list.")
        return answered(opened(db.session(), row))


@blueprint.route("/head")
class Head(MethodView):
    @blueprint.response(200, HeadNumberSchema)
    @asks()
    def get(self) -> dict[str, int]:
        """The number of the newest entry: whether anything came since it was last looked at."""
        return {"number": chain.head(db.session())[0]}
