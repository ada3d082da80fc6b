"""The limits of an item at a piece: formulas worked out over the job's and the piece's figures."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import Any

from seamtag.core import formula, numbers
from seamtag.core.uoms import COUNTERPARTS, SAME, Conversion, conversion

Item = Mapping[str, Any]


@dataclass(frozen=True)
class Limits:
    """Lower and upper limit in the item's unit of measure; reason says why there are none to judge by."""

    lower: Decimal | None
    upper: Decimal | None
    reason: str = ""

    @property
    def tolerance(self) -> Decimal | None:
        """Upper less lower limit, where there are both."""
        if self.lower is None or self.upper is None:
            return None
        return numbers.CONTEXT.subtract(self.upper, self.lower)


def limits_of(item: Item, names: formula.Names) -> Limits:
    """The limits an item sets. A figure that is missing makes them unknown, with the reason; never a pass."""
    try:
        lower = worked_out(item.get("lower"), names)
        upper = worked_out(item.get("upper"), names)
    except formula.FormulaError as error:
        return Limits(None, None, f"limit not known: {error}")
    if lower is not None and upper is not None and lower > upper:
        return Limits(None, None, "limit not known: the lower limit is above the upper")
    return Limits(lower, upper)


def worked_out(limit: Any, names: formula.Names) -> Decimal | None:
    return None if limit is None else formula.work_out(limit["tree"], names)


def shown_inward(limit: Decimal, upper: bool, place: Decimal, way: Conversion = SAME) -> Decimal:
    """A limit as it is shown in another uom, to a place: an upper one rounded down and a lower one up, never relaxed.

    place: in the uom shown, such as Decimal('0.1'); Decimal('0.015625') shows it on a rule's sixty-fourths.
    """
    exact = way.of(limit)
    steps = numbers.WIDE.divide(exact.over, numbers.WIDE.multiply(exact.under, place))
    inward = steps.to_integral_value(ROUND_FLOOR if upper else ROUND_CEILING)
    return numbers.WIDE.plus(numbers.WIDE.multiply(inward, place))


def shown(limit: Decimal, upper: bool) -> Decimal:
    """A limit as it is shown in its own uom: exact up to six decimals, else rounded inward, to four decimals or, of a
    small one, four digits that count."""
    if numbers.decimals_of(limit) <= numbers.MOST_SHOWN:
        return limit
    return shown_inward(limit, upper, Decimal(1).scaleb(min(-4, limit.adjusted() - 3)))


def in_counterpart(limits: Limits, uom: str) -> tuple[Limits, str] | None:
    """The limits in the uom of the other system, rounded inward, and that uom; None where there is no other, or where
    they are so near to each other that rounding would cross them."""
    found = COUNTERPARTS.get(uom)
    way = conversion(uom, found[0]) if found else None
    if found is None or way is None or limits.reason:
        return None
    place = Decimal(found[1])
    lower = None if limits.lower is None else shown_inward(limits.lower, False, place, way)
    upper = None if limits.upper is None else shown_inward(limits.upper, True, place, way)
    if lower is not None and upper is not None and lower > upper:
        return None
    return Limits(lower, upper), found[0]


def figures_of(job_figures: Mapping[str, Any], piece_figures: Mapping[str, Any]) -> dict[str, Decimal]:
    """Figures as numbers, the piece's own before the job's. One that cannot be read is left out, so it is missing.

    Figures are texts, as typed: a number of JSON or YAML is written differently by each language.
    """
    figures: dict[str, Decimal] = {}
    for source in (job_figures, piece_figures):
        for name, typed in source.items():
            try:
                if isinstance(typed, str):
                    figures[name] = numbers.parse(typed).value
            except numbers.NumberError:
                continue
    return figures
