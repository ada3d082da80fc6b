"""The limits of an item at a piece: formulas worked out over the job's and the piece's figures."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from seamtag.core import formula, numbers

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
