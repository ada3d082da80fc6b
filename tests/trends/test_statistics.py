"""Summary, charts, capability and shares against figures from outside: NIST StRD, the NIST/SEMATECH e-Handbook, qcc.

Where no source stands beside a figure, it is worked out by hand.
"""

from itertools import cycle, islice

import numpy as np
import pytest
from statsmodels.stats.proportion import proportion_confint

from seamtag.trends.statistics import (
    Capability,
    Interval,
    autocorrelation,
    capability,
    ewma,
    ewma_limits,
    individuals,
    moving_ranges,
    one_sided_capability,
    summary,
    wilson,
)

LOTTERY = """
    162 671 933 414 788 730 817 33 536 875 670 236 473 167 877 980 316 950 456 92 517 557 956 954 104 178 794 278
    147 773 437 435 502 610 582 780 689 562 964 791 28 97 848 281 858 538 660 972 671 613 867 448 738 966 139 636
    847 659 754 243 122 455 195 968 793 59 730 361 574 522 97 762 431 158 429 414 22 629 788 999 187 215 810 782 47
    34 108 986 25 644 829 630 315 567 919 331 207 412 242 607 668 944 749 168 864 442 533 805 372 63 458 777 416 340
    436 140 919 350 510 572 905 900 85 389 473 758 444 169 625 692 140 897 672 288 312 860 724 226 884 508 976 741
    476 417 831 15 318 432 241 114 799 955 833 358 935 146 630 830 440 642 356 373 271 715 367 393 190 669 8 861 108
    795 269 590 326 866 64 523 862 840 219 382 998 4 628 305 747 247 34 747 729 645 856 974 24 568 24 694 608 480
    410 729 947 293 53 930 223 203 677 227 62 455 387 318 562 242 428 968
"""
MAVRO = """
    2.00180 2.00170 2.00180 2.00190 2.00180 2.00170 2.00150 2.00140 2.00150 2.00150 2.00170 2.00180 2.00180 2.00190
    2.00190 2.00210 2.00200 2.00160 2.00140 2.00130 2.00130 2.00150 2.00150 2.00160 2.00150 2.00140 2.00130 2.00140
    2.00150 2.00140 2.00150 2.00160 2.00150 2.00160 2.00190 2.00200 2.00200 2.00210 2.00220 2.00230 2.00240 2.00250
    2.00270 2.00260 2.00260 2.00260 2.00270 2.00260 2.00250 2.00240
"""


def arctan_of_one_over(number: int, scale: int) -> int:
    total = term = scale // number
    divisor, sign = 3, -1
    while term:
        term //= number * number
        total += sign * (term // divisor)
        divisor, sign = divisor + 2, -sign
    return total


def digits_of_pi(count: int) -> list[float]:
    """By Machin's formula, with ten digits to spare."""
    scale = 10 ** (count + 9)
    pi = 4 * (4 * arctan_of_one_over(5, scale) - arctan_of_one_over(239, scale)) // 10**10
    halves = divmod(pi, 10 ** (count // 2))
    return [float(digit) for half in halves for digit in f"{half:0{count // 2}d}"]


def digits_as_nist_has_them() -> list[float]:
    """The certified figures are those of digits of which one, the 957th, is 3 where pi has 8."""
    digits = digits_of_pi(5000)
    assert digits[956] == 8
    digits[956] = 3
    return digits


def by_turns(first: float, low: float, high: float) -> list[float]:
    return [first, *islice(cycle((low, high)), 1000)]


# NIST StRD, univariate summary statistics: certified mean, standard deviation and lag-1 autocorrelation; last, how near
# double precision can come to the standard deviation.
CERTIFIED = {
    "Lottery": (
        [float(value) for value in LOTTERY.split()],
        518.958715596330,
        291.699727470969,
        -0.120948622967393,
        1e-12,
    ),
    "Mavro": ([float(value) for value in MAVRO.split()], 2.001856, 0.000429123454003053, 0.937989183438248, 1e-12),
    "NumAcc1": ([10000001.0, 10000003.0, 10000002.0], 10000002, 1, -0.5, 1e-12),
    "NumAcc2": (by_turns(1.2, 1.1, 1.3), 1.2, 0.1, -0.999, 1e-12),
    "NumAcc3": (by_turns(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, -0.999, 1e-9),
    "NumAcc4": (by_turns(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, -0.999, 1e-8),
    "PiDigits": (digits_as_nist_has_them(), 4.53480000000000, 2.86733906028871, -0.00355099287237972, 1e-12),
}


@pytest.mark.parametrize("name", list(CERTIFIED))
def test_summary_is_that_certified_by_nist(name: str) -> None:
    values, mean, sd, r1, near = CERTIFIED[name]
    found = summary(values)
    assert found.mean == pytest.approx(mean, rel=1e-14)
    assert found.sd == pytest.approx(sd, rel=near)
    assert autocorrelation(values) == pytest.approx(r1, rel=max(near, 1e-11))


def test_summary_of_one_value_has_no_standard_deviation() -> None:
    assert summary([4.0]).sd is None


@pytest.mark.parametrize(
    ("values", "message"), [([], "0 values were given; at least 1"), ([1.0, float("nan")], "not a finite number")]
)
def test_summary_of_nothing_or_of_no_number_is_refused(values: list[float], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        summary(values)


def test_autocorrelation_of_equal_values_is_refused() -> None:
    with pytest.raises(ValueError, match="All values are equal"):
        autocorrelation([2.0, 2.0, 2.0])


# NIST/SEMATECH e-Handbook 6.3.2.2.
FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]


def test_individuals_chart_of_the_handbook() -> None:
    chart = individuals(FLOW)
    assert moving_ranges(FLOW) == pytest.approx([2.0, 2.3, 1.4, 3.5, 3.4, 1.4, 0.2, 1.2, 1.5])
    assert (chart.centre, chart.mr_bar) == pytest.approx((50.81, 1.8778), abs=5e-5)
    assert (chart.lower, chart.upper) == pytest.approx((45.8159, 55.8041), abs=5e-5)
    assert (chart.sigma, chart.mr_upper) == pytest.approx((1.8778 / 1.128, 3.267 * 1.8778), abs=2e-4)


def test_individuals_chart_of_one_value_is_refused() -> None:
    with pytest.raises(ValueError, match="1 values were given; at least 2"):
        individuals([3.0])


# NIST/SEMATECH e-Handbook 6.3.2.4.
DIPS = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, *FLOW]
AVERAGES = [
    50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
    50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
]  # fmt: skip


def test_ewma_of_the_handbook() -> None:
    assert ewma(DIPS, 0.3, 50) == pytest.approx(AVERAGES, abs=0.00501)
    limits = ewma_limits(50, 2.0539, 0.3, 3)
    # The handbook rounds a factor and prints 47.4115 for the lower.
    assert (limits.low, limits.high) == pytest.approx((47.4115, 52.5884), abs=1e-4)


def test_ewma_limits_open_from_the_first_point_on() -> None:
    """Computed apart from the program for the handbook's figures, from the formula of 6.3.2.4."""
    found = [ewma_limits(50, 2.0539, 0.3, 3, count).high for count in range(1, 6)]
    assert found == pytest.approx([51.8485, 52.2564, 52.4314, 52.5127, 52.5516], abs=5e-5)
    assert ewma_limits(50, 2.0539, 0.3, 3, 1000) == ewma_limits(50, 2.0539, 0.3, 3)


def test_ewma_by_hand() -> None:
    """Weight 0.5 from 10 and sigma 2, whose averages spread by 1, sqrt(1.25) and sqrt(1.3125)."""
    assert ewma([11, 13, 12], 0.5, 10).tolist() == [10.5, 11.75, 11.875]
    widths = [ewma_limits(10, 2, 0.5, 2, count).high - 10 for count in (1, 2, 3)]
    assert widths == pytest.approx([2, 2 * 1.25**0.5, 2 * 1.3125**0.5])


@pytest.mark.parametrize("weight", [0, 1.01, -0.1])
def test_a_weight_outside_0_to_1_is_refused(weight: float) -> None:
    with pytest.raises(ValueError, match="The weight is"):
        ewma([1.0], weight, 0)


def test_limits_of_point_0_are_refused() -> None:
    with pytest.raises(ValueError, match="the first point is 1"):
        ewma_limits(0, 1, 0.2, 3, 0)


# Lucas and Saccucci 1990 for weights 0.5 and 0.03; the others of Montgomery's table, from memory and worked out again.
@pytest.mark.parametrize(
    ("weight", "width", "shift", "length"),
    [(0.5, 3.071, 0, 500), (0.5, 3.071, 1, 17.5), (0.03, 2.437, 0.5, 29.3), (0.03, 2.437, 1, 12.6),
     (0.2, 2.962, 0.5, 41.8), (0.2, 2.962, 1, 10.5), (0.1, 2.814, 0.5, 31.3), (0.1, 2.814, 2, 4.36)],
)  # fmt: skip
def test_ewma_lasts_as_long_as_published(weight: float, width: float, shift: float, length: float) -> None:
    runs, limits = 2000, ewma_limits(0, 1, weight, width)
    dice = np.random.default_rng(4)
    lengths, level, running = np.zeros(runs), np.zeros(runs), np.arange(runs)
    while len(running):
        block = dice.standard_normal((len(running), 50)) + shift
        averages = ewma(block, weight, level)
        out = (averages < limits.low) | (averages > limits.high)
        ended = out.any(axis=1)
        lengths[running] += np.where(ended, out.argmax(axis=1) + 1, 50)
        running, level = running[~ended], averages[~ended, -1]
    assert lengths.mean() == pytest.approx(length, abs=4 * lengths.std() / runs**0.5 + 0.05)


def test_capability_of_the_handbook() -> None:
    """NIST/SEMATECH e-Handbook 6.1.6."""
    found = capability(16, 2, 50, 8, 20)
    assert values_of(found) == pytest.approx((1.0, 0.6667, 1.3333, 0.6667), abs=5e-5)


# Worked out apart from the program by the formulas of the handbook's 6.1.6, for its example.
@pytest.mark.parametrize(
    ("count", "cp", "cpk"),
    [(100, (0.860826, 1.138943), (0.553128, 0.780206)), (50, (0.802482, 1.197126), (0.505551, 0.827782))],
)
def test_intervals_of_capability(count: int, cp: tuple[float, float], cpk: tuple[float, float]) -> None:
    found = capability(16, 2, count, 8, 20)
    assert ends(found.cp.interval) == pytest.approx(cp, abs=1e-6)
    assert ends(found.cpk.interval) == pytest.approx(cpk, abs=1e-6)


def test_capability_as_in_the_tests_of_qcc() -> None:
    """Pp and Ppk of the R package qcc, tests/testthat/test-capability.R."""
    values = [10.00, 10.02, 9.98, 10.01, 10.03, 9.99, 10.01, 10.00, 9.97, 10.04, 10.02, 9.99]
    spread = summary(values)
    assert spread.sd is not None
    found = capability(spread.mean, spread.sd, 12, 9.9, 10.1)
    assert (found.cp.value, *ends(found.cp.interval)) == pytest.approx((1.612598, 0.949773, 2.276410), abs=1e-6)
    assert (found.cpk.value, *ends(found.cpk.interval)) == pytest.approx((1.531968, 0.864608, 2.199329), abs=1e-6)


def test_capability_against_one_limit_is_the_same_index() -> None:
    both = capability(16, 2, 50, 8, 20)
    assert one_sided_capability(16, 2, 50, upper=20) == both.cpu
    assert one_sided_capability(16, 2, 50, lower=8) == both.cpl
    assert both.cpk == both.cpu


@pytest.mark.parametrize(
    ("sd", "count", "lower", "upper", "message"),
    [
        (2, 50, None, 20, "needs a lower and an upper limit"), (2, 50, 8, None, "needs a lower and an upper limit"),
        (2, 50, 20, 8, "is not below the upper limit"), (0, 50, 8, 20, "needs readings that differ"),
        (2, 1, 8, 20, "Readings given: 1. Capability needs at least two"),
    ],
)  # fmt: skip
def test_capability_that_cannot_be_told_is_refused(
    sd: float, count: int, lower: float | None, upper: float | None, message: str
) -> None:
    with pytest.raises(ValueError, match=message):
        capability(16, sd, count, lower, upper)


@pytest.mark.parametrize(("lower", "upper"), [(None, None), (8, 20)])
def test_one_sided_capability_wants_one_limit(lower: float | None, upper: float | None) -> None:
    with pytest.raises(ValueError, match="and not both"):
        one_sided_capability(16, 2, 50, lower=lower, upper=upper)


# The score interval of NIST/SEMATECH e-Handbook 7.2.4.1; figures of statsmodels, held also against it below.
@pytest.mark.parametrize(
    ("count", "total", "confidence", "low", "high"),
    [(4, 20, 0.90, 0.093118, 0.378377), (4, 20, 0.95, 0.080658, 0.416017), (0, 20, 0.95, 0, 0.161125),
     (1, 20, 0.95, 0.008881, 0.236131), (10, 100, 0.95, 0.055229, 0.174366)],
)  # fmt: skip
def test_interval_of_a_share(count: int, total: int, confidence: float, low: float, high: float) -> None:
    assert ends(wilson(count, total, confidence)) == pytest.approx((low, high), abs=1e-6)


@pytest.mark.parametrize("total", [1, 7, 50, 1000])
@pytest.mark.parametrize("confidence", [0.8, 0.95, 0.999])
def test_interval_of_a_share_is_that_of_statsmodels(total: int, confidence: float) -> None:
    for count in {0, 1, total // 3, total - 1, total}:
        wanted = proportion_confint(count, total, alpha=1 - confidence, method="wilson")
        assert ends(wilson(count, total, confidence)) == pytest.approx(wanted, abs=1e-12)


@pytest.mark.parametrize(("count", "total"), [(0, 0), (-1, 4), (5, 4)])
def test_no_share_is_refused(count: int, total: int) -> None:
    with pytest.raises(ValueError, match="is no share"):
        wilson(count, total)


def test_a_confidence_of_1_is_refused() -> None:
    with pytest.raises(ValueError, match="between 0 and 1"):
        wilson(1, 4, 1.0)


def ends(interval: Interval) -> tuple[float, float]:
    return interval.low, interval.high


def values_of(found: Capability) -> tuple[float, ...]:
    return found.cp.value, found.cpk.value, found.cpl.value, found.cpu.value
