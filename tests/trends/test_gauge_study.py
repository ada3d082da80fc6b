"""The study of a gauge against a published one, against statsmodels' analysis of variance, and by hand."""

from itertools import product

import numpy as np
import pandas as pd
import pytest
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm

from seamtag.trends.gauge_study import (
    POOLED_ABOVE,
    Component,
    MeanSquares,
    Reading,
    Row,
    Sizes,
    Study,
    from_mean_squares,
    gauge_study,
)

# A widely reprinted study of 10 parts by 3 operators, 3 times each, tolerance 8: mean squares and results as a vendor
# of statistics software prints them. The mean squares are rounded, so the last digit of a variance may be one off.
PUBLISHED = MeanSquares(9.81799, 1.58363, 0.01994, 0.04598)


@pytest.fixture(scope="module")
def published() -> Study:
    return from_mean_squares(PUBLISHED, Sizes(10, 3, 3), tolerance=8)


def test_published_interaction_is_pooled(published: Study) -> None:
    full, reduced = published.with_interaction, published.without_interaction
    assert full.interaction is not None
    assert (full.interaction.f, full.interaction.p) == (pytest.approx(0.434, abs=5e-4), pytest.approx(0.974, abs=5e-4))
    assert published.pooled
    assert reduced.interaction is None
    assert (reduced.repeatability.mean, reduced.repeatability.degrees) == (pytest.approx(0.03997, abs=5e-6), 78)
    assert [full.part.degrees, full.operator.degrees, full.interaction.degrees, full.repeatability.degrees] == [
        9,
        2,
        18,
        60,
    ]


@pytest.mark.parametrize(
    ("name", "variance"),
    [
        ("gauge", 0.09143),
        ("repeatability", 0.03997),
        ("reproducibility", 0.05146),
        ("part", 1.08645),
        ("total", 1.17788),
    ],
)
def test_published_components(published: Study, name: str, variance: float) -> None:
    assert component(published, name).variance == pytest.approx(variance, abs=1e-5)


def test_published_shares(published: Study) -> None:
    gauge, part = published.gauge, published.part
    assert (gauge.contribution, part.contribution) == pytest.approx((7.76, 92.24), abs=0.005)
    studies = [component(published, name).study for name in ("gauge", "repeatability", "reproducibility", "part")]
    assert studies == pytest.approx([27.86, 18.42, 20.90, 96.04], abs=0.005)
    assert (gauge.tolerance, part.tolerance) == pytest.approx((22.68, 78.17), abs=0.005)
    assert published.categories == 4


def test_without_a_tolerance_no_share_of_it_is_told() -> None:
    study = from_mean_squares(PUBLISHED, Sizes(10, 3, 3))
    assert study.gauge.tolerance is None
    assert study.gauge.study == pytest.approx(27.86, abs=0.005)


def made(seed: int, sizes: Sizes, beside: float) -> list[Reading]:
    """Readings of parts, operators, an interaction of this spread, and noise, out of order."""
    dice = np.random.default_rng(seed)
    parts, operators = dice.normal(50, 2, sizes.parts), dice.normal(0, 0.7, sizes.operators)
    both = dice.normal(0, beside, (sizes.parts, sizes.operators))
    places = list(product(range(sizes.parts), range(sizes.operators), range(sizes.trials)))
    dice.shuffle(places)
    return [(f"P{p}", f"O{o}", float(parts[p] + operators[o] + both[p, o] + dice.normal(0, 0.4))) for p, o, _ in places]


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("sizes", [Sizes(10, 3, 3), Sizes(5, 2, 2), Sizes(4, 6, 5)])
@pytest.mark.parametrize("beside", [0.0, 0.8])
def test_analysis_is_that_of_statsmodels(seed: int, sizes: Sizes, beside: float) -> None:
    """Its F of parts and operators is against repeatability; with an interaction ours is against that."""
    readings = made(seed, sizes, beside)
    study = gauge_study(readings)
    frame = pd.DataFrame(readings, columns=["part", "operator", "value"])
    full = anova_lm(ols("value ~ C(part) * C(operator)", frame).fit())
    reduced = anova_lm(ols("value ~ C(part) + C(operator)", frame).fit())
    assert study.with_interaction.interaction is not None
    ours = study.with_interaction
    for row, name in ((ours.part, "C(part)"), (ours.operator, "C(operator)")):
        same_line(row, full.loc[name])
        assert row.f == pytest.approx(full.loc[name, "mean_sq"] / full.loc["C(part):C(operator)", "mean_sq"])
    same_line(ours.interaction, full.loc["C(part):C(operator)"], tested=True)
    same_line(ours.repeatability, full.loc["Residual"])
    same_line(study.without_interaction.part, reduced.loc["C(part)"], tested=True)
    same_line(study.without_interaction.operator, reduced.loc["C(operator)"], tested=True)
    same_line(study.without_interaction.repeatability, reduced.loc["Residual"])
    assert study.pooled == (full.loc["C(part):C(operator)", "PR(>F)"] > POOLED_ABOVE)


def same_line(row: Row | None, line: "pd.Series[float]", tested: bool = False) -> None:
    assert row is not None
    assert (row.squares, row.mean) == pytest.approx((line["sum_sq"], line["mean_sq"]), rel=1e-8)
    assert row.degrees == line["df"]
    if tested:
        assert (row.f, row.p) == (
            pytest.approx(line["F"], rel=1e-8),
            pytest.approx(line["PR(>F)"], rel=1e-6, abs=1e-12),
        )


def test_a_large_value_loses_no_digits() -> None:
    readings = made(1, Sizes(10, 3, 3), 0.3)
    moved = gauge_study([(part, operator, value + 1e6) for part, operator, value in readings])
    assert moved.gauge.variance == pytest.approx(gauge_study(readings).gauge.variance, rel=1e-6)


def test_components_with_an_interaction() -> None:
    """By hand: 5 parts, 4 operators, 2 trials, mean squares 100, 60, 20, 2; the interaction's F is 10."""
    study = from_mean_squares(MeanSquares(100, 60, 20, 2), Sizes(5, 4, 2), tolerance=60)
    assert not study.pooled
    names = ("repeatability", "interaction", "operator", "reproducibility", "gauge", "part", "total")
    assert [component(study, name).variance for name in names] == pytest.approx([2, 9, 4, 13, 15, 10, 25])
    assert study.gauge.contribution == pytest.approx(60)
    assert study.repeatability.tolerance == pytest.approx(100 * 6 * 2**0.5 / 60)
    assert study.categories == 1
    assert (study.with_interaction.total.squares, study.with_interaction.total.degrees) == (400 + 180 + 240 + 40, 39)
    assert study.without_interaction.total.squares == study.with_interaction.total.squares


def test_a_component_below_0_is_0() -> None:
    study = from_mean_squares(MeanSquares(30, 1, 5, 1), Sizes(5, 4, 2))
    assert study.operator.variance == 0
    assert study.reproducibility.variance == study.interaction.variance == 2
    assert from_mean_squares(MeanSquares(1, 9, 5, 1), Sizes(5, 4, 2)).part.variance == 0


def test_p_at_0_25_decides_on_pooling() -> None:
    """F of 12 and 20 degrees of freedom is above 1.38731 with p 0.25, by scipy.stats."""
    assert from_mean_squares(MeanSquares(30, 9, 1.387, 1), Sizes(5, 4, 2)).pooled
    assert not from_mean_squares(MeanSquares(30, 9, 1.388, 1), Sizes(5, 4, 2)).pooled


def test_a_gauge_that_always_repeats_has_no_f_against_repeatability() -> None:
    values = {("1", "A"): 1.0, ("1", "B"): 2.0, ("2", "A"): 5.0, ("2", "B"): 9.0}
    study = gauge_study([(part, operator, value) for (part, operator), value in values.items() for _ in range(2)])
    assert study.with_interaction.interaction is not None
    assert (study.with_interaction.interaction.f, study.pooled, study.repeatability.variance) == (None, False, 0)


def test_operators_who_agree_wholly_leave_no_categories() -> None:
    study = gauge_study([(part, operator, float(part)) for part, operator in product("123", "AB") for _ in range(2)])
    assert (study.gauge.variance, study.categories) == (0, None)


WHOLE = [(part, operator, float(trial)) for part, operator, trial in product("123", "AB", range(2))]


@pytest.mark.parametrize(
    ("readings", "message"),
    [
        ([], r"Parts: 0\. A study"),
        (WHOLE[:4], r"Parts: 1\. A study of a gauge needs at least two"),
        ([reading for reading in WHOLE if reading[1] == "A"], r"Operators: 1\."),
        (WHOLE[::2], r"Readings of a part: 1\."),
        (WHOLE[:-1], r"Readings lack: part 3 by operator B \(1 of 2\)\."),
        (WHOLE[:6] + WHOLE[8:], r"Readings lack: part 2 by operator B \(0 of 2\)\."),
        ([*WHOLE, ("1", "A", 2.0)], r"part 1 by operator B \(2 of 3\), part 2 by operator A \(2 of 3\)"),
        ([(part, operator, 4.0) for part, operator, _ in WHOLE], "All readings are equal"),
        ([*WHOLE[:-1], ("3", "B", float("nan"))], "not a finite number"),
    ],
)
def test_a_study_that_cannot_be_judged_is_refused(readings: list[Reading], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        gauge_study(readings)


@pytest.mark.parametrize("tolerance", [0, -1])
def test_no_tolerance_is_refused(tolerance: float) -> None:
    with pytest.raises(ValueError, match="has to be above 0"):
        gauge_study(WHOLE, tolerance)


def component(study: Study, name: str) -> Component:
    found: Component = getattr(study, name)
    return found
