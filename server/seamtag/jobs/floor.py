"""A job as core takes it, put together from the tables and kept until its master data changes."""

from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from seamtag.core.job import Job as CoreJob
from seamtag.gauges.models import Gauge
from seamtag.jobs.models import Basis, Job, Piece
from seamtag.keeping import Keeper
from seamtag.people.models import Qualification
from seamtag.plans.models import PlanRevision
from seamtag.procedures.models import Procedure
from seamtag.sync import chain
from seamtag.sync.models import Entry

keeper: Keeper[CoreJob | None] = Keeper()
KINDS = ("gauge", "procedure", "qualification", "plan", "job", "basis", "pieces")
"""Kinds of entry that a job as core takes it is made of."""


def core_job(session: Session, job: str) -> CoreJob | None:
    """The job as core takes it; None where there is no such job or it has no plan yet."""

    def make() -> CoreJob | None:
        data = job_data(session, job)
        return None if data is None else CoreJob(data)

    return keeper.get((session.get_bind(), job), last_change(session, job), make)


def plans_in_force(session: Session) -> dict[str, str]:
    """The hash of the plan revision that each job is judged by now."""
    rows = session.execute(select(Basis.job, Basis.plan).order_by(Basis.number))
    return {row.job: row.plan for row in rows}


def last_change(session: Session, job: str) -> str:
    """Hash of the last entry that changed master data of the job or of the shop; '' before the first."""
    scopes = (chain.SHOP, chain.scope_of(job))
    query = select(Entry.hash).where(Entry.kind.in_(KINDS), or_(*(Entry.scope == s for s in scopes)))
    return session.scalar(query.order_by(Entry.number.desc()).limit(1)) or ""


def job_data(session: Session, job: str) -> dict[str, Any] | None:
    if session.get(Job, job) is None:
        return None
    bases = session.scalars(select(Basis).where(Basis.job == job).order_by(Basis.number)).all()
    if not bases:
        return None
    pieces = session.scalars(select(Piece).where(Piece.job == job).order_by(Piece.position)).all()
    plans = session.scalars(select(PlanRevision).where(PlanRevision.hash.in_({b.plan for b in bases})))
    gauges = session.scalars(select(Gauge))
    procedures = session.scalars(select(Procedure))
    qualifications: dict[str, list[dict[str, Any]]] = {}
    for one in session.scalars(select(Qualification).order_by(Qualification.id)):
        qualifications.setdefault(one.person, []).append(one.as_data())
    return {
        "id": job,
        "bases": [{"plan": b.plan, "figures": b.figures} for b in bases],
        "plans": {p.hash: p.document for p in plans},
        "figure_sets": {str(b.figures): {"values": b.values, "drawings": b.drawings} for b in bases},
        "pieces": [piece.as_data() for piece in pieces],
        "gauges": {g.id: {"uncertainty": g.uncertainty, "uom": g.uom, "due": g.due} for g in gauges},
        "procedures": {p.id: p.document for p in procedures},
        "qualifications": qualifications,
    }
