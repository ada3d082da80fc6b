"""Both cores answer alike, on cases made at random. A new seed each time; SEAMTAG_SEED repeats one."""

import os
import random
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from tests.core.differential.both import BATCH, Tally, TypeScript, compare, difference, why_not_built

SEED = int(os.environ.get("SEAMTAG_SEED") or random.SystemRandom().getrandbits(32))
BATCHES = 40
ONLY_MADE = settings(
    max_examples=BATCHES, deadline=None, database=None, phases=[Phase.generate], report_multiple_bugs=False,
    suppress_health_check=list(HealthCheck),
)  # fmt: skip
WORDS = ("in tolerance", "out of tolerance", "too close to call", "unjudged", "recorded", "open")


@pytest.fixture(scope="module")
def typescript() -> Iterator[TypeScript]:
    assert not why_not_built(), why_not_built()
    with TypeScript() as found:
        yield found


def test_both_cores_answer_alike(typescript: TypeScript) -> None:
    print(f"SEAMTAG_SEED={SEED}")
    tally = Tally()

    @seed(SEED)
    @ONLY_MADE
    @given(st.integers(0, 2**63))
    def batch_of(batch: int) -> None:
        compare(typescript, batch, BATCH, tally)
        assert not tally.differences, (
            f"{len(tally.differences)} differences; again by SEAMTAG_SEED={SEED}, or this batch alone by "
            f"python -m tests.core.differential --batch {batch}\n" + "\n".join(tally.differences[:3])
        )

    batch_of()
    print(tally)
    assert tally.cases == BATCHES * BATCH
    assert tally.errors <= tally.cases / 2
    assert tally.at_a_limit >= sum(tally.words.values()) / 20
    assert {word for word in WORDS if tally.words[word] >= tally.cases / 100} == set(WORDS)


@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        ({"word": "in", "margin": "0"}, {"word": "in", "margin": "0"}, ""),
        ({"word": "in", "margin": "0"}, {"word": "in", "margin": "-0"}, ".margin: 0 and -0"),
        ({"word": "in"}, {"word": "out"}, ".word: in and out"),
        ({"word": "in"}, {"word": "in", "margin": None}, "only one has .margin"),
        ({"a": [1, {"why": "x"}]}, {"a": [1, {"why": "y"}]}, ".a[1].why: x and y"),
        ({"a": [1]}, {"a": [1, 2]}, ".a: [1] and [1, 2]"),
        ({"probability": 0.5}, {"probability": 0.5 + 9e-10}, ""),
        ({"probability": 0.5}, {"probability": 0.5 + 2e-9}, ".probability: 0.5 and 0.500000002"),
        ({"probability": None}, {"probability": 0.5}, ".probability: None and 0.5"),
        (None, {"value": "1"}, ": None and {'value': '1'}"),
        ({"holds": True}, {"holds": 1}, ".holds: True and 1"),
    ],
)
def test_a_difference_is_told_with_its_place(one: object, other: object, told: str) -> None:
    assert difference(one, other) == told
