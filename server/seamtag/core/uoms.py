"""Units of measure and the exact ratios between them.

A conversion is three whole numbers: value * times + plus, over `over`. Nothing is divided before it is compared, since
one psi, for one, has no finite decimal in pascals. Temperatures and temperature intervals are different quantities.

Sources: International Yard and Pound, 1959 (in, lb); CGPM 1901 (standard gravity); SI Brochure (the rest).
"""

from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from seamtag.core.numbers import WIDE, Quotient


class Conversion(NamedTuple):
    """From one uom to another, all three exact whole numbers; over is above 0."""

    times: Decimal
    plus: Decimal
    over: Decimal

    def of(self, value: Decimal) -> Quotient:
        return Quotient(WIDE.add(WIDE.multiply(value, self.times), self.plus), self.over)

    def of_interval(self, value: Decimal) -> Quotient:
        """Of a difference or an uncertainty, which has no zero point."""
        return Quotient(WIDE.multiply(value, self.times), self.over)


SAME = Conversion(Decimal(1), Decimal(0), Decimal(1))


class Uom(NamedTuple):
    """What is measured, and the value in the quantity's base unit: (value * times + plus) / over."""

    quantity: str
    times: int
    over: int = 1
    plus: int = 0


INCH = (127, 5000)
POUND_FORCE = (8896443230521, 2000000000000)

UOMS: Mapping[str, Uom] = {
    "in": Uom("length", *INCH), "ft": Uom("length", 381, 1250), "mil": Uom("length", 127, 5000000),
    "m": Uom("length", 1), "cm": Uom("length", 1, 100), "mm": Uom("length", 1, 1000), "um": Uom("length", 1, 1000000),
    "in2": Uom("area", 16129, 25000000), "m2": Uom("area", 1), "cm2": Uom("area", 1, 10000),
    "mm2": Uom("area", 1, 1000000),
    "deg": Uom("angle", 1),
    "degF": Uom("temperature", 500, 900, 229835), "degC": Uom("temperature", 100, 100, 27315),
    "degF interval": Uom("temperature interval", 5, 9), "degC interval": Uom("temperature interval", 1),
    "psi": Uom("pressure", 8896443230521, 1290320000), "ksi": Uom("pressure", 8896443230521, 1290320),
    "Pa": Uom("pressure", 1), "kPa": Uom("pressure", 1000), "MPa": Uom("pressure", 1000000),
    "bar": Uom("pressure", 100000), "kgf/cm2": Uom("pressure", 196133, 2),
    "lb": Uom("mass", 45359237, 100000000), "kg": Uom("mass", 1), "g": Uom("mass", 1, 1000),
    "lbf": Uom("force", *POUND_FORCE), "N": Uom("force", 1), "kN": Uom("force", 1000),
    "ft.lbf": Uom("energy", 3389544870828501, 2500000000000000), "J": Uom("energy", 1), "kJ": Uom("energy", 1000),
    "lbf.ft": Uom("torque", 3389544870828501, 2500000000000000), "N.m": Uom("torque", 1),
    "kJ/in": Uom("energy by length", 5000000, 127), "kJ/mm": Uom("energy by length", 1000000),
    "J/in": Uom("energy by length", 5000, 127), "J/mm": Uom("energy by length", 1000),
    "in/min": Uom("speed", 127, 300000), "mm/min": Uom("speed", 1, 60000), "mm/s": Uom("speed", 1, 1000),
    "cm/min": Uom("speed", 1, 6000),
    "ft3/h": Uom("flow", 18435447, 2343750000000), "L/min": Uom("flow", 1, 60000),
    "V": Uom("voltage", 1), "A": Uom("current", 1),
    "s": Uom("time", 1), "min": Uom("time", 60), "h": Uom("time", 3600),
    "count": Uom("number", 1), "%": Uom("share", 1),
    "in/ft": Uom("slope", 1, 12), "mm/m": Uom("slope", 1, 1000),
    "HB": Uom("Brinell hardness", 1), "HV": Uom("Vickers hardness", 1),
    "HRB": Uom("Rockwell B hardness", 1), "HRC": Uom("Rockwell C hardness", 1),
}  # fmt: skip


@lru_cache(512)
def conversion(written: str, wanted: str) -> Conversion | None:
    """From one uom to another; None where they measure different things or are not known."""
    if written == wanted:
        return SAME
    a, b = UOMS.get(written), UOMS.get(wanted)
    if a is None or b is None or a.quantity != b.quantity:
        return None
    return Conversion(Decimal(a.times * b.over), Decimal(a.plus * b.over - b.plus * a.over), Decimal(a.over * b.times))


COUNTERPARTS: Mapping[str, tuple[str, str]] = {
    "in": ("mm", "0.01"), "mm": ("in", "0.0001"), "ft": ("m", "0.001"), "m": ("ft", "0.001"),
    "in2": ("mm2", "0.1"), "mm2": ("in2", "0.001"), "degF": ("degC", "0.1"), "degC": ("degF", "0.1"),
    "psi": ("bar", "0.01"), "bar": ("psi", "0.1"), "kJ/in": ("kJ/mm", "0.001"), "kJ/mm": ("kJ/in", "0.01"),
    "in/min": ("mm/min", "0.1"), "mm/min": ("in/min", "0.01"), "lb": ("kg", "0.01"), "kg": ("lb", "0.01"),
}  # fmt: skip
"""The uom of the other system in which a limit is shown as well, and the place to which it is."""
