"""Where a job stands: a pure function of its plan, its pieces and the set of its records.

The same answer whatever order records arrive in, however often, from however many devices. No clock decides anything.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from seamtag.core.items import FLAGGED, MET, NOT_ASKED, OPEN, Bench, ItemState
from seamtag.core.job import HOLDING, REQUIRED, Before, Job, Step
from seamtag.core.judging import Judged, judged
from seamtag.core.signing import Signing
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
    """One piece by its own records alone."""

    def __init__(self, piece: str, records: list[Judged], job: Job) -> None:
        self.piece, self.records, self.job = piece, records, job
        self.standing = Standing(records, job)
        self.bench = Bench(piece, records, self.standing, job)
        self.signings: dict[str, Signing] = {}
        self.steps: dict[str, StepState] = {}
        for step in job.steps_of(piece):
            self.signings[step["code"]] = Signing(piece, step, records, self.standing, job)
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
        """The repair cycle of this piece: R1 is 1."""
        return sum(d.body["disposition"] == "repair" for d in self.standing.dispositions)

    @property
    def scrapped(self) -> bool:
        return any(d.body["disposition"] == "scrap" for d in self.standing.dispositions)


class Progress:
    """The whole job. records: payloads with the role stamped at intake ('held', 'changed', 'not held' or '')."""

    def __init__(self, job: Job, records: Iterable[tuple[Mapping[str, Any], str]]) -> None:
        self.job = job
        self.records: dict[str, Judged] = {}
        self.by_piece: dict[str, list[Judged]] = {piece: [] for piece in job.pieces}
        self.folded: dict[str, PieceProgress] = {}
        for payload, role in records:
            self.add(payload, role)

    def add(self, payload: Mapping[str, Any], role: str) -> None:
        """Add one record to the set; of the rest only its own piece is worked out anew. A repeat changes nothing."""
        if payload["id"] in self.records:
            return
        record = judged(payload, role, self.job)
        self.records[record.id] = record
        self.by_piece.setdefault(record.place[0], []).append(record)
        self.folded.pop(record.place[0], None)

    def piece(self, piece: str) -> PieceProgress:
        if piece not in self.folded:
            self.folded[piece] = PieceProgress(piece, self.by_piece.get(piece, []), self.job)
        return self.folded[piece]

    def step(self, piece: str, code: str) -> StepState:
        return self.piece(piece).steps[code]

    @property
    def stopped(self) -> set[str]:
        """Pieces that are scrapped or have a part that is."""
        scrapped = [piece for piece in self.job.pieces if self.piece(piece).scrapped]
        return {*scrapped, *(whole for piece in scrapped for whole in self.job.wholes(piece))}

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
                called = [c.id for c in signing.calls if c.body["party"] == party] if point == "W" else []
                found += signed[-1:] or called[-1:]
        own = self.piece(piece)
        found += [s.id for point in own.signings[code].points for s in own.signings[code].valid(point["party"])]
        found += [d.id for d in own.standing.dispositions if d.body["disposition"] in ("rework", "repair")]
        return list(dict.fromkeys(found))

    def covered(self, piece: str, code: str) -> list[str]:
        """The ids a sign-off lists: every record on the step's items, and what voids, decides or agrees about them."""
        own = self.piece(piece)
        signing = own.signings[code]
        found = {r.id for r in signing.on_items}
        found |= {v.id for target, v in own.standing.voids.items() if target in found}
        decided = {d.id for d in signing.decided() if signing.speaks_of(d, found)}
        agreed = {a.id for a in own.standing.agreements if a.body["disposition"] in decided}
        return sorted(found | decided | agreed)

    def past_hold(self, record: Judged) -> list[Blocked] | None:
        """The points a record went past without naming their release; None while what it names is not here yet."""
        piece, code, _, _ = record.place
        if record.type not in WORK or not self.job.has_step(piece, code):
            return []
        under = record.payload.get("under") or []
        named = {(r.place[0], r.place[1], r.body["party"]) for one in under
                 if (r := self.records.get(one)) is not None and r.type in ("sign-off", "call")}  # fmt: skip
        missed = []
        for before in self.job.before(piece, code):
            signing = self.piece(before.piece).signings[before.step]
            parties = [party for party, _ in letting_go(signing, before.whole)
                       if (before.piece, before.step, party) not in named]  # fmt: skip
            if parties:
                missed.append(Blocked(before.piece, before.step, parties))
        if missed and any(one not in self.records for one in under):
            return None
        return missed


def letting_go(signing: Signing, whole: bool) -> list[tuple[str, str]]:
    """The points of a step whose sign-offs let what follows begin: party and kind of point."""
    wanted = REQUIRED[1:] if whole else HOLDING
    points = [(p["party"], p["point"]) for p in signing.points if p["point"] in wanted]
    if whole and not points:
        points = [(p["party"], p["point"]) for p in signing.points if p["point"] == "sign"]
    return points
