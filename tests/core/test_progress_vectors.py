"""Where a job stands, by the vectors both cores answer, in any order and with records repeated."""

import copy
import json
import random
from collections.abc import Callable, Iterable
from decimal import Decimal
from typing import Any

import pytest

from seamtag.core import numbers, records
from seamtag.core.flags import flags_of
from seamtag.core.items import ItemState
from seamtag.core.job import Job
from seamtag.core.progress import Blocked, Progress
from seamtag.core.verdict import Verdict
from tests.vectors import make_progress

DATA = json.loads(make_progress.FILE.read_text())
CASES = [pytest.param(case, id=case["name"]) for case in DATA["cases"]]
JOBS = {name: Job(data) for name, data in DATA["jobs"].items()}

Case = dict[str, Any]
Record = list[Any]


def test_the_file_is_what_the_builder_writes() -> None:
    written = make_progress.FILE.read_text()
    assert written == make_progress.progress_json(), "stale: run python -m tests.vectors.make_progress"


@pytest.mark.parametrize("case", CASES)
def test_payloads_are_what_a_phone_may_send(case: Case) -> None:
    """Of readable ids the schema is told that they are UUIDs."""
    for payload, _ in case["records"]:
        copied = {**payload, "id": "01890a5d-ac96-774b-bcce-b302099a8057"}
        if "replaces" in copied:
            copied["replaces"] = copied["id"]
        assert records.faults(copied) == []


@pytest.mark.parametrize("case", CASES)
def test_as_given(case: Case) -> None:
    assert answer(case, case["records"]) == case["expect"]


@pytest.mark.parametrize("case", CASES)
def test_in_any_order_and_however_often(case: Case) -> None:
    for order in orders(case["records"]):
        assert answer(case, order) == case["expect"], [payload["id"] for payload, _ in order]


@pytest.mark.parametrize("case", CASES)
def test_added_one_by_one_between_questions(case: Case) -> None:
    """What was worked out of fewer records leaves nothing behind."""
    for order in (case["records"], case["records"][::-1]):
        progress = Progress(JOBS[case["job"]], [])
        for payload, role in order:
            answer_of(progress, case["expect"])
            progress.add(payload, role)
        assert answer_of(progress, case["expect"]) == case["expect"]


def test_nothing_is_written_into_jobs_and_payloads() -> None:
    for case in DATA["cases"]:
        before = copy.deepcopy((case["records"], DATA["jobs"][case["job"]]))
        answer(case, case["records"])
        assert (case["records"], DATA["jobs"][case["job"]]) == before


def orders(given: list[Record]) -> Iterable[list[Record]]:
    yield given[::-1]
    for seed in range(10):
        rng = random.Random(seed)
        shuffled = given + rng.sample(given, len(given) // 2)
        rng.shuffle(shuffled)
        yield shuffled


def answer(case: Case, given: list[Record]) -> dict[str, Any]:
    return answer_of(Progress(JOBS[case["job"]], [(payload, role) for payload, role in given]), case["expect"])


def answer_of(progress: Progress, expect: Case) -> dict[str, Any]:
    """What the core says to each thing the case asks, in the case's own words."""
    return {key: ANSWERS[key](progress, wanted) for key, wanted in expect.items()}


def tagged(progress: Progress, piece: str) -> str | None:
    found = progress.piece(piece).tagging
    return None if found is None else found.id


def step_states(progress: Progress, wanted: Case) -> Case:
    return {where: step_state(progress, *where.split(), asked) for where, asked in wanted.items()}


def step_state(progress: Progress, piece: str, code: str, asked: Case) -> Case:
    found = progress.step(piece, code)
    said = {"state": found.state, "waiting": found.waiting, "holding": found.holding}
    if "blocked" in asked:
        said["blocked"] = blocked(progress.blocked(piece, code))
    return {key: said[key] for key in asked}


def blocked(found: list[Blocked]) -> list[Any]:
    return [[b.piece, b.step, list(b.parties)] for b in found]


def item_states(progress: Progress, wanted: Case) -> Case:
    return {where: item_state(progress, where, asked) for where, asked in wanted.items()}


def item_state(progress: Progress, where: str, asked: str | Case) -> str | Case:
    piece, _, rest = where.partition(" ")
    code, _, item = rest.partition(".")
    found: ItemState = progress.step(piece, code).items[item]
    if isinstance(asked, str):
        return found.state
    said = {
        "state": found.state, "missing": list(found.missing), "photo_missing": found.photo_missing,
        "in_force": {station: list(ids) for station, ids in found.in_force.items()},
        "derived": {station: [in_figures(value), *words(verdict)][: len(asked.get("derived", {}).get(station, "12"))]
                    for station, (value, verdict) in found.derived.items()},
    }  # fmt: skip
    return {key: said[key] for key in asked}


def in_figures(value: Decimal | None) -> str | None:
    return None if value is None else numbers.text_of(value)


def words(verdict: Verdict) -> list[Any]:
    return [verdict.word, in_figures(verdict.margin), verdict.reason]


def verdict_of(progress: Progress, one: str, asked: str | list[Any]) -> Any:
    """The word, or where the case tells it also the margin and the reason."""
    found = words(progress.records[one].verdict)
    return found if isinstance(asked, list) else found[0]


def verdicts(progress: Progress, wanted: Case) -> Case:
    here = {one: asked for one, asked in wanted.items() if one in progress.records}
    return {one: verdict_of(progress, one, asked) for one, asked in here.items()}


def of_records(say: Callable[[Progress, str], Any]) -> Callable[[Progress, Case], Case]:
    return lambda progress, wanted: {one: say(progress, one) if one in progress.records else None for one in wanted}


def reason(progress: Progress, one: str) -> str | None:
    record = progress.records[one]
    signing = progress.piece(record.place[0]).signings.get(record.place[1])
    return signing.reasons.get(one) if signing else None


def standing(progress: Progress, one: str) -> str:
    record = progress.records[one]
    return progress.piece(record.place[0]).standing.of(record)


def past_hold(progress: Progress, one: str) -> list[Any] | None:
    found = progress.past_hold(progress.records[one])
    return None if found is None else blocked(found)


def flags(progress: Progress, wanted: Case) -> Case:
    """In full, with the disposition only where the case names one."""
    return {
        piece: [
            [f.kind, f.record, f.state, *([f.disposition] if place < len(asked) and len(asked[place]) == 4 else [])]
            for place, f in enumerate(flags_of(progress, piece))
        ]
        for piece, asked in wanted.items()
    }


def flags_include(progress: Progress, wanted: Case) -> Case:
    found = {piece: [[f.kind, f.record, f.state] for f in flags_of(progress, piece)] for piece in wanted}
    return {piece: [flag for flag in asked if flag in found[piece]] for piece, asked in wanted.items()}


def flags_say(progress: Progress, wanted: Case) -> Case:
    found = {
        piece: [[f.kind, f.record, f.reason, in_figures(f.past)] for f in flags_of(progress, piece)] for piece in wanted
    }
    return {piece: [flag for flag in asked if flag in found[piece]] for piece, asked in wanted.items()}


def flags_exclude(progress: Progress, wanted: Case) -> Case:
    found = {piece: [[f.kind, f.record] for f in flags_of(progress, piece)] for piece in wanted}
    return {piece: [flag for flag in asked if flag not in found[piece]] for piece, asked in wanted.items()}


def ids(ask: Callable[[Progress, str, str], list[str]]) -> Callable[[Progress, Case], Case]:
    return lambda progress, wanted: {where: sorted(ask(progress, *where.split())) for where in wanted}


ANSWERS: dict[str, Callable[[Progress, Any], Any]] = {
    "steps": step_states,
    "items": item_states,
    "signoffs": of_records(reason),
    "standing": of_records(standing),
    "verdicts": verdicts,
    "past_hold": of_records(past_hold),
    "flags": flags,
    "flags_include": flags_include,
    "flags_exclude": flags_exclude,
    "flags_say": flags_say,
    "relied_on": ids(Progress.relied_on),
    "covered": ids(Progress.covered),
    "repairs": lambda progress, wanted: {piece: progress.piece(piece).repairs for piece in wanted},
    "next_repair": of_records(lambda progress, one: progress.piece(progress.records[one].place[0]).next_repair(one)),
    "passed_on": lambda progress, wanted: {piece: [r.id for r in progress.piece(piece).passed_on] for piece in wanted},
    "tagging": lambda progress, wanted: {piece: tagged(progress, piece) for piece in wanted},
    "stopped": lambda progress, wanted: sorted(progress.stopped),
}
