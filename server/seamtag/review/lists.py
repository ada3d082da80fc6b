"""Four lists to begin the review with: what is ready for the AI, what is blocked and by whom, the reports, the rework.

What waits for what is kept with the records: each piece's steps as they stand (PieceState), and the lines that follow
from them (ListLine). So the review reads lines, whatever the number of jobs and records.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import CompoundSelect, ScalarSelect, Select, delete, func, select, union_all
from sqlalchemy.orm import Session

from seamtag.core.flags import OPEN
from seamtag.core.job import Job as CoreJob
from seamtag.core.progress import COMPLETE, RELEASED, PieceProgress, Progress
from seamtag.jobs.board import Fold
from seamtag.jobs.models import Job
from seamtag.review.decisions import OPEN_STATES, WAITS
from seamtag.review.models import Decision, FlagRow, ListLine, PieceState
from seamtag.rows import Row, bring_up_to_date

READY, BLOCKED, REPORTS, REWORK = "ready_for_ai", "blocked", "reports", "rework"
NAMES = (READY, BLOCKED, REPORTS, REWORK)
BACK = "in"
MOST_FIRST = 6
"""Lines of a list shown in the review itself."""
MOST_LINES = 500


@dataclass(frozen=True)
class KeptStep:
    state: str
    waiting: list[str]
    holding: list[str]


@dataclass(frozen=True)
class KeptPiece:
    steps: Mapping[str, KeptStep]
    scrapped: bool


class KeptProgress(Progress):
    """A job's progress from its pieces as they were kept: enough to tell what stops what. A piece without any record
    is worked out."""

    def __init__(self, job: CoreJob, kept: Mapping[str, KeptPiece]) -> None:
        super().__init__(job, ())
        self.kept = kept

    def piece(self, piece: str) -> PieceProgress:
        found: Any = self.kept.get(piece)
        if found is None or any(step["code"] not in found.steps for step in self.job.steps_of(piece)):
            return super().piece(piece)
        return found  # type: ignore[no-any-return]


def keep_states(session: Session, progress: Progress, job: str, pieces: set[str]) -> bool:
    """Keep how the steps of pieces stand; whether any stands otherwise than it did."""
    here = sorted(piece for piece in pieces if piece in progress.job.pieces)
    wanted = [{"job": job, "piece": piece, "states": states_of(progress, piece),
               "scrapped": progress.piece(piece).scrapped} for piece in here]  # fmt: skip
    where = (PieceState.job == job, PieceState.piece.in_(pieces))
    written, gone = bring_up_to_date(session, PieceState, where, wanted)
    return bool(written or gone)


def states_of(progress: Progress, piece: str) -> dict[str, Any]:
    steps = progress.piece(piece).steps.items()
    return {code: [state.state, state.waiting, state.holding] for code, state in steps}


def keep_lists(session: Session, job: str, core: CoreJob | None, now: int) -> None:
    """Bring the lines of a job up to date that follow from how its pieces stand. A closed job has none."""
    wanted: list[Row] = []
    found = session.get(Job, job)
    if core is not None and found is not None and found.open:
        rows = session.scalars(select(PieceState).where(PieceState.job == job))
        kept = {row.piece: KeptPiece({code: KeptStep(*one) for code, one in row.states.items()}, row.scrapped)
                for row in rows}  # fmt: skip
        fold = Fold(KeptProgress(core, kept))
        wanted = [line(READY, place, now) for place in ready_for_ai(fold)]
        wanted += [line(BLOCKED, place, now) for place in fold.blocked()]
    else:
        session.execute(delete(ListLine).where(ListLine.job == job, ListLine.name == REPORTS))
    where = (ListLine.job == job, ListLine.name.in_((READY, BLOCKED)))
    bring_up_to_date(session, ListLine, where, wanted, kept=("since",))


def keep_reports(session: Session, progress: Progress, job: str, pieces: set[str], received: Mapping[str, int]) -> None:
    """Bring the lines of the reports of pieces up to date. received: when each record came in, by its id."""
    fold, found = Fold(progress), session.get(Job, job)
    known = sorted(pieces & progress.job.pieces.keys()) if found is not None and found.open else []
    here = (place for piece in known for place in reports(fold, piece))
    wanted = [line(REPORTS, place, received.get(place["record"], 0), place["record"]) for place in here]
    where = (ListLine.job == job, ListLine.name == REPORTS, ListLine.piece.in_(pieces))
    bring_up_to_date(session, ListLine, where, wanted)


def line(name: str, place: Row, since: int, record: str = "") -> Row:
    return {"name": name, "job": place["job"], "piece": place["piece"], "step": place["step"], "record": record,
            "since": since, "shown": place}  # fmt: skip


def ready_for_ai(fold: Fold) -> Iterator[Row]:
    for piece in fold.pieces:
        for code, state in fold.progress.piece(piece).steps.items():
            if state.state == COMPLETE and state.waiting[:1] == ["AI"] and not fold.stopped(piece, code):
                yield fold.place(piece, code)


def reports(fold: Fold, piece: str) -> Iterator[Row]:
    """Reports that were asked for and are not back, and those that are back while their step is not released."""
    progress = fold.progress
    own = progress.piece(piece)
    for record in own.records:
        _, step, item, station = record.place
        if record.type != "report" or not progress.job.has_step(piece, step) or not own.standing.in_force(record):
            continue
        if record.body["state"] == BACK and own.steps[step].state == RELEASED:
            continue
        what = progress.job.item(step, item) or {"name": item}
        yield {**fold.place(piece, step), "what": what["name"], "station": station, "record": record.id,
               "state": record.body["state"], "number_of_report": record.body.get("number") or "",
               "result": record.body.get("result") or ""}  # fmt: skip


def list_named(session: Session, name: str, job: str = "") -> list[Row]:
    """One of the lists in whole, of one job or of all."""
    return rework(session, job=job) if name == REWORK else lines(session, name, job=job)


def counted() -> Select[*tuple[Any, ...]]:
    """The length of each list, in one statement."""
    of_lines = {
        name: select(func.count(ListLine.job)).where(ListLine.name == name) for name in (READY, BLOCKED, REPORTS)
    }
    of_rework = select(func.count(Decision.id)).where(Decision.state.in_(OPEN_STATES))
    return select(*(query.scalar_subquery().label(name) for name, query in {**of_lines, REWORK: of_rework}.items()))


def open_flags() -> ScalarSelect[int]:
    """How many flags are open at the step of a line."""
    here = (FlagRow.job == ListLine.job, FlagRow.piece == ListLine.piece, FlagRow.step == ListLine.step)
    return select(func.count(FlagRow.id)).where(*here, FlagRow.state == OPEN).correlate(ListLine).scalar_subquery()


def firsts() -> CompoundSelect[*tuple[Any, ...]]:
    """The first lines of the three lists that are kept, in one statement."""
    parts = []
    for name in (READY, BLOCKED, REPORTS):
        query = select(ListLine.name, ListLine.shown, ListLine.since, open_flags().label("flags"))
        query = query.where(ListLine.name == name).order_by(ListLine.since, ListLine.job, ListLine.piece)
        first = query.limit(MOST_FIRST).subquery()
        parts.append(select(first))
    return union_all(*parts)


COUNTED, FIRSTS = counted(), firsts()
OF_REWORK = (
    select(
        Decision.job,
        Decision.shown,
        Decision.disposition,
        Decision.received,
        Decision.ncr,
        Decision.state,
        Decision.lacking,
        Decision.flag,
    )
    .where(Decision.state.in_(OPEN_STATES))
    .order_by(Decision.number)
)
"""Put together once, since that takes longer than the database does."""


def first_lines(session: Session) -> dict[str, dict[str, Any]]:
    """Of each list its length and its first lines, those that wait longest first."""
    found: dict[str, dict[str, Any]] = {
        name: {"count": count, "lines": []} for name, count in session.execute(COUNTED).mappings().one().items()
    }
    for row in session.execute(FIRSTS):
        found[row.name]["lines"].append({**row.shown, "since": row.since, "flags": row.flags})
    found[REWORK]["lines"] = rework(session, MOST_FIRST)
    return found


def lines(session: Session, name: str, most: int | None = MOST_LINES, job: str = "") -> list[Row]:
    query = select(ListLine.shown, ListLine.since, open_flags().label("flags")).where(ListLine.name == name)
    if job:
        query = query.where(ListLine.job == job)
    rows = session.execute(query.order_by(ListLine.since, ListLine.job, ListLine.piece).limit(most))
    return [{**row.shown, "since": row.since, "flags": row.flags} for row in rows]


def rework(session: Session, most: int | None = MOST_LINES, job: str = "") -> list[Row]:
    """Findings that were decided and not yet carried out, the oldest first; parties: who has still to agree."""
    query = OF_REWORK.where(Decision.job == job) if job else OF_REWORK
    return [rework_line(row) for row in session.execute(query.limit(most))]


def rework_line(row: Any) -> Row:
    piece, step = row.shown["piece"], row.shown["step"]
    return {"job": row.job, "piece": piece["id"], "mark": piece["mark"], "kind": piece["kind"], "step": step["code"],
            "number": step["number"], "name": step["name"], "since": row.received, "disposition": row.disposition,
            "ncr": row.ncr, "what": row.shown["item"]["name"],
            "flag": row.flag, "parties": row.lacking if row.state == WAITS else []}  # fmt: skip
