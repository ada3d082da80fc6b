"""Tags for phones and for the office: what a code leads to, labels to print, plates to mark, codes to replace."""

import time
from typing import Any

from flask import Response, g
from flask.views import MethodView
from flask_smorest import Blueprint
from sqlalchemy import select

from seamtag.core.tagcode import forgiven
from seamtag.database import db, writing
from seamtag.gauges.models import Gauge
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks, settings
from seamtag.jobs.floor import core_job
from seamtag.jobs.models import Job, Piece
from seamtag.tags import pieces
from seamtag.tags.engraving import PLATES, plate_svg, plates_zip
from seamtag.tags.label import as_png, label
from seamtag.tags.layout import Words
from seamtag.tags.models import Tag
from seamtag.tags.replacing import RetiredError, replace
from seamtag.tags.schemas import (
    PlateQuerySchema,
    PlatesQuerySchema,
    ReasonSchema,
    SheetQuerySchema,
    TagSchema,
    TagsQuerySchema,
    TagsSchema,
)
from seamtag.tags.sheets import SHEETS, Sheet, gauges_pdf, tags_pdf
from seamtag.tags.stickers import job_board

PRINTERS = ("planner", "supervisor", "foreman")
PDF, SVG, ZIP = "application/pdf", "image/svg+xml", "application/zip"

blueprint = Blueprint("tags", __name__, url_prefix="/api/v1", description="QR tags")


def tagged(code: str) -> tuple[Tag, Piece]:
    """The tag and its piece. Aborts with 404 and a message that says what to do."""
    meant = forgiven(code)
    if meant is None:
        refuse(404, f"'{code[:20]}' is no code of a tag: a symbol was misread. Look again, or pick the mark.")
    tag = db.session.get(Tag, meant)
    piece = db.session.get(Piece, tag.piece) if tag else None
    if tag is None or piece is None:
        refuse(404, f"No tag of this shop has the code {meant}. Pick the mark from the job's list.")
    return tag, piece


def job_row(job: str) -> Job:
    row = db.session.get(Job, job)
    if row is None:
        refuse(404, f"There is no job {job[:40]}. Go back to the list of jobs.")
    return row


def about(tag: Tag, piece: Piece) -> dict[str, Any]:
    return {"code": tag.code, "piece": piece.id, "mark": piece.mark, "job": piece.job, "retired": tag.retired}


def chosen(job: str, wanted: str) -> list[Words]:
    """What stands on the tags that are to be made. Aborts with 404 or 422."""
    rows = pieces.tags_of(db.session(), job_row(job).id)
    try:
        return pieces.words_of(pieces.chosen(rows, wanted), job)
    except pieces.ChoiceError as error:
        refuse(422, str(error))


def sheet_of(query: dict[str, Any]) -> Sheet:
    sheet = SHEETS[query["sheet"]]
    if query["start"] > sheet.many:
        refuse(422, f"The sheet has {sheet.many} labels; the first cannot be number {query['start']}.")
    return sheet


def attached(content: bytes | str, media_type: str, name: str) -> Response:
    answer = Response(content, mimetype=media_type)
    answer.headers.set("Content-Disposition", "attachment", filename=name)
    return answer


@blueprint.route("/tags/<code>")
class OneTag(MethodView):
    @blueprint.response(200, TagSchema)
    @asks()
    def get(self, code: str) -> dict[str, Any]:
        """The piece a code belongs to."""
        return about(*tagged(code))


@blueprint.route("/tags/<code>/label.png")
class Label(MethodView):
    @blueprint.response(200, content_type="image/png")
    @asks()
    def get(self, code: str) -> Response:
        """The label to print: the symbol twice, the code between."""
        tag, piece = tagged(code)
        picture = label(settings().host, tag.code, piece.mark, piece.job, piece.kind)
        return Response(as_png(picture), mimetype="image/png")


@blueprint.route("/tags/<code>/plate.svg")
class OnePlate(MethodView):
    @blueprint.arguments(PlateQuerySchema, location="query")
    @blueprint.response(200, content_type=SVG)
    @asks(*PRINTERS)
    def get(self, query: dict[str, Any], code: str) -> Response:
        """A steel tag to be marked by a laser: plain paths alone."""
        tag, piece = tagged(code)
        words = Words(tag.code, piece.mark, piece.job, piece.kind)
        return attached(plate_svg(settings().host, words, PLATES[query["plate"]]), SVG, f"tag-{tag.code}.svg")


@blueprint.route("/tags/<code>/replace")
class Replace(MethodView):
    @blueprint.arguments(ReasonSchema)
    @blueprint.response(201, TagSchema)
    @asks(*PRINTERS)
    def post(self, data: dict[str, str], code: str) -> dict[str, Any]:
        """Take a code out of use and draw a new one for its piece."""
        tag, _ = tagged(code)
        reason = data["reason"].strip()
        if not reason:
            refuse(422, "Say why the code is replaced, as in 'torn off, not found'.")
        try:
            with writing() as session:
                new = replace(session, tag.code, reason, int(time.time()), g.person.id)
                return about(new, session.get_one(Piece, new.piece))
        except RetiredError as error:
            refuse(409, str(error))


@blueprint.route("/jobs/<job>/tags")
class JobTags(MethodView):
    @blueprint.response(200, TagsSchema)
    @asks(*PRINTERS)
    def get(self, job: str) -> dict[str, Any]:
        """The tag of every piece of a job and where it is; and the sheets and plates there are."""
        row = job_row(job)
        core = core_job(db.session(), job)
        return {"job": row.id, "title": row.title, "stages": core.plan["stages"] if core else [],
                "tags": pieces.tags_of(db.session(), job), "sheets": SHEETS.values(),
                "plates": PLATES.values()}  # fmt: skip


@blueprint.route("/jobs/<job>/tags.pdf")
class TagSheets(MethodView):
    @blueprint.arguments(TagsQuerySchema, location="query")
    @blueprint.response(200, content_type=PDF)
    @asks(*PRINTERS)
    def get(self, query: dict[str, Any], job: str) -> Response:
        """Labels of chosen pieces in their true size."""
        sheet = sheet_of(query)
        made = tags_pdf(settings().host, chosen(job, query["pieces"]), sheet, query["start"], query["cuts"])
        return attached(made, PDF, f"tags-{job}.pdf")


@blueprint.route("/jobs/<job>/tags.zip")
class Plates(MethodView):
    @blueprint.arguments(PlatesQuerySchema, location="query")
    @blueprint.response(200, content_type=ZIP)
    @asks(*PRINTERS)
    def get(self, query: dict[str, Any], job: str) -> Response:
        """Steel tags of chosen pieces to be marked by a laser, an SVG each."""
        made = plates_zip(settings().host, chosen(job, query["pieces"]), PLATES[query["plate"]])
        return attached(made, ZIP, f"tags-{job}.zip")


@blueprint.route("/jobs/<job>/board.png")
class JobBoard(MethodView):
    @blueprint.response(200, content_type="image/png")
    @asks(*PRINTERS)
    def get(self, job: str) -> Response:
        """The board of a job, whose symbol opens the list of its marks."""
        row = job_row(job)
        return attached(as_png(job_board(settings().host, row.id, row.title)), "image/png", f"board-{job}.png")


@blueprint.route("/stickers.pdf")
class Stickers(MethodView):
    @blueprint.arguments(SheetQuerySchema, location="query")
    @blueprint.response(200, content_type=PDF)
    @asks(*PRINTERS)
    def get(self, query: dict[str, Any]) -> Response:
        """Stickers of all gauges, in the order of their ids."""
        sheet = sheet_of(query)
        gauges = [(one.id, one.name) for one in db.session.scalars(select(Gauge).order_by(Gauge.id))]
        if not gauges:
            refuse(409, "No gauge is listed yet, so there is no sticker to print.")
        return attached(gauges_pdf(settings().host, gauges, sheet, query["start"], query["cuts"]), PDF, "stickers.pdf")
