"""General tolerances of welded constructions by EN ISO 13920, in millimetres (modulusmetal.com; second hand).

The page prints ten values for classes B, C and D under eleven columns. That they begin at the second column, and the 1
in the first, is from memory: the standard has one cell of 1 mm for all classes from 2 to 30 mm.
"""

from decimal import Decimal
from math import radians, tan

import pytest

from tests.reference.plan_limits import Rows, bounds, is_in, sides, stepwise, value

EDGES = ["30", "120", "400", "1000", "2000", "4000", "8000", "12000", "16000", "20000"]
LINEAR = {
    "A": ["1", "1", "1", "2", "3", "4", "5", "6", "7", "8", "9"],
    "B": ["1", "2", "2", "3", "4", "6", "8", "10", "12", "14", "16"],
    "C": ["1", "3", "4", "6", "8", "11", "14", "18", "21", "24", "27"],
    "D": ["1", "4", "7", "9", "12", "16", "21", "27", "32", "36", "40"],
}
# By the longer side, from over 30 on; the rows of G and H were cut off in the page.
STRAIGHT = {
    "E": ["0.5", "1", "1.5", "2", "3", "4", "5", "6", "7", "8"],
    "F": ["1", "1.5", "3", "4.5", "6", "8", "10", "12", "14", "16"],
}
# By the shorter leg: minutes, and millimetres in a metre.
LEGS = ["400", "1000"]
MINUTES = {"A": ["20", "15", "10"], "B": ["45", "30", "20"], "C": ["60", "45", "30"], "D": ["90", "75", "60"]}
SLOPE = {"A": ["6", "4.5", "3"], "B": ["13", "9", "6"], "C": ["18", "13", "9"], "D": ["26", "22", "18"]}


def cases(columns: dict[str, list[str]], edges: list[str]) -> list[tuple[str, str, str]]:
    return [(name, at, wanted) for name, values in columns.items() for at, wanted in sides(edges, values)]


@pytest.mark.source("EN ISO 13920")
@pytest.mark.parametrize(("grade", "length", "most"), cases(LINEAR, EDGES))
def test_a_length_has_its_tolerance_on_both_sides_of_every_edge(grade: str, length: str, most: str) -> None:
    tables = {"linear": stepwise("2", EDGES, LINEAR[grade])}
    assert value("table('linear', L)", tables, L=length) == Decimal(most)


@pytest.mark.source("EN ISO 13920")
@pytest.mark.parametrize(("grade", "length", "most"), [("B", "1500", "4"), ("A", "400", "1"), ("C", "2500", "11")])
def test_tolerances_of_length_as_worked(grade: str, length: str, most: str) -> None:
    tables = {"linear": stepwise("2", EDGES, LINEAR[grade])}
    found = bounds("L - table('linear', L)", "L + table('linear', L)", tables, L=length)
    for sign in (1, -1):
        edge = Decimal(length) + sign * Decimal(most)
        assert is_in(str(edge), found)
        assert not is_in(str(edge + sign * Decimal("0.1")), found)


@pytest.mark.source("EN ISO 13920")
@pytest.mark.parametrize("length", ["0", "1.9"])
def test_below_two_millimetres_there_is_no_tolerance_and_no_verdict(length: str) -> None:
    tables = {"linear": stepwise("2", EDGES, LINEAR["A"])}
    assert bounds("", "table('linear', L)", tables, L=length).reason.startswith("limit not known")


@pytest.mark.source("EN ISO 13920")
@pytest.mark.parametrize(("grade", "side", "most"), cases(STRAIGHT, EDGES[1:]))
def test_straightness_and_flatness_by_the_longer_side(grade: str, side: str, most: str) -> None:
    rows: Rows = [("after", "30", STRAIGHT[grade][0]), *stepwise("120", EDGES[1:], STRAIGHT[grade])[1:]]
    assert value("table('straight', L)", {"straight": rows}, L=side) == Decimal(most)
    assert bounds("", "table('straight', L)", {"straight": rows}, L="30").reason.startswith("limit not known")


@pytest.mark.source("EN ISO 13920")
@pytest.mark.parametrize(("grade", "leg", "most"), [*cases(MINUTES, LEGS), ("B", "600", "30"), ("A", "1", "20")])
def test_an_angle_has_its_tolerance_in_minutes_by_the_shorter_leg(grade: str, leg: str, most: str) -> None:
    tables = {"angle": stepwise("0", LEGS, MINUTES[grade])}
    assert value("table('angle', L)", tables, L=leg) == Decimal(most)


@pytest.mark.source("EN ISO 13920")
@pytest.mark.parametrize(("grade", "leg", "most"), [*cases(SLOPE, LEGS), ("B", "600", "9")])
def test_an_angle_has_its_tolerance_in_millimetres_a_metre(grade: str, leg: str, most: str) -> None:
    """And on a leg, in millimetres."""
    tables = {"slope": stepwise("0", LEGS, SLOPE[grade])}
    assert value("table('slope', L)", tables, L=leg) == Decimal(most)
    assert value("table('slope', L)*L/1000", tables, L=leg) == Decimal(most) * Decimal(leg) / 1000


@pytest.mark.source("EN ISO 13920")
@pytest.mark.parametrize("grade", list(MINUTES))
def test_the_two_ways_an_angle_is_tabulated_agree_within_their_rounding(grade: str) -> None:
    """The engine has no tangent, so a plan takes the tabulated slope."""
    for minutes, slope in zip(MINUTES[grade], SLOPE[grade], strict=True):
        assert abs(1000 * tan(radians(int(minutes) / 60)) - float(slope)) < 0.6
