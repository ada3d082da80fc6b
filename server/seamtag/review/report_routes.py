"""The report of a day on paper and as a workbook, and the rework list for the floor."""

import re
from typing import Any

from flask import Response, g
from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.database import db
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks, settings
from seamtag.jobs.models import Job
from seamtag.review.calendar import day_of
from seamtag.review.report import Report, report_of
from seamtag.review.report_pdf import report_pdf
from seamtag.review.rework_sheet import rework_of, rework_pdf
from seamtag.review.routes import READERS
from seamtag.review.schemas import DayQuerySchema, DaySheetQuerySchema, ReworkSheetQuerySchema

PDF, XLSX = "application/pdf", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

blueprint = Blueprint("report", __name__, url_prefix="/api/v1/review", description="The day review on paper")


def asked_report(query: dict[str, Any]) -> Report:
    session = db.session()
    try:
        day = day_of(session, query["day"], query["shift"])
    except ValueError:
        refuse(422, f"There is no day '{query['day']}' or no shift {query['shift']}. Write a day as 2026-11-26.")
    return report_of(session, day, settings().report_days, g.person.name)


def attached(content: bytes, media_type: str, name: str) -> Response:
    answer = Response(content, mimetype=media_type)
    answer.headers.set("Content-Disposition", "attachment", filename=name)
    answer.headers["Cache-Control"] = "no-store"
    return answer


@blueprint.route("/report.pdf")
class ReportOnPaper(MethodView):
    @blueprint.arguments(DaySheetQuerySchema, location="query")
    @blueprint.response(200, content_type=PDF)
    @asks(*READERS)
    def get(self, query: dict[str, Any]) -> Response:
        """All that the review knows of a day or a shift, on paper."""
        report = asked_report(query)
        return attached(report_pdf(report, query["paper"]), PDF, f"{report.name}.pdf")


@blueprint.route("/report.xlsx")
class ReportAsWorkbook(MethodView):
    @blueprint.arguments(DayQuerySchema, location="query")
    @blueprint.response(200, content_type=XLSX)
    @asks(*READERS)
    def get(self, query: dict[str, Any]) -> Response:
        """All that the review knows of a day or a shift, as a workbook."""
        from seamtag.review.report_xlsx import report_xlsx  # with openpyxl, which takes long to load

        report = asked_report(query)
        return attached(report_xlsx(report), XLSX, f"{report.name}.xlsx")


@blueprint.route("/rework.pdf")
class ReworkSheet(MethodView):
    @blueprint.arguments(ReworkSheetQuerySchema, location="query")
    @blueprint.response(200, content_type=PDF)
    @asks(*READERS)
    def get(self, query: dict[str, str]) -> Response:
        """What is to be reworked, repaired or scrapped on a job or on all, with a symbol of each piece's tag."""
        job = query["job"]
        if job and db.session.get(Job, job) is None:
            refuse(404, f"There is no job {job[:40]}. Go back to the list of jobs.")
        plain = re.sub(r"[^A-Za-z0-9.-]+", "-", job).strip(".-")
        made = rework_pdf(rework_of(db.session(), job), settings().host, query["paper"])
        return attached(made, PDF, f"rework-{plain}.pdf" if plain else "rework.pdf")
