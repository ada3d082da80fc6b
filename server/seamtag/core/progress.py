"""Where a job stands: a pure function of its plan, its pieces and the set of its records.

The same answer whatever order records arrive in, however often, from however many devices. No clock decides anything.
"""

from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from seamtag.core.items import FLAGGED, MET, NOT_ASKED, OPEN, Bench, ItemState
from seamtag.core.job import HOLDING, REQUIRED, Before, Job, Step
from seamtag.core.judging import Judged, judged
from seamtag.core.repairs import Repairs
from seamtag.core.signing import Signing, under
from seamtag.core.standing import Standing

RELEASED, COMPLETE, STARTED = "released", "complete", "started"
WORK = ("reading", "visual", "photo", "weld", "report", "text", "sign-off")
"""Types of record that must not be made behind an open hold."""


@dataclass(frozen=True)
class StepState:
    """state: open, started, flagged, complete, released. waiting: the parties that have still to sign, in order."""

    state: str
    items: Mapping[str, ItemState]
    signoffs: Mapping[str, str]
    waiting: list[str]
    holding: list[str]


@dataclass(frozen=True)
class Blocked:
    """What stops a step: a step of a piece, and the parties who can let it go; no parties where work is undone."""

    piece: str
    step: str
    parties: list[str]


class PieceProgress:
    """One piece by its own records, and the points set for the whole job (everywhere).

    arrived: the ids of all records of the job that are here.
    """

    def __init__(
        self,
        piece: str,
        records: Iterable[Judged],
        job: Job,
        arrived: Container[str],
        everywhere: Sequence[Judged] = (),
    ) -> None:
        self.piece, self.job = piece, job
        self.records = sorted(records, key=lambda record: record.id)
        self.standing = Standing(self.records, job)
        self.bench = Bench(piece, self.records, self.standing, job)
        self.awaited = {one for r in self.records if r.type == "sign-off" for one in under(r) if one not in arrived}
        self.signings: dict[str, Signing] = {}
        self.steps: dict[str, StepState] = {}
        for step in job.steps_of(piece):
            self.signings[step["code"]] = Signing(piece, step, self.records, self.standing, job, arrived, everywhere)
            self.steps[step["code"]] = self.step_state(step, self.signings[step["code"]])

    def step_state(self, step: Step, signing: Signing) -> StepState:
        items = {item["code"]: self.bench.item(step, item) for item in step["items"]}
        outstanding = signing.outstanding()
        waiting = [point["party"] for point in outstanding]
        holding = [point["party"] for point in signing.holding()]
        states = {item.state for item in items.values()} - {NOT_ASKED}
        if states <= {MET}:
            state = COMPLETE if outstanding else RELEASED
        elif FLAGGED in states:
            state = FLAGGED
        else:
            state = OPEN if states == {OPEN} and not signing.here else STARTED
        return StepState(state, items, dict(signing.reasons), waiting, holding)

    @property
    def repairs(self) -> int:
        """How many repair cycles this piece has had, the one that is under way among them."""
        return max(Repairs(self.standing).numbers.values(), default=0)

    def next_repair(self, record_id: str) -> int:
        """The cycle that a repair of what a record found would be."""
        return Repairs(self.standing).next(record_id)

    @property
    def passed_on(self) -> list[Judged]:
        """The notes that stay on top of the piece for the next shift, until anybody clears them."""
        notes = [r for r in self.records if r.type == "note" and r.id not in self.standing.voids]
        cleared = {note.body.get("clears") for note in notes}
        return [note for note in notes if note.body.get("pass_on") and note.id not in cleared]

    @property
    def tagging(self) -> Judged | None:
        """The last that was done with the piece's tag, by the order in which records were made; it decides nothing."""
        return max((r for r in self.records if r.type == "tagging" and r.id not in self.standing.voids),
                   key=lambda r: r.id, default=None)  # fmt: skip

    @property
    def scrapped(self) -> bool:
        return any(d.body["disposition"] == "scrap" for d in self.standing.dispositions)


class Progress:
    """The whole job. records: payloads with the role stamped at intake ('held', 'changed', 'not held' or '').

    arrived: ids of records that are here though they are not among these, where only some are read.
    """

    def __init__(self, job: Job, records: Iterable[tuple[Mapping[str, Any], str]], arrived: Iterable[str] = ()) -> None:
        self.job = job
        self.arrived = set(arrived)
        self.records: dict[str, Judged] = {}
        self.by_piece: dict[str, list[Judged]] = {piece: [] for piece in job.pieces}
        self.folded: dict[str, PieceProgress] = {}
        self.everywhere: list[Judged] = []
        self.welded: dict[tuple[str, str], list[str]] | None = None
        self.stopped_now: set[str] | None = None
        for payload, role in records:
            self.add(payload, role)

    def add(self, payload: Mapping[str, Any], role: str) -> None:
        """Add one record to the set; of the rest only its own piece is worked out anew. A repeat changes nothing."""
        if payload["id"] in self.records:
            return
        record = judged(payload, role, self.job)
        self.records[record.id] = record
        self.arrived.add(record.id)
        self.by_piece.setdefault(record.place[0], []).append(record)
        self.folded.pop(record.place[0], None)
        self.stopped_now = None
        if record.type in ("weld", "void"):
            self.welded = None
        if record.type in ("point", "void"):
            self.set_everywhere()
        for piece in [piece for piece, folded in self.folded.items() if record.id in folded.awaited]:
            del self.folded[piece]

    def set_everywhere(self) -> None:
        """The points set for the whole job; where they change, every piece is worked out anew."""
        points = (r for r in self.records.values() if r.type == "point" and r.role == "held")
        wide = [r for r in points if r.body.get("reach") == "job"]
        voids = {r.place[0]: Standing(self.by_piece[r.place[0]], self.job).voids for r in wide}
        standing = sorted((r for r in wide if r.id not in voids[r.place[0]]), key=lambda r: r.id)
        if standing != self.everywhere:
            self.everywhere = standing
            self.folded = {}

    def days_welded(self, welder: str, process: str) -> list[str]:
        """The days on which a welder welded by a process, by the records of this job that are neither void nor replaced
        by their own maker."""
        if self.welded is None:
            self.welded = {}
            for own in self.by_piece.values():
                for weld in welds_that_count(own, self.job):
                    procedure = self.job.procedures.get(weld.body["procedure"].strip(), {})
                    key = (weld.body["welder"], procedure.get("process", ""))
                    self.welded.setdefault(key, []).append(weld.payload["at"][:10])
        return self.welded.get((welder, process), [])

    def piece(self, piece: str) -> PieceProgress:
        if piece not in self.folded:
            own = self.by_piece.get(piece, [])
            self.folded[piece] = PieceProgress(piece, own, self.job, self.arrived, self.everywhere)
        return self.folded[piece]

    def step(self, piece: str, code: str) -> StepState:
        return self.piece(piece).steps[code]

    @property
    def stopped(self) -> set[str]:
        """Pieces that are scrapped or have a part that is and was not remade; worked out once until another record
        comes."""
        if self.stopped_now is None:
            scrapped = [piece for piece in self.job.pieces if self.piece(piece).scrapped]
            lacking = [piece for piece in scrapped if not self.job.pieces[piece].get("remade")]
            self.stopped_now = {*scrapped, *(whole for piece in lacking for whole in self.job.wholes(piece))}
        return self.stopped_now

    def blocked(self, piece: str, code: str) -> list[Blocked]:
        """Why a step may not begin, the nearest first; empty where it may."""
        found = [b for before in self.job.before(piece, code) if (b := self.blocked_by(before)) is not None]
        if piece in self.stopped:
            found.append(Blocked(piece, "", []))
        return found

    def blocked_by(self, before: Before) -> Blocked | None:
        state = self.step(before.piece, before.step)
        if before.whole:
            return None if state.state == RELEASED else Blocked(before.piece, before.step, state.waiting)
        return Blocked(before.piece, before.step, state.holding) if state.holding else None

    def relied_on(self, piece: str, code: str) -> list[str]:
        """The ids a new record at a step names as 'under': sign-offs and calls at the points before it,
        sign-offs of earlier parties at the step itself, and rework or repair that asked for it."""
        found: list[str] = []
        for before in self.job.before(piece, code):
            signing = self.piece(before.piece).signings[before.step]
            for party, point in letting_go(signing, before.whole):
                signed = [s.id for s in signing.valid(party)]
                called = [c.id for c in signing.calls_to(party)] if point == "W" else []
                found += signed[-1:] or called[-1:]
        own = self.piece(piece)
        signing = own.signings[code]
        found += [s.id for point in signing.points for s in signing.valid(point["party"])]
        found += [
            call.id for point in signing.points if point["point"] == "W" for call in signing.calls_to(point["party"])
        ]
        found += [d.id for d in own.standing.dispositions if d.body["disposition"] in ("rework", "repair")]
        return list(dict.fromkeys(found))

    def covered(self, piece: str, code: str) -> list[str]:
        """The ids a sign-off lists: every record on the step's items, what decides or agrees about them, and what
        makes void any of these or of the work and the sign-offs at the step."""
        own = self.piece(piece)
        signing = own.signings[code]
        found = {r.id for r in signing.on_items}
        here = {r.id for r in signing.here}
        decided = {d.id for d in signing.decided() if signing.speaks_of(d, found | here)}
        agreed = {a.id for a in own.standing.agreements if a.body["disposition"] in decided}
        listed = found | decided | agreed
        return sorted(listed | {v.id for target in listed | here for v in own.standing.voids.get(target, [])})

    def past_hold(self, record: Judged) -> list[Blocked] | None:
        """The points a record went past without naming their release; None while what it names is not here yet."""
        piece, code, _, _ = record.place
        if record.type not in WORK or not self.job.has_step(piece, code):
            return []
        named = {(r.type, r.place[0], r.place[1], r.body["party"]) for one in under(record)
                 if (r := self.records.get(one)) is not None
                 and (r.type == "call" or (r.type == "sign-off" and r.role != "not held"))}  # fmt: skip
        lacking = any(one not in self.arrived for one in under(record))
        missed = []
        for before in self.job.before(piece, code):
            signing = self.piece(before.piece).signings[before.step]
            parties = [party for party, point in letting_go(signing, before.whole)
                       if not named & passes(before, party, point)
                       and held_then(self.job, record, signing, party, before.whole)]  # fmt: skip
            if parties and lacking:
                return None
            if parties:
                missed.append(Blocked(before.piece, before.step, parties))
        return missed


def welds_that_count(records: Iterable[Judged], job: Job) -> list[Judged]:
    """The welds of one piece that nothing makes void or replaces, by welds and voids alone: so the server, which does
    not read every record of every piece, finds the same."""
    standing = Standing((r for r in records if r.type in ("weld", "void")), job)
    return [r for one, r in standing.records.items()
            if r.type == "weld" and one not in standing.voids and one not in standing.replaced_by]  # fmt: skip


def passes(before: Before, party: str, point: str) -> set[tuple[str, str, str, str]]:
    """What lets work go on past a point: the party's sign-off, or at a witness point that it was called."""
    kinds = ("sign-off", "call") if point == "W" and not before.whole else ("sign-off",)
    return {(kind, before.piece, before.step, party) for kind in kinds}


def held_then(job: Job, record: Judged, signing: Signing, party: str, whole: bool) -> bool:
    """Whether the party had its point by the plan revision the record names, or has set it for this job since.

    A hold that a later revision brings is not held against what was recorded before.
    """
    plan = record.payload["basis"]["plan"]
    if plan not in job.data["plans"] or any(p.body["party"] == party for p in signing.set_points):
        return True
    then = job.step_in(plan, signing.step["code"])
    wanted = REQUIRED if whole else HOLDING
    return then is not None and any(p["party"] == party and p["point"] in wanted for p in then["points"])


def letting_go(signing: Signing, whole: bool) -> list[tuple[str, str]]:
    """The points of a step whose sign-offs let what follows begin: party and kind of point."""
    wanted = REQUIRED[1:] if whole else HOLDING
    points = [(p["party"], p["point"]) for p in signing.points if p["point"] in wanted]
    if whole and not points:
        points = [(p["party"], p["point"]) for p in signing.points if p["point"] == "sign"]
    return points
