"""What a payload must hold by schema 1, to the letter and the last character; and who may speak."""

import copy
from typing import Any

import pytest

from seamtag.core.records import MOST_PLACE, MOST_TEXT, ROLES, SCHEMA, faults, speaking_roles

GOOD: dict[str, Any] = {
    "id": "01936f6e-5a3c-7abc-8def-0123456789ab",
    "schema": 1,
    "core": 1,
    "type": "reading",
    "job": "J",
    "piece": "W",
    "step": "fit",
    "item": "gap",
    "found_by": "scanned",
    "by": "ivy",
    "device": "phone",
    "seq": 1,
    "prev": "",
    "seen": {"number": 0, "hash": "0" * 64},
    "basis": {"plan": "A", "figures": 1},
    "at": "2026-03-06T14:00:00-06:00",
    "body": {"entered": "1/8", "uom": "in"},
}
BODIES: dict[str, dict[str, Any]] = {
    "reading": GOOD["body"],
    "visual": {"result": "accept"},
    "photo": {"sha256": "a" * 64, "media_type": "image/jpeg", "bytes": 1, "width": 1, "height": 1},
    "weld": {"layer": "cap", "welder": "wes", "stamp": "W7", "procedure": "W-1", "lot": "L"},
    "report": {"kind": "RT", "state": "in"},
    "text": {"value": "H1"},
    "note": {"text": "x"},
    "call": {"party": "AI"},
    "sign-off": {"party": "QC", "covers": []},
    "disposition": {"about": {"records": [], "flag": "x"}, "disposition": "rework", "reason": "x"},
    "agreement": {"disposition": "d", "party": "AI"},
    "point": {"party": "AI", "point": "H"},
    "void": {"record": "r", "reason": "x"},
    "tagging": {"code": "A", "what": "put on"},
}


def changed(path: str, value: Any, kind: str = "reading") -> dict[str, Any]:
    """A good payload of a kind with one place of it set to a value; None takes it away."""
    payload = copy.deepcopy({**GOOD, "type": kind, "body": BODIES[kind]})
    *way, last = path.split(".")
    holder = payload
    for name in way:
        holder = holder[name]
    if value is None:
        holder.pop(last, None)
    else:
        holder[last] = value
    return payload


@pytest.mark.parametrize("kind", BODIES)
def test_a_good_payload_has_no_fault(kind: str) -> None:
    assert SCHEMA == 1
    assert faults(changed("job", "J", kind)) == []
    assert faults(changed("later", {"any": "thing"}, kind)) == []


@pytest.mark.parametrize("kind", BODIES)
def test_each_field_of_a_body_that_must_be_there_is_missed(kind: str) -> None:
    for name in BODIES[kind]:
        assert faults(changed(f"body.{name}", None, kind)) == [f"body.{name} is missing"]


@pytest.mark.parametrize("name", [name for name in GOOD if name not in ("step", "item", "type")])
def test_each_common_field_is_missed(name: str) -> None:
    assert faults(changed(name, None)) == [f"{name} is missing"]


@pytest.mark.parametrize(
    ("kind", "needs"),
    [
        ("reading", "step item"),
        ("visual", "step item"),
        ("weld", "step item"),
        ("report", "step item"),
        ("text", "step item"),
        ("sign-off", "step"),
        ("call", "step"),
        ("point", "step"),
        ("photo", ""),
        ("note", ""),
        ("disposition", ""),
        ("agreement", ""),
        ("void", ""),
        ("tagging", ""),
    ],
)
def test_a_place_is_named_where_the_type_has_one(kind: str, needs: str) -> None:
    payload = {key: value for key, value in changed("job", "J", kind).items() if key not in ("step", "item")}
    assert faults(payload) == [f"{name} is missing" for name in needs.split()]


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        ("seq", 0, "seq begins at 1"),
        ("seq", -1, "seq is not a whole number"),
        ("seq", 2**53, "seq is not a whole number"),
        ("seq", True, "seq is not a whole number"),
        ("seq", 1.0, "seq is not a whole number"),
        ("seq", "1", "seq is not a whole number"),
        ("id", "x", "id is not a UUIDv7"),
        ("id", 5, "id is not a UUIDv7"),
        ("found_by", "luck", "found_by is not one of scanned, typed, list, board"),
        ("found_by", ["scanned"], "found_by is not one of scanned, typed, list, board"),
        ("seen", [], "seen is not an object"),
        ("seen.number", "1", "seen.number is not a whole number"),
        ("basis.figures", None, "basis.figures is missing"),
        ("under", ["a", 5], "under is not a list of texts"),
        ("under", "a", "under is not a list of texts"),
        ("why", "because", "why is not one of slip, measured again, after rework, after repair"),
        ("replaces", "x", "replaces is not a UUIDv7"),
        ("at", "yesterday", "at is no moment such as 2026-11-26T14:05:00-05:00"),
        ("at", "2026-03-06T14:00:00", "at is no moment such as 2026-11-26T14:05:00-05:00"),
        ("by", "a\nb", "by is longer than 200 characters or cannot be printed"),
        ("station", "x" * (MOST_PLACE + 1), "station is longer than 200 characters or cannot be printed"),
        ("body.entered", "x" * (MOST_TEXT + 1), "body.entered is not a text"),
        ("body.entered", "\x00", "body.entered is not a text"),
        ("body.entered", 5, "body.entered is not a text"),
        ("body.comma", "yes", "body.comma is not true or false"),
        ("type", "poem", "type 'poem' is unknown"),
        ("type", "p" * 50, f"type '{'p' * 40}' is unknown"),
        ("replaces", GOOD["id"], "why is missing beside replaces"),
    ],
)
def test_what_is_wrong_is_said(path: str, value: Any, says: str) -> None:
    assert faults(changed(path, value)) == [says]


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("seq", 1),
        ("seq", 2),
        ("seq", 2**53 - 1),
        ("seen.number", 0),
        ("station", "x" * MOST_PLACE),
        ("body.entered", "x" * MOST_TEXT),
        ("at", "2026-03-06T14:00:00.123456789Z"),
        ("under", []),
        ("body.comma", True),
        ("body.comma", False),
        ("core", 0),
    ],
)
def test_the_last_that_is_let_in(path: str, value: Any) -> None:
    assert faults(changed(path, value)) == []


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        ("body.about.records", None, "body.about.records is missing"),
        ("body.about.flag", 5, "body.about.flag is not a text"),
        ("body.about", "x", "body.about is not an object"),
        ("body.disposition", "burn", "body.disposition is not one of use as is, rework, repair, scrap"),
        ("body.cycle", -1, "body.cycle is not a whole number"),
    ],
)
def test_what_a_disposition_is_about_is_looked_at(path: str, value: Any, says: str) -> None:
    assert faults(changed(path, value, "disposition")) == [says]


def test_a_hash_is_a_hash() -> None:
    assert faults(changed("body.sha256", "A" * 64, "photo")) == ["body.sha256 is not a SHA-256 in hexadecimal"]


def test_marks_over_a_photo_are_marks() -> None:
    mark = {"shape": "ring", "x1": 0, "y1": 0, "x2": 1, "y2": 10_000}
    assert faults(changed("body.marks", [mark], "photo")) == []
    assert faults(changed("body.marks", [{"shape": "ring"}], "photo")) == [
        "body.marks is not a list of at most 100 marks"
    ]


def test_what_is_no_object_says_so() -> None:
    assert faults([]) == ["the payload is not an object"]


SHA = "ab" * 32
STEP = {
    "points": [{"party": "maker", "point": "sign", "trade": "welder"}, {"party": "QC", "point": "H", "trade": "layout"}]
}


@pytest.mark.parametrize(
    ("kind", "body", "step", "roles"),
    [
        ("sign-off", {"party": "maker"}, STEP, ("welder",)),
        ("sign-off", {"party": "maker"}, None, ROLES["maker"]),
        ("sign-off", {"party": "QC"}, STEP, ("inspector", "supervisor")),
        ("sign-off", {"party": "AI"}, STEP, ("authorized inspector",)),
        ("sign-off", {"party": "customer"}, STEP, ("customer",)),
        ("sign-off", {"party": "AI", "attendance": "not attended after notice"}, STEP, ("inspector", "supervisor")),
        (
            "sign-off",
            {"party": "customer", "attendance": "not attended after notice"},
            STEP,
            ("inspector", "supervisor"),
        ),
        ("sign-off", {"party": "maker", "attendance": "not attended after notice"}, STEP, ("welder",)),
        ("sign-off", {"party": "AI", "attendance": "waived"}, STEP, ("authorized inspector",)),
        ("sign-off", {"party": "AI", "attendance": "present"}, STEP, ("authorized inspector",)),
        ("sign-off", {"party": "AI", "page": SHA}, STEP, ("authorized inspector", "inspector", "supervisor")),
        ("sign-off", {"party": "customer", "page": SHA}, STEP, ("customer", "inspector", "supervisor")),
        ("sign-off", {"party": "maker", "page": SHA}, STEP, ("welder",)),
        ("sign-off", {"party": "QC", "page": SHA}, STEP, ("inspector", "supervisor")),
        ("sign-off", {"party": "AI", "page": None}, STEP, ("authorized inspector",)),
        (
            "sign-off",
            {"party": "AI", "page": SHA, "attendance": "not attended after notice"},
            STEP,
            ("inspector", "supervisor"),
        ),
        ("disposition", {}, STEP, ("supervisor",)),
        ("agreement", {"party": "engineering"}, STEP, ("engineer",)),
        ("agreement", {"party": "AI"}, STEP, ("authorized inspector",)),
        ("point", {"party": "AI"}, STEP, ("authorized inspector",)),
        ("point", {"party": "customer"}, STEP, ("customer",)),
        ("point", {"party": "QC"}, STEP, ("supervisor", "planner")),
        ("point", {"party": "maker"}, STEP, ("supervisor", "planner")),
        ("void", {}, STEP, ("supervisor",)),
        *(
            (kind, {}, STEP, None)
            for kind in ("reading", "visual", "photo", "weld", "report", "text", "note", "call", "tagging")
        ),
    ],
)
def test_who_may_speak(kind: str, body: dict[str, Any], step: Any, roles: tuple[str, ...] | None) -> None:
    assert speaking_roles({"type": kind, "body": body}, step) == roles
