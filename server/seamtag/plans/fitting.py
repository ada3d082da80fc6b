"""Whether the uoms of a plan's formulas fit, worked out with pint before the plan is published.

A bare number fits whatever it stands beside: in `min(t/4, 1/8)` the 1/8 is in the uom of t. Where uoms of one quantity
meet (in and mm), the exact factor between them must stand in the formula: `t_mm/25.4 + gap`. Temperatures are kept
apart from temperature intervals: the difference of two temperatures is an interval.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from itertools import combinations
from math import isclose, prod
from typing import TYPE_CHECKING, Any

from seamtag.core import formula
from seamtag.core.uoms import UOMS

if TYPE_CHECKING:
    import pint

OWN = ("shop_degree", "brinell", "vickers", "rockwell_b", "rockwell_c")
AS_PINT = {
    "in": "inch", "ft": "foot", "mil": "thou", "um": "micrometer", "in2": "inch**2", "m2": "meter**2",
    "cm2": "centimeter**2", "mm2": "millimeter**2", "deg": "shop_degree", "degF": "delta_degree_Fahrenheit",
    "degC": "delta_degree_Celsius", "degF interval": "delta_degree_Fahrenheit",
    "degC interval": "delta_degree_Celsius", "kgf/cm2": "kilogram_force/centimeter**2", "lb": "pound",
    "lbf": "pound_force", "ft.lbf": "foot*pound_force", "lbf.ft": "pound_force*foot", "N.m": "newton*meter",
    "kJ/in": "kilojoule/inch", "kJ/mm": "kilojoule/millimeter", "J/in": "joule/inch", "J/mm": "joule/millimeter",
    "in/min": "inch/minute", "mm/min": "millimeter/minute", "mm/s": "millimeter/second", "cm/min": "centimeter/minute",
    "ft3/h": "foot**3/hour", "L/min": "liter/minute", "min": "minute", "h": "hour", "s": "second", "m": "meter",
    "g": "gram", "count": "dimensionless", "%": "percent", "in/ft": "inch/foot", "mm/m": "millimeter/meter",
    "HB": "brinell", "HV": "vickers", "HRB": "rockwell_b", "HRC": "rockwell_c", "V": "volt", "A": "ampere",
    "N": "newton", "J": "joule",
}  # fmt: skip
TEMPERATURES = ("degF", "degC")
MOST_FACTORS = 10


class MisfitError(ValueError):
    """Uoms that do not fit. The message says which, and what to do."""


@dataclass(frozen=True)
class Fit:
    """What a part of a formula is in. unit: None for a bare number. absolute: a temperature, no interval.

    factors: the bare numbers multiplied in so far, of which a change of uom may be made.
    """

    unit: Any
    factors: tuple[float, ...] = ()
    absolute: bool = False
    word: str = ""

    @property
    def named(self) -> str:
        return self.word or f"{self.unit:~P}" or "count"


BARE = Fit(None)


@lru_cache(1)
def registry() -> "pint.UnitRegistry[Any]":
    import pint  # here, since plans are read far less often than the server and its commands start

    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    for name in OWN:
        units.define(f"{name} = [{name}]")
    return units


def fit_of(uom: str) -> Fit:
    """Of a figure, table or item. Raises MisfitError where there is no such uom."""
    if not uom:
        return BARE
    if uom not in UOMS:
        near = get_close_matches(uom, UOMS, 1, 0.5)
        raise MisfitError(f"there is no uom '{uom}'" + (f"; did you mean {near[0]}?" if near else ""))
    return Fit(registry().Unit(AS_PINT.get(uom, uom)), absolute=uom in TEMPERATURES, word=uom)


def misfits(document: Mapping[str, Any]) -> list[str]:
    """Every uom of a plan's document that is not known, or else every formula whose uoms do not fit, with its place."""
    figures = {**document["figures"], **document["piece_figures"]}
    items = [(step["code"], item) for step in document["steps"] for item in step["items"]]
    uoms = [(f"figure {name}, uom", figure["uom"]) for name, figure in figures.items()]
    uoms += [(f"table {name}, {key}", table[key]) for name, table in document["tables"].items()
             for key in ("uom", "x_uom")]  # fmt: skip
    uoms += [(f"step {step}, item {item['code']}, uom", item.get("uom", "")) for step, item in items]
    unknown = [f"{where}: {fault}" for where, uom in uoms if (fault := misfit(fit_of, uom))]
    fitting = Fitting(figures, document["tables"], {(step, item["code"]): item.get("uom", "") for step, item in items})
    return unknown or [f"{where}: {fault}" for where, fault in fitting.faults(document) if fault]


def misfit(check: Callable[..., Any], *of: Any) -> str:
    try:
        check(*of)
    except MisfitError as error:
        return str(error)
    return ""


class Fitting:
    """Works through the trees of one plan. figures, tables: as in the plan's document; items: {(step, code): uom}."""

    def __init__(
        self, figures: Mapping[str, Any], tables: Mapping[str, Any], items: Mapping[tuple[str, str], str]
    ) -> None:
        self.figures, self.tables, self.items = figures, tables, items

    def faults(self, document: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
        """Each formula's place and what does not fit in it, '' where all does."""
        for name, table in self.tables.items():
            for place, row in enumerate(table["rows"], 1):
                for key, uom in ((row["reached"], table["x_uom"]), ("value", table["uom"])):
                    tree = row["value" if key == "value" else "edge"]
                    yield f"table {name}, row {place}, {key}", misfit(self.check, tree, uom)
        for step in document["steps"]:
            for item in step["items"]:
                where, uom = f"step {step['code']}, item {item['code']}", item.get("uom", "")
                for key in ("lower", "upper", "formula"):
                    if key in item:
                        yield (
                            f"{where}, {key}",
                            misfit(self.check, item[key]["tree"], uom, step["code"]),
                        )
                if "thickness" in item:
                    yield f"{where}, thickness", misfit(self.check, item["thickness"]["tree"], "in")
                if "only_if" in item:
                    yield f"{where}, only_if", misfit(self.fit, item["only_if"]["tree"], "")

    def check(self, tree: formula.Tree, uom: str, step: str = "") -> None:
        """Raises MisfitError where the tree does not give a value in the uom."""
        wanted, found = fit_of(uom), self.fit(tree, step)
        if wanted is not BARE:
            settled(found, wanted, "it gives {a}, {b} is asked")

    def fit(self, tree: formula.Tree, step: str) -> Fit:
        match tree:
            case ["num", str(written)]:
                return Fit(None, (float(written),))
            case ["name", str(name)]:
                return self.named("" if name in self.figures else step, name)
            case ["item", str(of), str(name)]:
                return self.named(of, name)
            case ["neg", a]:
                return self.fit(a, step)
            case ["not", a]:
                self.fit(a, step)
                return BARE
            case ["and" | "or", a, b]:
                self.fit(a, step)
                self.fit(b, step)
                return BARE
            case ["if", test, a, b]:
                self.fit(test, step)
                return together(self.fit(a, step), self.fit(b, step), "one gives {a}, the other {b}")
            case ["lt" | "le" | "gt" | "ge" | "eq" | "ne", a, b]:
                together(self.fit(a, step), self.fit(b, step), "{a} is compared with {b}")
                return BARE
            case ["add" | "sub" as word, a, b]:
                return added(word, self.fit(a, step), self.fit(b, step))
            case ["mul" | "div" as word, a, b]:
                return multiplied(word, self.fit(a, step), self.fit(b, step))
            case ["pow", a, int(power)]:
                return raised(self.fit(a, step), power)
            case ["table", str(name), x]:
                return self.looked_up(name, self.fit(x, step))
            case ["call", str(function), *parts]:
                return called(function, [self.fit(part, step) for part in parts])
        return BARE

    def named(self, step: str, name: str) -> Fit:
        if not step:
            return fit_of(self.figures.get(name, {}).get("uom", ""))
        return fit_of(self.items.get((step, name), ""))

    def looked_up(self, name: str, x: Fit) -> Fit:
        table = self.tables.get(name, {})
        settled(x, fit_of(table.get("x_uom", "")), f"table '{name}' is asked with {{a}}, it goes by {{b}}")
        return fit_of(table.get("uom", ""))


def settled(fit: Fit, wanted: Fit, says: str) -> Fit:
    """The fit in the unit wanted; some of its bare factors may be the change of unit. Raises MisfitError otherwise."""
    if fit.unit is None or wanted.unit is None:
        return wanted if fit.unit is None else fit
    told = says.format(a=fit.named, b=wanted.named)
    if fit.absolute != wanted.absolute:
        raise MisfitError(f"{told}: a temperature and a temperature interval are not the same")
    if fit.unit.dimensionality != wanted.unit.dimensionality:
        raise MisfitError(told)
    factor = float((1.0 * fit.unit).to(wanted.unit).magnitude)
    if isclose(factor, 1, rel_tol=1e-9) or any(isclose(product, factor, rel_tol=1e-9) for product in products(fit)):
        return wanted
    raise MisfitError(f"{told}: the factor {factor:.7g} between them must stand in the formula, or use one uom")


def products(fit: Fit) -> Iterator[float]:
    """Every product of some of the bare factors."""
    factors = fit.factors[:MOST_FACTORS]
    for many in range(1, len(factors) + 1):
        for some in combinations(factors, many):
            yield prod(some)


def together(a: Fit, b: Fit, says: str) -> Fit:
    """Both in one unit, whichever of the two can be brought to the other."""
    try:
        return settled(a, b, says)
    except MisfitError:
        if not a.factors and b.factors:
            return settled(b, a, says)
        raise


def added(word: str, a: Fit, b: Fit) -> Fit:
    verb = "{a} and {b} are added" if word == "add" else "{b} is taken from {a}"
    if a.absolute and b.absolute:
        if word == "add":
            raise MisfitError("two temperatures are added; only an interval can be added to one")
        together(a, b, verb)
        return fit_of(f"{b.word} interval")
    if a.absolute != b.absolute and a.unit is not None and b.unit is not None:
        if b.absolute and word == "sub":
            raise MisfitError("a temperature is taken from an interval")
        temperature, interval = (a, b) if a.absolute else (b, a)
        settled(interval, Fit(temperature.unit, word=f"{temperature.word} interval"), verb)
        return temperature
    return together(a, b, verb)


def multiplied(word: str, a: Fit, b: Fit) -> Fit:
    if a.absolute or b.absolute:
        raise MisfitError("a temperature is multiplied or divided; only an interval can be")
    factors = (*a.factors, *(b.factors if word == "mul" else (1 / f if f else 0.0 for f in b.factors)))
    if a.unit is None and b.unit is None:
        return Fit(None, factors)
    one = registry().dimensionless
    left, right = (one if fit.unit is None else fit.unit for fit in (a, b))
    return Fit(left * right if word == "mul" else left / right, factors)


def raised(a: Fit, power: float) -> Fit:
    if a.absolute:
        raise MisfitError("a temperature is raised to a power; only an interval can be")
    try:
        factors = tuple(abs(factor) ** power for factor in a.factors)
    except OverflowError:
        factors = ()
    return Fit(None if a.unit is None else a.unit**power, factors)


def called(function: str, parts: list[Fit]) -> Fit:
    if function in ("min", "max"):
        found = parts[0]
        for part in parts[1:]:
            found = together(found, part, f"{function}() of {{a}} and {{b}}")
        return found
    if function == "sqrt":
        return raised(parts[0], 0.5)
    if function == "count":
        return fit_of("count")
    if function == "spread" and parts[0].absolute:
        return fit_of(f"{parts[0].word} interval")
    return OF_THE_TRADE[function](parts) if function in OF_THE_TRADE else parts[0]


def one_length(parts: list[Fit]) -> Fit:
    """All of them lengths in one uom."""
    found = BARE
    for part in parts:
        found = together(found, part, "{a} stands beside {b}")
    if found.unit is not None and found.unit.dimensionality != registry().meter.dimensionality:
        raise MisfitError(f"lengths are asked, {found.named} is given")
    return found


def of_lengths(parts: list[Fit]) -> Fit:
    one_length(parts)
    return fit_of("%")


def of_arc(parts: list[Fit]) -> Fit:
    """Volts, amperes, and a travel by the minute; kJ by the length of the travel."""
    settled(parts[0], fit_of("V"), "volts are asked first, {a} is given")
    settled(parts[1], fit_of("A"), "amperes are asked second, {a} is given")
    if parts[2].unit is None:
        return BARE
    length = parts[2].unit * registry().minute
    if length.dimensionality != registry().meter.dimensionality or parts[2].word == "mm/s":
        raise MisfitError(f"a travel by the minute is asked third, {parts[2].named} is given")
    return Fit(registry().kilojoule / length)


def of_shares(parts: list[Fit]) -> Fit:
    for part in parts:
        settled(part, fit_of("%"), "shares in % are asked, {a} is given")
    return fit_of("%")


OF_THE_TRADE: Mapping[str, Callable[[list[Fit]], Fit]] = {
    "throat": one_length, "wall_reduction": of_lengths, "arc_energy": of_arc, "heat_input": of_arc,
    "carbon_equivalent": of_shares,
}  # fmt: skip
