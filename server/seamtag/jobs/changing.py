"""Changing a job that is under way: what a new basis would undo, and a piece made again in place of one scrapped."""

import re
from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.items import ON_ITEMS, OPEN
from seamtag.core.job import Job as CoreJob
from seamtag.core.judging import Judged, judged
from seamtag.core.progress import COMPLETE, RELEASED, STARTED, PieceProgress, Progress
from seamtag.core.signing import VALID
from seamtag.core.standing import IN_FORCE
from seamtag.jobs.floor import core_job
from seamtag.jobs.models import Basis, Piece
from seamtag.jobs.opening import JobError, announce_pieces, faults_of_figures
from seamtag.plans import order
from seamtag.plans.models import PlanRevision
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of

GONE = "not in the plan"
RANKS = {OPEN: 0, STARTED: 1, "flagged": 1, COMPLETE: 2, RELEASED: 3}
REMADE = re.compile(r"^(.+)-R(\d+)$")

Line = dict[str, Any]


def basis_of(session: Session, job: str) -> Basis:
    """What a job is judged by now."""
    return session.scalars(select(Basis).where(Basis.job == job).order_by(Basis.number.desc()).limit(1)).one()


def with_changes(basis: Basis, change: Mapping[str, Any]) -> tuple[str, dict[str, str], dict[str, str]]:
    """Hash of the plan, figures and drawings as they would be; what a change does not name stays."""
    return (change.get("plan") or basis.plan, {**basis.values, **filled(change.get("figures"))},
            {**basis.drawings, **filled(change.get("drawings"))})  # fmt: skip


def filled(values: Mapping[str, str] | None) -> dict[str, str]:
    return {name.strip(): text.strip() for name, text in (values or {}).items() if text.strip()}


def faults_of_change(session: Session, core: CoreJob, basis: Basis, change: Mapping[str, Any]) -> list[str]:
    """What keeps a job from being changed so."""
    plan, values, drawings = with_changes(basis, change)
    row = session.get(PlanRevision, plan)
    if row is None:
        return ["There is no such revision of a plan. Choose one from the list."]
    found = [f"figure {name}: the plan asks for no such figure{near(name, row.document['figures'])}"
             for name in filled(change.get("figures")) if name not in row.document["figures"]]  # fmt: skip
    found += faults_of_figures(values, row.document)
    if (plan, values, drawings) == (basis.plan, basis.values, basis.drawings):
        found.append("This is what the job is judged by already: nothing would change.")
    return found or order.faults_of_job(trial(core, row, values, drawings))


def near(name: str, known: Iterable[str]) -> str:
    found = get_close_matches(name, list(known), 1, 0.6)
    return f"; is '{found[0]}' meant?" if found else ""


def trial(core: CoreJob, plan: PlanRevision, values: Mapping[str, str], drawings: Mapping[str, str]) -> CoreJob:
    """The job as it would be with one more basis."""
    data = core.data
    number = max((int(one) for one in data["figure_sets"]), default=0) + 1
    return CoreJob({
        **data, "bases": [*data["bases"], {"plan": plan.hash, "figures": number}],
        "plans": {**data["plans"], plan.hash: plan.document},
        "figure_sets": {**data["figure_sets"], str(number): {"values": dict(values), "drawings": dict(drawings)}},
    })  # fmt: skip


def preview(session: Session, job: str, change: Mapping[str, Any]) -> dict[str, list[Line]]:
    """What a change would undo: verdicts, releases, and steps that are asked again. Nothing is written.

    Raises JobError with every fault of the change.
    """
    core = core_job(session, job)
    if core is None:
        raise JobError([f"job {job} has no plan"])
    basis = basis_of(session, job)
    faults = faults_of_change(session, core, basis, change)
    if faults:
        raise JobError(faults)
    plan, values, drawings = with_changes(basis, change)
    records = payloads_of(session, job)
    before = Progress(core, records)
    after = Progress(trial(core, session.get_one(PlanRevision, plan), values, drawings), records)
    verdicts = [*changed_records(before, after), *changed_values(before, after)]
    releases = list(lost_releases(before, after))
    touched = {(line["piece"], line["step"]) for line in [*verdicts, *releases]}
    return {"verdicts": verdicts, "releases": releases, "again": list(asked_again(before, after, touched))}


def place(job: CoreJob, piece: str, step: str) -> Line:
    one = job.pieces.get(piece, {"mark": piece, "kind": ""})
    asked = job.steps.get(step, {"number": "", "name": step})
    return {"piece": piece, "mark": one["mark"], "kind": one["kind"], "step": step, "number": asked["number"],
            "name": asked["name"]}  # fmt: skip


def changed_records(before: Progress, after: Progress) -> Iterator[Line]:
    """Records that would not count any more, with the word they would have by the new basis."""
    for record in before.records.values():
        piece, step, item, station = record.place
        if record.type not in ON_ITEMS or not before.piece(piece).standing.in_force(record):
            continue
        standing = after.piece(piece).standing.of(after.records[record.id])
        if standing != IN_FORCE:
            yield {
                **place(before.job, piece, step), "record": record.id, "station": station,
                "item": (before.job.item(step, item) or {"name": item})["name"], "says": said(record),
                "before": record.verdict.word, "after": word_by(after.job, record),
            }  # fmt: skip


def word_by(job: CoreJob, record: Judged) -> str:
    """The word a record would have by the basis in force, where the plan still has its item."""
    piece, step, item, _ = record.place
    if not job.has_step(piece, step) or job.item(step, item) is None:
        return GONE
    return judged({**record.payload, "basis": dict(job.basis)}, record.role, job).verdict.word


def said(record: Judged) -> str:
    body = record.body
    if record.type == "reading":
        return f"{body['entered']} {body['uom']}"
    return str(body.get("result") or body.get("value") or body.get("layer") or body.get("state") or "")


def changed_values(before: Progress, after: Progress) -> Iterator[Line]:
    """Values worked out whose word would change."""
    for piece, own in before_and_after(before, after):
        for code, state in own[0].steps.items():
            later = own[1].steps.get(code)
            for item, found in state.items.items():
                then = later.items.get(item) if later else None
                for station, (_, verdict) in found.derived.items():
                    word = then.derived[station][1].word if then and station in then.derived else GONE
                    if word not in (verdict.word, OPEN) and verdict.word != OPEN:
                        yield {
                            **place(before.job, piece, code), "record": "", "station": station,
                            "item": (before.job.item(code, item) or {"name": item})["name"], "says": "",
                            "before": verdict.word, "after": word,
                        }  # fmt: skip


def before_and_after(before: Progress, after: Progress) -> Iterator[tuple[str, tuple[PieceProgress, PieceProgress]]]:
    for piece in before.job.pieces:
        yield piece, (before.piece(piece), after.piece(piece))


def lost_releases(before: Progress, after: Progress) -> Iterator[Line]:
    """Sign-offs that are valid now and would not be."""
    for piece, (own, later) in before_and_after(before, after):
        for code, signing in own.signings.items():
            reasons = later.signings[code].reasons if code in later.signings else {}
            for one, reason in signing.reasons.items():
                if reason == VALID and reasons.get(one, GONE) != VALID:
                    signoff = before.records[one]
                    yield {**place(before.job, piece, code), "record": one, "party": signoff.body["party"],
                           "by": signoff.payload["by"], "at": signoff.payload["at"],
                           "reason": reasons.get(one, GONE)}  # fmt: skip


def asked_again(before: Progress, after: Progress, touched: set[tuple[str, str]]) -> Iterator[Line]:
    """Steps at which a record, a value or a release would not count any more, or that would be less far."""
    for piece, (own, later) in before_and_after(before, after):
        for code, state in own.steps.items():
            if code not in later.steps:
                continue
            if (piece, code) in touched or RANKS[later.steps[code].state] < RANKS[state.state]:
                yield {**place(before.job, piece, code), "before": state.state, "after": later.steps[code].state}


def next_mark(mark: str, taken: Iterable[str]) -> str:
    """The mark of a piece made in place of another: S-14 is S-14-R1, then S-14-R2."""
    match = REMADE.match(mark)
    stem, number = (match[1], int(match[2])) if match else (mark, 0)
    known = set(taken)
    while True:
        number += 1
        if f"{stem}-R{number}" not in known:
            return f"{stem}-R{number}"


def remake(session: Session, job: str, piece: str, now: int, by: str) -> dict[str, Any]:
    """A new piece in place of one that is scrapped, with a tag of its own, inside a writing transaction.

    Joints of it on which nothing is recorded yet join the new piece instead. Those with records stay as they were made,
    and are named: they are to be scrapped and remade as well. Raises JobError.
    """
    core = core_job(session, job)
    old = core.pieces.get(piece) if core else None
    if core is None or old is None:
        raise JobError([f"job {job} has no piece {piece}"])
    mark = old["mark"]
    if old.get("remade"):
        raise JobError([f"{mark} has been remade already, as {core.pieces[old['remade']]['mark']}."])
    if not Progress(core, payloads_of(session, job)).piece(piece).scrapped:
        raise JobError([f"{mark} is not scrapped. A supervisor scraps it first, in the day review."])
    taken = [one["mark"] for one in core.pieces.values()]
    new_mark = next_mark(mark, taken)
    new = {**old, "id": f"{job}.{new_mark}", "mark": new_mark, "remade": "",
           "part_of": [newest(core, one) for one in old["part_of"]],
           "joins": [newest(core, one) for one in old["joins"]]}  # fmt: skip
    recorded = set(session.scalars(select(Record.piece).where(Record.job == job).distinct()))
    joints = [one for one in core.pieces.values() if piece in one["joins"] and not one.get("remade")]
    moved = [{**one, "joins": [new["id"] if other == piece else other for other in one["joins"]]}
             for one in joints if one["id"] not in recorded]  # fmt: skip
    announce_pieces(session, job, [new, {**old, "remade": new["id"]}, *moved], [new["id"]], now, by)
    return {"piece": session.get_one(Piece, new["id"]).as_data(), "moved": [one["mark"] for one in moved],
            "left": [one["mark"] for one in joints if one["id"] in recorded]}  # fmt: skip


def newest(core: CoreJob, piece: str) -> str:
    """The piece itself, or what was made in its place last."""
    while core.pieces.get(piece, {}).get("remade"):
        piece = core.pieces[piece]["remade"]
    return piece
