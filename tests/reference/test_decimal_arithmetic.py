"""Arithmetic as the General Decimal Arithmetic specification has it, at 28 digits, half to even, by way of formulas.

Digits of quotients and roots are public knowledge, typed from memory; whole-number arithmetic works each of them anew.
"""

import random
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from math import isqrt

import pytest

from seamtag.core import formula
from tests.reference.plan_limits import asked, value

DIGITS = 28


def to_28_digits(wanted: Fraction) -> Decimal:
    """The nearest value of 28 digits, half to even, by whole numbers alone."""
    if wanted == 0:
        return Decimal(0)
    exponent = len(str(abs(wanted.numerator))) - len(str(wanted.denominator)) - DIGITS
    while abs(wanted) >= Fraction(10) ** (exponent + DIGITS):
        exponent += 1
    digits = round(abs(wanted) / Fraction(10) ** exponent)
    return Decimal((int(wanted < 0), tuple(int(digit) for digit in str(digits)), exponent))


def root_to_28_digits(radicand: int) -> Decimal:
    """The root of a whole number; one that is no square cannot lie half way."""
    scale = DIGITS - len(str(isqrt(radicand)))
    scaled = radicand * 100**scale
    root = isqrt(scaled)
    digits = root + 1 if root * root + root < scaled else root
    return Decimal((0, tuple(int(digit) for digit in str(digits)), -scale))


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize(
    ("text", "digits"),
    [
        # From memory:
        ("1/3", "0.3333333333333333333333333333"), ("2/3", "0.6666666666666666666666666667"),
        ("1/7", "0.1428571428571428571428571429"), ("22/7", "3.142857142857142857142857143"),
        ("1/9", "0.1111111111111111111111111111"), ("8/9", "0.8888888888888888888888888889"),
        ("355/113", "3.141592920353982300884955752"), ("-2/3", "-0.6666666666666666666666666667"),
        ("1/6", "0.1666666666666666666666666667"), ("5/6", "0.8333333333333333333333333333"),
    ],
)  # fmt: skip
def test_a_quotient_that_does_not_end_has_28_digits(text: str, digits: str) -> None:
    assert value(text) == Decimal(digits)
    over, under = text.split("/")
    assert to_28_digits(Fraction(int(over), int(under))) == Decimal(digits)


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize(
    ("radicand", "digits"),
    [
        # From memory:
        ("2", "1.414213562373095048801688724"), ("3", "1.732050807568877293527446342"),
        ("5", "2.236067977499789696409173669"), ("7", "2.645751311064590590501615754"),
        ("10", "3.162277660168379331998893544"),
    ],
)  # fmt: skip
def test_a_root_that_does_not_end_has_28_digits(radicand: str, digits: str) -> None:
    assert value(f"sqrt({radicand})") == Decimal(digits)
    assert root_to_28_digits(int(radicand)) == Decimal(digits)


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # Examples of the specification whose answers end, from memory:
        ("12 + 7.00", "19.00"), ("1.3 - 1.07", "0.23"), ("1.3 - 1.30", "0.00"), ("1.3 - 2.07", "-0.77"),
        ("1.20*3", "3.60"), ("7*3", "21"), ("0.9*0.8", "0.72"), ("0.9*-0", "0"), ("5/2", "2.5"), ("1/10", "0.1"),
        ("12/12", "1"), ("8.00/2", "4.00"), ("2.400/2.0", "1.20"), ("1000/100", "10"), ("1000/1", "1000"),
        ("2400000/2", "1200000"), ("sqrt(0)", "0"), ("sqrt(100)", "10"), ("sqrt(1)", "1"), ("sqrt(1.00)", "1"),
        ("abs(2.1)", "2.1"), ("abs(-100)", "100"), ("abs(101.5)", "101.5"), ("abs(-101.5)", "101.5"),
        ("max(3, 2)", "3"), ("max(-10, 3)", "3"), ("max(1.0, 1)", "1"), ("min(3, 2)", "2"), ("min(-10, 3)", "-10"),
        ("2**3", "8"), ("-2**3", "-8"),
    ],
)  # fmt: skip
def test_examples_of_the_specification(text: str, wanted: str) -> None:
    assert value(text) == Decimal(wanted)


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize(
    ("radicand", "nine_digits"), [("0.39", "0.624499800"), ("7", "2.64575131"), ("10", "3.16227766")]
)
def test_roots_the_specification_prints_to_nine_digits(radicand: str, nine_digits: str) -> None:
    """From memory."""
    assert abs(value(f"sqrt({radicand})") - Decimal(nine_digits)) <= Decimal("0.000000005")


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize(
    ("added", "past"),
    [
        ("0.5", 0),
        ("1.5", 2),
        ("2.5", 2),
        ("3.5", 4),
        ("0.49", 0),
        ("0.51", 1),
        ("1.49", 1),
        ("2.51", 3),
        ("0.5000001", 1),
    ],
)
def test_the_29th_digit_is_rounded_half_to_even(added: str, past: int) -> None:
    """10**27 has 28 digits, and what is added stands behind them."""
    found = value("a*b + c", a="1" + "0" * 13, b="1" + "0" * 14, c=added)
    assert found == 10**27 + past


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize(
    "text", ["0.1 + 0.2 == 0.3", "0.1*3 == 0.3", "1.1 - 1 == 0.1", "0.07*100 == 7", "3*1.1 == 3.3"]
)
def test_decimals_that_binary_floats_miss_are_equal(text: str) -> None:
    """Of formulas: whether the condition holds; Python's own floats say no."""
    assert asked(text)
    assert not eval(text)


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("1.0000000000000000001 - 1", "0.0000000000000000001"), ("12345678901234567890 - 12345678901234567889", "1"),
        ("9007199254740993 - 9007199254740992", "1"), ("0.12345678901234567891", "0.12345678901234567891"),
    ],
)  # fmt: skip
def test_every_digit_of_a_number_written_in_a_formula_counts(text: str, wanted: str) -> None:
    assert value(text) == Decimal(wanted)


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize("text", ["1/0", "0/0", "sqrt(-1)", "x/(x - x)"])
def test_what_is_undefined_has_no_value(text: str) -> None:
    with pytest.raises(formula.FormulaError):
        value(text, x="3")


@pytest.mark.source("General Decimal Arithmetic")
@pytest.mark.parametrize("operator", ["+", "-", "*", "/"])
def test_random_operands_are_rounded_once_and_rightly(operator: str, checked: Callable[[int], None]) -> None:
    rng = random.Random(ord(operator))
    rounded = 0
    for _ in range(400):
        a, b = (Decimal(rng.randrange(1, 10 ** rng.choice((3, 19)))).scaleb(-rng.choice((0, 1, 9, 18))) for _ in "ab")
        x, y = Fraction(a), Fraction(b)
        exact = {"+": x + y, "-": x - y, "*": x * y, "/": x / y}[operator]
        found = value(f"a {operator} b", a=format(a, "f"), b=format(b, "f"))
        assert found == to_28_digits(exact)
        rounded += Fraction(found) != exact
    assert rounded > 50
    checked(400)


@pytest.mark.source("General Decimal Arithmetic")
def test_roots_of_whole_numbers_are_rightly_rounded(checked: Callable[[int], None]) -> None:
    for radicand in range(1, 1001):
        assert value("sqrt(n)", n=str(radicand)) == root_to_28_digits(radicand)
    checked(1000)


@pytest.mark.source("General Decimal Arithmetic")
def test_a_power_is_a_product_rounded_at_each_step(checked: Callable[[int], None]) -> None:
    rng = random.Random(6)
    for _ in range(100):
        base = Decimal(rng.randrange(1, 10**10)) / 10 ** rng.randrange(10)
        wanted = base
        for power in range(2, 7):
            wanted = to_28_digits(Fraction(wanted) * Fraction(base))
            assert value(f"n**{power}", n=format(base, "f")) == wanted
    checked(500)
