"""Quantities of the trade: welds, rolled tubes, stayed plates, hydrostatic tests, welders' qualification.

Every step is worked in numbers.CONTEXT, in the order in which the phone's twin works it, so that both give the same
last digit. Nothing here judges: the factors, stresses and limits are those of the code edition in force, and are given
by whoever asks.
"""

import re
from collections.abc import Mapping
from decimal import Decimal

from seamtag.core.numbers import CONTEXT, text_of

ONE = Decimal(1)

EFFICIENCY: Mapping[str, Decimal] = {
    "SAW": Decimal("1.0"),
    "SMAW": Decimal("0.8"), "FCAW": Decimal("0.8"), "GMAW": Decimal("0.8"),
    "GTAW": Decimal("0.6"), "PAW": Decimal("0.6"),
}  # fmt: skip
"""Thermal efficiency by welding process. Source: TWI, FAQ on heat input and arc energy, read."""

WATER: Mapping[str, tuple[Decimal, Decimal, str]] = {
    "46 CFR 61.05-5 firetube": (Decimal(70), Decimal(100), "degF"),
    "46 CFR 61.05-5 watertube": (Decimal(70), Decimal(160), "degF"),
    "34 Pa. Code 3a.115": (Decimal(70), Decimal(120), "degF"),
    "IBR 379": (Decimal(20), Decimal(50), "degC"),
}
"""Temperature of the water of a hydrostatic test: lowest, highest, uom; both ends are allowed.

Sources: 46 CFR 61.05-5(b), 34 Pa. Code 3a.115(a) and Indian Boiler Regulations 379(iii), each read.
"""

FHVO = ("F", "H", "V", "O")
POSITIONS: Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "plate 1G": (("F",), ("F",)),
    "plate 2G": (("F", "H"), ("F", "H")),
    "plate 3G": (("F", "V"), ("F", "H", "V")),
    "plate 4G": (("F", "O"), ("F", "H", "O")),
    "plate 3G+4G": (("F", "V", "O"), FHVO),
    "plate 2G+3G+4G": (FHVO, FHVO),
    "pipe 1G": (("F",), ("F",)),
    "pipe 2G": (("F", "H"), ("F", "H")),
    "pipe 5G": (("F", "V", "O"), FHVO),
    "pipe 6G": (FHVO, FHVO),
    "pipe 2G+5G": (FHVO, FHVO),
}
"""Positions a welder's test qualifies for: of groove welds, then of fillet welds. F flat, H horizontal, V vertical,
O overhead.

What plates say holds for grooves of plate, and of pipe over 24 in: in pipe of 24 in and less the plate tests 1G, 3G and
4G qualify grooves in the flat position only. Source: ASME Section IX, QW-461.9, read second-hand.
"""

STAY_PLATE = Decimal("0.4375")
MOST_LAYERED = Decimal("0.5")
LAYERS = 3
SMALL_PIPE = ONE
LARGE_PIPE = Decimal("2.875")
MONTHS = 6

DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
Day = tuple[int, int, int]
"""Year, month and day of the month, which compare as days do."""


class NoAnswerError(ValueError):
    """The quantity has no value for what was given. The message says what is wrong, with what."""


def ask_above_zero(what: str, value: Decimal) -> None:
    if value <= 0:
        raise NoAnswerError(f"{what} must be above 0, and it is {text_of(value)}")


def ask_not_below_zero(what: str, value: Decimal) -> None:
    if value < 0:
        raise NoAnswerError(f"{what} must not be below 0, and it is {text_of(value)}")


def throat(leg_1: Decimal, leg_2: Decimal) -> Decimal:
    """Theoretical throat of a fillet weld with a right angle between its legs, in the uom of the legs.

    Raises NoAnswerError unless both legs are above 0. Source: geometry, height of a right triangle on its hypotenuse.
    """
    ask_above_zero("the first leg", leg_1)
    ask_above_zero("the second leg", leg_2)
    squares = CONTEXT.add(CONTEXT.multiply(leg_1, leg_1), CONTEXT.multiply(leg_2, leg_2))
    return CONTEXT.divide(CONTEXT.multiply(leg_1, leg_2), CONTEXT.sqrt(squares))


def arc_energy(volts: Decimal, amps: Decimal, travel: Decimal) -> Decimal:
    """Arc energy in kJ for each unit of length, 60 V I / (1000 S): kJ/in of in/min, kJ/mm of mm/min.

    travel: length welded in a minute. It is not the heat input: no efficiency of the process is in it. Several American
    codes call this very quantity heat input, so a record must say which of the two is meant.
    Raises NoAnswerError where travel is not above 0, or volts or amps are below 0.
    Source: TWI, FAQ on heat input and arc energy, read. That Section IX, QW-409.1 uses no efficiency: from memory, not
    opened.
    """
    ask_not_below_zero("the volts", volts)
    ask_not_below_zero("the amps", amps)
    ask_above_zero("the travel", travel)
    energy = CONTEXT.multiply(CONTEXT.multiply(Decimal(60), volts), amps)
    return CONTEXT.divide(energy, CONTEXT.multiply(Decimal(1000), travel))


def heat_input(volts: Decimal, amps: Decimal, travel: Decimal, efficiency: Decimal) -> Decimal:
    """Heat input in kJ for each unit of length: the arc energy times the thermal efficiency of the process.

    It is not the arc energy, although several American codes give that the name of heat input; a record must say which
    is meant. efficiency: above 0 and not above 1, as in EFFICIENCY.
    Raises NoAnswerError as arc_energy does, and where the efficiency is outside its range.
    Source: TWI, FAQ on heat input and arc energy, read.
    """
    ask_above_zero("the efficiency", efficiency)
    if efficiency > 1:
        raise NoAnswerError(f"the efficiency must not be above 1, and it is {text_of(efficiency)}")
    return CONTEXT.multiply(arc_energy(volts, amps, travel), efficiency)


def carbon_equivalent(
    c: Decimal, mn: Decimal, cr: Decimal, mo: Decimal, v: Decimal, ni: Decimal, cu: Decimal
) -> Decimal:
    """Carbon equivalent by the formula of the IIW, C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15, in weight per cent.

    Raises NoAnswerError where a share is below 0 or above 100. Source: public calculators with the formula, read.
    """
    shares = (("C", c), ("Mn", mn), ("Cr", cr), ("Mo", mo), ("V", v), ("Ni", ni), ("Cu", cu))
    for element, share in shares:
        ask_not_below_zero(f"the share of {element}", share)
        if share > 100:
            raise NoAnswerError(f"the share of {element} must not be above 100, and it is {text_of(share)}")
    hardening = CONTEXT.divide(CONTEXT.add(CONTEXT.add(cr, mo), v), Decimal(5))
    others = CONTEXT.divide(CONTEXT.add(ni, cu), Decimal(15))
    return CONTEXT.add(CONTEXT.add(CONTEXT.add(c, CONTEXT.divide(mn, Decimal(6))), hardening), others)


def wall_reduction(hole: Decimal, od: Decimal, id_before: Decimal, id_after: Decimal) -> Decimal:
    """Reduction of a tube's wall by rolling, in per cent of both walls (od - id_before), not of one.

    hole, od, id_before, id_after: diameters of the tube hole, of the tube outside, and inside it before and after
    rolling, all in one uom. 0 is bare contact with the hole.
    Raises NoAnswerError where the tube has not come to the hole yet, where it has no wall, and where it does not go in.
    Source: a guide to tube expanding by a maker of the tools, read.
    """
    contact = diameter_at_contact(hole, od, id_before)
    if id_after < contact:
        growth = CONTEXT.subtract(contact, id_after)
        raise NoAnswerError(
            f"not yet in contact: the inside diameter is {text_of(id_after)}, and must first grow by "
            f"{text_of(growth)} to {text_of(contact)}"
        )
    rolled = CONTEXT.subtract(id_after, contact)
    return CONTEXT.divide(CONTEXT.multiply(Decimal(100), rolled), CONTEXT.subtract(od, id_before))


def target_id(hole: Decimal, od: Decimal, id_before: Decimal, percent: Decimal) -> Decimal:
    """Inside diameter to roll a tube to, for a wall reduction in per cent of both walls, in the uom of the diameters.

    Raises NoAnswerError where the per cent are below 0, and for hole and tube as wall_reduction does.
    Source: the formula of wall_reduction, turned round.
    """
    ask_not_below_zero("the wall reduction", percent)
    contact = diameter_at_contact(hole, od, id_before)
    walls = CONTEXT.subtract(od, id_before)
    return CONTEXT.add(contact, CONTEXT.multiply(CONTEXT.divide(percent, Decimal(100)), walls))


def diameter_at_contact(hole: Decimal, od: Decimal, id_before: Decimal) -> Decimal:
    """Inside diameter at which a tube comes to its hole. Raises NoAnswerError where there is no such tube or no fit."""
    ask_above_zero("the inside diameter before rolling", id_before)
    if od <= id_before:
        raise NoAnswerError(
            f"the tube has no wall: its outside diameter {text_of(od)} is not above its inside diameter "
            f"{text_of(id_before)}"
        )
    if hole < od:
        raise NoAnswerError(
            f"the tube does not go in: the hole {text_of(hole)} is below its outside diameter {text_of(od)}"
        )
    return CONTEXT.add(id_before, CONTEXT.subtract(hole, od))


def stay_constant(t: Decimal) -> Decimal:
    """C of a plate held by welded stays, or by stays screwed through with their ends riveted over: 2.1 or 2.2.

    t: thickness of the plate in inches; C changes above 7/16 in. Raises NoAnswerError where t is not above 0.
    Source: ASME Section I, PG-46.1 of 2007, read second-hand.
    """
    ask_above_zero("the thickness", t)
    return Decimal("2.1") if t <= STAY_PLATE else Decimal("2.2")


def stayed_plate_pressure(t: Decimal, pitch: Decimal, s: Decimal, c: Decimal) -> Decimal:
    """Pressure that a stayed flat plate bears, t^2 S C / p^2, in the uom of the stress.

    t, pitch: thickness of the plate and greatest pitch of the stays, in one uom. s: allowable stress. c: constant of
    the kind of stay. Raises NoAnswerError unless all are above 0.
    Source: NBIC Part 2, S2.10.4, read in National Board item NB12-1201.
    """
    ask_above_zero("the thickness", t)
    ask_above_zero("the pitch", pitch)
    ask_stress_and_constant(s, c)
    borne = CONTEXT.multiply(CONTEXT.multiply(CONTEXT.multiply(t, t), s), c)
    return CONTEXT.divide(borne, CONTEXT.multiply(pitch, pitch))


def stayed_plate_thickness(pressure: Decimal, pitch: Decimal, s: Decimal, c: Decimal) -> Decimal:
    """Least thickness of a stayed flat plate, p sqrt(P / (C S)), in the uom of the pitch.

    pressure, s: pressure and allowable stress, in one uom. c: constant of the kind of stay.
    Raises NoAnswerError unless all are above 0. Source: as stayed_plate_pressure.
    """
    ask_above_zero("the pressure", pressure)
    ask_above_zero("the pitch", pitch)
    ask_stress_and_constant(s, c)
    return CONTEXT.multiply(pitch, CONTEXT.sqrt(CONTEXT.divide(pressure, CONTEXT.multiply(c, s))))


def stay_pitch(pressure: Decimal, t: Decimal, s: Decimal, c: Decimal) -> Decimal:
    """Greatest pitch of the stays of a flat plate, t sqrt(C S / P), in the uom of the thickness.

    pressure, s: pressure and allowable stress, in one uom. c: constant of the kind of stay.
    Raises NoAnswerError unless all are above 0. Source: as stayed_plate_pressure.
    """
    ask_above_zero("the pressure", pressure)
    ask_above_zero("the thickness", t)
    ask_stress_and_constant(s, c)
    return CONTEXT.multiply(t, CONTEXT.sqrt(CONTEXT.divide(CONTEXT.multiply(c, s), pressure)))


def ask_stress_and_constant(s: Decimal, c: Decimal) -> None:
    ask_above_zero("the stress", s)
    ask_above_zero("the constant C", c)


def test_pressure(mawp: Decimal, factor: Decimal, stress_ratio: Decimal = ONE) -> Decimal:  # noqa: PT028
    """Pressure of a hydrostatic test, factor times MAWP times stress ratio, in the uom of the MAWP.

    factor: of the rule in force (1.5, 1.3 and 1.25 are all in use). stress_ratio: allowable stress at the temperature
    of the test to that at the design temperature; one below 1 counts as 1.
    Raises NoAnswerError unless all are above 0.
    Sources: 46 CFR 61.05-10(c) for boilers, 46 CFR 54.10-10(b) for vessels and the ratio, each read.
    """
    ask_above_zero("the MAWP", mawp)
    ask_above_zero("the factor", factor)
    ask_above_zero("the stress ratio", stress_ratio)
    return CONTEXT.multiply(CONTEXT.multiply(factor, mawp), max(stress_ratio, ONE))


def test_ceiling(test_pressure: Decimal) -> Decimal:
    """Pressure that a hydrostatic test must never pass, 106 per cent of the test pressure, in its uom.

    Raises NoAnswerError unless it is above 0. Sources: 34 Pa. Code 3a.115(a) and IBR 379(iv), each read.
    """
    ask_above_zero("the test pressure", test_pressure)
    return CONTEXT.multiply(Decimal("1.06"), test_pressure)


def gauge_range(test_pressure: Decimal) -> tuple[Decimal, Decimal, Decimal]:
    """Top of scale of a test gauge: lowest (1.5 times the test pressure), about (2 times), highest (4 times).

    All in the uom of the test pressure. Raises NoAnswerError unless it is above 0.
    Source: ASME Section VIII-1, UG-102, from memory, not opened.
    """
    ask_above_zero("the test pressure", test_pressure)
    return (
        CONTEXT.multiply(Decimal("1.5"), test_pressure),
        CONTEXT.multiply(Decimal(2), test_pressure),
        CONTEXT.multiply(Decimal(4), test_pressure),
    )


def most_thickness(coupon: Decimal, layers: int) -> Decimal | None:
    """Greatest thickness of weld metal a welder's test qualifies for, in inches; None where there is no maximum.

    coupon: thickness of the weld metal in the coupon, in inches. layers: in which it was laid.
    Twice the coupon; from 1/2 in with at least three layers there is no maximum.
    Raises NoAnswerError where the coupon is not above 0 or there is no layer.
    Source: ASME Section IX, QW-452.1(b), read second-hand.
    """
    ask_above_zero("the thickness of the coupon", coupon)
    if layers < 1:
        raise NoAnswerError(f"the coupon must have at least 1 layer, and it has {layers}")
    if coupon >= MOST_LAYERED and layers >= LAYERS:
        return None
    return CONTEXT.multiply(Decimal(2), coupon)


def least_od(coupon_od: Decimal) -> Decimal:
    """Least outside diameter of pipe a welder's test qualifies for, in inches. There is no greatest.

    coupon_od: outside diameter of the pipe that was welded, in inches. Under 1 in it is that diameter itself, from 1 to
    2 7/8 in it is 1 in, above it is 2 7/8 in. Raises NoAnswerError where it is not above 0.
    Source: ASME Section IX, QW-452.3, read second-hand.
    """
    ask_above_zero("the outside diameter of the coupon", coupon_od)
    if coupon_od < SMALL_PIPE:
        return coupon_od
    return SMALL_PIPE if coupon_od <= LARGE_PIPE else LARGE_PIPE


def lapses_on(last: str) -> str:
    """Day on which a welder's qualification for a process lapses, as an ISO date.

    last: ISO date of the last weld made with that process. Six calendar months later; where that month is too short,
    its last day. Raises NoAnswerError where last is no date.
    Source: ASME Section IX, QW-322.1, read second-hand. Calendar months and the clamped end are our reading of it.
    """
    year, month, day = six_months_after(day_of(last))
    return f"{year:04}-{month:02}-{day:02}"


def has_lapsed(last: str, on: str) -> bool:
    """Whether a welder's qualification for a process has lapsed on a day; on the day of lapses_on it has.

    last: ISO date of the last weld made with that process up to the day asked. on: ISO date of that day.
    Raises NoAnswerError where either is no date, or the last weld is after the day asked: it tells nothing of that day.
    """
    welded, asked = day_of(last), day_of(on)
    if welded > asked:
        raise NoAnswerError(f"the last weld, {last}, is after the day asked, {on}")
    return asked >= six_months_after(welded)


def six_months_after(day: Day) -> Day:
    year, month, of_month = day
    month += MONTHS
    if month > len(DAYS):
        year, month = year + 1, month - len(DAYS)
    return year, month, min(of_month, days_of(year, month))


def day_of(text: str) -> Day:
    """The day of an ISO date. Raises NoAnswerError where it is none, or no day of the calendar."""
    date = DATE.fullmatch(text)
    if not date:
        raise NoAnswerError(f"'{text[:40]}' is not a date such as 2025-01-15")
    year, month, day = (int(part) for part in date.groups())
    if year < 1 or not 1 <= month <= len(DAYS) or not 1 <= day <= days_of(year, month):
        raise NoAnswerError(f"'{text}' is no day of the calendar")
    return year, month, day


def is_day(text: str) -> bool:
    """Whether a text is an ISO date of the calendar."""
    try:
        day_of(text)
    except NoAnswerError:
        return False
    return True


def days_of(year: int, month: int) -> int:
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return 29 if month == 2 and leap else DAYS[month - 1]
