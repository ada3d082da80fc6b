"""What a record's payload must hold, type by type. Schema 1 is kept for good."""

import re
from collections.abc import Mapping
from typing import Any

SCHEMA = 1
MOST_BYTES = 1_000_000

UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
SHA256 = re.compile(r"[0-9a-f]{64}")

AT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,9})?(Z|[+-][0-9]{2}:[0-9]{2})")
PLACE = ("type", "job", "piece", "step", "item", "station", "by", "device", "prev")
MOST_PLACE = 200
MOST_TEXT = 4000

FOUND_BY = ("scanned", "typed", "list", "board")
WHY = ("slip", "measured again", "after rework", "after repair")
RESULTS = ("accept", "reject", "does not apply")
LAYERS = ("root", "hot", "fill", "cap", "back")
POSITIONS = ("F", "H", "V", "O")
DISPOSITIONS = ("use as is", "rework", "repair", "scrap")
"""From the mildest to the strictest: in conflict the later one stands."""
PARTIES = ("maker", "QC", "AI", "customer")
OUTSIDE = ("AI", "customer")
"""Parties that are not of the shop, and may sign in ink on a page."""
AGREEING = ("engineering", "AI", "customer")
ATTENDANCE = ("present", "waived", "not attended after notice")
TAGGINGS = ("put on", "taken off", "back on", "gone inside", "replaced")
REACHES = ("piece", "job")
REPORT_STATES = ("asked for", "in")
SHAPES = ("arrow", "ring")
MOST_MARKS = 100

ROLES = {
    "maker": ("layout", "fitter", "welder", "tube roller", "tester"),
    "QC": ("inspector", "supervisor"),
    "AI": ("authorized inspector",),
    "customer": ("customer",),
    "engineering": ("engineer",),
}
"""The roles that may speak for a party."""

COMMON = {
    "id": UUID, "schema": int, "core": int, "type": str, "job": str, "piece": str, "found_by": FOUND_BY, "by": str,
    "device": str, "seq": int, "prev": str, "seen": dict, "basis": dict, "at": str, "body": dict,
}  # fmt: skip
SOMETIMES = {"step": str, "item": str, "station": str, "replaces": UUID, "why": WHY, "under": [str]}

PART = range(10_001)
"""Ten-thousandths of a photo's width or height."""
MARK = {"shape": SHAPES, "x1": PART, "y1": PART, "x2": PART, "y2": PART}
"""An arrow begins at the first point and points to the second; a ring lies round the first, through the second."""

# A name that ends in '?' may be left out.
BODIES: dict[str, dict[str, Any]] = {
    "reading": {"entered": str, "uom": str, "comma?": bool, "gauge?": str, "verdict?": str},
    "visual": {"result": RESULTS, "note?": str},
    "photo": {
        "sha256": SHA256, "media_type": str, "bytes": int, "width": int, "height": int, "caption?": str,
        "marks?": [MARK],
    },
    "weld": {
        "layer": LAYERS, "welder": str, "stamp": str, "procedure": str, "lot": str, "from?": str, "to?": str,
        "preheat?": str, "interpass?": str, "volts?": str, "amps?": str, "travel?": str, "comma?": bool,
        "position?": POSITIONS,
    },
    "report": {
        "kind": str, "state": REPORT_STATES, "number?": str, "firm?": str, "person?": str, "level?": str,
        "certificate?": str, "result?": RESULTS, "pages?": [str], "note?": str,
    },
    "text": {"value": str},
    "note": {"text": str, "pass_on?": bool, "clears?": str},
    "call": {"party": PARTIES, "when?": str, "how?": str, "answer?": ("coming", "waived")},
    "sign-off": {
        "party": PARTIES, "covers": [str], "attendance?": ATTENDANCE, "call?": str, "page?": SHA256, "sentence?": str,
    },
    "disposition": {
        "about": dict, "disposition": DISPOSITIONS, "reason": str, "ncr?": str, "extent?": str, "again?": [str],
        "cycle?": int,
    },
    "agreement": {"disposition": str, "party": AGREEING, "note?": str},
    "point": {"party": PARTIES, "point": ("H", "W", "R", "S"), "reach?": REACHES, "note?": str},
    "void": {"record": str, "reason": str},
    "tagging": {"code": str, "what": TAGGINGS, "why?": str},
}  # fmt: skip

ON_STEP = ("reading", "visual", "weld", "report", "text", "sign-off", "call", "point")
"""Types that name a step; the first five name an item as well."""
ON_ITEM = ON_STEP[:5]


def faults(payload: Any) -> list[str]:
    """What is wrong with a payload by schema 1, one sentence each; empty where nothing is.

    Fields this schema does not know are let through: a later one may add some.
    """
    if not isinstance(payload, Mapping):
        return ["the payload is not an object"]
    found = missing_or_wrong(payload, COMMON, "") + missing_or_wrong(payload, optional(SOMETIMES), "")
    if found:
        return found
    kind = payload["type"]
    if kind not in BODIES:
        return [f"type '{kind[:40]}' is unknown"]
    found = missing_or_wrong(payload["body"], BODIES[kind], "body.")
    found += [f"{name} is missing" for name in named_place(kind) if not payload.get(name)]
    found += missing_or_wrong(payload["seen"], {"number": int, "hash": str}, "seen.")
    found += missing_or_wrong(payload["basis"], {"plan": str, "figures": int}, "basis.")
    if kind == "disposition" and not found:
        about = {"records": [str], "flag": str, "verdict?": str, "plan?": str}
        found += missing_or_wrong(payload["body"]["about"], about, "body.about.")
    if not AT.fullmatch(payload["at"]):
        found.append("at is no moment such as 2026-11-26T14:05:00-05:00")
    unfit = [name for name in PLACE if not plain(payload, name)]
    found += [f"{name} is longer than {MOST_PLACE} characters or cannot be printed" for name in unfit]
    if payload["seq"] < 1:
        found.append("seq begins at 1")
    if payload.get("replaces") and not payload.get("why"):
        found.append("why is missing beside replaces")
    return found


def named_place(kind: str) -> list[str]:
    return ["step"] * (kind in ON_STEP) + ["item"] * (kind in ON_ITEM)


def optional(fields: Mapping[str, Any]) -> dict[str, Any]:
    return {f"{name}?": wanted for name, wanted in fields.items()}


def missing_or_wrong(value: Mapping[str, Any], fields: Mapping[str, Any], where: str) -> list[str]:
    found = []
    for name, wanted in fields.items():
        key = name.removesuffix("?")
        if value.get(key) is None:
            if not name.endswith("?"):
                found.append(f"{where}{key} is missing")
        elif not fits(value[key], wanted):
            found.append(f"{where}{key} is not {expected(wanted)}")
    return found


def fits(value: Any, wanted: Any) -> bool:
    if isinstance(wanted, tuple):
        return isinstance(value, str) and value in wanted
    if wanted == [MARK]:
        return are_marks(value)
    if isinstance(wanted, list):
        return isinstance(value, list) and all(isinstance(part, str) for part in value)
    if isinstance(wanted, re.Pattern):
        return isinstance(value, str) and wanted.fullmatch(value) is not None
    if isinstance(wanted, range):
        return isinstance(value, int) and not isinstance(value, bool) and value in wanted
    if wanted is int:
        return isinstance(value, int) and not isinstance(value, bool) and 0 <= value < 2**53
    if wanted is str:
        return isinstance(value, str) and "\x00" not in value and len(value) <= MOST_TEXT
    return isinstance(value, wanted)


def are_marks(value: Any) -> bool:
    """Whether a value is what may be drawn over a photo."""
    if not isinstance(value, list) or len(value) > MOST_MARKS:
        return False
    return all(isinstance(mark, Mapping) and not missing_or_wrong(mark, MARK, "") for mark in value)


def expected(wanted: Any) -> str:
    if isinstance(wanted, tuple):
        return "one of " + ", ".join(wanted)
    if wanted == [MARK]:
        return f"a list of at most {MOST_MARKS} marks"
    names = {str: "a text", int: "a whole number", dict: "an object", bool: "true or false", UUID: "a UUIDv7"}
    if isinstance(wanted, list):
        return "a list of texts"
    return names.get(wanted, "a SHA-256 in hexadecimal")


def plain(payload: Mapping[str, Any], name: str) -> bool:
    value = payload.get(name) or ""
    return len(value) <= MOST_PLACE and (value.isprintable() or not value)


def speaking_roles(payload: Mapping[str, Any], step: Mapping[str, Any] | None) -> tuple[str, ...] | None:
    """The roles of which the record's maker must hold one for it to have effect; None where anybody may.

    step: the plan's step the record names, which may ask a certain trade to sign.
    """
    kind, body = payload["type"], payload["body"]
    if kind == "sign-off":
        return signing_roles(body, step)
    if kind == "disposition":
        return ("supervisor",)
    if kind == "agreement":
        return ROLES[body["party"]]
    if kind == "point":
        return ROLES[body["party"]] if body["party"] in OUTSIDE else ("supervisor", "planner")
    if kind == "void":
        return ("supervisor",)
    return None


def signing_roles(body: Mapping[str, Any], step: Mapping[str, Any] | None) -> tuple[str, ...]:
    """For the party itself; for 'not attended after notice' the shop's QC, who gave the notice; a signature in ink the
    shop's QC may enter as well."""
    if body.get("attendance") == "not attended after notice" and body["party"] in OUTSIDE:
        return ROLES["QC"]
    if in_ink(body):
        return (*ROLES[body["party"]], *ROLES["QC"])
    trades = [p["trade"] for p in (step or {}).get("points", []) if p["party"] == body["party"] and p.get("trade")]
    return tuple(trades) if trades and body["party"] == "maker" else ROLES[body["party"]]


def in_ink(body: Mapping[str, Any]) -> bool:
    """Whether a sign-off stands for a signature in ink on a page."""
    return bool(body.get("page")) and body["party"] in OUTSIDE
