"""What a plan would hold of a source's rule: formulas and tables, sent on as JSON, over figures as they are typed."""

import json
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from seamtag.core import formula, limits, numbers, verdict

Rows = Sequence[tuple[str, str, str]]
"""(reached, edge, value): 'from' is reached at its edge, 'after' past it."""

Tables = Mapping[str, Rows]
Readings = Mapping[str, Sequence[str]]

STEP = "0.001"
"""How far 'just past' an edge is."""


def tree(text: str) -> formula.Tree:
    """A formula as a phone is sent it."""
    sent: formula.Tree = json.loads(json.dumps(formula.parse(text)))
    return sent


def table(rows: Rows) -> dict[str, Any]:
    return {"rows": [{"reached": reached, "edge": tree(edge), "value": tree(value)} for reached, edge, value in rows]}


def stepwise(first: str, edges: Sequence[str], values: Sequence[str]) -> Rows:
    """The usual table of ranges 'over ... to ...', each with the edge it ends at; one value more than edges."""
    assert len(values) == len(edges) + 1
    return [
        ("from", first, values[0]),
        *(("after", edge, value) for edge, value in zip(edges, values[1:], strict=True)),
    ]


def sides(edges: Sequence[str], values: Sequence[str], by: str = STEP) -> Iterator[tuple[str, str]]:
    """At each edge the value of the range that ends there, just past it that of the next."""
    assert len(values) == len(edges) + 1
    for place, edge in enumerate(edges):
        yield edge, values[place]
        yield numbers.text_of(numbers.parse(edge).value + Decimal(by)), values[place + 1]


def names(figures: Mapping[str, str], tables: Tables | None = None, readings: Readings | None = None) -> formula.Names:
    known = limits.figures_of({}, figures)
    assert set(known) == set(figures), "a figure cannot be read"
    measured = {item: [numbers.parse(text).value for text in typed] for item, typed in (readings or {}).items()}
    sent = {name: table(rows) for name, rows in (tables or {}).items()}
    return formula.Names(known, lambda step, item: measured.get(item, []), sent)


def value(text: str, tables: Tables | None = None, readings: Readings | None = None, /, **figures: str) -> Decimal:
    """What a formula comes to."""
    return formula.work_out(tree(text), names(figures, tables, readings))


def asked(text: str, /, **figures: str) -> bool:
    """Whether an item with this 'only if' is asked."""
    return formula.holds(tree(text), names(figures))


def limit(rows: Rows, thickness: str, /, **figures: str) -> Decimal:
    """The value of a table at a thickness t."""
    return value("table('limit', t)", {"limit": rows}, t=thickness, **figures)


def bounds(lower: str = "", upper: str = "", tables: Tables | None = None, /, **figures: str) -> limits.Limits:
    """The limits an item sets by these formulas; '' is no limit."""
    item = {side: {"tree": tree(text)} for side, text in (("lower", lower), ("upper", upper)) if text}
    return limits.limits_of(item, names(figures, tables))


def word(typed: str, within: limits.Limits) -> str:
    """The verdict on a reading as it is typed, compared with no more ado."""
    return verdict.judge(numbers.parse(typed).value, within).word


def is_in(typed: str, within: limits.Limits) -> bool:
    """Whether a reading is in tolerance; it must be out where it is not, never left unjudged."""
    found = word(typed, within)
    assert found in (verdict.IN, verdict.OUT)
    return found == verdict.IN


def exact(text: str) -> Fraction:
    """What was typed, by Python's fractions and not by the engine: `1 7/8`, `15/8`, `1.875`."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def close(found: Decimal, wanted: Fraction) -> bool:
    """Whether a value worked out in a few steps of 28 digits is the exact one, but for what the steps rounded off."""
    return abs(Fraction(found) - wanted) <= abs(wanted) / 10**25
