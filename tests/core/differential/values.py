"""Numbers as a shop has them and types them, and values that lie at a limit or a hair beside it."""

import random
from collections.abc import Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import Any

from seamtag.core import uoms
from seamtag.core.numbers import CONTEXT, MOST_DIGITS, WIDE, Quotient, text_of

FAMILIES: Sequence[Sequence[str]] = (
    ("in", "mm", "ft", "mil", "um", "cm", "m"), ("psi", "bar", "ksi", "kPa", "MPa", "kgf/cm2", "Pa"),
    ("degF", "degC"), ("kJ/in", "kJ/mm", "J/in", "J/mm"), ("in2", "mm2", "cm2"), ("lbf", "kN", "N"),
    ("in/min", "mm/min", "mm/s", "cm/min"), ("ft.lbf", "J", "kJ"), ("ft3/h", "L/min"), ("lb", "kg", "g"),
    ("lbf.ft", "N.m"), ("in/ft", "mm/m"), ("degF interval", "degC interval"), ("h", "min", "s"), ("HB",), ("",),
)  # fmt: skip
WEIGHTS = (8, 4, 3, 2) + (1,) * (len(FAMILIES) - 4)
NO_UOMS = ("inch", "IN", "furlong", "constructor", "psig")
PLACES = ("1", "0.1", "0.01", "0.001", "100", "5", "0.0625", "0.015625", "0.5")
SIGNS = {"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞"}
GARBAGE = "0123456789 /-.,'\"+½⅞⅓⁄−′″’”ftin\t\u00a0\u2028\x85\x1c\ufeff²٣xe_"
ODD = ("", " ", "-", "1/", "/8", "1 7", "⅓", "2⅔", "1/3", "3/256", "5/1", "1/0", "1 9/8", "abc", "1.2.3", "1e5", "NaN",
       "1,234.5", "2' 13\"", "½½", '"', "in", "6'''", "0x1F", "1_000", "٣", "12345678901234567890123", "--1", "17/8",
       "2 ft 31/16", "𝟙 1/2 or thereabouts, said the man with the rule in his hand")  # fmt: skip
FEET, INCHES = ("'", "′", "’", " ft"), ("", '"', "″", "”", "''", "′′", " in")


def plain(value: Decimal) -> bool:
    """Whether a value can be typed: with twenty digits in all, the nought before the point among them."""
    return sum(sign.isdigit() for sign in text_of(value)) <= MOST_DIGITS


def finest(value: Decimal) -> Decimal:
    """One unit of the last of the twenty digits that can be typed."""
    return Decimal(1).scaleb(max(1, value.adjusted() + 1) - MOST_DIGITS)


def divided(quotient: Quotient) -> Decimal:
    """Exact where the division comes to an end within 120 digits."""
    return WIDE.divide(quotient.over, quotient.under)


def converted(value: Decimal, written: str, wanted: str, interval: bool = False) -> Decimal:
    """The value itself where there is no way."""
    way = uoms.conversion(written, wanted)
    if way is None:
        return value
    return divided(way.of_interval(value) if interval else way.of(value))


class Values:
    """All drawn from one stream of chance."""

    def __init__(self, seed: int) -> None:
        self.rng = random.Random(seed)
        self.tables: list[dict[str, Any]] = []

    def chance(self, share: float) -> bool:
        return self.rng.random() < share

    def family(self) -> Sequence[str]:
        return self.rng.choices(FAMILIES, WEIGHTS)[0]

    def value(self) -> Decimal:
        """A number of the shop, or now and then one of all twenty digits."""
        rng = self.rng
        match rng.randrange(13):
            case 0 | 1 | 2 | 3:
                return Decimal(rng.randint(0, 64 * 12)) / 64
            case 4 | 5 | 6:
                return Decimal(rng.randint(0, 9999)).scaleb(-3)
            case 7:
                return Decimal(rng.randint(1, 400))
            case 8:
                return Decimal(rng.randint(1, 10**8)).scaleb(-rng.randint(0, 8))
            case 9:
                return Decimal(rng.randint(1, 10**20 - 1)).scaleb(-rng.randint(0, 19))
            case 10:
                return -Decimal(rng.randint(0, 9999)).scaleb(-3)
            case 11:
                return Decimal(rng.choice((0, 1, 10, 100, 36000, 212)))
        return Decimal(rng.randint(1, 999)).scaleb(-rng.randint(6, 16))

    def typeable(self, value: Decimal) -> Decimal:
        """The value itself, else one that can be typed right below or above it."""
        if plain(value):
            return value
        if value.adjusted() >= MOST_DIGITS - 1:
            return Decimal(self.rng.choice(("12345678901234567890", "9" * 20, "1"))).copy_sign(value)
        near = value.quantize(finest(value), self.rng.choice((ROUND_FLOOR, ROUND_CEILING)), WIDE)
        return near if plain(near) else Decimal(1)

    # As typed

    def typed(self, value: Decimal, comma: bool = False) -> str:
        """One of the ways to type a value."""
        rng, size = self.rng, abs(value)
        sign = rng.choice(("-", "-", "−", "- ")) if value < 0 else rng.choice(("", "", "", "", "+"))
        marks = size * 128
        if size < 10**12 and marks == marks.to_integral_value() and self.chance(0.6):
            return sign + self.on_a_rule(size)
        text = text_of(size)
        if "." in text and self.chance(0.1):
            text += "0" if sum(one.isdigit() for one in text) < MOST_DIGITS else ""
        if text.startswith("0.") and self.chance(0.5):
            text = text[1:]
        return sign + (text.replace(".", ",") if comma else text) + rng.choice(("",) * 8 + (" ", " in", '"', "″"))

    def on_a_rule(self, size: Decimal) -> str:
        rng = self.rng
        whole, over, under = int(size), int(size % 1 * 128), 128
        while over and over % 2 == 0:
            over, under = over // 2, under // 2
        part = f"{over}/{under}" if over else ""
        if over and under <= 64 and self.chance(0.2):
            part = f"{over * 2}/{under * 2}"
        part = SIGNS[part] if part in SIGNS and self.chance(0.3) else part
        if whole >= 12 and self.chance(0.4):
            feet, inches = divmod(whole, 12)
            rest = f"{inches or ''} {part}".strip()
            return f"{feet}{rng.choice(FEET)} {rest}{rng.choice(INCHES)}" if rest else f"{feet}{rng.choice(FEET)}"
        if part and whole and under >= 2 and part[0].isdigit() and self.chance(0.15):
            return f"{whole * under + over}/{under}"
        figures = [one for one in (str(whole) if whole else "", part) if one]
        joined = rng.choice((" ", " ", "-", "  ", " - ")).join(figures)
        return (joined or "0") + rng.choice(("", "", "", *INCHES))

    def garbage(self) -> str:
        if self.chance(0.5):
            return self.rng.choice(ODD)
        return "".join(self.rng.choices(GARBAGE, k=self.rng.randint(0, 12)))

    # At a limit

    def base(self, written: str, wanted: str) -> Decimal:
        """A limit that can be typed, and often one that a value of the uom written meets exactly."""
        value = self.value()
        exact = converted(value, written, wanted)
        return exact if plain(exact) else self.typeable(value)

    def uncertainty(self, gauge_uom: str, wanted: str) -> Decimal:
        """Often a round one in the uom of the limits."""
        nice = Decimal(self.rng.choice((1, 2, 3, 4, 5, 10, 25))).scaleb(-self.rng.randint(1, 4))
        exact = converted(nice, wanted, gauge_uom, True)
        if self.chance(0.02):
            return Decimal(0)
        return nice if not plain(exact) or self.chance(0.3) else exact

    def near(
        self, limits: Sequence[Decimal | None], written: str, wanted: str, apart: Decimal, place: str | None = None
    ) -> Decimal:
        """A value in the uom written, at a limit in the uom wanted, or U (apart) or half a place off, or a hair off."""
        rng = self.rng
        known = [limit for limit in limits if limit is not None]
        if not known or self.chance(0.08):
            return self.typeable(self.value())
        target = rng.choice(known)
        if place is not None and self.chance(0.6):
            halves = Decimal(rng.choice((-3, -2, -1, 1, 2, 3)))
            target = WIDE.add(target, WIDE.multiply(halves, WIDE.divide(Decimal(place), Decimal(2))))
        elif self.chance(0.35):
            target = WIDE.add(target, apart if self.chance(0.5) else WIDE.minus(apart))
        elif self.chance(0.35):
            target = WIDE.add(target, WIDE.multiply(apart, Decimal(rng.randint(-40, 40)).scaleb(-1)))
        value = converted(target, wanted, written)
        if self.chance(0.3):
            beside = finest(value) if self.chance(0.7) else Decimal(1).scaleb(-rng.randint(4, 18))
            value = WIDE.add(value, beside if self.chance(0.5) else WIDE.minus(beside))
        return self.typeable(value)


def third_of(value: Decimal, by: int) -> Decimal:
    """A value without an end."""
    return CONTEXT.divide(value, Decimal(by))
