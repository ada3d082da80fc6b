"""What is done in the trade and no source was found for. Common practice, no source: the shop's own plan decides.

They show that such a fact can be a limit, a factor or a condition of an item.
"""

from decimal import Decimal

import pytest

from tests.reference.plan_limits import asked, bounds, is_in, value

SUPPORT_ASKED = "apart > 20*12"


# Common practice, no source: the weld bevel of furnace and tube sheet is 28 degrees. No tolerance is told with it.
@pytest.mark.source("common practice, no source")
@pytest.mark.parametrize(
    ("typed", "tolerance", "good"),
    [("28", "0", True), ("27.9", "0", False), ("28.1", "0", False), ("29", "1", True), ("27", "1", True),
     ("26.9", "1", False), ("29.1", "1", False)],
)  # fmt: skip
def test_a_bevel_of_28_degrees_with_the_tolerance_a_shop_sets(typed: str, tolerance: str, good: bool) -> None:
    assert is_in(typed, bounds("28 - tolerance", "28 + tolerance", tolerance=tolerance)) is good


# Common practice, no source: a groove of 1/16 in by 1/16 in in tube holes is said to add 41 % to pull-out strength.
@pytest.mark.source("common practice, no source")
@pytest.mark.parametrize(
    ("grooved", "plain", "strength"),
    [("1", "10000", "14100"), ("0", "10000", "10000"), ("1", "7250", "10222.5"), ("1", "100", "141")],
)
def test_a_grooved_hole_holds_41_per_cent_more(grooved: str, plain: str, strength: str) -> None:
    assert value("plain*(1.41 if grooved == 1 else 1)", plain=plain, grooved=grooved) == Decimal(strength)
    assert value("plain*(1 + 41*grooved/100)", plain=plain, grooved=grooved) == Decimal(strength)


@pytest.mark.source("common practice, no source")
@pytest.mark.parametrize(("typed", "good"), [("1/16", True), (".0625", True), ("3/64", False), ("5/64", False)])
def test_the_groove_is_a_sixteenth_wide_and_deep(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("1/16", "1/16")) is good


# Common practice, no source: main tube sheets are 3/4 to 7/8 in thick.
@pytest.mark.source("common practice, no source")
@pytest.mark.parametrize(
    ("typed", "good"),
    [
        ("47/64", False),
        ("3/4", True),
        ("13/16", True),
        ("7/8", True),
        ("57/64", False),
        (".875", True),
        (".8751", False),
    ],
)
def test_a_main_tube_sheet_is_three_quarters_to_seven_eighths(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("3/4", "7/8")) is good


# Common practice, no source: an intermediate support plate of 1/2 to 9/16 in where tube sheets stand more than 20 ft
# apart.
@pytest.mark.source("common practice, no source")
@pytest.mark.parametrize(
    ("apart", "asks"),
    [
        ("20'", False),
        ("19' 11 63/64\"", False),
        ("20' 1/64\"", True),
        ("21 ft", True),
        ("240", False),
        ("240.01", True),
    ],
)
def test_a_support_plate_is_asked_past_twenty_feet(apart: str, asks: bool) -> None:
    assert asked(SUPPORT_ASKED, apart=apart) is asks


@pytest.mark.source("common practice, no source")
@pytest.mark.parametrize(
    ("typed", "good"), [("31/64", False), ("1/2", True), ("17/32", True), ("9/16", True), ("37/64", False)]
)
def test_a_support_plate_is_a_half_to_nine_sixteenths(typed: str, good: bool) -> None:
    assert is_in(typed, bounds("1/2", "9/16")) is good
