"""Telltale holes of staybolts by 49 CFR 230.38, in inches (law text as on lexbuild.dev, 2026)."""

import pytest

from tests.reference.plan_limits import asked, bounds, is_in, value

ASKED = "length < 8 and not flexible == 1"
DIAMETER = ("3/16", "7/32")
DEPTH = "1 + 1/4"
DEPTH_OF_REDUCED_BODY = "max(1 + 1/4, fillet_end) if reduced == 1 else 1 + 1/4"


@pytest.mark.source("49 CFR 230.38")
@pytest.mark.parametrize(
    ("length", "flexible", "asks"),
    [("7 1/2", "0", True), ("7 63/64", "0", True), ("8", "0", False), ("9", "0", False), ("7 1/2", "1", False)],
)
def test_a_hole_is_asked_of_bolts_shorter_than_eight_inches_but_flexible_ones(
    length: str, flexible: str, asks: bool
) -> None:
    assert asked(ASKED, length=length, flexible=flexible) is asks


@pytest.mark.source("49 CFR 230.38")
@pytest.mark.parametrize(
    ("typed", "good"),
    [("11/64", False), ("3/16", True), (".1875", True), (".1874", False), ("13/64", True), ("7/32", True),
     (".21875", True), (".219", False), ("15/64", False)],
)  # fmt: skip
def test_diameter_of_a_telltale_hole(typed: str, good: bool) -> None:
    assert is_in(typed, bounds(*DIAMETER)) is good


@pytest.mark.source("49 CFR 230.38")
@pytest.mark.parametrize(
    ("typed", "good"),
    [("1 1/4", True), ("1-1/4", True), ("1.25", True), ("1.249", False), ("1 15/64", False), ("2", True)],
)
def test_depth_of_a_telltale_hole(typed: str, good: bool) -> None:
    assert is_in(typed, bounds(DEPTH)) is good


@pytest.mark.source("49 CFR 230.38")
@pytest.mark.parametrize(
    ("reduced", "fillet_end", "typed", "good"),
    [
        ("1", "1 3/4", "1 3/4", True),
        ("1", "1 3/4", "1 1/2", False),
        ("1", "1", "1 1/4", True),
        ("0", "1 3/4", "1 1/4", True),
    ],
)
def test_on_a_reduced_body_the_hole_reaches_past_the_fillet(
    reduced: str, fillet_end: str, typed: str, good: bool
) -> None:
    found = bounds(DEPTH_OF_REDUCED_BODY, "", reduced=reduced, fillet_end=fillet_end)
    assert is_in(typed, found) is good


@pytest.mark.source("49 CFR 230.38")
def test_the_least_depth_written_as_a_sum_is_exact() -> None:
    assert str(value(DEPTH)) == "1.25"
