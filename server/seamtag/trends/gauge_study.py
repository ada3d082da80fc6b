"""Crossed study of a gauge: every operator measures every part several times, judged by analysis of variance.

The model takes parts and operators as drawn at random; the formulas of the components follow from its expected mean
squares (from memory, common practice; NIST/SEMATECH e-Handbook 2.4 and 3.2.3.2.1 have the parts of it).
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import floor, sqrt

import numpy as np
from numpy.typing import NDArray
from scipy import special

POOLED_ABOVE = 0.25
"""Where the p of the interaction is above this, the interaction is taken for repeatability and pooled into it."""
STUDY_WIDTH = 6
"""Standard deviations that stand for the spread, and are held against the tolerance."""
CATEGORIES = 1.41
"""Categories of parts told apart: so many times the parts' standard deviation over the gauge's, rounded down."""

Reading = tuple[str, str, float]
"""Part, operator, value."""


@dataclass(frozen=True)
class Row:
    """A line of the analysis. squares: sum of squares. mean: it over the degrees of freedom. None where not tested."""

    squares: float
    degrees: int
    mean: float
    f: float | None = None
    p: float | None = None


@dataclass(frozen=True)
class Analysis:
    """interaction: None where it is pooled into repeatability."""

    part: Row
    operator: Row
    interaction: Row | None
    repeatability: Row

    @property
    def total(self) -> Row:
        rows = [row for row in (self.part, self.operator, self.interaction, self.repeatability) if row]
        squares, degrees = sum(row.squares for row in rows), sum(row.degrees for row in rows)
        return Row(squares, degrees, squares / degrees)


@dataclass(frozen=True)
class Component:
    """variance: in the square of the unit, at least 0. contribution: percent of the total variance.

    study: percent of the total standard deviation. tolerance: STUDY_WIDTH standard deviations in percent of the
    tolerance, None where none was given.
    """

    variance: float
    contribution: float
    study: float
    tolerance: float | None


@dataclass(frozen=True)
class Study:
    """with_interaction, without_interaction: both analyses. pooled: whether the components are those of the second.

    gauge: repeatability and reproducibility together. reproducibility: operator and interaction together. categories:
    None where the gauge's variance is 0.
    """

    with_interaction: Analysis
    without_interaction: Analysis
    pooled: bool
    gauge: Component
    repeatability: Component
    reproducibility: Component
    operator: Component
    interaction: Component
    part: Component
    total: Component
    categories: int | None


@dataclass(frozen=True)
class MeanSquares:
    """Of an analysis with interaction, in the square of the unit."""

    part: float
    operator: float
    interaction: float
    repeatability: float


@dataclass(frozen=True)
class Sizes:
    parts: int
    operators: int
    trials: int


def gauge_study(readings: Iterable[Reading], tolerance: float | None = None) -> Study:
    """A study from its readings, each (part, operator, value), in any order.

    tolerance: the upper limit less the lower, in the unit of the values. Raises ValueError where fewer than two parts,
    operators or trials took part, where a reading lacks, and where all readings are equal; it says which.
    """
    table = cells(readings)
    sizes = Sizes(*table.shape)
    off = table - table.mean()
    by_cell, by_part, by_operator = off.mean(axis=2), off.mean(axis=(1, 2)), off.mean(axis=(0, 2))
    beside = by_cell - by_part[:, None] - by_operator[None, :]
    within = off - by_cell[:, :, None]
    part, operator, interaction, repeatability = degrees_of(sizes)
    squares = MeanSquares(
        sizes.operators * sizes.trials * float(by_part @ by_part) / part,
        sizes.parts * sizes.trials * float(by_operator @ by_operator) / operator,
        sizes.trials * float((beside * beside).sum()) / interaction,
        float((within * within).sum()) / repeatability,
    )
    return from_mean_squares(squares, sizes, tolerance)


def cells(readings: Iterable[Reading]) -> NDArray[np.float64]:
    """The values by part, operator and trial. Raises ValueError where one lacks."""
    found: defaultdict[tuple[str, str], list[float]] = defaultdict(list)
    for part, operator, value in readings:
        found[part, operator].append(value)
    parts, operators = (list(dict.fromkeys(pair[place] for pair in found)) for place in (0, 1))
    trials = max(map(len, found.values()), default=0)
    check_sizes(Sizes(len(parts), len(operators), trials))
    lacking = [
        f"part {part} by operator {operator} ({len(found[part, operator])} of {trials})"
        for part in parts
        for operator in operators
        if len(found[part, operator]) < trials
    ]
    if lacking:
        raise ValueError(f"Every operator measures every part equally often. Readings lack: {', '.join(lacking)}.")
    table = np.array([[found[part, operator] for operator in operators] for part in parts], dtype=np.float64)
    if not np.isfinite(table).all():
        raise ValueError("A reading is not a finite number.")
    return table


def check_sizes(sizes: Sizes) -> None:
    for name, count in (("Parts", sizes.parts), ("Operators", sizes.operators), ("Readings of a part", sizes.trials)):
        if count < 2:
            raise ValueError(f"{name}: {count}. A study of a gauge needs at least two.")


def degrees_of(sizes: Sizes) -> tuple[int, int, int, int]:
    """Degrees of freedom of part, operator, interaction and repeatability."""
    part, operator = sizes.parts - 1, sizes.operators - 1
    return part, operator, part * operator, sizes.parts * sizes.operators * (sizes.trials - 1)


def from_mean_squares(squares: MeanSquares, sizes: Sizes, tolerance: float | None = None) -> Study:
    """A study from the mean squares of its analysis with interaction. Raises ValueError as gauge_study does."""
    check_sizes(sizes)
    if tolerance is not None and not tolerance > 0:
        raise ValueError(f"The tolerance is {tolerance}; it has to be above 0.")
    full = with_interaction(squares, sizes)
    assert full.interaction is not None
    reduced = without_interaction(full, full.interaction)
    pooled = full.interaction.p is not None and full.interaction.p > POOLED_ABOVE
    variances = variances_of(reduced if pooled else full, sizes)
    total = variances["total"]
    if total == 0:
        raise ValueError("All readings are equal, so the study cannot tell parts, operators and the gauge apart.")
    gauge, part = variances["gauge"], variances["part"]
    return Study(
        full,
        reduced,
        pooled,
        **{name: component(variance, total, tolerance) for name, variance in variances.items()},
        categories=floor(CATEGORIES * sqrt(part / gauge)) if gauge > 0 else None,
    )


def with_interaction(squares: MeanSquares, sizes: Sizes) -> Analysis:
    """Parts and operators are tested against the interaction, which is tested against repeatability."""
    part, operator, beside, within = degrees_of(sizes)
    repeatability = Row(squares.repeatability * within, within, squares.repeatability)
    interaction = tested(squares.interaction, beside, repeatability)
    return Analysis(
        tested(squares.part, part, interaction),
        tested(squares.operator, operator, interaction),
        interaction,
        repeatability,
    )


def without_interaction(full: Analysis, interaction: Row) -> Analysis:
    """The interaction pooled into repeatability, against which parts and operators are tested."""
    degrees = interaction.degrees + full.repeatability.degrees
    summed = interaction.squares + full.repeatability.squares
    repeatability = Row(summed, degrees, summed / degrees)
    return Analysis(
        tested(full.part.mean, full.part.degrees, repeatability),
        tested(full.operator.mean, full.operator.degrees, repeatability),
        None,
        repeatability,
    )


def tested(mean: float, degrees: int, against: Row) -> Row:
    """A line with its F and p; without them where what it is tested against is 0."""
    if against.mean == 0:
        return Row(mean * degrees, degrees, mean)
    f = mean / against.mean
    return Row(mean * degrees, degrees, mean, f, float(special.fdtrc(degrees, against.degrees, f)))


def variances_of(analysis: Analysis, sizes: Sizes) -> dict[str, float]:
    """Components of variance, one below 0 taken for 0."""
    repeatability = analysis.repeatability.mean
    beside = analysis.interaction.mean if analysis.interaction else repeatability
    interaction = max(0.0, (beside - repeatability) / sizes.trials)
    operator = max(0.0, (analysis.operator.mean - beside) / (sizes.parts * sizes.trials))
    part = max(0.0, (analysis.part.mean - beside) / (sizes.operators * sizes.trials))
    gauge = repeatability + operator + interaction
    return {
        "gauge": gauge,
        "repeatability": repeatability,
        "reproducibility": operator + interaction,
        "operator": operator,
        "interaction": interaction,
        "part": part,
        "total": gauge + part,
    }


def component(variance: float, total: float, tolerance: float | None) -> Component:
    return Component(
        variance,
        100 * variance / total,
        100 * sqrt(variance / total),
        None if tolerance is None else 100 * STUDY_WIDTH * sqrt(variance) / tolerance,
    )
