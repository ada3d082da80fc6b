"""A plan as a planner writes it (YAML), read into the document that is published.

Every error is found in one pass and says where: "step girth_fit, item gap, lower: ...".
"""

import hashlib
import re
from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

import yaml

from seamtag.core import formula
from seamtag.core.records import AGREEING, PARTIES, ROLES
from seamtag.plans import order
from seamtag.plans.fitting import misfits
from seamtag.sync.chain import canonical

FORMAT = 1
ITEM_KINDS = ("visual", "measure", "derived", "photo", "weld", "report", "text")
POINTS = ("sign", "H", "W", "R", "S")
BINDS = ("code", "drawing", "shop")
PHOTO = ("always", "out", "never")
RULES = ("simple", "guarded")
OF = ("piece", "joins", "parts", "kinds", "job")
CLOCK = {
    3: ["12", "4", "8"], 4: ["12", "3", "6", "9"], 6: ["12", "2", "4", "6", "8", "10"],
    8: ["12", "1:30", "3", "4:30", "6", "7:30", "9", "10:30"],
    12: ["12", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11"],
}  # fmt: skip
PLACE = re.compile(r"10*|0?\.0*[1-9]")
NO_VALUE = "none"
"""Stands for the value of a table's row where the table ends or has a hole."""
MOST_BYTES = 5_000_000
MOST_STATIONS = 1000


class PlanError(ValueError):
    """faults: every fault of the plan, a sentence each, with its place."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


def read(text: str) -> dict[str, Any]:
    """The document of a plan's YAML. Raises PlanError with all of its faults."""
    if len(text) > MOST_BYTES:
        raise PlanError(["The plan file is larger than 5 MB. Is it the right file?"])
    try:
        source = yaml.safe_load(text)
    except (yaml.YAMLError, ValueError, RecursionError) as error:
        place = getattr(error, "problem_mark", None)
        where = f"line {place.line + 1}: " if place else ""
        problem = getattr(error, "problem", None) or "it cannot be read"
        raise PlanError([f"The plan file is not YAML. {where}{problem}."]) from None
    if source is None:
        raise PlanError(["The plan file is empty. Begin with the keys plan, title, stages and steps."])
    if not isinstance(source, Mapping):
        raise PlanError(["The plan file is not a plan: it must begin with keys such as plan, title, stages, steps."])
    return Reader(source).document()


def hash_of(document: Mapping[str, Any]) -> str:
    """SHA-256 of the document's canonical JSON; a record's basis names the plan by it."""
    return hashlib.sha256(canonical(document).encode()).hexdigest()


class Reader:
    """Reads one source, gathering faults on the way."""

    def __init__(self, source: Mapping[str, Any]) -> None:
        self.source = source
        self.faults: list[str] = []
        self.codes: dict[str, set[str]] = {}
        tables = source.get("tables")
        self.tables_named = {str(name) for name in tables} if isinstance(tables, Mapping) else set()

    def document(self) -> dict[str, Any]:
        steps = [s for s in self.rows(self.source, "steps", "the plan") if isinstance(s, Mapping)]
        for step in steps:
            items = step.get("items")
            named = [i for i in items if isinstance(i, Mapping)] if isinstance(items, list) else []
            self.codes[str(step.get("code"))] = {str(i.get("code")) for i in named}
        document = {
            "format": FORMAT,
            "plan": self.text(self.source, "plan", "the plan"),
            "title": self.text(self.source, "title", "the plan"),
            "notice": self.text(self.source, "notice", "the plan"),
            "figures": self.figures("figures"),
            "piece_figures": self.figures("piece_figures"),
            "agree": self.agree(),
            **self.not_recorder(),
            "stages": [{"number": self.text(s, "number", "a stage"), "name": self.text(s, "name", "a stage")}
                       for s in self.rows(self.source, "stages", "the plan") if isinstance(s, Mapping)],
        }  # fmt: skip
        document["tables"] = self.tables(document)
        document["steps"] = [self.step(step, document) for step in steps]
        self.check_whole(document)
        self.faults += misfits(document)
        if self.faults:
            raise PlanError(self.faults)
        return document

    def text(self, source: Mapping[str, Any], key: str, where: str) -> str:
        value = source.get(key)
        if value is None or not str(value).strip():
            self.faults.append(f"{where}: {key} is missing")
            return ""
        return str(value).strip()

    def rows(self, source: Mapping[str, Any], key: str, where: str) -> list[Any]:
        value = source.get(key)
        if not isinstance(value, list) or not value:
            self.faults.append(f"{where}: {key} is missing or empty")
            return []
        return value

    def mapping(self, key: str) -> Mapping[str, Any]:
        """A part of the plan that is keys with values, and may be left out."""
        value = self.source.get(key) or {}
        if isinstance(value, Mapping):
            return value
        self.faults.append(f"{key}: must be keys with values below them")
        return {}

    def some(self, source: Mapping[str, Any], key: str, where: str) -> list[Any]:
        """A list that may be left out."""
        value = source.get(key) or []
        if isinstance(value, list):
            return value
        self.faults.append(f"{where}: {key} must be a list")
        return []

    def whole(self, value: Any, where: str) -> int:
        if isinstance(value, int) and not isinstance(value, bool) and 0 < value <= MOST_STATIONS:
            return value
        self.faults.append(f"{where}: '{value}' must be a whole number from 1 to {MOST_STATIONS}")
        return 1

    def agree(self) -> dict[str, list[str]]:
        """Who must agree to a disposition, by what binds."""
        found: dict[str, list[str]] = {bind: [] for bind in BINDS}
        given = self.mapping("agree")
        for bind in given:
            name = self.choice(bind, BINDS, "agree")
            found[name] = [self.choice(party, AGREEING, f"agree, {name}") for party in self.some(given, bind, "agree")]
        return found

    def not_recorder(self) -> dict[str, bool]:
        """Whether nobody disposes of a finding of their own; not there where anybody may."""
        value = self.source.get("not_recorder") or False
        if not isinstance(value, bool):
            self.faults.append(f"not_recorder: '{value}' is not true or false")
        return {"not_recorder": True} if value is True else {}

    def choice(self, value: Any, choices: tuple[str, ...], where: str) -> str:
        if str(value) not in choices:
            self.faults.append(f"{where}: '{value}' is not one of {', '.join(choices)}")
        return str(value)

    def figures(self, key: str) -> dict[str, Any]:
        found = {}
        for name, figure in self.mapping(key).items():
            if not isinstance(figure, Mapping) or not str(name).isidentifier():
                self.faults.append(f"{key}: '{name}' needs a plain name with uom and what")
                continue
            found[str(name)] = {"uom": str(figure.get("uom", "")), "what": str(figure.get("what", ""))}
        return found

    def tables(self, document: Mapping[str, Any]) -> dict[str, Any]:
        found = {}
        for name, table in self.mapping("tables").items():
            if not isinstance(table, Mapping):
                self.faults.append(f"table {name}: needs rows")
                continue
            rows = []
            for place, row in enumerate(self.rows(table, "rows", f"table {name}"), 1):
                where = f"table {name}, row {place}"
                if not isinstance(row, Mapping):
                    self.faults.append(f"{where}: needs 'from' or 'after', and value")
                    continue
                reached = "from" if "from" in row else "after"
                if reached not in row or "value" not in row:
                    self.faults.append(f"{where}: needs 'from' or 'after', and value")
                    continue
                edge = self.tree(str(row[reached]), f"{where}, {reached}", "", document)
                ends = str(row["value"]).strip().lower() == NO_VALUE
                value = None if ends else self.tree(str(row["value"]), f"{where}, value", "", document)
                rows.append({"reached": reached, "edge": edge, "value": value, "text": str(row["value"])})
            found[str(name)] = {
                "what": str(table.get("what", "")), "source": str(table.get("source", "")),
                "uom": str(table.get("uom", "")), "x_uom": str(table.get("x_uom", "")), "rows": rows,
            }  # fmt: skip
        return found

    def tree(self, text: str, where: str, step: str, document: Mapping[str, Any]) -> formula.Tree | None:
        """The tree of a formula, its names checked. step: whose items it may use; '' where it may use none."""
        try:
            tree = formula.parse(text)
        except formula.FormulaError as error:
            self.faults.append(f"{where}: {error}")
            return None
        for part in formula.walk(tree):
            self.check_name(part, where, step, document)
        return tree

    def check_name(self, part: formula.Tree, where: str, step: str, document: Mapping[str, Any]) -> None:
        figures = {*document["figures"], *document["piece_figures"]}
        if part[0] == "name" and part[1] not in figures:
            if not step:
                self.faults.append(f"{where}: '{part[1]}' is no figure of the plan or the piece")
            elif part[1] not in self.codes.get(step, set()):
                self.faults.append(f"{where}: '{part[1]}' is no figure and no item of step {step}")
        if part[0] == "item" and (not step or part[2] not in self.codes.get(part[1], set())):
            self.faults.append(f"{where}: there is no item '{part[1]}.{part[2]}' that it may use")
        if part[0] == "table" and part[1] not in self.tables_named:
            self.faults.append(f"{where}: there is no table '{part[1]}'")
        if part[0] == "div" and constant(part[2]) == 0:
            self.faults.append(f"{where}: divides by zero")

    def step(self, step: Mapping[str, Any], document: Mapping[str, Any]) -> dict[str, Any]:
        code = self.text(step, "code", "a step")
        where = f"step {code}"
        if not code.isidentifier():
            self.faults.append(f"{where}: the code must be a plain word of letters, digits and _")
        stage = str(step.get("stage"))
        self.choice(stage, tuple(s["number"] for s in document["stages"]), f"{where}, stage")
        return {
            "code": code,
            "number": self.text(step, "number", where),
            "stage": stage,
            "name": self.text(step, "name", where),
            "kinds": [str(kind) for kind in self.rows(step, "kinds", where)],
            "points": [self.point(point, where) for point in self.rows(step, "points", where)],
            "reach": self.choice(step.get("reach", "piece"), ("piece", "job"), f"{where}, reach"),
            "not_before": [self.before(rule, where) for rule in self.some(step, "not_before", where)],
            "note": str(step.get("note") or ""),
            "cautions": [str(caution) for caution in self.some(step, "cautions", where)],
            "items": [self.item(item, code, document) for item in self.rows(step, "items", where)],
        }

    def point(self, point: Any, where: str) -> dict[str, Any]:
        if not isinstance(point, Mapping):
            self.faults.append(f"{where}: a point needs party and point")
            return {"party": "", "point": ""}
        party = self.choice(point.get("party"), PARTIES, f"{where}, point")
        found = {"party": party, "point": self.choice(point.get("point"), POINTS, f"{where}, point")}
        if point.get("trade"):
            found["trade"] = self.choice(point["trade"], ROLES["maker"], f"{where}, trade")
        return {**found, "not_maker": True} if point.get("not_maker") else found

    def before(self, rule: Any, where: str) -> dict[str, Any]:
        if not isinstance(rule, Mapping) or "steps" not in rule:
            self.faults.append(f"{where}: a row of 'not_before' needs steps and of")
            return {"steps": [], "of": "piece"}
        steps = rule["steps"]
        if steps != "earlier":
            steps = [str(code) for code in self.rows(rule, "steps", f"{where}, not_before")]
        for code in [] if steps == "earlier" else steps:
            if code not in self.codes:
                self.faults.append(f"{where}, not_before: there is no step '{code}'")
        found = {"steps": steps, "of": self.choice(rule.get("of"), OF, f"{where}, not_before")}
        if found["of"] == "kinds":
            found["kinds"] = [str(kind) for kind in self.rows(rule, "kinds", f"{where}, not_before")]
        kinds = [str(kind) for kind in self.some(rule, "for", f"{where}, not_before")]
        return {**found, "for": kinds} if kinds else found

    def item(self, item: Any, step: str, document: Mapping[str, Any]) -> dict[str, Any]:
        if not isinstance(item, Mapping):
            self.faults.append(f"step {step}: an item needs code, name and kind")
            return {"code": "", "kind": "text", "name": ""}
        code = self.text(item, "code", f"step {step}, an item")
        where = f"step {step}, item {code}"
        kind = self.choice(item.get("kind"), ITEM_KINDS, f"{where}, kind")
        found: dict[str, Any] = {
            "code": code,
            "name": self.text(item, "name", where),
            "kind": kind,
            "binds": self.choice(item.get("binds", "shop"), BINDS, f"{where}, binds"),
            "source": str(item.get("source") or ""),
            "photo": self.choice(item.get("photo", "never"), PHOTO, f"{where}, photo"),
        }
        if kind in ("measure", "derived"):
            found["uom"] = self.text(item, "uom", where)
            found["rule"] = self.choice(item.get("rule", "simple"), RULES, f"{where}, rule")
        found |= {key: str(item[key]) for key in ("where", "note", "gauge", "place") if item.get(key)}
        if "place" in found and not PLACE.fullmatch(found["place"]):
            self.faults.append(f"{where}, place: '{found['place']}' is no place to round to, such as 0.01 or 1")
        found |= {key: True for key in ("may_not_apply", "fillet") if item.get(key)}
        found |= self.formulas(item, where, step, kind, document)
        stations = self.stations(item.get("stations"), where)
        return {**found, "stations": stations} if stations else found

    def formulas(
        self, item: Mapping[str, Any], where: str, step: str, kind: str, document: Mapping[str, Any]
    ) -> dict[str, Any]:
        found = {}
        for key, of in (("lower", ""), ("upper", ""), ("only_if", ""), ("formula", step), ("nominal", ""),
                        ("thickness", "")):  # fmt: skip
            if item.get(key) is not None:
                text = str(item[key])
                found[key] = {"text": text, "tree": self.tree(text, f"{where}, {key}", of, document)}
        found |= self.about_nominal(item, where, found, document)
        if kind == "derived" and "formula" not in found:
            self.faults.append(f"{where}: a derived item needs a formula")
        if kind not in ("measure", "derived") and {"lower", "upper", "nominal"} & {*found}:
            self.faults.append(f"{where}: only a measure or derived item has limits")
        if kind != "weld" and ("thickness" in found or item.get("fillet")):
            self.faults.append(f"{where}: only a weld has a thickness of weld metal or is a fillet")
        return found

    def about_nominal(
        self, item: Mapping[str, Any], where: str, found: Mapping[str, Any], document: Mapping[str, Any]
    ) -> dict[str, Any]:
        """The limits about a nominal value: 'tolerance' to both sides, or 'plus' and 'minus'."""
        sides = {"lower": ("sub", "minus", "-"), "upper": ("add", "plus", "+")}
        given = [key for key in ("tolerance", "plus", "minus") if item.get(key) is not None]
        if "nominal" not in found:
            self.faults += [f"{where}, {key}: stands beside a nominal value, which is missing" for key in given]
            return {}
        if "lower" in found or "upper" in found or not given or ("tolerance" in given and len(given) > 1):
            self.faults.append(
                f"{where}, nominal: give 'tolerance', or 'plus' and 'minus', beside it, and no other limit"
            )
            return {}
        limits = {}
        for side, (word, key, sign) in sides.items():
            by = item.get("tolerance", item.get(key))
            if by is not None:
                tree = self.tree(str(by), f"{where}, {'tolerance' if 'tolerance' in given else key}", "", document)
                text = f"{found['nominal']['text']} {sign} ({by})"
                limits[side] = {"text": text, "tree": [word, found["nominal"]["tree"], tree]}
        return limits

    def stations(self, stations: Any, where: str) -> dict[str, Any] | None:
        if not stations:
            return None
        if not isinstance(stations, Mapping):
            stations = {}
        if "clock" in stations:
            hours = stations["clock"]
            names = [str(hour) for hour in hours] if isinstance(hours, list) else None
            names = CLOCK.get(hours) if isinstance(hours, int) else names
            if names is None:
                self.faults.append(f"{where}: a clock has 3, 4, 6, 8 or 12 places, or a list of its own")
            return {"style": "clock", "names": names or [], "seen_from": str(stations.get("seen_from", ""))}
        if "numbered" in stations:
            return {
                "style": "numbered",
                "names": [str(n) for n in range(1, self.whole(stations["numbered"], where) + 1)],
            }
        if "names" in stations:
            return {"style": "names", "names": [str(name) for name in self.rows(stations, "names", where)]}
        if "least" in stations:
            return {
                "style": "open",
                "least": self.whole(stations["least"], where),
                "word": str(stations.get("word", "place")),
            }
        self.faults.append(f"{where}: stations are clock, numbered, names or least")
        return None

    def check_whole(self, document: Mapping[str, Any]) -> None:
        """What only the whole can show: codes used twice, circles."""
        seen: set[str] = set()
        for step in document["steps"]:
            if step["code"] in seen:
                self.faults.append(f"step {step['code']}: there are two steps with this code")
            seen.add(step["code"])
            figures = {*document["figures"], *document["piece_figures"]}
            self.faults += [f"step {step['code']}, item {item['code']}: a figure has this name already"
                            for item in step["items"] if item["code"] in figures]  # fmt: skip
            codes = [item["code"] for item in step["items"]]
            self.faults += [f"step {step['code']}, item {code}: there are two items with this code"
                            for code in sorted({code for code in codes if codes.count(code) > 1})]  # fmt: skip
        if not self.faults:
            self.faults += [f"circle between derived items: {' -> '.join(circle)}" for circle in circles(document)]
            self.faults += order.faults(document)


def constant(tree: formula.Tree) -> Decimal | None:
    """The value of a formula that looks nothing up; None where it does, or has none."""
    if any(part[0] in ("name", "item", "table") for part in formula.walk(tree)):
        return None
    try:
        return formula.work_out(tree, formula.Names({}, lambda step, item: [], {}))
    except formula.FormulaError:
        return None


def circles(document: Mapping[str, Any]) -> Iterator[list[str]]:
    """Derived items that are worked out from themselves, by way of others."""
    needs: dict[str, list[str]] = {}
    for step in document["steps"]:
        own = {item["code"] for item in step["items"]}
        for item in step["items"]:
            if item["kind"] == "derived":
                trees = list(formula.walk(item["formula"]["tree"]))
                needs[f"{step['code']}.{item['code']}"] = [
                    *(f"{t[1]}.{t[2]}" for t in trees if t[0] == "item"),
                    *(f"{step['code']}.{t[1]}" for t in trees if t[0] == "name" and t[1] in own),
                ]
    for start in needs:
        path = [start]
        while path[-1] in needs and len(path) <= len(needs):
            onward = [one for one in needs[path[-1]] if one in needs]
            if not onward:
                break
            path.append(start if start in onward else onward[0])
            if path[-1] == start:
                yield path
                break
