"""The warning of a drift: in time in at least 95 % of simulated series, false as rarely as it says, and quick."""

from time import perf_counter

import numpy as np
import pytest

from seamtag.trends.drift import ARL, BASELINE, FARTHEST, FEWEST, LIMIT, WEIGHT, drifting, heading_out
from tests.bench.drift import Shape, overnight, part_seen_as, part_warned, run_length, steady

FIRST = [9.9, 10.1] * (BASELINE // 2)
"""A baseline with centre 10 and a mean moving range of 0.2."""
SIGMA = 0.2 / 1.128


@pytest.mark.parametrize(
    ("shape", "quiet"),
    [(steady, 0), (overnight, 0), (steady, 100)],
    ids=["a little at every reading", "a day's at its start", "after 100 quiet readings"],
)
def test_half_a_sigma_a_day_is_warned_of_before_a_reading_is_out_of_tolerance(shape: Shape, quiet: int) -> None:
    assert part_warned(1000, np.random.default_rng(2026), shape, quiet) >= 0.95


def test_a_warning_names_the_direction() -> None:
    assert part_seen_as(500, np.random.default_rng(2026)) >= 0.98


def test_in_control_false_warnings_are_as_rare_as_said() -> None:
    dice = np.random.default_rng(2026)
    lengths = np.array([run_length(dice) for _ in range(8000)])
    assert lengths.mean() == pytest.approx(ARL, abs=4 * lengths.std() / len(lengths) ** 0.5)
    assert lengths.std() / len(lengths) ** 0.5 < 0.02 * ARL


def test_what_a_warning_says() -> None:
    """Every reading 0.3 sigma high: the average passes the limit of 0.4475 sigma only where readings are higher."""
    warning = drifting([*FIRST, *[10 + 0.3 * SIGMA] * 40, *[10 + SIGMA] * 20])
    assert warning is not None
    level, readings = 0.3 * (1 - (1 - WEIGHT) ** 40), 0
    while level <= LIMIT:
        level, readings = level + WEIGHT * (1 - level), readings + 1
    assert warning.index == BASELINE + 40 + readings - 1
    assert warning.direction == "rising"
    assert (warning.centre, warning.sigma, warning.level) == pytest.approx((10, SIGMA, 10 + level * SIGMA))


def test_falling_is_the_same_upside_down() -> None:
    rising, falling = (drifting([*FIRST, *[10 + way * 0.2] * 40]) for way in (1, -1))
    assert rising is not None
    assert falling is not None
    assert falling.direction == "falling"
    assert (falling.index, falling.level) == (rising.index, pytest.approx(20 - rising.level))


def test_a_single_wild_reading_is_no_drift() -> None:
    assert WEIGHT * FARTHEST < LIMIT
    assert drifting([*FIRST, 1000.0, *FIRST]) is None


@pytest.mark.parametrize(
    "values", [[], FIRST, FIRST[:-1], [5.0] * BASELINE + [6.0] * 50], ids=["none", "baseline", "fewer", "all equal"]
)
def test_without_a_baseline_and_a_reading_behind_it_nothing_is_said(values: list[float]) -> None:
    assert drifting(values) is None


def test_watching_begins_anew_behind_a_warning_that_was_seen() -> None:
    """The caller leaves out what was seen; the baseline stays."""
    values = [*FIRST, *[10.2] * 60]
    first = drifting(values)
    assert first is not None
    second = drifting([*FIRST, *values[first.index + 1 :]])
    assert second is not None
    assert (second.index, second.centre, second.sigma) == (first.index, first.centre, first.sigma)


def test_a_longer_series_keeps_its_first_warning() -> None:
    values = np.random.default_rng(3).standard_normal(BASELINE + 1000).tolist()
    warning = drifting(values)
    assert warning is not None
    assert drifting(values[: warning.index + 1]) == warning
    assert drifting(values[: warning.index]) is None


def test_eleven_hundred_readings_take_less_than_a_millisecond() -> None:
    values = [*FIRST, *FIRST * 10]
    assert drifting(values) is None

    def taken() -> float:
        start = perf_counter()
        drifting(values)
        return perf_counter() - start

    assert min(taken() for _ in range(30)) < 0.001


def test_a_limit_far_ahead_is_no_cause_for_a_warning() -> None:
    values = [*np.random.default_rng(7).normal(size=BASELINE), *(0.05 * np.arange(60))]
    found = drifting(values, -3.5, 3.5)
    assert found is not None
    assert found.index < BASELINE + 40
    assert drifting(values, -9.0, 9.0) is None
    assert drifting(values, -3.5, None) is None


def test_a_young_series_warns_where_its_line_crosses_a_limit() -> None:
    """Thirteen tubes whose wall reduction rises from 6.8 to 9.7 %, read to half a percent (invented)."""
    tubes = [6.8 + 2.9 * place / 12 + (0.12, -0.1, 0.05)[place % 3] for place in range(13)]
    found = heading_out(tubes, 5.0, 10.0)
    assert found is not None
    assert (found.index, found.direction) == (12, "rising")
    assert found.level == pytest.approx(9.7, abs=0.2)
    assert heading_out(tubes, 5.0, 20.0) is None
    assert heading_out(tubes, 5.0, None) is None
    assert heading_out(tubes[: FEWEST - 1], 5.0, 10.0) is None
    assert heading_out([7.5, 7.1, 7.9, 7.3] * 4, 5.0, 10.0) is None


def test_a_young_series_seldom_warns_by_chance() -> None:
    """In control, limits at 3.5 sigma: looked at after each reading up to the baseline."""
    dice = np.random.default_rng(11)
    runs = [dice.normal(size=BASELINE) for _ in range(100)]
    false = sum(any(heading_out(run[:count], -3.5, 3.5) for count in range(FEWEST, BASELINE)) for run in runs)
    assert false == 0
