"""Small jobs with readings: one reading of one item, and values worked out of several."""

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from seamtag.core import uoms
from seamtag.core.job import Job
from seamtag.core.numbers import text_of
from tests.core.differential import formulas
from tests.core.differential.formulas import Grammar
from tests.core.differential.values import NO_UOMS, PLACES, Values, converted, plain
from tests.vectors.progress_builder import basis_of, item, piece, plan, reading, step

Case = dict[str, Any]

WORDS = ("in tolerance", "out of tolerance", "too close to call", "unjudged", "recorded", "met")
FIGURES = ("t", "u", "n", "q")


def reading_case(values: Values) -> Case:
    """A reading typed at a limit as its plan gives it, mostly in another uom of the quantity."""
    family = values.family()
    written, wanted = (values.rng.choice(family) for _ in "12")
    figures = {"t": values.base(written, wanted), **{name: abs(values.value()) for name in "unq"}}
    tables = formulas.tables_of(values, "t")
    asked = asked_item(values, wanted)
    gauges, apart = shelf(values, family, wanted)
    data = job_data(values, asked, tables, figures, gauges)
    basis = values.rng.choice(data["bases"])
    found = Job(data).limits("W1", "s", "m", basis["plan"], basis["figures"])
    typed = values.near((found.lower, found.upper), written, wanted, apart, asked.get("place"))
    record = reading_at(values, "r1", "W1 s.m", typed, written, asked.get("gauge"))
    record[0]["basis"] = basis if values.chance(0.98) else basis_of(values.rng.choice(("Z1", "A9")))
    if values.chance(0.01):
        record[0]["item"] = "lost"
    return {"verb": "reading", "job": data, "record": record}


def asked_item(values: Values, uom: str) -> Case:
    """An item with limits that are formulas; what may be left out is left out, or null, or empty."""
    grammar = Grammar(values, FIGURES, (), ("t1", "t2"))
    match values.rng.randrange(10):
        case 0 | 1 | 2:
            middle = "t"
        case 3:
            middle = "min(t, t + abs(q))"
        case 4:
            middle = f"t if {grammar.condition(1)} else t + u"
        case 5:
            middle = f"t/{values.rng.choice('379')}"
        case _:
            middle = grammar.number(values.rng.randint(1, 3))
    lower, upper = limits_about(values, middle)
    more: Case = {"uom": uom, "lower": None, "upper": None, "rule": "guarded" if values.chance(0.45) else None}
    if values.chance(0.2):
        more["place"] = values.rng.choice(PLACES)
    if values.chance(0.5):
        more["gauge"] = "caliper"
    made = item("m", "measure", **more)
    for part, text in (("lower", lower), ("upper", upper)):
        made[part] = None if text is None else {"text": text, "tree": formulas.parsed(text)}
    if values.chance(0.02):
        del made["uom"]
    return made


def limits_about(values: Values, middle: str) -> tuple[str | None, str | None]:
    match values.rng.randrange(16):
        case 0:
            return None, None
        case 1 | 2 | 3 | 4:
            return None, middle
        case 5 | 6 | 7:
            return middle, None
        case 8:
            return middle, middle
        case 9:
            return middle, "u"
        case 10 | 11 | 12:
            return f"{middle} - u", middle
    return middle, f"{middle} + u"


def shelf(values: Values, family: Sequence[str], wanted: str) -> tuple[Case, Decimal]:
    """Gauges of every sort, and the uncertainty of the first in the uom wanted."""
    uom = values.rng.choice(family)
    uncertainty = values.uncertainty(uom, wanted)
    gauges = {
        "g1": {"uncertainty": text_of(uncertainty), "uom": uom, "due": values.rng.choice(("2026-03-06", "2026-03-05"))},
        "g2": {"uncertainty": text_of(values.uncertainty(wanted, wanted))},
        "g3": {"uncertainty": values.rng.choice((None, "")), "uom": uom},
        "g4": {"uncertainty": "0.1", "uom": values.rng.choice((*uoms.UOMS, *NO_UOMS)), "due": None},
    }
    return gauges, converted(uncertainty, uom, wanted, True)


def job_data(values: Values, asked: Case, tables: Case, figures: dict[str, Decimal], gauges: Case) -> Case:
    """One plan, or two revisions that may or may not ask the same."""
    revisions = {"A": plan(step("s", "1.1", "seam", "QC H", asked), tables=tables)}
    bases = [basis_of("A1")]
    if values.chance(0.1):
        other = asked if values.chance(0.5) else {**asked, "upper": {"text": "u", "tree": ["name", "u"]}}
        revisions["B"] = plan(step("s", "1.1", "seam", "QC H", other), tables=tables)
        bases.append(basis_of("B1"))
    typed = {name: values.typed(value) for name, value in figures.items() if values.chance(0.99)}
    if values.chance(0.02):
        typed["t"] = values.garbage()
    own = {"q": values.typed(values.value())} if values.chance(0.2) else {}
    return {
        "id": "J", "bases": bases, "plans": revisions, "figure_sets": {"1": {"values": typed, "drawings": {}}},
        "pieces": [piece("W1", "seam", figures=own)], "gauges": gauges,
    }  # fmt: skip


def reading_at(values: Values, id: str, where: str, value: Decimal, uom: str, gauge: str | None) -> list[Any]:
    """gauge: the kind the plan names, without which a reading is unjudged."""
    rng = values.rng
    comma = values.chance(0.2)
    entered = values.typed(value, comma)
    if values.chance(0.03):
        entered = values.garbage()
    if values.chance(0.03):
        uom = rng.choice((*uoms.UOMS, *NO_UOMS))
    names = ("g1", "g2", "g3", "g4", "lost", None)
    named = rng.choices(names, (70, 10, 3, 3, 3, 11 if gauge is None else 4))[0]
    made: list[Any] = reading(
        id, where, entered, uom=uom, comma=(comma if values.chance(0.98) else not comma) or rng.choice((None, False)),
        gauge=named, foretold=rng.choice(WORDS) if values.chance(0.1) else None,
    )  # fmt: skip
    return made


# Values worked out

LINEAR = ("{a.x} - {a.y}", "{a.x} + {a.y}", "{a.x} + {a.y} - {z}", "{a.y} - {a.x}", "{spread a.o}", "{largest a.o}")
SHOP = ("{a.x}*{a.y}", "{a.x}/{a.y}", "({a.x} + {a.y})/2", "{a.x}**2/({a.y} + 1)", "{mean a.o} - {z}", "{a.o}",
        "min({a.x}, {a.y})", "sqrt({a.x} - {a.y})", "throat({a.x}, {a.y})", "{count a.o}*{z}",
        "wall_reduction(2.531, 2.5, {a.x}, {a.y})", "table('t1', {a.x})", "{a.x} if {a.y} > n else {z}")  # fmt: skip
NESTED = ("{d1} + {d1}", "2*{d1} - {z}", "{d1}/3", "max({d1}, {a.x})", "{d1} - {a.x}")
ROUND = ("{spread a.o}", "{mean a.o}*2", "{largest a.o} - {smallest a.o}", "{largest a.o}")
SIDES = (("0.003", "0.004"), ("0.005", "0.012"), ("0.3", "0.4"), ("0.0006", "0.0008"), ("0.001", "0.001"))
STATIONS = ("top 0", "top 90", "low 0", "low 90")


class Bench:
    """Readings of some items, and figures of the same values, by which a limit is made that they meet exactly."""

    def __init__(self, values: Values) -> None:
        self.values = values
        self.family = values.family()
        self.uom = values.rng.choice(self.family)
        self.records: list[Any] = []
        self.figures: dict[str, str] = {"n": "2", "u": values.typed(abs(values.value()))}
        self.mirrors: dict[str, list[str]] = {}
        sides = values.rng.choice(SIDES)
        self.gauges: Case = {f"g{place}": self.gauge(side) for place, side in enumerate(sides, 1)}
        self.gauges["g3"] = {"uncertainty": None, "uom": self.uom}
        self.gauges["g4"] = {"uncertainty": "0.1", "uom": "HB"}

    def gauge(self, uncertainty: str) -> Case:
        """Of an uncertainty in the item's uom, mostly told in another."""
        uom = self.values.rng.choice(self.family)
        exact = converted(Decimal(uncertainty), self.uom, uom, True)
        return {"uncertainty": text_of(exact if plain(exact) else Decimal(uncertainty)), "uom": uom}

    def read(self, where: str, key: str, gauge: str) -> None:
        """One reading, or none, or two that agree or do not."""
        values, rng = self.values, self.values.rng
        if values.chance(0.04):
            return
        value = abs(values.value()) if values.chance(0.8) else values.value()
        uom = self.uom if values.chance(0.7) else rng.choice(self.family)
        exact = converted(value, uom, self.uom)
        named = gauge if values.chance(0.93) else rng.choice(("g3", "g4", "lost", None))
        for number in range(2 if values.chance(0.04) else 1):
            again = value if number == 0 or values.chance(0.6) else values.value()
            entered = values.typed(again) if values.chance(0.985) else values.garbage()
            self.records.append(
                reading(f"r{len(self.records):02}", f"W1 {where}", entered, uom=uom, gauge=named, by=f"by {number}")
            )
        name = f"f{len(self.figures)}"
        self.figures[name] = text_of(exact if plain(exact) else self.values.typeable(exact))
        self.mirrors.setdefault(key, []).append(name)


def derived_case(values: Values) -> Case:
    """Readings of two steps, and values worked out of them: nested, by station, guarded."""
    rng, bench = values.rng, Bench(values)
    for key, gauge in (("a.x", "g1"), ("a.y", "g2"), ("z", rng.choice(("g1", "g2")))):
        bench.read(key if "." in key else f"b.{key}", key, gauge)
    for place, station in enumerate(STATIONS[: rng.choice((2, 4, 4))]):
        bench.read(f"a.o {station}", "a.o", f"g{1 + place % 2}")
    made = some_formula(values, ("a.x", "a.y", "z"))
    first = worked_out(values, bench, "d1", made)
    bench.mirrors["d1"] = [f"({formulas.over_figures(made, bench.mirrors)})"]
    second = worked_out(values, bench, "d2", rng.choice(NESTED))
    third = worked_out(values, bench, "d3", rng.choice(ROUND))
    third["stations"] = rng.choice(({"names": ["top", "low"]}, {"least": 2}, {"names": ["top 0"]}))
    measures = [item(code, "measure", uom=bench.uom) for code in ("x", "y", "o")]
    found = plan(
        step("a", "1.1", "seam", "QC H", *measures),
        step("b", "2.1", "seam", "QC H", item("z", "measure", uom=bench.uom), first, second, third),
        tables=formulas.tables_of(values, "n"),
    )
    data = {
        "id": "J", "bases": [basis_of("A1")], "plans": {"A": found}, "gauges": bench.gauges,
        "figure_sets": {"1": {"values": bench.figures, "drawings": {}}}, "pieces": [piece("W1", "seam")],
    }  # fmt: skip
    return {"verb": "derived", "job": data, "records": bench.records, "piece": "W1"}


def some_formula(values: Values, items: Sequence[str]) -> str:
    if values.chance(0.4):
        return values.rng.choice(LINEAR)
    if values.chance(0.6):
        return values.rng.choice(SHOP)
    return Grammar(values, ("n", "u"), (*items, "a.o"), ("t1", "t2")).number(2)


def worked_out(values: Values, bench: Bench, code: str, text: str) -> Case:
    """A derived item; its limit is the same formula over figures, and something more or less."""
    rng = values.rng
    apart = rng.choice(("", "", " + 0.005", " - 0.005", " + 0.013", " + 0.5", " - 0.001", " + u", " - u", " + 0.01"))
    limit = formulas.over_figures(text, bench.mirrors)
    upper = f"{limit}{apart}" if values.chance(0.8) else None
    lower = f"{limit} - u{apart}" if upper is None or values.chance(0.3) else None
    more: Case = {"uom": bench.uom, "rule": "guarded" if values.chance(0.75) else "simple"}
    if values.chance(0.15):
        more["place"] = rng.choice(PLACES)
    made = item(code, "derived", **more)
    made["formula"] = {"text": text, "tree": formulas.parsed(formulas.over_items(text))}
    for part, written in (("lower", lower), ("upper", upper)):
        if written is not None:
            made[part] = {"text": written, "tree": formulas.parsed(written)}
    return made
