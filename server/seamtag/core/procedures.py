"""A weld pass against the welding procedure it names: every value typed, beside the procedure's own range.

A procedure is {"id", "process", "positions": [F, H, V, O], "preheat_min", "interpass_max": degF, "volts", "amps",
"travel": [lowest, highest], "heat_input_max": kJ/in, "withdrawn": day} and more that is for show; numbers are texts,
and what it does not say is null. Both ends of a range are inside it. What is judged here is what was written down: the
written procedure and the code edition in force decide.
"""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, NamedTuple

from seamtag.core import limits, numbers, verdict
from seamtag.core.numbers import WIDE, text_of
from seamtag.core.welding import NoAnswerError, arc_energy

Procedure = Mapping[str, Any]

CHECKED = (("preheat", "degF"), ("interpass", "degF"), ("volts", "V"), ("amps", "A"), ("travel", "in/min"))
"""What a spot check reads, each with its uom."""
ARC = ("volts", "amps", "travel")
ENERGY_UOM = "kJ/in"
MOST_NAME = 40


class Range(NamedTuple):
    """What a procedure asks of a value; None where it sets no end."""

    lower: Decimal | None
    upper: Decimal | None

    def holds(self, value: Decimal) -> bool:
        return (self.lower is None or value >= self.lower) and (self.upper is None or value <= self.upper)

    @property
    def open(self) -> bool:
        return self.lower is None and self.upper is None

    def __str__(self) -> str:
        if self.lower is None:
            return f"at most {text_of(self.upper or Decimal(0))}"
        if self.upper is None:
            return f"at least {text_of(self.lower)}"
        return f"{text_of(self.lower)} to {text_of(self.upper)}"


def range_of(procedure: Procedure, name: str) -> Range:
    """What a procedure asks of one of CHECKED: of preheat a least, of interpass a most, of the others both."""
    if name == "preheat":
        return Range(number(procedure.get("preheat_min")), None)
    if name == "interpass":
        return Range(None, number(procedure.get("interpass_max")))
    lower, upper = procedure.get(name) or (None, None)
    return Range(number(lower), number(upper))


def number(text: str | None) -> Decimal | None:
    return Decimal(text) if text else None


def values_of(body: Mapping[str, Any]) -> dict[str, Decimal]:
    """The values typed in a weld record. Raises NumberError, which names the value, where one cannot be read."""
    found = {}
    for name, _ in CHECKED:
        typed = body.get(name) or ""
        if typed.strip():
            try:
                found[name] = numbers.parse(typed, bool(body.get("comma"))).value
            except numbers.NumberError as error:
                raise numbers.NumberError(f"{name}: {error}") from None
    return found


def word_of_pass(body: Mapping[str, Any], procedures: Mapping[str, Procedure], day: str) -> tuple[str, None, str]:
    """The word of a weld record in a shop that keeps procedures, with no margin, and the reason. day: it was made on.

    A procedure that is withdrawn counts for what was welded before that day.
    """
    name = body["procedure"].strip()
    procedure = procedures.get(name)
    if procedure is None:
        return (verdict.UNJUDGED, None, f"the procedure {name[:MOST_NAME]} is not known")
    withdrawn = procedure.get("withdrawn")
    if withdrawn and day >= withdrawn:
        return (verdict.UNJUDGED, None, f"the procedure {name} is withdrawn since {withdrawn}")
    try:
        values = values_of(body)
    except numbers.NumberError as error:
        return (verdict.UNJUDGED, None, str(error))
    ranges = {key: asked for key in values if not (asked := range_of(procedure, key)).open}
    outside = [f"{key} {text_of(values[key])}: {name} asks {ranges[key]} {uom}"
               for key, uom in CHECKED if key in ranges and not ranges[key].holds(values[key])]  # fmt: skip
    positions, position = procedure.get("positions") or [], body.get("position")
    if position and positions and position not in positions:
        outside.append(f"position {position}: {name} asks {', '.join(positions)}")
    most = number(procedure.get("heat_input_max")) if all(key in values for key in ARC) else None
    try:
        outside += [] if most is None else [f"{said}: {name} asks {Range(None, most)} {ENERGY_UOM}"
                                            for said in too_hot(values, most)]  # fmt: skip
    except NoAnswerError as error:
        return (verdict.OUT, None, "; ".join(outside)) if outside else (verdict.UNJUDGED, None, str(error))
    if outside:
        return (verdict.OUT, None, "; ".join(outside))
    return (verdict.IN if ranges or most is not None else verdict.RECORDED, None, "")


def too_hot(values: Mapping[str, Decimal], most: Decimal) -> list[str]:
    """The arc energy as it is shown where it is above the most, in kJ/in; compared without dividing, shown rounded up.

    Raises NoAnswerError where there is none.
    """
    volts, amps, travel = (values[key] for key in ARC)
    energy = arc_energy(volts, amps, travel)
    over = WIDE.multiply(WIDE.multiply(Decimal(60), volts), amps)
    if over <= WIDE.multiply(WIDE.multiply(Decimal(1000), travel), most):
        return []
    return [f"arc energy {text_of(limits.shown(energy, upper=False))}"]
