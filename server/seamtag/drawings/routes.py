"""Drawings for the office: put in with their picture, and the pieces pinned on them."""

import time
from typing import Any

from flask import g
from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.database import db, writing
from seamtag.drawings import shelf
from seamtag.drawings.models import Drawing
from seamtag.drawings.pictures import DrawingError, sheet_of
from seamtag.drawings.schemas import DrawingSchema, NewDrawingSchema, PinsSchema
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks, settings
from seamtag.jobs.routes import ENGINEER, PLANNER, job_row
from seamtag.photos.routes import vault
from seamtag.plans.routes import content_of

blueprint = Blueprint("drawings", __name__, url_prefix="/api/v1", description="Drawings of jobs, with pieces pinned")


@blueprint.route("/jobs/<job>/drawings")
class Drawings(MethodView):
    @blueprint.response(200, DrawingSchema(many=True))
    @asks()
    def get(self, job: str) -> list[dict[str, Any]]:
        """The drawings of a job, by sheet, each with its pins."""
        return [one.as_data() for one in shelf.drawings_of(db.session(), job_row(job).id)]

    @blueprint.arguments(NewDrawingSchema)
    @blueprint.response(201, DrawingSchema)
    @asks(PLANNER, ENGINEER)
    def post(self, data: dict[str, Any], job: str) -> dict[str, Any]:
        """Put a sheet's picture into a job. One that is there already is replaced, as by its next revision."""
        job_row(job)
        about = {name: data[name].strip() for name in ("sheet", "revision", "title")}
        if not about["sheet"]:
            refuse(422, "The sheet has no number. Type it as it stands on the drawing.")
        try:
            sheet = sheet_of(content_of(data["file"]["content"]), settings().most_pixels, data["page"])
            sha256 = shelf.keep(vault(), sheet)
            with writing() as session:
                row = shelf.put(session, job, about, sheet, sha256, data["pins"], int(time.time()), g.person.id)
                return row.as_data()
        except DrawingError as error:
            refuse(422, str(error))


@blueprint.route("/jobs/<job>/drawings/<path:drawing>/pins")
class Pins(MethodView):
    @blueprint.arguments(PinsSchema)
    @blueprint.response(201, DrawingSchema)
    @asks(PLANNER, ENGINEER)
    def post(self, data: dict[str, Any], job: str, drawing: str) -> dict[str, Any]:
        """Pin pieces on a drawing: these pins, in place of those that were there."""
        job_row(job)
        with writing() as session:
            row = session.get(Drawing, drawing)
            if row is None or row.job != job:
                refuse(404, f"Job {job} has no drawing {drawing}. Go back to its list.")
            try:
                return shelf.pin(session, row, data["pins"], int(time.time()), g.person.id).as_data()
            except DrawingError as error:
                refuse(422, str(error))
