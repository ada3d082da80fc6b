"""Inches as typed and as shown, against Python's fractions."""

import random
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from seamtag.core import numbers
from tests.reference.plan_limits import exact

SIGNS = {
    Fraction(1, 2): "½", Fraction(1, 4): "¼", Fraction(3, 4): "¾", Fraction(1, 8): "⅛", Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝", Fraction(7, 8): "⅞",
}  # fmt: skip


def typed(text: str) -> Fraction:
    return Fraction(numbers.parse(text).value)


def spellings(whole: int, part: Fraction) -> list[str]:
    """Ways to type a whole number of inches and a fraction; one in lowest terms and one in sixty-fourths."""
    if part == 0:
        return [f"{whole}", f"{whole}.", f'{whole}"', f"{whole} in", f"{whole}.0"]
    fraction, in_64ths = f"{part.numerator}/{part.denominator}", f"{part * 64}/64"
    found = [f"{whole} {fraction}", f"{whole}-{fraction}", f'{whole} {fraction}"', f"{whole} {in_64ths}"]
    if whole == 0:
        found += [fraction, in_64ths, f"{fraction} in"]
    if part in SIGNS:
        found += [f"{whole}{SIGNS[part]}", f"{whole} {SIGNS[part]}", *([SIGNS[part]] if whole == 0 else [])]
    return found


@pytest.mark.source("fractions of Python")
def test_every_sixty_fourth_up_to_four_inches_is_read_exactly(checked: Callable[[int], None]) -> None:
    count = 0
    for marks in range(4 * 64 + 1):
        whole, part = divmod(Fraction(marks, 64), 1)
        decimal = str(Decimal(marks) / 64)
        for text in [*spellings(int(whole), part), decimal, decimal.removeprefix("0") or "0", f'{decimal}"']:
            assert typed(text) == Fraction(marks, 64), text
            assert typed(f"-{text}") == typed(f"−{text}") == -Fraction(marks, 64), text
            count += 3
    checked(count)


@pytest.mark.source("fractions of Python")
def test_a_fraction_alone_may_be_over_one(checked: Callable[[int], None]) -> None:
    """Its value is what it says; that it may be a slip is said beside."""
    for marks in range(1, 257):
        assert typed(f"{marks}/64") == Fraction(marks, 64)
    checked(256)


@pytest.mark.source("fractions of Python")
def test_feet_and_inches_are_read_exactly(checked: Callable[[int], None]) -> None:
    count = 0
    for feet in (0, 1, 5, 12, 40):
        for marks in range(0, 12 * 64, 3):
            whole, part = divmod(Fraction(marks, 64), 1)
            inches = f"{whole} {part}" if part else f"{whole}"
            wanted = feet * 12 + Fraction(marks, 64)
            for text in (f"{feet}' {inches}\"", f"{feet}'-{inches}\"", f"{feet} ft {inches} in", f"{feet}'{inches}"):
                assert typed(text) == wanted, text
                count += 1
    checked(count)


@pytest.mark.source("fractions of Python")
@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("1 7/8", "15/8"), ("1-7/8", "15/8"), ("1⅞", "15/8"), ("1.875", "15/8"), ('1 7/8"', "15/8"),
        ("1 7/8 in", "15/8"), ("7/8", "7/8"), (".875", "7/8"), ("0.875", "7/8"), ("⅞", "7/8"),
        ("1' 2-3/4\"", "59/4"), ("1'-2 3/4\"", "59/4"), ("1 ft 2 3/4 in", "59/4"), ("1' 2.75\"", "59/4"),
        ("12' 3 1/8\"", "1177/8"), ("5' 10 1/4\"", "281/4"), ("-0 1/2", "-1/2"), ("3/64", "3/64"), ("15/16", "15/16"),
        ("20'", "240"), ("2 ft", "24"),
    ],
)  # fmt: skip
def test_the_ways_a_shop_writes_inches(text: str, inches: str) -> None:
    assert typed(text) == exact(inches)


@pytest.mark.source("fractions of Python")
@pytest.mark.parametrize("text", ["1/8/2", "1 7", "7/0", "1-7", "1,875", "", "1 7/", "/8", "1 9/8", "1' 13\"", "7/10"])
def test_what_is_no_number_or_could_be_two_is_refused(text: str) -> None:
    with pytest.raises(numbers.NumberError):
        numbers.parse(text)


@pytest.mark.source("fractions of Python")
@pytest.mark.parametrize(
    ("text", "doubtful"), [("17/8", True), ("1 7/8", False), ("115/16", True), ("9/8", False), ("7/8", False)]
)
def test_a_blank_left_out_is_asked_about(text: str, doubtful: bool) -> None:
    assert bool(numbers.parse(text).doubt) is doubtful


# 1/32 in, of a public exercise in feet and inches (github.com/gpsantos/001-Feet-and-inches); its feet in inches.
@pytest.mark.source("feet and inches, a public exercise")
@pytest.mark.parametrize(
    ("inches", "mark"),
    [
        ("0.2785", "9/32"), ("1.6895", "1 11/16"), ("11.9999", "12"), ("12.2785", "12 9/32"), ("71.9999", "72"),
        ("72.3492", "72 11/32"), ("73.0135", "73"), ("73.0185", "73 1/32"), ("73.8218", "73 13/16"),
    ],
)  # fmt: skip
def test_the_nearest_thirty_second(inches: str, mark: str) -> None:
    assert numbers.nearest_fraction(Decimal(inches), 32) == mark


@pytest.mark.source("fractions of Python")
@pytest.mark.parametrize("finest", [2, 4, 8, 16, 32, 64, 128])
def test_the_nearest_mark_is_as_fractions_round_it(finest: int, checked: Callable[[int], None]) -> None:
    rng = random.Random(finest)
    for _ in range(300):
        value = Decimal(rng.randrange(-24_000_000, 24_000_000)) / 10 ** rng.randrange(6, 9)
        sign, mark = (-1, value.copy_negate()) if value < 0 else (1, value)
        wanted = Fraction(round(Fraction(mark) * finest), finest)
        shown = numbers.nearest_fraction(value, finest)
        assert exact(shown.removeprefix("-")) == wanted
        assert shown.startswith("-") is (sign < 0 and wanted > 0)
    checked(300)


@pytest.mark.source("fractions of Python")
@pytest.mark.parametrize("finest", [2, 4, 8, 16, 32, 64])
def test_half_way_between_two_marks_goes_to_the_even_one(finest: int, checked: Callable[[int], None]) -> None:
    for mark in range(100):
        half_way = Fraction(2 * mark + 1, 2 * finest)
        value = Decimal(half_way.numerator) / Decimal(half_way.denominator)
        even = mark if mark % 2 == 0 else mark + 1
        assert exact(numbers.nearest_fraction(value, finest)) == Fraction(even, finest)
    checked(100)


@pytest.mark.source("fractions of Python")
def test_every_mark_is_shown_in_lowest_terms_and_read_back(checked: Callable[[int], None]) -> None:
    for marks in range(4 * 64 + 1):
        shown = numbers.shown_inches(Decimal(marks) / 64)
        whole, part = divmod(Fraction(marks, 64), 1)
        assert shown == (" ".join(str(one) for one in (whole, part) if one) or "0")
        assert typed(shown) == Fraction(marks, 64)
    checked(4 * 64 + 1)
