"""Formulas as a plan's writer types them, made from a grammar.

An item is written '{step.code}', '{code}', or '{largest step.code}', so that the same formula can be made over the
items and over figures of the same values (`over_items`, `over_figures`).
"""

import re
from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import Any

from seamtag.core import formula
from tests.core.differential.values import Values

ITEM = re.compile(r"\{(?:([a-z]+) )?([a-z0-9_.]+)\}")
NUMBERS = ("0", "1", "2", "3", "4", "1/2", "1/4", "3/16", "1/8", "1/64", "0.125", "0.1", ".5", "25.4", "1.06", "100",
           "1e3", "1_000", "3.14159", "0.0001", "12345678901234567890", "0.00000000000000000001")  # fmt: skip
HUGE, TINY = "(((10000**6)**6)**6)**6", "(((0.0001**6)**6)**6)**6"
LARGEST, SMALLEST = (f"((({a}**6)**6)**6)**6*((({a}**6)**6)**6)**5*(({a}**6)**6)**3*({a}**6)**2*{b}"
                     for a, b in (("10000", "1e15"), ("0.0001", "1e-15")))  # fmt: skip
"""One followed by 9999 noughts, and its inverse: the bounds of what a formula may give."""
AGGREGATES = ("largest", "smallest", "spread", "mean", "count")
COMPARISONS = ("<", "<=", ">", ">=", "==", "!=")
TUBE = ("2.531", "2.5", "2.26")


class Grammar:
    """figures, items, tables: the names it may use; an item is 'code' or 'step.code'."""

    def __init__(self, values: Values, figures: Sequence[str], items: Sequence[str], tables: Sequence[str]) -> None:
        self.values, self.rng = values, values.rng
        self.figures, self.items, self.tables = figures, items, tables

    def number(self, depth: int) -> str:
        """A formula that gives a number, mostly."""
        if depth <= 0:
            return self.leaf()
        a, b = (lambda: self.number(depth - 1)), (lambda: self.number(depth - 2))
        makers: dict[Callable[[], str], int] = {
            self.leaf: 8,
            lambda: f"{a()} + {b()}": 6,
            lambda: f"{a()} - ({b()})": 5,
            lambda: f"({a()})*({b()})": 5,
            lambda: f"({a()})/{self.rng.choice(('2', '3', '7', '64', '0.3'))}": 5,
            lambda: f"({a()})/({b()})": 1,
            lambda: f"min({a()}, {b()})": 3,
            lambda: f"max({a()}, {b()}, {self.leaf()})": 3,
            lambda: f"abs({a()})": 2,
            lambda: f"sqrt(abs({a()}))": 3,
            lambda: f"-({a()})": 1,
            lambda: f"({a()})**{self.rng.randint(1, 6)}": 2,
            lambda: f"({a()} if {self.condition(depth - 1)} else {b()})": 4,
            lambda: self.looked_up(a()): 3,
            lambda: self.of_the_trade(a, b): 4,
            self.beyond: 1,
        }
        return self.rng.choices(list(makers), list(makers.values()))[0]()

    def leaf(self) -> str:
        kinds = ["number"] + ["figure"] * 4 * bool(self.figures) + ["item"] * 6 * bool(self.items)
        match self.rng.choice(kinds):
            case "figure":
                return self.rng.choice(self.figures)
            case "item":
                item = self.rng.choice(self.items)
                return "{" + (f"{self.rng.choice(AGGREGATES)} " if self.values.chance(0.2) else "") + item + "}"
        return self.rng.choice(NUMBERS)

    def condition(self, depth: int) -> str:
        match self.rng.randrange(8) if depth > 0 else 7:
            case 0:
                return f"{self.condition(depth - 1)} and {self.condition(depth - 1)}"
            case 1:
                return f"({self.condition(depth - 1)} or {self.condition(depth - 1)})"
            case 2:
                return f"not ({self.condition(depth - 1)})"
        return f"{self.number(depth - 1)} {self.rng.choice(COMPARISONS)} {self.leaf()}"

    def looked_up(self, x: str) -> str:
        return f"table('{self.rng.choice(self.tables)}', {x})" if self.tables else x

    def beyond(self) -> str:
        """Sometimes near to the bounds of the exponent, more often a fault."""
        return self.rng.choice(
            (self.leaf(), self.leaf(), f"{HUGE}*{self.leaf()}", f"{TINY}*{self.leaf()}", f"({HUGE})*({HUGE})",
             f"{LARGEST}*{self.leaf()}", f"{SMALLEST}*{self.leaf()}", f"{SMALLEST}/{self.leaf()}",
             f"({TINY})/({HUGE})", f"({HUGE})*({TINY})", f"sqrt({HUGE})", f"sqrt({self.leaf()} - 1)",
             f"{self.leaf()}/({self.leaf()} - {self.leaf()})", "lost", f"(1 < 2) + {self.leaf()}", "table('none', 1)")
        )  # fmt: skip

    def of_the_trade(self, a: Callable[[], str], b: Callable[[], str]) -> str:
        """Mostly with values for which there is an answer."""
        some = [f"abs({a()})" for _ in range(2)]
        if self.values.chance(0.15):
            some = [a(), b()]
        hole, od, before = TUBE if self.values.chance(0.9) else [self.leaf() for _ in TUBE]
        return self.rng.choice(
            (
                f"throat({some[0]} + 1/16, {some[1]} + 1/16)",
                f"throat({some[0]}, {self.leaf()})",
                f"arc_energy(20 + {some[0]}, 180 + {some[1]}, 10)",
                f"heat_input({some[0]}, 180, 1/4 + {some[1]}, {self.rng.choice(('0.8', '0.6', '1', '1.0', '1.1'))})",
                f"carbon_equivalent(0.2, 1.23, {some[0]}/777, 0.05, {some[1]}/1000, 0.17, {some[0]}/1234)",
                f"wall_reduction({hole}, {od}, {before}, {before} + {some[0]}/10)",
                f"wall_reduction({od} + {some[0]}/50, {od}, {before}, 2.3 + {some[1]}/100)",
                f"wall_reduction({od}, {od}, {before}, {before} + {some[0]}/10)",
            )
        )


def parsed(text: str) -> formula.Tree:
    """The tree of a formula, and of 1 where it has grown too long or too deep."""
    try:
        return formula.parse(text)
    except formula.FormulaError:
        return formula.parse("1")


def over_items(text: str) -> str:
    return ITEM.sub(lambda match: f"{match[1]}({match[2]})" if match[1] else match[2], text)


def over_figures(text: str, figures: dict[str, list[str]]) -> str:
    """The same over figures of the same values: item to the names of the figures for its readings, in order."""
    return ITEM.sub(lambda match: as_figures(match[1], figures.get(match[2], [])), text)


def as_figures(aggregate: str | None, names: Sequence[str]) -> str:
    if aggregate == "count":
        return str(len(names))
    if not names:
        return "lost"
    listed = ", ".join(names)
    match aggregate:
        case "largest":
            return f"max({listed})"
        case "smallest":
            return f"min({listed})"
        case "spread":
            return f"(max({listed}) - min({listed}))"
        case "mean":
            return f"(({' + '.join(names)})/{len(names)})"
    return names[0]


def tables_of(values: Values, figure: str) -> dict[str, Any]:
    """Two tables, t1 by way of a figure; the same few all through a batch."""
    if not values.tables:
        values.tables = [table(values, (name,) if name else ()) for name in ("t", "n", "") for _ in range(8)]
    first = 0 if figure == "t" else 8
    return {"t1": values.tables[first + values.rng.randrange(8)], "t2": values.tables[16 + values.rng.randrange(8)]}


def table(values: Values, figures: Sequence[str]) -> dict[str, Any]:
    grammar = Grammar(values, figures, (), ())
    edges = sorted([Decimal(-1000), *(values.value() for _ in range(values.rng.randint(0, 3)))])
    return {"rows": [row(values, edge, grammar.number(1)) for edge in edges]}


def row(values: Values, edge: Decimal, value: str) -> dict[str, Any]:
    """One without a value is the table's end, or a hole in it."""
    return {
        "edge": parsed(format(edge, "f")), "reached": values.rng.choice(("from", "after")),
        "value": None if values.chance(0.06) else parsed(value),
    }  # fmt: skip
