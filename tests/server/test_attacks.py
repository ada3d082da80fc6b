"""Ways in that somebody tried: each must have no effect, and none may end in a 5xx."""

import pytest

from seamtag.guard.limits import Gate
from tests.shop import Shop


def sign_off(shop: Shop, who: str, **more: object) -> dict[str, object]:
    body = {"party": "maker", "covers": [], **more}
    text, _ = shop.record(who, "sign-off", body, step="fit")
    return shop.push(text)[0]


def role_of(shop: Shop, record_id: object) -> str:
    from seamtag.database import db
    from seamtag.records.models import Record

    with shop.app.app_context():
        record = db.session.get(Record, record_id)
        assert record is not None
        return record.role


def test_an_inspector_does_not_sign_for_the_maker_by_saying_nobody_came(shop: Shop) -> None:
    outcome = sign_off(shop, "inspector", attendance="not attended after notice")
    assert role_of(shop, outcome["id"]) == "not held"


def test_a_head_that_never_was_does_not_prove_when_a_role_was_held(shop: Shop) -> None:
    shop.phones["fitter"].seen = {"number": 2**53 - 1, "hash": "f" * 64}
    assert role_of(shop, sign_off(shop, "fitter")["id"]) == "changed"
    shop.catch_up()
    assert role_of(shop, sign_off(shop, "fitter")["id"]) == "held"


def test_a_sign_off_at_a_job_that_is_not_open_yet_is_to_be_confirmed(shop: Shop) -> None:
    text, _ = shop.phones["fitter"].record(
        "sign-off", shop.clock, {"job": "T9", "piece": "T9.S-1", "step": "fit", "basis": shop.basis},
        {"party": "maker", "covers": []},
    )  # fmt: skip
    assert role_of(shop, shop.push(text)[0]["id"]) == "changed"


def test_only_a_supervisor_invites_those_who_decide_and_the_chain_names_who(shop: Shop) -> None:
    planner = shop.sign_in("planner")
    assert planner.post("/api/v1/invitations", json={"person": "supervisor"}).status_code == 403
    assert planner.post("/api/v1/invitations", json={"person": "fitter"}).status_code == 201
    assert shop.sign_in("supervisor").post("/api/v1/invitations", json={"person": "visitor"}).status_code == 201


def test_a_large_push_of_junk_counts_against_the_limit(shop: Shop) -> None:
    shop.app.extensions["gate"] = Gate({"unreadable": "50/minute", "attempt": "5/minute", "challenge": "5/minute"})
    assert shop.post({"records": [None] * 900}).status_code == 200
    assert shop.post({"records": [None]}).status_code == 429


def test_a_push_of_brackets_is_not_unpacked(shop: Shop) -> None:
    assert shop.post({"records": [], "x": [[]] * 6000}).status_code == 413


@pytest.mark.parametrize("path", ["/" + "\U0001f4a5" * 100, "/assets/..%2f..%2fpyproject.toml", "/%00"])
def test_strange_addresses_are_404(path: str, shop: Shop) -> None:
    answer = shop.client.get(path)
    assert answer.status_code == 404
    assert "There is nothing at" in answer.get_json()["message"]


@pytest.mark.parametrize("raw", ["[" * 200_000, '{"proof": "\\ud800"}', '{"proof": ' + "9" * 6000 + "}"])
@pytest.mark.parametrize("route", ["keys", "sessions"])
def test_json_that_cannot_be_read_is_the_senders_fault(route: str, raw: str, shop: Shop) -> None:
    answer = shop.client.post(f"/api/v1/{route}", data=raw, content_type="application/json")
    assert 400 <= answer.status_code < 500, answer.text


@pytest.mark.parametrize(
    ("field", "value"), [("job", "T1\nx"), ("station", "s" * 300), ("at", "yesterday"), ("item", "gap\x07")]
)
def test_places_are_short_plain_text(field: str, value: str, shop: Shop) -> None:
    given = {"job": "T1", "piece": "T1.S-1", "step": "fit", "item": "gap", "station": "12", "basis": shop.basis}
    text, _ = shop.phones["inspector"].record(
        "reading", shop.clock, {**given, field: value}, {"entered": "1", "uom": "in"}
    )  # fmt: skip
    outcome = shop.push(text)[0]
    assert outcome["outcome"] == "not taken in"
    assert outcome["reason"].startswith(field)


def test_a_device_name_that_is_no_text_does_no_harm(shop: Shop) -> None:
    text, _ = shop.reading()
    answer = shop.client.post(
        "/api/v1/records", data=f'{{"device": "\\ud800", "records": ["{text}"]}}', content_type="application/json"
    )
    assert answer.status_code == 200
