"""Trends: how an item's values wander, whose or which gauge's they are, and whether the tolerance can be held.

What works out figures is imported by the answers that need it: numpy and scipy would make every start longer.
"""

import re
import time
from typing import Any

from flask import Response, g
from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.answers import answered
from seamtag.core.numbers import NumberError
from seamtag.database import db, writing
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks
from seamtag.plans.routes import content_of
from seamtag.trends.measured import listed, series_named
from seamtag.trends.schemas import (
    DaysSchema,
    ItemTrendSchema,
    ListedItemSchema,
    OrderSchema,
    ProportionsSchema,
    StagesQuerySchema,
    StagesSchema,
    StudyQuerySchema,
    StudySchema,
    TrendQuerySchema,
    WatchSchema,
    split,
)
from seamtag.trends.stages import side_by_side
from seamtag.trends.watching import WatchError, rules_of, watch

COMPARING = ("supervisor", "planner", "engineer")
"""Roles that see makers beside each other; nobody else is shown whose values are whose."""

blueprint = Blueprint("trends", __name__, url_prefix="/api/v1", description="What the values of an item say together")


def compares() -> bool:
    return bool({*COMPARING} & {*g.person.roles})


@blueprint.route("/trends")
class Trends(MethodView):
    @blueprint.arguments(OrderSchema, location="query")
    @blueprint.response(200, ListedItemSchema(many=True))
    @asks()
    def get(self, query: dict[str, str]) -> list[dict[str, Any]]:
        """Every item that has values, the one with the newest first; or by plan, in the order of its steps."""
        found = listed(db.session())
        return sorted(found, key=step_order) if query["order"] == "step" else found


def step_order(one: dict[str, Any]) -> tuple[Any, ...]:
    """4.9 before 4.10."""
    return one["plan"], [int(part) for part in re.findall(r"\d+", one["step_number"])], one["step"], one["name"]


@blueprint.route("/trends/series")
class Trend(MethodView):
    @blueprint.arguments(TrendQuerySchema, location="query")
    @blueprint.response(200, ItemTrendSchema)
    @blueprint.alt_response(404, description="The item has no values")
    @asks()
    def get(self, query: dict[str, Any]) -> Response:
        """The newest 2,000 values of an item, filtered, with their statistics; in columns."""
        from seamtag.trends.series import trend_of

        session = db.session()
        series = series_named(session, query["plan"], query["step"], query["item"])
        if series is None:
            refuse(404, f"No value of item '{query['item'][:80]}' at step '{query['step'][:80]}' has come in yet.")
        if query["maker"] and not compares():
            refuse(403, f"Values of one person are shown to {', '.join(COMPARING)} only.")
        chosen = {**query, "rules": split(query["rules"])}
        return answered(trend_of(session, series, chosen, compares()))


@blueprint.route("/trends/watch")
class Watching(MethodView):
    @blueprint.arguments(WatchSchema)
    @blueprint.response(200, WatchSchema)
    @blueprint.alt_response(404, description="The item has no values")
    @asks("supervisor", "planner")
    def post(self, asked: dict[str, Any]) -> dict[str, Any]:
        """Watch an item by some rules, or by none: one that is broken raises a flag."""
        series = series_named(db.session(), asked["plan"], asked["step"], asked["item"])
        if series is None:
            refuse(404, f"No value of item '{asked['item'][:80]}' at step '{asked['step'][:80]}' has come in yet.")
        key = (series.plan, series.step, series.item)
        try:
            with writing() as session:
                watch(session, key, asked["rules"], int(time.time()), g.person.id)
                rules = rules_of(session, key)
        except WatchError as error:
            refuse(422, str(error))
        return {**asked, "plan": key[0], "rules": rules}


@blueprint.route("/trends/proportions")
class Proportions(MethodView):
    @blueprint.arguments(DaysSchema, location="query")
    @blueprint.response(200, ProportionsSchema)
    @asks()
    def get(self, query: dict[str, int]) -> dict[str, Any]:
        """Shares flagged by maker and item in the last days, with their intervals."""
        from seamtag.trends.proportions import proportions

        return proportions(db.session(), query["days"], compares())


@blueprint.route("/trends/stages")
class Stages(MethodView):
    @blueprint.arguments(StagesQuerySchema, location="query")
    @blueprint.response(200, StagesSchema)
    @blueprint.alt_response(404, description="There is no such plan")
    @asks()
    def get(self, query: dict[str, str]) -> Response:
        """The same dimension of the same piece at several steps, side by side."""
        found = side_by_side(db.session(), query["plan"], query["item"], query["step"])
        if found is None:
            refuse(404, f"There is no plan '{query['plan'][:80]}'. Go back to the list of items.")
        return answered(found)


def rows_in(data: dict[str, Any]) -> list[dict[str, str]]:
    """Raises StudyError where a file has faults."""
    from seamtag.trends import studies

    if not data["content"]:
        return list(data["rows"])
    return studies.read_rows(content_of(data["content"]), data["name"], data["comma"])


@blueprint.route("/trends/gauge-study")
class GaugeStudy(MethodView):
    @blueprint.arguments(StudyQuerySchema)
    @blueprint.response(200, StudySchema)
    @asks("planner", "supervisor")
    def post(self, data: dict[str, Any]) -> dict[str, Any]:
        """How much of a spread comes from a gauge and its operators; nothing is kept."""
        from seamtag.trends import studies

        try:
            tolerance = studies.number_of(data["tolerance"], data["comma"]) if data["tolerance"].strip() else None
        except NumberError as error:
            refuse(422, f"The tolerance: {error}")
        try:
            return studies.studied(studies.readings_of(rows_in(data), data["comma"]), tolerance)
        except studies.StudyError as error:
            more = len(error.faults) - studies.MOST_FAULTS
            shown = error.faults[: studies.MOST_FAULTS] + ([f"and {more} more"] if more > 0 else [])
            refuse(422, " · ".join(shown))
