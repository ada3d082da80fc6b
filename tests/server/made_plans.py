"""Plans made at random, of every kind of row a plan can have."""

import random
from typing import Any

NAMES = ["gap_nom", "t_shell", "D_furn", "leg_1", "MAWP"]
KINDS = ["long seam", "girth seam", "tube sheet", "stay; welded", "plate\\bar", "nozzle"]
WORDS = [
    "Offset",
    "inside = outside",
    'at 12 o\'clock, seen from the "front"',
    "1/2",
    "=2+2",
    "naïve ß 溶接",
    "a; b",
    "x\\y",
]


def made(dice: random.Random) -> dict[str, Any]:
    """The source of a plan, by the keys of its YAML."""
    stages = [{"number": f"{n}.10" if dice.random() < 0.3 else str(n), "name": words(dice)} for n in range(1, 4)]
    tables = {"reinf": table(dice)} if dice.random() < 0.7 else {}
    source: dict[str, Any] = {
        "notice": "\n".join(words(dice) for _ in range(dice.randint(1, 3))), "plan": "made", "title": words(dice),
        "figures": {name: {"uom": "in", "what": words(dice)} for name in NAMES},
        "piece_figures": {"size": {"uom": "in", "what": words(dice)}} if dice.random() < 0.5 else {},
        "tables": tables,
        "agree": {"code": ["engineering", "AI"], "drawing": dice.choice([[], ["engineering"]]), "shop": []},
        "stages": stages,
        "steps": [],
    }  # fmt: skip
    if dice.random() < 0.5:
        source["not_recorder"] = True
    for number in range(dice.randint(1, 6)):
        stage = stages[min(number // 2, 2)]["number"]
        source["steps"].append(step(dice, number, stage, source))
    return source


def words(dice: random.Random) -> str:
    return " ".join(dice.choice(WORDS) for _ in range(dice.randint(1, 3)))


def number(dice: random.Random) -> str:
    return dice.choice(["1/8", "0.125", "3", "1e-3", "12.50"])


def limit(dice: random.Random, tables: bool) -> str:
    name = dice.choice(NAMES[:4])
    forms = [
        f"{name} + {number(dice)}", f"min({name}/4, 1/8)", f"-({name} - 1/4)/2", f"abs({name} - 1)/(2 - 1/2)",
        f"{number(dice)} if {name} > 1/2 else 1/16", f"2 if {name} < 1 and not (1 > 2 or {name} == 3) else 3",
    ]  # fmt: skip
    return dice.choice([*forms, *([f"table('reinf', {name})"] if tables else [])])


def table(dice: random.Random) -> dict[str, Any]:
    rows = [{"from": "0", "value": "1/16"}, {"after": "1/2", "value": "1/8 + 1/64"}, {"from": "2.50", "value": "none"}]
    return {"what": words(dice), "source": words(dice), "uom": "", "x_uom": "", "rows": rows[: dice.randint(1, 3)]}


def step(dice: random.Random, place: int, stage: str, source: dict[str, Any]) -> dict[str, Any]:
    kinds = dice.sample(KINDS, dice.randint(1, 3))
    found: dict[str, Any] = {
        "code": f"step_{place}", "number": f"{place}.{dice.randint(1, 20)}", "stage": stage, "name": words(dice),
        "kinds": kinds, "points": points(dice), "items": items(dice, source),
    }  # fmt: skip
    if dice.random() < 0.2:
        found["reach"] = "job"
    if dice.random() < 0.5:
        found["cautions"] = [words(dice) for _ in range(dice.randint(1, 3))]
    if dice.random() < 0.3:
        found["note"] = words(dice) + "\n" + words(dice)
    if place:
        found["not_before"] = [before(dice, place, kinds) for _ in range(dice.randint(0, 2))]
    return found


def points(dice: random.Random) -> list[dict[str, Any]]:
    every = [{"party": "maker", "point": "sign"}, {"party": "maker", "point": "sign", "trade": "tube roller"},
             {"party": "QC", "point": "H", "not_maker": True}, {"party": "QC", "point": "S"},
             {"party": "AI", "point": "W"}, {"party": "customer", "point": "R"}]  # fmt: skip
    return dice.sample(every, dice.randint(1, 4))


def before(dice: random.Random, place: int, kinds: list[str]) -> dict[str, Any]:
    of = dice.choice(["piece", "joins", "parts", "kinds"])
    steps = [f"step_{n}" for n in dice.sample(range(place), dice.randint(1, place))]
    rule: dict[str, Any] = {"steps": steps, "of": of}
    if of == "kinds":
        rule["kinds"] = dice.sample(KINDS, 2)
    if dice.random() < 0.3:
        rule["for"] = kinds[:1]
    return rule


def stations(dice: random.Random) -> dict[str, Any]:
    forms: list[dict[str, Any]] = [
        {"clock": 4}, {"clock": ["12", "1:30", "a; b"], "seen_from": "burner end"}, {"numbered": dice.randint(1, 12)},
        {"names": ["left 0", "x; y", "right\\90"]}, {"least": 10, "word": "hole"}, {"least": 3},
    ]  # fmt: skip
    return dice.choice(forms)


def items(dice: random.Random, source: dict[str, Any]) -> list[dict[str, Any]]:
    tables = bool(source["tables"])
    found: list[dict[str, Any]] = []
    for place in range(dice.randint(1, 6)):
        kind = dice.choice(["visual", "measure", "measure", "derived", "photo", "weld", "report", "text"])
        if kind == "derived" and not any(item["kind"] == "measure" for item in found):
            kind = "measure"
        item: dict[str, Any] = {"code": f"item_{place}", "name": words(dice), "kind": kind}
        if kind in ("measure", "derived"):
            item |= {"uom": "in"} | limits(dice, tables)
        if kind == "measure" and dice.random() < 0.4:
            item |= {"rule": "guarded", "gauge": "hi-lo gauge"}
        if kind == "derived":
            item["formula"] = f"spread({next(one['code'] for one in found if one['kind'] == 'measure')})"
            item["place"] = "0.001"
        if kind == "weld" and dice.random() < 0.5:
            item |= {"thickness": "t_shell", "fillet": True}
        if kind == "visual" and dice.random() < 0.5:
            item["may_not_apply"] = True
        if kind == "measure" and dice.random() < 0.6:
            item["stations"] = stations(dice)
        for key in ("where", "note", "source"):
            if dice.random() < 0.3:
                item[key] = words(dice)
        if dice.random() < 0.3:
            item["only_if"] = f"{dice.choice(NAMES[:4])} > 1/4"
        item["binds"] = dice.choice(["code", "drawing", "shop"])
        item["photo"] = dice.choice(["always", "out", "never"])
        found.append(item)
    return found


def limits(dice: random.Random, tables: bool) -> dict[str, str]:
    match dice.randint(0, 4):
        case 0:
            return {"lower": limit(dice, tables), "upper": limit(dice, tables)}
        case 1:
            return {"upper": limit(dice, tables)}
        case 2:
            return {"nominal": "gap_nom", "tolerance": "1/16"}
        case 3:
            return {"nominal": "gap_nom + 1/8", "plus": "1/16", "minus": "(1/32)"}
    return {}
