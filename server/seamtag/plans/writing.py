"""A published document back into what a planner writes: the source that `reading.py` makes the same document of."""

from collections.abc import Mapping
from typing import Any

import yaml

from seamtag.core.formula import Tree
from seamtag.plans.reading import NO_VALUE

INFIX = {"add": "+", "sub": "-", "mul": "*", "div": "/", "lt": "<", "le": "<=", "gt": ">", "ge": ">=", "eq": "==",
         "ne": "!=", "and": "and", "or": "or"}  # fmt: skip
BINDING = {"if": 0, "or": 1, "and": 2, "not": 3, "lt": 4, "le": 4, "gt": 4, "ge": 4, "eq": 4, "ne": 4, "add": 5,
           "sub": 5, "mul": 6, "div": 6, "neg": 7, "pow": 8}  # fmt: skip
"""How strongly an operator holds its values together; whatever stands not here holds strongest."""
STRONGEST = 9
COMPARING = ("lt", "le", "gt", "ge", "eq", "ne")
KEPT = ("where", "note", "gauge", "place")
FORMULAS = ("only_if", "formula", "thickness")


def as_yaml(document: Mapping[str, Any]) -> str:
    return yaml.safe_dump(source_of(document), sort_keys=False, allow_unicode=True, width=120)


def source_of(document: Mapping[str, Any]) -> dict[str, Any]:
    """What a planner would write to get this document, by the keys of a plan's YAML."""
    source: dict[str, Any] = {key: document[key] for key in ("notice", "plan", "title", "figures", "piece_figures")}
    source["tables"] = {name: table_source(table) for name, table in document["tables"].items()}
    source["agree"] = document["agree"]
    if document.get("not_recorder"):
        source["not_recorder"] = True
    source["stages"] = document["stages"]
    source["steps"] = [step_source(step) for step in document["steps"]]
    return {key: value for key, value in source.items() if value or key not in ("figures", "piece_figures", "tables")}


def table_source(table: Mapping[str, Any]) -> dict[str, Any]:
    rows = [{row["reached"]: formula_text(row["edge"]), "value": NO_VALUE if row["value"] is None else row["text"]}
            for row in table["rows"]]  # fmt: skip
    about = {key: table[key] for key in ("what", "source", "uom", "x_uom") if table[key]}
    return {**about, "rows": rows}


def step_source(step: Mapping[str, Any]) -> dict[str, Any]:
    source = {key: step[key] for key in ("code", "number", "stage", "name", "kinds", "points")}
    if step["reach"] != "piece":
        source["reach"] = step["reach"]
    source |= {key: step[key] for key in ("not_before", "note", "cautions") if step[key]}
    return {**source, "items": [item_source(item) for item in step["items"]]}


def item_source(item: Mapping[str, Any]) -> dict[str, Any]:
    source = {key: item[key] for key in ("code", "name", "kind")}
    source |= {key: item[key] for key in ("uom", *KEPT, "may_not_apply", "fillet") if key in item}
    if "stations" in item:
        source["stations"] = stations_source(item["stations"])
    source |= limits_source(item)
    source |= {key: item[key]["text"] for key in FORMULAS if key in item}
    if item.get("rule", "simple") != "simple":
        source["rule"] = item["rule"]
    source["binds"] = item["binds"]
    source |= {key: item[key] for key in ("source",) if item[key]}
    return source if item["photo"] == "never" else {**source, "photo": item["photo"]}


def limits_source(item: Mapping[str, Any]) -> dict[str, str]:
    """The limits as they were written: about a nominal value, or each by itself."""
    texts = {side: item[side]["text"] for side in ("lower", "upper") if side in item}
    if "nominal" not in item:
        return texts
    nominal = item["nominal"]["text"]
    given = {"minus": texts.get("lower", "").removeprefix(f"{nominal} - (").removesuffix(")"),
             "plus": texts.get("upper", "").removeprefix(f"{nominal} + (").removesuffix(")")}  # fmt: skip
    if given["minus"] == given["plus"]:
        return {"nominal": nominal, "tolerance": given["plus"]}
    return {"nominal": nominal, **{key: text for key, text in given.items() if text}}


def stations_source(stations: Mapping[str, Any]) -> dict[str, Any]:
    match stations["style"]:
        case "clock":
            seen = {"seen_from": stations["seen_from"]} if stations["seen_from"] else {}
            return {"clock": stations["names"], **seen}
        case "numbered":
            return {"numbered": len(stations["names"])}
        case "names":
            return {"names": stations["names"]}
    return {"least": stations["least"], "word": stations["word"]}


def formula_text(tree: Tree, around: int = 0) -> str:
    """A text that `core.formula.parse` makes the same tree of. around: how strongly what stands around it holds."""
    word = tree[0]
    holds = BINDING.get(word, STRONGEST)
    match word:
        case "num" | "name":
            text = str(tree[1])
        case "item":
            text = f"{tree[1]}.{tree[2]}"
        case "call":
            text = f"{tree[1]}({', '.join(formula_text(part) for part in tree[2:])})"
        case "table":
            text = f'table("{tree[1]}", {formula_text(tree[2])})'
        case "neg":
            text = f"-{formula_text(tree[1], holds)}"
        case "not":
            text = f"not {formula_text(tree[1], holds)}"
        case "pow":
            text = f"{formula_text(tree[1], holds + 1)}**{tree[2]}"
        case "if":
            test, then, otherwise = (formula_text(part, holds + 1) for part in tree[1:])
            text = f"{then} if {test} else {otherwise}"
        case _:
            left = formula_text(tree[1], holds + 1 if word in COMPARING else holds)
            space = "" if word == "div" and tree[1][0] == tree[2][0] == "num" else " "
            text = f"{left}{space}{INFIX[word]}{space}{formula_text(tree[2], holds + 1)}"
    return text if holds >= around else f"({text})"
