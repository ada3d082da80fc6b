"""The board: every open job stage by stage, what waits for whom, what is blocked, and the reports."""

from collections import Counter
from collections.abc import Iterator
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.core.items import FLAGGED
from seamtag.core.job import Before
from seamtag.core.progress import COMPLETE, RELEASED, Blocked, Progress
from seamtag.jobs.floor import core_job, last_change
from seamtag.jobs.models import Job
from seamtag.keeping import Keeper
from seamtag.plans.models import PlanRevision
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of

MOST_LINES = 300
"""Of each list a job shows; the counts go on."""
STATES = (RELEASED, COMPLETE, FLAGGED, "blocked", "open")

Line = dict[str, Any]

keeper: Keeper[dict[str, Any] | None] = Keeper()


def board(session: Session, now: int, report_days: int) -> dict[str, Any]:
    """now: Unix seconds. report_days: after so many a report that was asked for is overdue."""
    found = []
    for job in session.scalars(select(Job).where(Job.open).order_by(Job.id)):
        row = row_of(session, job.id)
        if row is not None:
            late = [{**one, "overdue": days_since(one["since"], now) > report_days} for one in row["reports"]]
            overdue = sum(one["overdue"] for one in late)
            found.append({**row, "title": job.title, "reports": late, "reports_overdue": overdue})
    return {"jobs": found, "report_days": report_days}


def days_since(at: str, now: int) -> float:
    """Days since a claimed time; 0 where it cannot be read."""
    try:
        return (now - datetime.fromisoformat(at).timestamp()) / 86_400
    except (ValueError, OverflowError):
        return 0.0


def row_of(session: Session, job: str) -> dict[str, Any] | None:
    """Kept until the job has a new record or a change of its master data."""
    newest = (session.scalar(select(func.max(Record.number)).where(Record.job == job)) or 0, last_change(session, job))

    def make() -> dict[str, Any] | None:
        core = core_job(session, job)
        if core is None:
            return None
        plan = session.get_one(PlanRevision, core.basis["plan"])
        made = Fold(Progress(core, payloads_of(session, job)))
        return {"job": job, "plan": {"hash": plan.hash, "code": plan.code, "revision": plan.revision}, **made.row()}

    return keeper.get((session.get_bind(), job), newest, make)


class Fold:
    """One job's progress, with what stops each step worked out once."""

    def __init__(self, progress: Progress) -> None:
        self.progress, self.job = progress, progress.job
        self.pieces = [piece["id"] for piece in self.job.waited_for]
        self.letting: dict[Before, Blocked | None] = {}

    def row(self) -> dict[str, Any]:
        waits, blocked, reports = list(self.waits()), list(self.blocked()), list(self.reports())
        asked = [one for one in reports if one["state"] == "asked for"]
        return {
            "pieces": len(self.pieces), "stages": self.stages(),
            "waits": waits[:MOST_LINES], "blocked": blocked[:MOST_LINES], "reports": asked[:MOST_LINES],
            "waiting_for": Counter(one["party"] for one in waits),
            "blocked_by": Counter(party for one in blocked for party in one["parties"]), "blocked_count": len(blocked),
            "reports_asked": len(asked), "reports_in": len(reports) - len(asked),
        }  # fmt: skip

    def stages(self) -> list[Line]:
        """Of each stage: how many pieces it asks something of, and how many of these stand where."""
        counts = {stage["number"]: Counter[str]() for stage in self.job.plan["stages"]}
        for piece in self.pieces:
            by_stage: dict[str, list[str]] = {}
            for step in self.job.steps_of(piece):
                by_stage.setdefault(step["stage"], []).append(step["code"])
            for number, codes in by_stage.items():
                counts[number][self.state(piece, codes)] += 1
        return [{"number": stage["number"], "name": stage.get("name", ""), "asked": counts[stage["number"]].total(),
                 **{state: counts[stage["number"]][state] for state in STATES}}
                for stage in self.job.plan["stages"]]  # fmt: skip

    def state(self, piece: str, codes: list[str]) -> str:
        """Where a piece stands in a stage, by its steps there."""
        states = {code: self.progress.step(piece, code).state for code in codes}
        if FLAGGED in states.values():
            return FLAGGED
        left = [code for code, state in states.items() if state != RELEASED]
        if not left:
            return RELEASED
        if all(states[code] == COMPLETE for code in left):
            return COMPLETE
        return "blocked" if self.stopped(piece, left[0]) else "open"

    def stopped(self, piece: str, code: str) -> bool:
        if piece in self.progress.stopped:
            return True
        return any(self.by(before) is not None for before in self.job.before(piece, code))

    def by(self, before: Before) -> Blocked | None:
        if before not in self.letting:
            self.letting[before] = self.progress.blocked_by(before)
        return self.letting[before]

    def stops(self, piece: str, code: str) -> list[Blocked]:
        """As `Progress.blocked` says."""
        found = [one for before in self.job.before(piece, code) if (one := self.by(before)) is not None]
        return [*found, Blocked(piece, "", [])] if piece in self.progress.stopped else found

    def place(self, piece: str, code: str) -> Line:
        one, step = self.job.pieces[piece], self.job.steps[code]
        return {"job": self.job.data["id"], "piece": piece, "mark": one["mark"], "kind": one["kind"], "step": code,
                "number": step["number"], "name": step.get("name", "")}  # fmt: skip

    def waits(self) -> Iterator[Line]:
        """Steps at which all is recorded and the next signature is a party's, the longest waiting first."""
        found = []
        for piece in self.pieces:
            for code, state in self.progress.piece(piece).steps.items():
                if state.state == COMPLETE and state.waiting and not self.stopped(piece, code):
                    line = {"party": state.waiting[0], "since": self.newest(piece, code)}
                    found.append({**self.place(piece, code), **line})
        return iter(sorted(found, key=lambda line: line["since"]))

    def newest(self, piece: str, code: str) -> str:
        """When the last record at a step was made, as its phone's clock claimed; '' where there is none."""
        signing = self.progress.piece(piece).signings[code]
        return max((r.payload["at"] for r in [*signing.here, *signing.on_items] if r.type != "call"), default="")

    def blocked(self) -> Iterator[Line]:
        """Pieces whose next step waits only for signatures elsewhere, and whose these are."""
        for piece in self.pieces:
            steps = self.progress.piece(piece).steps
            code = next((code for code, state in steps.items() if state.state != RELEASED), None)
            stops = self.stops(piece, code) if code else []
            if code and stops and all(self.only_signature(stop) for stop in stops):
                parties = sorted({stop.parties[0] for stop in stops if stop.parties})
                yield {**self.place(piece, code), "parties": parties, "behind": [self.named(stop) for stop in stops]}

    def only_signature(self, stop: Blocked) -> bool:
        return bool(stop.step) and self.progress.step(stop.piece, stop.step).state == COMPLETE

    def named(self, stop: Blocked) -> Line:
        return {**self.place(stop.piece, stop.step), "party": stop.parties[0] if stop.parties else ""}

    def reports(self) -> Iterator[Line]:
        """Reports in force, asked for or in."""
        for record in self.progress.records.values():
            piece, code, item, _ = record.place
            if record.type != "report" or not self.job.has_step(piece, code):
                continue
            if self.progress.piece(piece).standing.in_force(record):
                what = self.job.item(code, item) or {"name": item}
                yield {**self.place(piece, code), "what": what["name"], "state": record.body["state"],
                       "number_of_report": record.body.get("number") or "", "firm": record.body.get("firm") or "",
                       "since": record.payload["at"]}  # fmt: skip
