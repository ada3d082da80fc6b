"""Numbers as people type them in a shop, exact to the last digit."""

import decimal
import re
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

PRECISION = 28
MOST_DIGITS = 20
CONTEXT = decimal.Context(
    prec=PRECISION,
    rounding=decimal.ROUND_HALF_EVEN,
    traps=[decimal.InvalidOperation, decimal.DivisionByZero, decimal.Overflow, decimal.Subnormal],
)
WIDE = decimal.Context(prec=120, rounding=decimal.ROUND_HALF_EVEN, Emax=9_999_999, Emin=-9_999_999, traps=[])
"""Wide enough that products of what is typed, of limits and of exact factors are never rounded."""

FRACTION_SIGNS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6",
}  # fmt: skip
MARKS = {"′": "'", "’": "'", "″": '"', "”": '"', "''": '"'}
FINEST = 128

DIGIT = re.compile(r"[0-9]")
DECIMAL = re.compile(r"[0-9]+(?:\.[0-9]*)?|\.[0-9]+")
FRACTION = re.compile(r"(?:([0-9]+)(?: |-| - ))?([0-9]+)/([0-9]+)")
FEET = re.compile(r"([0-9]+)\s*(?:'|ft\.?)(?:\s*-?\s*(.+))?")


class NumberError(ValueError):
    """What was typed is no number, or could be read in two ways. The message says what to type instead."""


@dataclass(frozen=True)
class Typed:
    """A number as it was meant, and a word of doubt where there is one."""

    value: Decimal
    doubt: str = ""


class Quotient(NamedTuple):
    """A value kept as a division not yet done, so that nothing is rounded before it is compared. under is above 0."""

    over: Decimal
    under: Decimal

    def value(self) -> Decimal:
        """Divided, to 28 digits; for show and for what is worked out from it, not for the verdict."""
        return CONTEXT.plus(CONTEXT.divide(self.over, self.under))

    def less(self, limit: Decimal) -> "Quotient":
        return Quotient(WIDE.subtract(self.over, WIDE.multiply(limit, self.under)), self.under)

    def negative(self) -> "Quotient":
        return Quotient(WIDE.minus(self.over), self.under)

    def compare(self, other: "Quotient") -> int:
        """-1, 0 or 1 by cross-multiplying."""
        return int(WIDE.multiply(self.over, other.under).compare(WIDE.multiply(other.over, self.under)))


def parse(text: str, comma: bool = False) -> Typed:
    """The value of what was typed: `1 7/8`, `1-7/8`, `7/8`, `⅞`, `.875`, `2' 6 1/2"`, with a sign before it.

    comma: whether the shop's locale writes decimals with a comma; a point is then refused, as a comma is otherwise.
    Raises NumberError where the text is no number or is ambiguous.
    """
    shown = text.strip()
    body = spelled_out(shown)
    sign = 1
    if body[:1] in ("-", "−", "+"):
        sign = -1 if body[0] in "-−" else 1
        body = body[1:].strip()
    if not body:
        raise NumberError("Nothing was typed. Type a number such as 1 7/8 or .875.")
    if len(DIGIT.findall(body)) > MOST_DIGITS:
        raise NumberError(f"'{shown[:40]}' has more than {MOST_DIGITS} digits. Type fewer.")
    typed = parse_feet(body, shown, comma)
    return Typed(CONTEXT.multiply(typed.value, Decimal(sign)) + 0, typed.doubt)


def spelled_out(text: str) -> str:
    """The text with fraction signs as digits, plain marks for feet and inches, and single plain blanks."""
    for mark, plain in MARKS.items():
        text = text.replace(mark, plain)
    for sign, digits in FRACTION_SIGNS.items():
        text = text.replace(sign, f" {digits} ")
    text = text.replace("⁄", "/")
    return re.sub(r"\s*/\s*", "/", re.sub(r"\s+", " ", text).strip())


def parse_feet(body: str, shown: str, comma: bool) -> Typed:
    inches = re.sub(r'\s*(?:"|in\.?)$', "", body)
    feet = FEET.fullmatch(inches)
    if not feet:
        if inches != body and not inches:
            raise NumberError(f"'{shown}' has no number before its inch mark. Type a number such as 1 7/8.")
        return parse_plain(inches, shown, comma)
    rest = parse_plain(feet[2], shown, comma) if feet[2] else Typed(Decimal(0))
    if rest.value >= 12:
        raise NumberError(f"'{shown}' has 12 inches or more beside its feet. Type it in inches alone.")
    return Typed(CONTEXT.add(CONTEXT.multiply(Decimal(feet[1]), Decimal(12)), rest.value), rest.doubt)


def parse_plain(body: str, shown: str, comma: bool) -> Typed:
    fraction = FRACTION.fullmatch(body)
    if fraction:
        return parse_fraction(fraction, shown)
    return Typed(parse_decimal(body, shown, comma))


def parse_fraction(match: re.Match[str], shown: str) -> Typed:
    whole, over, under = (int(group or 0) for group in match.groups())
    if under == 0:
        raise NumberError(f"'{shown}' divides by zero. Type the fraction again.")
    if under == 1 or under & (under - 1) or under > FINEST:
        raise NumberError(f"'{shown}' is no fraction of a rule: its lower figure is not 2, 4, 8, 16, 32, 64 or 128.")
    if match[1] is not None and over >= under:
        raise NumberError(f"'{shown}' has a fraction of one or more beside a whole number. Type it again.")
    value = CONTEXT.add(Decimal(whole), CONTEXT.divide(Decimal(over), Decimal(under)))
    return Typed(value, doubt_of_run_together(over, under, match[1] is not None))


def doubt_of_run_together(over: int, under: int, has_whole: bool) -> str:
    """A word of doubt at `17/8`, which may be `1 7/8` with the blank left out."""
    digits = str(over)
    for cut in range(1, len(digits)):
        whole, rest = digits[:cut], digits[cut:]
        if not has_whole and rest[0] != "0" and int(rest) < under < over and int(rest) % 2:
            return f"{over}/{under} or {whole} {rest}/{under}?"
    return ""


def parse_decimal(body: str, shown: str, comma: bool) -> Decimal:
    if "," in body and "." in body:
        raise NumberError(f"'{shown}' has a comma and a point. Type it without one of them.")
    if "," in body and not comma:
        raise NumberError(f"'{shown}' has a comma. Type the decimals after a point.")
    if "." in body and comma:
        raise NumberError(f"'{shown}' has a point. Type the decimals after a comma.")
    plain = body.replace(",", ".")
    if DECIMAL.fullmatch(plain):
        return Decimal(plain)
    if re.fullmatch(r"[0-9]+ [0-9]+", body):
        raise NumberError(f"'{shown}' stops in the middle of a fraction. Type the figure under the line as well.")
    raise NumberError(f"'{shown[:40]}' is not a number. Type one such as 1 7/8 or .875.")


def text_of(value: Decimal) -> str:
    """The exact value in plain figures, without an exponent, without zeros at the end, never -0."""
    if value == 0:
        return "0"
    text = format(value, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


MOST_SHOWN = 6
"""Decimals of a value that are all shown; of one that has more, as after a division, only so many as tell something."""


def shown_short(value: Decimal) -> str:
    """Exact up to six decimals, else four digits that count; for margins and converted readings, never for limits."""
    if decimals_of(value) <= MOST_SHOWN:
        return text_of(value)
    return text_of(decimal.Context(prec=4, rounding=decimal.ROUND_HALF_EVEN).plus(value))


def decimals_of(value: Decimal) -> int:
    return max(0, -int(value.normalize(WIDE).as_tuple().exponent))


def shown_inches(value: Decimal, finest: int = 64) -> str:
    """The value the shop's way: `1 7/8` where it lies on a rule's mark, else the exact decimal.

    finest: the finest division of the rule, a power of two.
    """
    marks = CONTEXT.multiply(abs(value), Decimal(finest))
    if marks != marks.to_integral_value():
        return text_of(value)
    return fraction_text(int(marks), finest, value < 0)


def nearest_fraction(value: Decimal, finest: int = 64) -> str:
    """The mark of the rule nearest to the value; half way goes to the even mark."""
    marks = int(CONTEXT.multiply(abs(value), Decimal(finest)).to_integral_value(decimal.ROUND_HALF_EVEN))
    return fraction_text(marks, finest, value < 0)


def fraction_text(marks: int, finest: int, negative: bool) -> str:
    if marks == 0:
        return "0"
    whole, over = divmod(marks, finest)
    while over and over % 2 == 0:
        over, finest = over // 2, finest // 2
    parts = ([str(whole)] if whole else []) + ([f"{over}/{finest}"] if over else [])
    return ("-" if negative else "") + " ".join(parts)
