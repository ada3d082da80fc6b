"""A job as the core sees it: plans by their hash, figures by their number, pieces, and what stands before what."""

from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any, NamedTuple, TypeVar

from seamtag.core import formula, limits

Piece = Mapping[str, Any]
Step = Mapping[str, Any]
Item = Mapping[str, Any]
Basis = Mapping[str, Any]

T = TypeVar("T")

REQUIRED = ("sign", "H", "W", "R")
HOLDING = ("H", "W")


class Before(NamedTuple):
    """A step of a piece that must be let go before another begins: its holds only, or the whole of its release."""

    piece: str
    step: str
    whole: bool


class Job:
    """data: {"id", "bases": [{"plan", "figures"}, ...] oldest first, "plans": {hash: plan},
    "figure_sets": {number as text: {"values": {name: typed}, "drawings": {sheet: revision}}},
    "pieces": [{"id", "mark", "kind", "part_of": [id], "joins": [id], "figures": {}, "sheet", "remade": id}],
    "gauges": {id: {"uncertainty", "uom", "due"}},
    "procedures": {id: as procedures.py says}, "qualifications": {person: [as qualifications.py says]}}; the last three
    may be left out.
    """

    def __init__(self, data: Mapping[str, Any]) -> None:
        self.data = data
        self.bases: list[Basis] = data["bases"]
        self.basis: Basis = self.bases[-1]
        self.plan = data["plans"][self.basis["plan"]]
        self.gauges: Mapping[str, Any] = data.get("gauges", {})
        self.procedures: Mapping[str, Any] = data.get("procedures") or {}
        self.qualifications: Mapping[str, list[Any]] = data.get("qualifications") or {}
        self.pieces: dict[str, Piece] = {piece["id"]: piece for piece in data["pieces"]}
        self.steps: dict[str, Step] = {step["code"]: step for step in self.plan["steps"]}
        self.order = {code: place for place, code in enumerate(self.steps)}
        self.stages = {stage["number"]: place for place, stage in enumerate(self.plan["stages"])}
        self.children: dict[str, list[str]] = {}
        self.waited_for = [piece for piece in data["pieces"] if not piece.get("remade")]
        """Without what was scrapped and has been remade: the new piece is in its place, and nothing waits for
        the old."""
        for piece in self.waited_for:
            for whole in piece.get("part_of", []):
                self.children.setdefault(whole, []).append(piece["id"])
        self.by_kinds: dict[tuple[str, ...], list[str]] = {}
        self.before = lru_cache(None)(self.worked_out_before)
        self.definition = lru_cache(None)(self.worked_out_definition)
        self.limits = lru_cache(None)(self.worked_out_limits)
        self.figures = lru_cache(None)(self.worked_out_figures)

    def steps_of(self, piece_id: str) -> list[Step]:
        """The steps asked of a piece, in plan order."""
        piece = self.pieces.get(piece_id)
        return [s for s in self.plan["steps"] if piece and piece["kind"] in s["kinds"]]

    def has_step(self, piece_id: str, code: str) -> bool:
        piece, step = self.pieces.get(piece_id), self.steps.get(code)
        return bool(piece and step and piece["kind"] in step["kinds"])

    def item(self, step_code: str, item_code: str, plan_hash: str | None = None) -> Item | None:
        """An item of the plan in force, or of the revision a record names."""
        plan = self.plan if plan_hash is None else self.data["plans"].get(plan_hash, {"steps": []})
        for step in plan["steps"]:
            if step["code"] == step_code:
                return next((item for item in step["items"] if item["code"] == item_code), None)
        return None

    def parts(self, piece_id: str) -> list[str]:
        """The parts of a piece and their parts."""
        return reached(piece_id, lambda one: self.children.get(one, []))

    def wholes(self, piece_id: str) -> list[str]:
        """What a piece is part of, and what that is part of."""
        return reached(piece_id, lambda one: self.pieces[one].get("part_of", []) if one in self.pieces else [])

    def names(self, piece_id: str, basis: Basis, readings: Any = None) -> formula.Names:
        """What a formula may look up at a piece under a basis."""
        plan = self.data["plans"].get(basis["plan"], {})
        figures = self.figures(piece_id, basis["figures"])
        return formula.Names(figures, readings or (lambda step, item: []), plan.get("tables", {}))

    def worked_out_figures(self, piece_id: str, number: int) -> dict[str, Decimal]:
        """The figures that count at a piece, by the number of the figures."""
        figure_set = self.data["figure_sets"].get(str(number), {"values": {}})
        own = self.pieces[piece_id].get("figures", {}) if piece_id in self.pieces else {}
        return limits.figures_of(figure_set["values"], own)

    def worked_out_limits(self, piece_id: str, step: str, item: str, plan_hash: str, figures: int) -> limits.Limits:
        found = self.item(step, item, plan_hash)
        if found is None or str(figures) not in self.data["figure_sets"]:
            return limits.Limits(None, None, "limit not known: the plan revision or figures are not here")
        return limits.limits_of(found, self.names(piece_id, {"plan": plan_hash, "figures": figures}))

    def thickness(self, piece_id: str, step: str, item: str, basis: Basis) -> Decimal | None:
        """The thickness of weld metal in inches that a weld item gives under a basis; None where it cannot be told."""
        found = self.item(step, item, basis["plan"])
        if not found or not found.get("thickness"):
            return None
        try:
            return formula.work_out(found["thickness"]["tree"], self.names(piece_id, basis))
        except formula.FormulaError:
            return None

    def worked_out_definition(self, piece_id: str, step: str, item: str, plan_hash: str, figures: int) -> Any:
        """All that says what an item asks at a piece: its text, its limits as worked out, its drawing's revision,
        and the figures and tables by which it is worked out or asked at all."""
        figure_set = self.data["figure_sets"].get(str(figures), {})
        sheet = self.pieces.get(piece_id, {}).get("sheet", "")
        revision = figure_set.get("drawings", {}).get(sheet, "")
        found = self.item(step, item, plan_hash)
        used = looked_up(found or {}, self.names(piece_id, {"plan": plan_hash, "figures": figures}))
        return (found, self.limits(piece_id, step, item, plan_hash, figures), revision, used)

    def still_asked(self, piece_id: str, step: str, item: str, basis: Basis) -> bool:
        """Whether the item has meant the same at every basis from the given one on.

        At every one, not only at the last: what a change reopened does not come back by taking the change back.
        """
        if basis not in self.bases:
            return False
        later = self.bases[self.bases.index(basis) :]
        first = self.definition(piece_id, step, item, basis["plan"], basis["figures"])
        return all(self.definition(piece_id, step, item, b["plan"], b["figures"]) == first for b in later[1:])

    def step_still_asked(self, piece_id: str, code: str, basis: Basis) -> bool:
        """Whether a step's points and all of its items have meant the same from the given basis on."""
        if basis not in self.bases:
            return False
        later = [self.step_in(b["plan"], code) for b in self.bases[self.bases.index(basis) :]]
        first = later[0]
        if first is None or any(s is None or s["points"] != first["points"] for s in later):
            return False
        codes = {item["code"] for s in later if s for item in s["items"]}
        return all(self.still_asked(piece_id, code, item, basis) for item in codes)

    def step_in(self, plan_hash: str, code: str) -> Step | None:
        steps = self.data["plans"].get(plan_hash, {"steps": []})["steps"]
        return next((step for step in steps if step["code"] == code), None)

    def worked_out_before(self, piece_id: str, code: str) -> tuple[Before, ...]:
        """The steps that stand before a step of a piece, by the plan and the pieces alone.

        Earlier steps of the same piece are all named; those without a point that holds stop nothing.
        """
        step, piece = self.steps[code], self.pieces[piece_id]
        found = [Before(piece_id, s["code"], False) for s in self.steps_of(piece_id)
                 if self.order[s["code"]] < self.order[code]]  # fmt: skip
        found += self.holds_of_whole_job(step)
        for rule in step.get("not_before", []):
            if piece["kind"] in rule.get("for", [piece["kind"]]):
                found += self.asked_by(rule, piece_id, step)
        wholes = {(before.piece, before.step) for before in found if before.whole}
        return tuple(dict.fromkeys(b for b in found if b.whole or (b.piece, b.step) not in wholes))

    def holds_of_whole_job(self, step: Step) -> list[Before]:
        """Steps of earlier stages whose holds stop the whole job, those a party may yet add included."""
        return [
            Before(one, s["code"], False)
            for s in self.plan["steps"]
            if s.get("reach") == "job" and self.stages[s["stage"]] < self.stages[step["stage"]]
            for one in self.of_kinds(s["kinds"])
        ]

    def asked_by(self, rule: Mapping[str, Any], piece_id: str, step: Step) -> list[Before]:
        codes = rule["steps"]
        if codes == "earlier":
            codes = [s["code"] for s in self.plan["steps"] if self.stages[s["stage"]] < self.stages[step["stage"]]]
        return [
            Before(one, code, True)
            for one in self.pieces_of(rule, piece_id)
            for code in codes
            if self.has_step(one, code) and (one, code) != (piece_id, step["code"])
        ]

    def pieces_of(self, rule: Mapping[str, Any], piece_id: str) -> Iterable[str]:
        match rule["of"]:
            case "piece":
                return [piece_id]
            case "joins":
                joined = self.pieces[piece_id].get("joins", [])
                return dict.fromkeys([*joined, *(part for one in joined for part in self.parts(one))])
            case "parts":
                return self.parts(piece_id)
            case "kinds":
                return self.of_kinds(rule["kinds"])
        return [piece["id"] for piece in self.waited_for]

    def of_kinds(self, kinds: Iterable[str]) -> list[str]:
        wanted = tuple(kinds)
        if wanted not in self.by_kinds:
            self.by_kinds[wanted] = [piece["id"] for piece in self.waited_for if piece["kind"] in wanted]
        return self.by_kinds[wanted]


def looked_up(item: Item, names: formula.Names) -> dict[str, Any]:
    """The figures and tables that an item's formula and its 'only if' look up."""
    waiting = [item[part]["tree"] for part in ("formula", "only_if") if item.get(part)]
    found: dict[str, Any] = {}
    while waiting:
        for tree in formula.walk(waiting.pop()):
            if tree[0] == "name":
                found[tree[1]] = names.figures.get(tree[1])
            elif tree[0] == "table" and f"table {tree[1]}" not in found:
                rows = names.tables.get(tree[1], {"rows": []})["rows"]
                found[f"table {tree[1]}"] = rows
                waiting += [row[part] for row in rows for part in ("edge", "value") if row[part] is not None]
    return found


def reached(start: T, onward: Callable[[T], Iterable[T]]) -> list[T]:
    """Everything reached from a start, in the order it is met, without the start."""
    found: dict[T, None] = {}
    waiting = list(onward(start))
    while waiting:
        one = waiting.pop(0)
        if one not in found and one != start:
            found[one] = None
            waiting.extend(onward(one))
    return list(found)
