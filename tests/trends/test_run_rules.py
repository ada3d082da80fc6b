"""Run rules: where each fires on constructed sequences, and how long the rules last against published run lengths."""

import numpy as np
import pytest

from seamtag.trends.rules import RULES
from seamtag.trends.statistics import fires, signals

WESTERN_ELECTRIC = ("beyond-3", "two-of-three-beyond-2", "four-of-five-beyond-1", "eight-on-one-side")
CASES: dict[str, list[tuple[list[float], list[int]]]] = {
    "beyond-3": [
        ([0.1, 3.4, -3.1, 2.8, 0.0], [1, 2]),
        ([3.0, -3.0, 3.000001], [2]),
    ],
    "two-of-three-beyond-2": [
        ([0, 2.4, 0.3, 2.1, 0.0], [3]),
        ([2.4, 2.1], [1]),
        ([2.4, -2.4, 2.1, 0], [2]),
        ([2.4, -2.4, -0.3, 2.1], []),
        ([2.0, 2.0, 2.1, 0.4, 0.2, 2.2], []),
        ([2.3, 2.3, 0.0], [1]),
    ],
    "four-of-five-beyond-1": [
        ([1.3, 0.4, 1.1, 1.9, 2.5, 0.8], [4]),
        ([-1.2, -1.2, -1.2, -1.2, 0.0, -1.2], [3, 5]),
        ([1.2, 1.2, -1.2, 1.2, -1.2, 1.2], []),
        ([1.0, 1.2, 1.2, 1.2, 1.0, 1.0, 1.2], []),
    ],
    "eight-on-one-side": [
        ([-0.2] * 8 + [0.3], [7]),
        ([0.2] * 9, [7, 8]),
        ([0.2] * 7 + [0.0] + [0.2] * 7, []),
        ([0.2] * 7 + [-0.2] * 8, [14]),
    ],
    "nine-on-one-side": [
        ([0.2] * 9 + [-0.2] * 8, [8]),
        ([-0.2] * 10, [8, 9]),
        ([0.2] * 8, []),
    ],
    "six-rising-or-falling": [
        ([0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7], [5, 6]),
        ([0.0, 0.9, 0.5, 0.1, -0.4, -0.6, -0.8, 0.0], [6]),
        ([0.1, 0.2, 0.3, 0.3, 0.4, 0.5, 0.6], []),
    ],
    "fourteen-alternating": [
        ([0.2, 0.9] * 7 + [0.3], [13, 14]),
        ([0.2, 0.9] * 6 + [0.1], []),
        ([0.2, 0.9] * 3 + [0.9] + [0.2, 0.9] * 6, []),
    ],
    "fifteen-within-1": [
        ([0.5, -0.7, 0.1] * 5 + [0.9, 1.1], [14, 15]),
        ([0.5] * 14 + [1.0] + [0.5] * 14, []),
    ],
    "eight-outside-1": [
        ([1.4, -1.1, -2.2, 1.3, 1.1, -1.8, 3.5, -1.01, 0.5], [7]),
        ([1.4] * 8, []),
        ([1.4] * 8 + [-1.4], [8]),
        ([1.4, -1.4] * 3 + [1.0] + [1.4, -1.4] * 3, []),
    ],
}


def test_every_rule_has_sequences() -> None:
    assert list(CASES) == list(RULES)


@pytest.mark.parametrize(
    ("rule", "points", "places"), [(rule, points, places) for rule in CASES for points, places in CASES[rule]]
)
def test_where_a_rule_fires(rule: str, points: list[float], places: list[int]) -> None:
    """On the points as they are, upside down, and in another unit about another centre."""
    assert signals(points, 0, 1, [rule]) == {rule: places}
    assert signals([-point for point in points], 0, 1, [rule]) == {rule: places}
    assert signals([8 + point / 4 for point in points], 8, 0.25, [rule])[rule] == places


def test_rules_are_answered_in_the_order_asked_for() -> None:
    assert list(signals([], 0, 1, reversed_rules := list(reversed(RULES)))) == reversed_rules


def test_an_unknown_rule_is_refused() -> None:
    with pytest.raises(ValueError, match=r"There is no run rule 'ten'\. The run rules are: beyond-3, two-of"):
        signals([1.0], 0, 1, ["ten"])


@pytest.mark.parametrize("sigma", [0, -1, float("nan")])
def test_no_sigma_is_refused(sigma: float) -> None:
    with pytest.raises(ValueError, match="run rules need one above 0"):
        signals([1.0], 0, sigma, ["beyond-3"])


def mean_length(rules: tuple[str, ...], shift: float, runs: int) -> tuple[float, float]:
    """Points up to the first signal: mean and its standard error. What a rule looks back on goes along with a run."""
    dice, back, block = np.random.default_rng(9), 15, 60
    lengths, behind = np.zeros(runs), np.empty((runs, 0))
    running = np.arange(runs)
    while len(running):
        points = np.hstack([behind, dice.standard_normal((len(running), block)) + shift])
        hits = np.logical_or.reduce([fires(points, rule) for rule in rules])[:, behind.shape[1] :]
        ended = hits.any(axis=1)
        lengths[running] += np.where(ended, hits.argmax(axis=1) + 1, block)
        running, behind = running[~ended], points[~ended, -back:]
    return float(lengths.mean()), float(lengths.std() / runs**0.5)


def test_all_four_western_electric_rules_last_91_75_points_in_control() -> None:
    """Champ and Woodall 1987, table 1."""
    mean, _ = mean_length(WESTERN_ELECTRIC, 0, 20_000)
    assert mean == pytest.approx(91.75, abs=2)


# Champ and Woodall 1987, table 1.
@pytest.mark.parametrize(
    ("rules", "shift", "length"),
    [
        ((0, 1, 2, 3), 0.4, 36.61), ((0, 1, 2, 3), 1.0, 9.22), ((0, 1, 2, 3), 2.0, 3.13), ((0, 1, 2, 3), 3.0, 1.67),
        ((0,), 0.6, 119.67), ((0,), 1.0, 43.89), ((0, 1), 0.4, 104.46), ((0, 1), 1.0, 20.01), ((0, 2), 0.4, 63.88),
        ((0, 2), 1.0, 12.66), ((0, 3), 0.4, 59.76), ((0, 3), 1.0, 14.58),
    ],
)  # fmt: skip
def test_rules_last_as_long_as_published_after_a_shift(rules: tuple[int, ...], shift: float, length: float) -> None:
    mean, error = mean_length(tuple(WESTERN_ELECTRIC[place] for place in rules), shift, 6000)
    assert mean == pytest.approx(length, abs=3.5 * error)


def test_nine_on_one_side_lasts_longer_than_eight() -> None:
    """Worked out apart from the program by a Markov chain: beyond 3 sigma with nine on one side, 216.70."""
    mean, error = mean_length(("beyond-3", "nine-on-one-side"), 0, 6000)
    assert mean == pytest.approx(216.70, abs=3.5 * error)
