"""How soon a drift is warned of, and how often a warning is false.

Run as `python -m tests.bench.drift [SERIES]`. Readings are normal with sigma 1 about the middle of limits at 3.5 sigma,
20 a day. After the baseline the process drifts half a sigma a day. A series counts as warned of where the warning comes
before the first reading out of tolerance, not with it.
"""

import sys
from collections.abc import Callable
from functools import partial

import numpy as np
from numpy.typing import NDArray

from seamtag.trends.drift import ARL, BASELINE, WIDTH, drifting
from seamtag.trends.statistics import ewma, ewma_limits

Shape = Callable[[int], NDArray[np.float64]]
Values = NDArray[np.float64]
LIMIT = 3.5
A_DAY = 20
DAILY = 0.5
SPAN = 140
"""Readings within which a drift of DAILY is out of tolerance in every series."""
WEIGHTS = (0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3)


def steady(readings: int) -> Values:
    """Where the process sits while the tool wears by a little at every reading."""
    return DAILY / A_DAY * np.arange(1, readings + 1)


def overnight(readings: int) -> Values:
    """Where it sits while all of a day's wear comes before the day's first reading."""
    return DAILY * (np.arange(readings) // A_DAY + 1.0)


def drifted(dice: np.random.Generator, shape: Shape = steady, quiet: int = 0) -> tuple[list[float], int]:
    """A series that drifts after the baseline and quiet more readings, and the place of its first out of tolerance."""
    before = BASELINE + quiet
    values = dice.standard_normal(before + SPAN)
    values[before:] += shape(SPAN)
    out = int(np.argmax(np.abs(values[before:]) > LIMIT)) + before
    return values.tolist(), out


def part_warned(series: int, dice: np.random.Generator, shape: Shape = steady, quiet: int = 0) -> float:
    """Part of the series warned of in time. Those with a warning while all was quiet are left out."""
    warned = seen = 0
    while seen < series:
        values, out = drifted(dice, shape, quiet)
        warning = drifting(values, -LIMIT, LIMIT)
        if warning is None or warning.index >= BASELINE + quiet:
            seen += 1
            warned += warning is not None and warning.index < out
    return warned / series


def part_seen_as(series: int, dice: np.random.Generator) -> float:
    """Part of the drifts towards larger readings whose first warning says so."""
    warnings = [drifting(drifted(dice)[0], -LIMIT, LIMIT) for _ in range(series)]
    return sum(warning is not None and warning.direction == "rising" for warning in warnings) / series


def run_length(dice: np.random.Generator, alike: float = 0.0) -> int:
    """Readings after the baseline up to the first warning, in control. alike: correlation of neighbouring readings."""
    values: list[float] = []
    while True:
        for noise in dice.standard_normal(len(values) or BASELINE + 400).tolist():
            values.append(alike * values[-1] + (1 - alike**2) ** 0.5 * noise if values else noise)
        warning = drifting(values)
        if warning:
            return warning.index - BASELINE + 1


def trade_off(series: int, weight: float, baseline: int | None) -> dict[float, float]:
    """Run length in control by part warned of, for an EWMA of this weight, on the same series for each weight.

    baseline: readings in it, None where centre and sigma are known.
    """
    dice = np.random.default_rng(21)
    known = np.zeros((series, 1)), np.ones((series, 1))
    first = dice.standard_normal((series, baseline)) if baseline else None
    centre, sigma = (
        known if first is None else (first.mean(1)[:, None], np.abs(np.diff(first)).mean(1)[:, None] / 1.128)
    )
    of_one = ewma_limits(0, 1, weight, 1).high
    values = dice.standard_normal((series, SPAN)) + steady(SPAN)
    averages = np.abs(ewma((values - centre) / sigma, weight, 0)) / of_one
    averages[np.maximum.accumulate(np.abs(values) > LIMIT, axis=1)] = 0
    widths = {part: float(np.quantile(averages.max(axis=1), 1 - part)) for part in (0.95, 0.96, 0.97)}
    few = slice(0, series // 10)
    scaled = (dice.standard_normal((series // 10, 3000)) - centre[few]) / sigma[few]
    quiet = np.abs(ewma(scaled, weight, 0)) / of_one
    return {part: lasting(quiet > width) for part, width in widths.items()}


def lasting(hits: NDArray[np.bool_]) -> float:
    """Readings watched for each warning, of series cut off at the end."""
    ended = hits.any(axis=1)
    return float(np.where(ended, hits.argmax(axis=1) + 1, hits.shape[1]).sum() / max(1, ended.sum()))


def tell(title: str, figure: str) -> None:
    print(f"{title:<72} {figure:>14}", flush=True)


def main(series: int) -> None:
    dice = np.random.default_rng(20)
    in_time: dict[str, Callable[..., float]] = {
        "drift begins after the baseline, a little at every reading": part_warned,
        "drift begins after the baseline, each day's at its start": partial(part_warned, shape=overnight),
        "drift begins 100 quiet readings after the baseline": partial(part_warned, quiet=100),
    }
    for title, simulated in in_time.items():
        tell(f"{title}: warned of in time", f"{simulated(series, dice):.1%}")
    tell("the same with 50,000 series", f"{part_warned(50_000, dice):.2%}")
    tell("whose first warning names the right direction", f"{part_seen_as(series, dice):.1%}")
    lengths = np.array([run_length(dice) for _ in range(20 * series)])
    tell(f"in control: readings up to the first warning, mean (said: {ARL})", f"{lengths.mean():.1f}")
    tell("  with a standard error of", f"{lengths.std() / len(lengths) ** 0.5:.1f}")
    tell("  half of the series last at least", f"{np.median(lengths):.0f}")
    for alike in (0.1, 0.2, 0.3):
        short = np.mean([run_length(dice, alike) for _ in range(5 * series)])
        tell(f"  mean where neighbouring readings correlate by {alike}", f"{short:.0f}")
    print(f"\nRun length in control where 95, 96, 97 % are warned of in time (the rule's width is {WIDTH})")
    for baseline in (None, 50, 100, 200):
        for weight in WEIGHTS:
            found = trade_off(30_000, weight, baseline)
            what = "all known" if baseline is None else f"baseline {baseline}"
            tell(f"  {what}, weight {weight}", "  ".join(f"{length:.0f}" for length in found.values()))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
