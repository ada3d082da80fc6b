"""Jobs for the office: opened, changed, looked at stage by stage, and traced by heat and lot numbers."""

import time
from typing import Any

from flask import Response, g
from flask.views import MethodView
from flask_smorest import Blueprint
from sqlalchemy import func, select

from seamtag.core.job import Job as CoreJob
from seamtag.database import db, writing
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks, settings
from seamtag.jobs import board, changing, lists, office, trace
from seamtag.jobs.floor import core_job, plans_in_force
from seamtag.jobs.models import Job, Piece
from seamtag.jobs.opening import JobError, add_pieces, open_job, set_basis, set_open
from seamtag.jobs.schemas import (
    BoardSchema,
    ChangeSchema,
    CheckedJobSchema,
    HeatSchema,
    JobPageSchema,
    JobSchema,
    ListSchema,
    MadeChangeSchema,
    MadeOfSchema,
    NewJobSchema,
    PieceSchema,
    PreviewSchema,
    RemadeSchema,
    UseSchema,
)
from seamtag.plans.models import PlanRevision
from seamtag.plans.routes import XLSX, attached

PLANNER, ENGINEER = "planner", "engineer"
OFFICE = (PLANNER, ENGINEER, "supervisor")
SHOWN_FAULTS = 20

blueprint = Blueprint("jobs", __name__, url_prefix="/api/v1", description="Jobs, their pieces and their progress")


@blueprint.route("/jobs")
class Jobs(MethodView):
    @blueprint.response(200, JobSchema(many=True))
    @asks()
    def get(self) -> list[dict[str, Any]]:
        """Every job, the open ones first."""
        plans = plans_in_force(db.session())
        counts = dict(db.session.execute(select(Piece.job, func.count()).group_by(Piece.job)).all())
        rows = db.session.scalars(select(Job).order_by(Job.open.desc(), Job.id))
        return [about(row, plans.get(row.id, ""), counts.get(row.id, 0)) for row in rows]

    @blueprint.arguments(NewJobSchema)
    @blueprint.response(201, JobSchema)
    @asks(PLANNER)
    def post(self, data: dict[str, Any]) -> dict[str, Any]:
        """Open a job, with a tag for each of its pieces; one with faults is refused with all of them."""
        plan = plan_of(data["plan"])
        source, faults = office.source_of(db.session(), data, plan.document)
        refuse_faults("Not opened", faults)
        with writing() as session:
            plan = session.get_one(PlanRevision, data["plan"])
            try:
                row = open_job(session, source, plan, int(time.time()), g.person.id)
            except JobError as error:
                refuse_faults("Not opened", error.faults)
                raise
            return about(row, plan.hash, len(source["pieces"]))


@blueprint.route("/jobs/check")
class Check(MethodView):
    @blueprint.arguments(NewJobSchema)
    @blueprint.response(200, CheckedJobSchema)
    @asks(PLANNER)
    def post(self, data: dict[str, Any]) -> dict[str, Any]:
        """Everything that is wrong with a job that is to be opened, and what to look at; nothing is written."""
        return office.checked(db.session(), data, plan_of(data["plan"]).document)


@blueprint.route("/plans/<plan_hash>/pieces.xlsx")
class EmptyList(MethodView):
    @blueprint.response(200, content_type=XLSX)
    @asks()
    def get(self, plan_hash: str) -> Response:
        """A workbook to begin a list of pieces with, by the columns that a plan asks for."""
        plan = plan_of(plan_hash)
        return attached(lists.write([], plan.document), XLSX, f"pieces-for-{plan.code}-{plan.revision}.xlsx")


@blueprint.route("/jobs/<job>")
class Page(MethodView):
    @blueprint.response(200, JobPageSchema)
    @asks()
    def get(self, job: str) -> dict[str, Any]:
        """One job: its figures, drawing revisions, and the changes of these."""
        return page_of(job)


@blueprint.route("/jobs/<job>/close")
class Close(MethodView):
    @blueprint.response(200, JobSchema)
    @asks(PLANNER)
    def post(self, job: str) -> dict[str, Any]:
        """Close a job: phones do not carry it any more. Its records stay."""
        return opened_or_closed(job, False)


@blueprint.route("/jobs/<job>/open")
class Reopen(MethodView):
    @blueprint.response(200, JobSchema)
    @asks(PLANNER)
    def post(self, job: str) -> dict[str, Any]:
        """Open a closed job again."""
        return opened_or_closed(job, True)


@blueprint.route("/jobs/<job>/pieces")
class Pieces(MethodView):
    @blueprint.response(200, PieceSchema(many=True))
    @asks()
    def get(self, job: str) -> list[dict[str, Any]]:
        """The pieces of a job, in the order of its lists; with the marks of what they are part of and join."""
        return office.pieces_by_mark(db.session(), job_row(job).id)

    @blueprint.arguments(ListSchema)
    @blueprint.response(201, PieceSchema(many=True))
    @asks(PLANNER)
    def post(self, data: dict[str, Any], job: str) -> list[dict[str, Any]]:
        """Add the pieces of a list to a job, with a tag for each."""
        document = core_of(job).plan
        rows, faults = office.added_of(db.session(), job, data, document)
        refuse_faults("Not added", faults)
        with writing() as session:
            refuse_faults("Not added", office.taken(session, job, rows))
            add_pieces(session, job, rows, int(time.time()), g.person.id)
            return office.pieces_by_mark(session, job)


@blueprint.route("/jobs/<job>/pieces.xlsx")
class AsList(MethodView):
    @blueprint.response(200, content_type=XLSX)
    @asks()
    def get(self, job: str) -> Response:
        """The pieces of a job as a workbook, which can be read in again."""
        pieces = office.pieces_by_mark(db.session(), job_row(job).id)
        return attached(lists.write(pieces, core_of(job).plan), XLSX, f"pieces-{job}.xlsx")


@blueprint.route("/jobs/<job>/pieces/<path:piece>/remade")
class Remade(MethodView):
    @blueprint.response(201, RemadeSchema)
    @asks(PLANNER)
    def post(self, job: str, piece: str) -> dict[str, Any]:
        """A new piece in place of one that is scrapped, with a tag of its own."""
        core_of(job)
        with writing() as session:
            try:
                found = changing.remake(session, job, piece, int(time.time()), g.person.id)
            except JobError as error:
                refuse(409, " ".join(error.faults))
            return {**found, "piece": office.by_mark(session, job, [found["piece"]])[0]}


@blueprint.route("/jobs/<job>/basis/preview")
class Preview(MethodView):
    @blueprint.arguments(ChangeSchema)
    @blueprint.response(200, PreviewSchema)
    @asks(*OFFICE)
    def post(self, data: dict[str, Any], job: str) -> dict[str, Any]:
        """What a change of plan, figures or drawings would undo; nothing is written."""
        core_of(job)
        try:
            found = changing.preview(db.session(), job, data)
            return {**found, "releases": office.with_names(db.session(), found["releases"])}
        except JobError as error:
            refuse_faults("This cannot be the job's basis", error.faults)
            raise


@blueprint.route("/jobs/<job>/basis")
class Change(MethodView):
    @blueprint.arguments(MadeChangeSchema)
    @blueprint.response(201, JobPageSchema)
    @asks(PLANNER, ENGINEER)
    def post(self, data: dict[str, Any], job: str) -> dict[str, Any]:
        """Judge a job by another plan revision, other figures or other drawings from now on."""
        if not data["reason"].strip():
            refuse(422, "Say why: what changed, and by whose word.")
        with writing() as session:
            core = core_of(job)
            basis = changing.basis_of(session, job)
            refuse_faults("Not changed", changing.faults_of_change(session, core, basis, data))
            changed = changing.with_changes(basis, data)
            set_basis(session, job, *changed, data["reason"].strip(), int(time.time()), g.person.id)
        return page_of(job)


@blueprint.route("/board")
class Board(MethodView):
    @blueprint.response(200, BoardSchema)
    @asks()
    def get(self) -> dict[str, Any]:
        """Every open job stage by stage; what waits for whom, what is blocked and by whom, and the reports."""
        return board.board(db.session(), int(time.time()), settings().report_days)


@blueprint.route("/trace")
class Trace(MethodView):
    @blueprint.arguments(HeatSchema, location="query")
    @blueprint.response(200, UseSchema(many=True))
    @asks()
    def get(self, query: dict[str, str]) -> list[dict[str, Any]]:
        """Where a heat or lot number was recorded, and what each of these pieces went into."""
        return office.with_names(db.session(), trace.uses_of(db.session(), query["heat"]))


@blueprint.route("/jobs/<job>/trace/<path:piece>")
class TracedPiece(MethodView):
    @blueprint.response(200, MadeOfSchema(many=True))
    @asks()
    def get(self, job: str, piece: str) -> list[dict[str, Any]]:
        """The heat and lot numbers in a piece: its own, of its parts, and of what it joins."""
        job_row(job)
        found = trace.made_of(db.session(), job, piece)
        if found is None:
            refuse(404, f"Job {job} has no piece {piece}.")
        return office.with_names(db.session(), found)


def job_row(job: str) -> Job:
    row = db.session.get(Job, job)
    if row is None:
        refuse(404, f"There is no job {job}. Go back to the list of jobs.")
    return row


def page_of(job: str) -> dict[str, Any]:
    row = job_row(job)
    plans = plans_in_force(db.session())
    count = db.session.scalar(select(func.count()).select_from(Piece).where(Piece.job == job)) or 0
    return {**about(row, plans.get(job, ""), count), **office.page(db.session(), job)}


def core_of(job: str) -> CoreJob:
    job_row(job)
    core = core_job(db.session(), job)
    if core is None:
        refuse(409, f"Job {job} has no plan yet.")
    return core


def plan_of(plan_hash: str) -> PlanRevision:
    row = db.session.get(PlanRevision, plan_hash)
    if row is None:
        refuse(422, "There is no such revision of a plan. Choose one from the list.")
    return row


def about(row: Job, plan_hash: str, pieces: int) -> dict[str, Any]:
    plan = db.session.get(PlanRevision, plan_hash) if plan_hash else None
    named = {"hash": plan.hash, "code": plan.code, "revision": plan.revision} if plan else None
    return {"id": row.id, "title": row.title, "open": row.open, "plan": named, "pieces": pieces}


def opened_or_closed(job: str, is_open: bool) -> dict[str, Any]:
    row = job_row(job)
    if row.open == is_open:
        refuse(409, f"Job {job} is {'open' if is_open else 'closed'} already.")
    with writing() as session:
        set_open(session, session.get_one(Job, job), is_open, int(time.time()), g.person.id)
    return page_of(job)


def refuse_faults(what: str, faults: list[str]) -> None:
    """End the request with every fault, the first of them in words; go on where there is none."""
    if faults:
        more = len(faults) - SHOWN_FAULTS
        shown = faults[:SHOWN_FAULTS] + ([f"and {more} more"] if more > 0 else [])
        refuse(422, f"{what}. " + " · ".join(shown))
