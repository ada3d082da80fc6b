"""Short words for jobs, records and cases, which expand to what the core is given.

A place is written "PIECE step.item station"; ids and parties in a list are written with blanks between.
"""

from collections.abc import Mapping
from typing import Any

from seamtag.core import formula

Payload = dict[str, Any]
Record = list[Any]

SHA = "ab" * 32
CHECKED = ("preheat", "interpass", "volts", "amps", "travel", "comma", "position")
SIGNERS = {"maker": "fay", "QC": "ivy", "AI": "abe", "customer": "cal"}
"""fay fits, wes welds; ivy and ike inspect; sue supervises; abe is the authorized inspector, cal the customer's man,
eve an engineer; sam holds no role."""

CASES: list[dict[str, Any]] = []


# Plans and jobs


def tree(text: str | None) -> dict[str, Any] | None:
    return None if text is None else {"text": text, "tree": formula.parse(text)}


def item(code: str, kind: str, **more: Any) -> dict[str, Any]:
    for part in ("lower", "upper", "only_if", "formula", "thickness"):
        if part in more:
            more[part] = tree(more[part])
    return {"code": code, "name": code, "kind": kind, **more}


def measure(code: str, lower: str | None = None, upper: str | None = None, **more: Any) -> dict[str, Any]:
    limits = {name: text for name, text in (("lower", lower), ("upper", upper)) if text is not None}
    return item(code, "measure", **{"uom": "in", "binds": "shop", **limits, **more})


def derived(code: str, text: str, upper: str, **more: Any) -> dict[str, Any]:
    return item(code, "derived", **{"uom": "in", "binds": "shop", "formula": text, "upper": upper, **more})


def point(text: str) -> dict[str, Any]:
    """'maker sign fitter', 'QC H not_maker', 'AI W'."""
    party, kind, *rest = text.split()
    extra: dict[str, Any] = {"not_maker": True} if "not_maker" in rest else {}
    trades = [word for word in rest if word != "not_maker"]
    return {"party": party, "point": kind, **extra, **({"trade": trades[0]} if trades else {})}


def step(code: str, number: str, kinds: str, points: str, *items: Any, **more: Any) -> dict[str, Any]:
    """number: '2.3' is in stage 2. kinds and points: with commas between."""
    return {
        "code": code, "number": number, "stage": number.split(".")[0], "name": code, "kinds": kinds.split(", "),
        "points": [point(text) for text in points.split(", ") if text], "items": list(items), **more,
    }  # fmt: skip


def plan(*steps: dict[str, Any], tables: Mapping[str, Any] | None = None, **more: Any) -> dict[str, Any]:
    stages = dict.fromkeys(s["stage"] for s in steps)
    return {
        "stages": [{"number": number, "name": f"Stage {number}"} for number in stages],
        "steps": list(steps), "tables": dict(tables or {}),
        "agree": {"code": ["engineering", "AI"], "drawing": ["engineering"], "shop": []}, **more,
    }  # fmt: skip


def piece(mark: str, kind: str, part_of: str = "", joins: str = "", **more: Any) -> dict[str, Any]:
    return {"id": mark, "mark": mark, "kind": kind, "part_of": part_of.split(), "joins": joins.split(), **more}


def job(
    plans: Mapping[str, Any], bases: str, *pieces: dict[str, Any], figures: Mapping[str, Any] | None = None,
    gauges: Mapping[str, Any] | None = None, **more: Any,
) -> dict[str, Any]:  # fmt: skip
    """bases: 'A1 B1' is plan A with figures 1, then plan B with figures 1."""
    return {
        "id": "J", "bases": [basis_of(text) for text in bases.split()], "plans": dict(plans),
        "figure_sets": dict(figures or {"1": {"values": {}, "drawings": {}}}), "pieces": list(pieces),
        "gauges": dict(gauges or {}), **more,
    }  # fmt: skip


def basis_of(text: str) -> dict[str, Any]:
    return {"plan": text[:-1], "figures": int(text[-1])}


# Records: id, place, what; more: by, role, under, basis, replaces, why, at


def record(kind: str, id: str, where: str, body: Mapping[str, Any], by: str, role: str = "", **more: Any) -> Record:
    payload: Payload = {
        "id": id, "schema": 1, "core": 1, "type": kind, "job": "J", **place(where), "found_by": "scanned", "by": by,
        "device": f"phone of {by}", "seq": 1, "prev": "", "seen": {"number": 1, "hash": ""},
        "basis": basis_of(more.pop("basis", "A1")), "at": more.pop("at", "2026-03-06T14:00:00-06:00"),
    }  # fmt: skip
    if "under" in more:
        payload["under"] = more.pop("under").split()
    return [{**payload, **more, "body": {key: value for key, value in body.items() if value is not None}}, role]


def place(where: str) -> dict[str, str]:
    mark, _, rest = where.partition(" ")
    step_item, _, station = rest.partition(" ")
    code, _, item_code = step_item.partition(".")
    found = {"piece": mark, "step": code, "item": item_code, "station": station}
    return {name: text for name, text in found.items() if text}


def reading(id: str, where: str, entered: str, by: str = "ivy", **more: Any) -> Record:
    body = {"entered": entered, "uom": more.pop("uom", "in"), "comma": more.pop("comma", None),
            "gauge": more.pop("gauge", None), "verdict": more.pop("foretold", None)}  # fmt: skip
    return record("reading", id, where, body, by, **more)


def look(id: str, where: str, result: str = "accept", by: str = "ivy", **more: Any) -> Record:
    return record("visual", id, where, {"result": result}, by, **more)


def photo(id: str, where: str, by: str = "ivy", **more: Any) -> Record:
    body = {"sha256": more.pop("sha", SHA), "media_type": "image/jpeg", "bytes": 9, "width": 3, "height": 2}
    return record("photo", id, where, body, by, **more)


def weld(id: str, where: str, by: str = "wes", **more: Any) -> Record:
    body = {"layer": "root", "welder": more.pop("welder", by), "stamp": more.pop("stamp", "W7"),
            "procedure": more.pop("procedure", "WPS-1"), "lot": more.pop("lot", "L1")}  # fmt: skip
    body |= {name: more.pop(name) for name in CHECKED if name in more}
    return record("weld", id, where, body, by, **more)


def report(id: str, where: str, result: str | None = "accept", by: str = "ivy", **more: Any) -> Record:
    body = {"kind": "radiograph", "state": "in" if result else "asked for", "result": result}
    return record("report", id, where, body, by, **more)


def text(id: str, where: str, value: str, by: str = "ivy", **more: Any) -> Record:
    return record("text", id, where, {"value": value}, by, **more)


def note(id: str, where: str, by: str = "ivy", **more: Any) -> Record:
    body = {"text": "mind the scale", "pass_on": more.pop("pass_on", None), "clears": more.pop("clears", None)}
    return record("note", id, where, body, by, **more)


def sign(id: str, where: str, covers: str, party: str = "QC", by: str = "", role: str = "held", **more: Any) -> Record:
    body = {"party": party, "covers": covers.split(), "attendance": more.pop("attendance", None),
            "call": more.pop("call", None), "page": more.pop("page", None)}  # fmt: skip
    return record("sign-off", id, where, body, by or SIGNERS[party], role, **more)


def call(id: str, where: str, party: str = "AI", by: str = "ivy", **more: Any) -> Record:
    return record("call", id, where, {"party": party, "how": "telephone"}, by, **more)


def void(id: str, named: str, by: str = "ivy", where: str = "W1", **more: Any) -> Record:
    """The server stamps whether its maker is a supervisor; anybody may void his own all the same."""
    role = "held" if by == "sue" else "not held"
    return record("void", id, where, {"record": named, "reason": "wrong"}, by, role, **more)


def dispose(
    id: str, what: str, about: str, by: str = "sue", where: str = "W1", role: str = "held", **more: Any
) -> Record:
    again = more.pop("again", "").split()
    named = {"records": about.split(), "flag": more.pop("flag", "out of tolerance"), "verdict": more.pop("seen", None)}
    found = {name: value for name, value in named.items() if value is not None}
    body = {"about": found, "disposition": what, "reason": "as seen", "again": again or None}
    body |= {"cycle": more.pop("cycle")} if "cycle" in more else {}
    return record("disposition", id, where, body, by, role, **more)


def agree(id: str, disposition: str, party: str, by: str, role: str = "held", where: str = "W1", **more: Any) -> Record:
    return record("agreement", id, where, {"disposition": disposition, "party": party}, by, role, **more)


def set_point(
    id: str, where: str, kind: str, party: str = "AI", by: str = "abe", role: str = "held", **more: Any
) -> Record:
    body = {"party": party, "point": kind, "reach": more.pop("reach", None)}
    return record("point", id, where, body, by, role, **more)


def tagging(id: str, where: str, what: str, by: str = "ivy", **more: Any) -> Record:
    return record("tagging", id, where, {"code": "ABCDEF7", "what": what}, by, **more)


# Cases


def state(word: str, waiting: str | None = None, holding: str | None = None, blocked: Any = None) -> dict[str, Any]:
    found: dict[str, Any] = {"state": word}
    if waiting is not None:
        found["waiting"] = waiting.split()
    if holding is not None:
        found["holding"] = holding.split()
    if blocked is not None:
        found["blocked"] = [behind(text) for text in blocked]
    return found


def behind(text: str) -> list[Any]:
    """'W1 fit QC AI' is a step of a piece and the parties who can let it go; 'W1' alone is a piece that is stopped."""
    mark, *rest = text.split()
    return [mark, rest[0] if rest else "", rest[1:]]


def case(name: str, rule: str, job: str, *records: Record, **expect: Any) -> None:
    if "steps" in expect:
        expect["steps"] = {k: state(v) if isinstance(v, str) else v for k, v in expect["steps"].items()}
    if "past_hold" in expect:
        expect["past_hold"] = {
            one: None if found is None else [behind(text) for text in found]
            for one, found in expect["past_hold"].items()
        }
    for key in ("relied_on", "covered"):
        if key in expect:
            expect[key] = {where: sorted(ids.split()) for where, ids in expect[key].items()}
    assert name not in {one["name"] for one in CASES}, name
    assert expect, name
    CASES.append({"name": name, "rule": rule, "job": job, "records": list(records), "expect": expect})
