"""Gauges for the office: what is on the shelf, new certificates, and the readings a doubtful gauge has touched."""

import time
from datetime import date
from typing import Any

from flask import g
from flask.views import MethodView
from flask_smorest import Blueprint
from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.uoms import UOMS
from seamtag.core.welding import is_day
from seamtag.database import db, writing
from seamtag.fields import MOST_ID, FieldError, Fields
from seamtag.gauges.models import Gauge
from seamtag.gauges.schemas import ORDER, CertificateSchema, GaugeSchema, SinceSchema, TouchedReadingsSchema
from seamtag.gauges.shelf import FIELDS, GaugeError, put
from seamtag.gauges.touched import touched
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks
from seamtag.review.calendar import today

SOON = 30
"""Days before a gauge is due at which it is called for."""

blueprint = Blueprint("gauges", __name__, url_prefix="/api/v1", description="Gauges and their certificates")


@blueprint.route("/gauges")
class Gauges(MethodView):
    @blueprint.response(200, GaugeSchema(many=True))
    @asks()
    def get(self) -> list[dict[str, Any]]:
        """Every gauge as its newest certificate says: what is overdue first, then what is due soon."""
        day = today(db.session())
        found = [about(row, day) for row in db.session.scalars(select(Gauge))]
        return sorted(found, key=lambda one: (ORDER.index(one["standing"]), one["due"] or "", one["id"]))

    @blueprint.arguments(CertificateSchema)
    @blueprint.response(201, GaugeSchema)
    @asks("planner", "supervisor")
    def post(self, data: dict[str, Any]) -> dict[str, Any]:
        """Add a gauge, or a new certificate of one: its readings are judged anew by what that says of U."""
        try:
            with writing() as session:
                row = put(session, read(session, data), int(time.time()), g.person.id)
                return about(row, today(session))
        except FieldError as error:
            refuse(422, "Not kept. " + " · ".join(error.faults))
        except GaugeError as error:
            refuse(422, f"Not kept. {error}")


@blueprint.route("/gauges/<path:gauge>/readings")
class Readings(MethodView):
    @blueprint.arguments(SinceSchema, location="query")
    @blueprint.response(200, TouchedReadingsSchema)
    @asks()
    def get(self, query: dict[str, str], gauge: str) -> dict[str, Any]:
        """The readings taken with a gauge since a day, by the phones' clocks. Nothing is judged anew by asking."""
        row = db.session.get(Gauge, gauge)
        if row is None:
            refuse(404, f"There is no gauge '{gauge}' here. Go back to the list of gauges.")
        if not is_day(query["since"]):
            refuse(422, f"'{query['since']}' is no day. Write it as 2026-11-26.")
        count, readings = touched(db.session(), gauge, query["since"])
        return {"gauge": about(row, today(db.session())), "count": count, "readings": readings}


def about(row: Gauge, day: date) -> dict[str, Any]:
    left = (date.fromisoformat(row.due) - day).days if row.due and is_day(row.due) else None
    values = {name: getattr(row, name) for name in FIELDS}
    return {**values, "standing": standing(left), "left": left}


def standing(left: int | None) -> str:
    """How a gauge stands with so many days left; one may still be used on the day it is due."""
    if left is None:
        return "no day"
    if left < 0:
        return "overdue"
    return "due soon" if left <= SOON else "in date"


def read(session: Session, data: dict[str, Any]) -> dict[str, Any]:
    """A gauge's entry from a form. Raises FieldError with every fault."""
    fields = Fields({name: value for name, value in data.items() if value != ""}, "gauge", FIELDS)
    body = {
        "id": fields.text("id", MOST_ID),
        "kind": fields.text("kind"),
        "name": fields.text("name"),
        "uom": fields.choice("uom", UOMS),
        "uncertainty": fields.number("uncertainty"),
        "certificate": fields.text("certificate", needed=False),
        "calibrated": fields.day("calibrated"),
        "due": fields.day("due"),
    }
    if body["calibrated"] and body["due"] and body["due"] < body["calibrated"]:
        fields.fault("due", f"{body['due']} is before the calibration, {body['calibrated']}")
    alike = [one for one in session.scalars(select(Gauge.id)) if one.upper() == str(body["id"]).upper()]
    if alike and body["id"] not in alike:
        fields.fault("id", f"there is {alike[0]} already; stickers do not tell small letters from capitals")
    fields.done()
    return body
