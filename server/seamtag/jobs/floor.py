"""A job as core takes it, put together from the tables and kept until its master data changes."""

import threading
from typing import Any

from sqlalchemy import func, or_, select
from sqlalchemy.orm import Session

from seamtag.core.job import Job as CoreJob
from seamtag.gauges.models import Gauge
from seamtag.jobs.models import Basis, Job, Piece
from seamtag.plans.models import PlanRevision
from seamtag.sync import chain
from seamtag.sync.models import Entry

kept: dict[tuple[str, str], tuple[int, CoreJob]] = {}
lock = threading.Lock()


def core_job(session: Session, job: str) -> CoreJob | None:
    """The job as core takes it; None where there is no such job or it has no plan yet."""
    newest = last_change(session, job)
    key = (str(session.get_bind().engine.url), job)
    with lock:
        found = kept.get(key)
    if found and found[0] == newest:
        return found[1]
    data = job_data(session, job)
    if data is None:
        return None
    built = CoreJob(data)
    with lock:
        kept[key] = (newest, built)
    return built


def last_change(session: Session, job: str) -> int:
    """Number of the last entry that changed master data of the job or of the shop."""
    scopes = (chain.SHOP, chain.scope_of(job))
    query = select(func.max(Entry.number)).where(
        Entry.kind.in_(("gauge", "plan", "job", "basis", "pieces")), or_(*(Entry.scope == s for s in scopes))
    )
    return session.scalar(query) or 0


def job_data(session: Session, job: str) -> dict[str, Any] | None:
    if session.get(Job, job) is None:
        return None
    bases = session.scalars(select(Basis).where(Basis.job == job).order_by(Basis.number)).all()
    if not bases:
        return None
    pieces = session.scalars(select(Piece).where(Piece.job == job).order_by(Piece.position)).all()
    plans = session.scalars(select(PlanRevision).where(PlanRevision.hash.in_({b.plan for b in bases})))
    gauges = session.scalars(select(Gauge))
    return {
        "id": job,
        "bases": [{"plan": b.plan, "figures": b.figures} for b in bases],
        "plans": {p.hash: p.document for p in plans},
        "figure_sets": {str(b.figures): {"values": b.values, "drawings": b.drawings} for b in bases},
        "pieces": [piece.as_data() for piece in pieces],
        "gauges": {g.id: {"uncertainty": g.uncertainty, "due": g.due} for g in gauges},
    }
