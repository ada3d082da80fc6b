"""A lost phone is shut out since a named time; what it sends is kept, and taken in only on a supervisor's word."""

import pytest

from seamtag.database import db
from seamtag.sync.verifying import verify
from tests.shop import Shop

pytestmark = pytest.mark.both_databases
SINCE = {"since": "2026-11-20T07:00:00-06:00", "reason": "left in a taxi"}


def shut(shop: Shop, who: str = "supervisor", device: str = "", **more: str) -> int:
    name = device or shop.phones["inspector"].device
    return shop.sign_in(who).put(f"/api/v1/devices/{name}/shut-out", json={**SINCE, **more}).status_code


def test_what_comes_after_is_not_taken_in_and_is_kept(shop: Shop) -> None:
    assert shut(shop) == 200
    text, payload = shop.reading()
    outcome = shop.push(text)[0]
    assert (outcome["outcome"], outcome["id"]) == ("not taken in", payload["id"])
    assert "shut out" in outcome["reason"]
    kept = shop.sign_in("supervisor").get("/api/v1/refusals").get_json()
    assert [(one["id"], one["device"], one["type"]) for one in kept] == [
        (payload["id"], shop.phones["inspector"].device, "reading")
    ]


def test_what_came_since_is_flagged(shop: Shop) -> None:
    shop.push(shop.reading()[0])
    assert shut(shop) == 200
    assert [flag["kind"] for flag in shop.flags()] == ["phone shut out"]
    assert shut(shop, since="2999-01-01T00:00:00+00:00") == 200
    assert shop.flags() == []


def test_a_supervisor_adopts_it(shop: Shop) -> None:
    shut(shop)
    text, payload = shop.reading()
    shop.push(text)
    supervisor = shop.sign_in("supervisor")
    digest = supervisor.get("/api/v1/refusals").get_json()[0]["digest"]
    adopted = supervisor.post(f"/api/v1/refusals/{digest}/adopt").get_json()
    assert (adopted["outcome"], adopted["id"]) == ("taken in", payload["id"])
    assert supervisor.get("/api/v1/refusals").get_json() == []
    assert shop.push(text)[0]["outcome"] == "taken in"
    with shop.app.app_context():
        assert list(verify(db.session(), shop.app.extensions["vault"])) == []


def test_a_phone_found_is_let_in_again(shop: Shop) -> None:
    shut(shop)
    text = shop.reading()[0]
    shop.push(text)
    device = shop.phones["inspector"].device
    assert shop.sign_in("supervisor").delete(f"/api/v1/devices/{device}/shut-out").status_code == 200
    assert shop.push(text)[0]["outcome"] == "taken in"
    assert shop.flags() == []


@pytest.mark.parametrize("who", ["inspector", "planner", "fitter", "visitor"])
def test_only_a_supervisor_shuts_out_and_adopts(shop: Shop, who: str) -> None:
    assert shut(shop, who) == 403
    browser = shop.sign_in(who)
    assert browser.get("/api/v1/refusals").status_code == 403
    assert browser.post(f"/api/v1/refusals/{'0' * 64}/adopt").status_code == 403


def test_a_phone_that_is_not_known_is_said(shop: Shop) -> None:
    assert shut(shop, device="nowhere") == 404
    answer = shop.sign_in("supervisor").post(f"/api/v1/refusals/{'0' * 64}/adopt")
    assert answer.status_code == 404


@pytest.mark.parametrize("since", ["yesterday", "2026-11-20T07:00:00", "", 5, None])
def test_since_when_must_be_a_moment(shop: Shop, since: object) -> None:
    device = shop.phones["inspector"].device
    answer = shop.sign_in("supervisor").put(f"/api/v1/devices/{device}/shut-out", json={**SINCE, "since": since})
    assert answer.status_code == 422


def test_what_cannot_be_taken_in_otherwise_is_not_adopted(shop: Shop) -> None:
    text = shop.record("inspector", "reading", {"entered": 5}, step="fit", item="gap")[0]
    shop.push(text)
    supervisor = shop.sign_in("supervisor")
    digest = supervisor.get("/api/v1/refusals").get_json()[0]["digest"]
    assert supervisor.post(f"/api/v1/refusals/{digest}/adopt").get_json()["outcome"] == "not taken in"
