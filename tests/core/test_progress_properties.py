"""What must hold of every history, whoever made it and however it arrived."""

import random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from seamtag.core.flags import flags_of
from seamtag.core.items import MET, NOT_ASKED
from seamtag.core.progress import RELEASED, Progress
from seamtag.core.signing import VALID
from tests.core.histories import History, histories

QUIET = settings(deadline=None, database=None, derandomize=True, max_examples=80)


def digest(progress: Progress) -> dict[str, Any]:
    """All that the core says of a job."""
    said: dict[str, Any] = {"stopped": sorted(progress.stopped)}
    for piece in progress.job.pieces:
        own = progress.piece(piece)
        said[piece] = (own.repairs, flags_of(progress, piece))
        for code, state in own.steps.items():
            asked = (progress.blocked(piece, code), progress.relied_on(piece, code), progress.covered(piece, code))
            said[f"{piece} {code}"] = (state, asked)
    for one, record in progress.records.items():
        said[f"record {one}"] = (progress.piece(record.place[0]).standing.of(record), progress.past_hold(record))
    return said


@QUIET
@given(histories(), st.integers(0, 2**32))
def test_the_order_of_arrival_changes_nothing(history: History, seed: int) -> None:
    rng = random.Random(seed)
    shuffled = history.records + rng.choices(history.records, k=len(history.records)) if history.records else []
    rng.shuffle(shuffled)
    assert digest(history.progress(shuffled)) == digest(history.progress())


@QUIET
@given(histories(), st.integers(0, 2**32))
def test_records_added_one_by_one_are_as_records_all_at_once(history: History, seed: int) -> None:
    shuffled = history.records[:]
    random.Random(seed).shuffle(shuffled)
    progress = history.progress([])
    for payload, role in shuffled:
        digest(progress)
        progress.add(payload, role)
    assert digest(progress) == digest(history.progress())


@QUIET
@given(histories(most=22))
def test_a_release_never_comes_back_without_a_signature(history: History) -> None:
    """As records are made one after the other: lost and come back means signed in between.

    Of steps that somebody releases; a maker's sign says no more than that the work is done.
    """
    lost: dict[tuple[str, str], int] = {}
    was_valid: dict[str, bool] = {}
    released: set[tuple[str, str]] = set()
    for count in range(len(history.records) + 1):
        progress = history.progress(history.records[:count])
        for piece in progress.job.pieces:
            for code, state in progress.piece(piece).steps.items():
                place = (piece, code)
                for signoff, reason in state.signoffs.items():
                    assert reason != VALID or was_valid.get(signoff, True), f"{signoff} is valid again"
                    was_valid[signoff] = reason == VALID
                if not any(p["point"] in ("H", "W", "R") for p in progress.piece(piece).signings[code].points):
                    continue
                if state.state == RELEASED:
                    since = history.records[lost.pop(place) - 1 : count] if place in lost else None
                    assert since is None or signed_in(since, place), f"{place} came back at record {count}"
                    released.add(place)
                elif place in released:
                    released.discard(place)
                    lost[place] = count


def signed_in(records: list[Any], place: tuple[str, str]) -> bool:
    return any(p["type"] == "sign-off" and (p["piece"], p["step"]) == place for p, _ in records)


@QUIET
@given(histories())
def test_an_honest_sign_off_that_knows_all_releases(history: History) -> None:
    for count, (payload, _) in enumerate(history.records, 1):
        if payload["id"] in history.releasing:
            progress = history.progress(history.records[:count])
            state = progress.step(payload["piece"], payload["step"])
            assert state.signoffs[payload["id"]] == VALID


@QUIET
@given(histories())
def test_a_released_step_is_met_and_blocks_nothing(history: History) -> None:
    progress = history.progress()
    for piece in progress.job.pieces:
        for state in progress.piece(piece).steps.values():
            if state.state == RELEASED:
                assert all(item.state in (MET, NOT_ASKED) for item in state.items.values())
                assert not state.waiting
                assert not state.holding
