"""Plans for the office: checked, published, and given out again as a file."""

import base64
import binascii
import time
from typing import Any

from flask import Response, g
from flask.views import MethodView
from flask_smorest import Blueprint
from sqlalchemy import select

from seamtag.database import db, writing
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks
from seamtag.jobs.floor import plans_in_force
from seamtag.plans import files, trying
from seamtag.plans.lines import in_lines
from seamtag.plans.models import PlanRevision
from seamtag.plans.publishing import publish
from seamtag.plans.reading import PlanError
from seamtag.plans.schemas import (
    CheckedSchema,
    FormSchema,
    PlanFileSchema,
    PlanRevisionSchema,
    PublishSchema,
    WrittenSchema,
)
from seamtag.plans.writing import source_of

PLANNER = "planner"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
FORMS = {"xlsx": XLSX, "yaml": "application/yaml"}
SHOWN_FAULTS = 20

blueprint = Blueprint("plans", __name__, url_prefix="/api/v1", description="Inspection and test plans")


@blueprint.route("/plans")
class Plans(MethodView):
    @blueprint.response(200, PlanRevisionSchema(many=True))
    @asks()
    def get(self) -> list[dict[str, Any]]:
        """Every revision of every plan, the newest first, with the jobs that are judged by it."""
        used = plans_in_force(db.session())
        rows = db.session.scalars(select(PlanRevision).order_by(PlanRevision.code, PlanRevision.revision.desc()))
        return [{**about(row), "jobs": sorted(job for job, plan in used.items() if plan == row.hash)} for row in rows]

    @blueprint.arguments(PublishSchema)
    @blueprint.response(201, PlanRevisionSchema)
    @asks(PLANNER)
    def post(self, data: dict[str, str]) -> dict[str, Any]:
        """Publish a plan's file as the next revision; one with faults is refused with all of them."""
        try:
            document = files.document_of(content_of(data["content"]))
        except PlanError as error:
            more = len(error.faults) - SHOWN_FAULTS
            shown = error.faults[:SHOWN_FAULTS] + ([f"and {more} more"] if more > 0 else [])
            refuse(422, "Not published. " + " · ".join(shown))
        with writing() as session:
            row = publish(session, document, int(time.time()), g.person.id)
            return {**about(row), "jobs": []}


@blueprint.route("/plans/check")
class Check(MethodView):
    @blueprint.arguments(PlanFileSchema)
    @blueprint.response(200, CheckedSchema)
    @asks(PLANNER, "supervisor", "engineer")
    def post(self, data: dict[str, Any]) -> dict[str, Any]:
        """Every fault of a plan's file with its place; where it has none, its limits for the figures given."""
        try:
            document = files.document_of(content_of(data["content"]))
        except PlanError as error:
            return {"title": "", "steps": 0, "items": 0, "faults": error.faults, "limits": [], "source": {}}
        items = sum(len(step["items"]) for step in document["steps"])
        return {
            "title": document["title"], "steps": len(document["steps"]), "items": items, "faults": [],
            "limits": limits_shown(document, data["figures"]), "source": in_lines(source_of(document)),
        }  # fmt: skip


@blueprint.route("/plans/template.xlsx")
class Template(MethodView):
    @blueprint.response(200, content_type=XLSX)
    @asks()
    def get(self) -> Response:
        """A workbook to begin a plan with."""
        return attached(files.template(), XLSX, "plan.xlsx")


@blueprint.route("/plans/<plan_hash>")
class Written(MethodView):
    @blueprint.response(200, WrittenSchema)
    @asks()
    def get(self, plan_hash: str) -> dict[str, Any]:
        """One revision, as its planner wrote it."""
        row = revision_of(plan_hash)
        return {**about(row), "source": in_lines(source_of(row.document))}


@blueprint.route("/plans/<plan_hash>/file")
class AsFile(MethodView):
    @blueprint.arguments(FormSchema, location="query")
    @blueprint.response(200, content_type="application/octet-stream")
    @asks()
    def get(self, query: dict[str, str], plan_hash: str) -> Response:
        """One revision as a workbook or YAML."""
        row = revision_of(plan_hash)
        name = f"{row.code}-{row.revision}.{query['form']}"
        return attached(files.file_of(row.document, name), FORMS[query["form"]], name)


def revision_of(plan_hash: str) -> PlanRevision:
    row = db.session.get(PlanRevision, plan_hash)
    if row is None:
        refuse(404, "There is no such revision of a plan. Go back to the list of plans.")
    return row


def about(row: PlanRevision) -> dict[str, Any]:
    return {"hash": row.hash, "code": row.code, "revision": row.revision, "title": row.title}


def content_of(text: str) -> bytes:
    """The bytes of a file in base64. Aborts with 422 where they are none."""
    try:
        return base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError):
        refuse(422, "The file did not arrive whole. Choose it again.")


def attached(content: bytes, media_type: str, name: str) -> Response:
    answer = Response(content, mimetype=media_type)
    answer.headers.set("Content-Disposition", "attachment", filename=name)
    return answer


def limits_shown(document: dict[str, Any], figures: dict[str, str]) -> list[dict[str, str]]:
    """The limit of every item for some figures; a figure that is no number is left out."""
    known = {*document["figures"], *document["piece_figures"]}
    usable = {}
    for name, typed in figures.items():
        try:
            trying.figure_of(f"{name}={typed}")
        except trying.TryError:
            continue
        if name in known:
            usable[name] = typed
    answers = trying.Trial(document, usable).answers([])
    return [{"step": one.step, "item": one.item["code"],
             "shown": trying.limit_text(one.limits, one.item.get("uom", ""))} for one in answers]  # fmt: skip
