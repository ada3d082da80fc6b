"""Welding procedures for the office: those that are kept, new revisions, and the day one is withdrawn on."""

import time
from typing import Any

from flask import g
from flask.views import MethodView
from flask_smorest import Blueprint
from sqlalchemy import select

from seamtag.database import db, writing
from seamtag.fields import FieldError
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks
from seamtag.procedures.book import put
from seamtag.procedures.models import Procedure
from seamtag.procedures.schemas import ProcedureSchema

blueprint = Blueprint("procedures", __name__, url_prefix="/api/v1", description="Welding procedures")


@blueprint.route("/procedures")
class Procedures(MethodView):
    @blueprint.response(200, ProcedureSchema(many=True))
    @asks()
    def get(self) -> list[dict[str, Any]]:
        """Every welding procedure, by its id."""
        return [row.document for row in db.session.scalars(select(Procedure).order_by(Procedure.id))]

    @blueprint.arguments(ProcedureSchema)
    @blueprint.response(201, ProcedureSchema)
    @asks("planner", "supervisor", "engineer")
    def post(self, data: dict[str, Any]) -> dict[str, Any]:
        """Add a procedure, or put a new revision in the place of the one with its id; passes are judged anew by it."""
        try:
            with writing() as session:
                kept: dict[str, Any] = put(session, [data], int(time.time()), g.person.id)[0].document
                return kept
        except FieldError as error:
            refuse(422, "Not kept. " + " · ".join(error.faults))
