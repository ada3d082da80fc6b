"""Height of weld reinforcement by 46 CFR 56.70-15, Table 1, in inches, each face (law text as on casetext).

t is the thinner of what is joined, w the width of the weld. Boiler external piping goes by the first column.
"""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest

from seamtag.core import numbers, verdict
from tests.reference.plan_limits import Rows, bounds, exact, limit, sides, word

# The table's columns: below 0 or above 750 degF; 350 to 750 degF; 0 to below 350 degF.
COLD_OR_HOT: Rows = [("from", "0", "1/16"), ("after", "1/2", "3/32"), ("after", "1", "1/8"), ("after", "2", "5/32")]
MIDDLE: Rows = [("from", "0", "3/32"), ("after", "1/8", "1/8"), ("after", "3/16", "5/32"), ("after", "1/2", "3/16"),
                ("after", "1", "1/4"), ("after", "2", "max(1/4, w/8)")]  # fmt: skip
COOL: Rows = [("from", "0", "3/16"), ("after", "1", "1/4"), ("after", "2", "max(1/4, w/8)")]
COLUMNS = [COLD_OR_HOT, MIDDLE, COOL]

# Every cell as printed, the last row for a weld 3 in wide.
EDGES = ["1/8", "3/16", "1/2", "1", "2"]
CELLS = [
    ["1/16", "1/16", "1/16", "3/32", "1/8", "5/32"],
    ["3/32", "1/8", "5/32", "3/16", "1/4", "3/8"],
    ["3/16", "3/16", "3/16", "3/16", "1/4", "3/8"],
]


@pytest.mark.source("46 CFR 56.70-15")
@pytest.mark.parametrize(
    ("rows", "thickness", "most"),
    [
        (MIDDLE, "1/8", "0.09375"), (MIDDLE, "3/16", "0.125"), (MIDDLE, "1/4", "0.15625"), (MIDDLE, "1/2", "0.15625"),
        (MIDDLE, "3/4", "0.1875"), (MIDDLE, "1 1/2", "0.25"), (MIDDLE, "2", "0.25"), (MIDDLE, "2 1/2", "0.375"),
        (COLD_OR_HOT, "1/8", "0.0625"), (COLD_OR_HOT, "1/4", "0.0625"), (COLD_OR_HOT, "3/4", "0.09375"),
        (COLD_OR_HOT, "1 1/2", "0.125"), (COLD_OR_HOT, "2 1/2", "0.15625"),
        (COOL, "1/2", "0.1875"), (COOL, "1", "0.1875"), (COOL, "1 1/2", "0.25"), (COOL, "2 1/2", "0.375"),
    ],
)  # fmt: skip
def test_reinforcement_as_46_cfr_56_70_15_has_it(rows: Rows, thickness: str, most: str) -> None:
    assert limit(rows, thickness, w="3") == Decimal(most)


@pytest.mark.source("46 CFR 56.70-15")
@pytest.mark.parametrize("by", ["0.001", "1/64"])
@pytest.mark.parametrize("column", [0, 1, 2])
@pytest.mark.parametrize("side", range(2 * len(EDGES)))
def test_reinforcement_at_and_just_past_every_edge(column: int, side: int, by: str) -> None:
    past = numbers.text_of(numbers.parse(by).value)
    thickness, most = list(sides(EDGES, CELLS[column], past))[side]
    assert Fraction(limit(COLUMNS[column], thickness, w="3")) == exact(most)


@pytest.mark.source("46 CFR 56.70-15")
@pytest.mark.parametrize(
    ("width", "most"), [("1", "1/4"), ("1 15/16", "1/4"), ("2", "1/4"), ("2.008", "0.251"), ("4", "1/2")]
)
def test_over_two_inches_the_width_of_the_weld_counts_from_two_inches_on(width: str, most: str) -> None:
    for rows in (MIDDLE, COOL):
        assert Fraction(limit(rows, "2 1/2", w=width)) == exact(most)
    assert limit(COLD_OR_HOT, "2 1/2", w=width) == Decimal("0.15625")


@pytest.mark.source("46 CFR 56.70-15")
@pytest.mark.parametrize("width", ["1", "3"])
@pytest.mark.parametrize("column", [0, 1, 2])
def test_more_thickness_never_allows_less(column: int, width: str, checked: Callable[[int], None]) -> None:
    found = [limit(COLUMNS[column], numbers.shown_inches(Decimal(k) / 64), w=width) for k in range(1, 64 * 4)]
    assert all(before <= after for before, after in pairwise(found))
    checked(len(found))


@pytest.mark.source("46 CFR 56.70-15")
def test_a_width_not_recorded_leaves_the_limit_unknown_only_where_it_counts() -> None:
    tables = {"reinforcement": MIDDLE}
    assert word("1/4", bounds("", "table('reinforcement', t)", tables, t="2")) == verdict.IN
    assert word("1/4", bounds("", "table('reinforcement', t)", tables, t="2 1/4")) == verdict.UNJUDGED
