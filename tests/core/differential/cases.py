"""All the cases: each is a question that both cores answer."""

from collections.abc import Callable
from typing import Any

from seamtag.core import uoms
from seamtag.core.numbers import CONTEXT, text_of
from tests.core.differential import formulas
from tests.core.differential.jobs import derived_case, reading_case
from tests.core.differential.passes import weld_case
from tests.core.differential.values import GARBAGE, NO_UOMS, PLACES, Values, converted, third_of

Case = dict[str, Any]


def number_case(values: Values) -> Case:
    """What is typed; a slip of one key now and then."""
    comma = values.chance(0.3)
    text = values.garbage() if values.chance(0.35) else values.typed(values.typeable(values.value()), comma)
    if values.chance(0.1) and text:
        at = values.rng.randrange(len(text))
        text = text[:at] + values.rng.choice(GARBAGE) + text[at + values.rng.randrange(2) :]
    return {"verb": "number", "text": text, "comma": comma if values.chance(0.95) else not comma}


def formula_case(values: Values) -> Case:
    readings: dict[str, list[str]] = {}
    for key in (".x", "a.y", "a.z"):
        if values.chance(0.95):
            value = text_of(values.value())
            others = [text_of(values.value()) for _ in range(values.rng.choice((0, 0, 0, 0, 1, 3)))]
            readings[key] = [value] * values.rng.choice((1, 1, 2)) + others
    figures = {name: text_of(values.value()) for name in ("t", "u", "n") if values.chance(0.98)}
    grammar = formulas.Grammar(values, ("t", "u", "n"), ("x", "a.y", "a.z"), ("t1", "t2"))
    holds = values.chance(0.15)
    text = grammar.condition(2) if holds else grammar.number(values.rng.randint(1, 4))
    tables = formulas.tables_of(values, "t")
    return {
        "verb": "formula", "tree": formulas.parsed(formulas.over_items(text)), "figures": figures, "readings": readings,
        "tables": tables, "holds": holds if values.chance(0.97) else not holds,
    }  # fmt: skip


def judge_case(values: Values) -> Case:
    """A value at its limits, without a job around it."""
    family = values.family()
    written, wanted, gauge_uom = (values.rng.choice(family) for _ in "123")
    base, span = values.base(written, wanted), abs(values.value())
    if values.chance(0.15):
        base = third_of(base, values.rng.choice((3, 7, 9)))
    lower, upper = values.rng.choices(
        ((None, base), (base, None), (base, base), (None, None), (CONTEXT.subtract(base, span), base)), (4, 2, 1, 1, 7)
    )[0]
    uncertainty = values.uncertainty(gauge_uom, wanted)
    place = values.rng.choice(PLACES) if values.chance(0.2) else None
    value = values.near((lower, upper), written, wanted, converted(uncertainty, gauge_uom, wanted, True), place)
    known = values.rng.choices((text_of(uncertainty), "unknown", None), (84, 4, 12))[0]
    return {
        "verb": "judge", "value": text_of(value), "lower": None if lower is None else text_of(lower),
        "upper": None if upper is None else text_of(upper), "reason": values.rng.choice(("",) * 80 + ("no t",)),
        "conversion": [written, wanted], "uncertainty": known, "gauge_uom": gauge_uom,
        "rule": values.rng.choice(("simple", "guarded", "guarded")), "place": place,
    }  # fmt: skip


def uom_case(values: Values) -> Case:
    family = values.family()
    written, wanted = (values.rng.choice(family) for _ in "12")
    if values.chance(0.2):
        wanted = values.rng.choice((*uoms.UOMS, *NO_UOMS))
    return {"verb": "uom", "from": written, "to": wanted, "value": text_of(values.value())}


def shown_case(values: Values) -> Case:
    family = values.family()
    written, wanted = (values.rng.choice(family) for _ in "12")

    def limit() -> str | None:
        value = values.base(wanted, written)
        value = third_of(value, 3) if values.chance(0.3) else value
        return text_of(value) if values.chance(0.85) else None

    return {
        "verb": "shown", "from": written, "to": wanted, "place": values.rng.choice(PLACES), "lower": limit(),
        "upper": limit(),
    }  # fmt: skip


MAKERS: dict[Callable[[Values], Case], int] = {
    reading_case: 42, weld_case: 4, derived_case: 14, judge_case: 18, formula_case: 10, number_case: 8, uom_case: 2,
    shown_case: 2,
}  # fmt: skip


def cases(seed: int, count: int) -> list[Case]:
    values = Values(seed)
    chosen = values.rng.choices(list(MAKERS), list(MAKERS.values()), k=count)
    return [maker(values) for maker in chosen]
