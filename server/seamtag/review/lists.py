"""Four lists to begin the review with, from the progress of every open job."""

from collections.abc import Iterator
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.core.flags import DECIDED
from seamtag.core.progress import COMPLETE, RELEASED, Progress
from seamtag.jobs.floor import core_job, last_change
from seamtag.jobs.models import Job
from seamtag.keeping import Keeper
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of
from seamtag.review.models import FlagRow

Lists = dict[str, list[dict[str, Any]]]
NAMES = ("ready_for_ai", "blocked", "reports", "rework")

keeper: Keeper[Lists] = Keeper()


def lists(session: Session) -> Lists:
    """Ready for the AI; blocked, and by whom; reports asked for and not back; rework not done."""
    found: Lists = {name: [] for name in NAMES}
    for job in session.scalars(select(Job.id).where(Job.open).order_by(Job.id)):
        for name, lines in lists_of_job(session, job).items():
            found[name] += lines
    found["rework"] = list(rework(session))
    return found


def lists_of_job(session: Session, job: str) -> Lists:
    """Kept until the job has a new record or a change of its master data."""
    newest = (session.scalar(select(func.max(Record.number)).where(Record.job == job)) or 0, last_change(session, job))

    def make() -> Lists:
        core = core_job(session, job)
        if core is None:
            return {}
        progress = Progress(core, payloads_of(session, job))
        return {"ready_for_ai": list(ready_for_ai(progress)), "blocked": list(blocked(progress)),
                "reports": list(reports(progress))}  # fmt: skip

    return keeper.get((session.get_bind(), job), newest, make)


def place(progress: Progress, piece: str, step: str) -> dict[str, Any]:
    job = progress.job
    one, asked = job.pieces[piece], job.steps[step]
    return {"job": job.data["id"], "piece": piece, "mark": one["mark"], "kind": one["kind"], "step": step,
            "number": asked["number"], "name": asked["name"]}  # fmt: skip


def ready_for_ai(progress: Progress) -> Iterator[dict[str, Any]]:
    for piece in progress.job.pieces:
        for code, state in progress.piece(piece).steps.items():
            if state.state == COMPLETE and state.waiting[:1] == ["AI"] and not progress.blocked(piece, code):
                yield place(progress, piece, code)


def blocked(progress: Progress) -> Iterator[dict[str, Any]]:
    """Pieces whose next step waits only for somebody's signature elsewhere, and whose that is."""
    for piece in progress.job.pieces:
        steps = progress.piece(piece).steps
        code = next((code for code, state in steps.items() if state.state != RELEASED), None)
        if code is None:
            continue
        stops = progress.blocked(piece, code)
        signatures = [s for s in stops if s.step and progress.step(s.piece, s.step).state == COMPLETE]
        if stops and len(signatures) == len(stops):
            yield {**place(progress, piece, code), "parties": sorted({p for s in stops for p in s.parties[:1]}),
                   "behind": [progress.job.pieces[s.piece]["mark"] + " " + progress.job.steps[s.step]["number"]
                              for s in stops]}  # fmt: skip


def reports(progress: Progress) -> Iterator[dict[str, Any]]:
    for record in progress.records.values():
        piece, step, item, _ = record.place
        asked = record.type == "report" and record.body["state"] == "asked for"
        if asked and progress.job.has_step(piece, step) and progress.piece(piece).standing.in_force(record):
            what = progress.job.item(step, item) or {"name": item}
            yield {
                **place(progress, piece, step),
                "what": what["name"],
                "number_of_report": record.body.get("number", ""),
            }


def rework(session: Session) -> Iterator[dict[str, Any]]:
    """Flags that were decided and not yet carried out."""
    for row in session.scalars(select(FlagRow).where(FlagRow.state == DECIDED).order_by(FlagRow.number)):
        job = core_job(session, row.job)
        if job and row.piece in job.pieces and row.step in job.steps:
            one, asked = job.pieces[row.piece], job.steps[row.step]
            yield {"job": row.job, "piece": row.piece, "mark": one["mark"], "kind": one["kind"], "step": row.step,
                   "number": asked["number"], "name": asked["name"], "flag": row.id}  # fmt: skip
