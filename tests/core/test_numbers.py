"""Typed numbers: what is shown is read back, and nothing but a NumberError comes of what cannot be read."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from seamtag.core import numbers

QUIET = settings(deadline=None, database=None, derandomize=True, max_examples=300)
FINEST = st.sampled_from([2, 4, 8, 16, 32, 64, 128])
MARKS = st.integers(-10_000_000, 10_000_000)
TYPED = st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**9), max_value=10**9, places=8)
KEYS = st.text(alphabet="0123456789 /-.,'\"+½⅞⁄−ftin\t" + "²٣x", max_size=30)


@QUIET
@given(MARKS, FINEST)
def test_a_mark_of_the_rule_is_read_back_as_shown(marks: int, finest: int) -> None:
    value = Decimal(marks) / finest
    shown = numbers.shown_inches(value, finest)
    typed = numbers.parse(shown)
    assert typed.value == value
    assert not shown or "." not in shown


@QUIET
@given(TYPED)
def test_any_decimal_is_read_back_as_shown(value: Decimal) -> None:
    for shown in (numbers.text_of(value), numbers.shown_inches(value)):
        assert numbers.parse(shown).value == value
        assert "E" not in shown


@QUIET
@given(TYPED, st.booleans())
def test_a_comma_is_read_as_a_point_is(value: Decimal, comma: bool) -> None:
    text = numbers.text_of(value)
    typed = text.replace(".", ",") if comma else text
    assert numbers.parse(typed, comma).value == value


@QUIET
@given(TYPED, FINEST)
def test_the_nearest_mark_is_within_half_a_division(value: Decimal, finest: int) -> None:
    mark = Fraction(numbers.parse(numbers.nearest_fraction(value, finest)).value)
    assert abs(mark - Fraction(value)) <= Fraction(1, 2 * finest)


@QUIET
@given(st.integers(0, 99), st.integers(0, 11), st.integers(0, 63))
def test_feet_are_twelve_inches(feet: int, inches: int, marks: int) -> None:
    typed = numbers.parse(f"{feet}' {inches} {marks}/64\"")
    assert Fraction(typed.value) == feet * 12 + inches + Fraction(marks, 64)


@QUIET
@given(KEYS | st.text(max_size=30), st.booleans())
@example("²", False)
@example("٣/٤", False)
@example("٣ ft", False)
@example("1" * 5000, False)
@example("1/" + "9" * 20, False)
def test_only_a_number_error_comes_of_typing(text: str, comma: bool) -> None:
    try:
        value = numbers.parse(text, comma).value
    except numbers.NumberError:
        return
    assert value.is_finite()
    assert any(c in "0123456789½¼¾⅛⅜⅝⅞" for c in text)


@pytest.mark.parametrize("text", ["٣", "٣/٤", "٣ ft", "１", "1٣"])
def test_digits_of_other_scripts_are_refused(text: str) -> None:
    with pytest.raises(numbers.NumberError):
        numbers.parse(text)
