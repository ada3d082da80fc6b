import time
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from joserfc.jwk import ECKey
from werkzeug.test import TestResponse

from seamtag.records import jws
from tests.shop import Shop, public

pytestmark = pytest.mark.both_databases


def enrol(shop: Shop, code: str, key: ECKey | None = None, **changes: Any) -> TestResponse:
    made = key or ECKey.generate_key("P-256")
    claim = {"purpose": "enrol", "invitation": code, "device": "phone-1", "jwk": public(made), **changes}
    return shop.client.post("/api/v1/keys", json={"proof": jws.sign(claim, made)})


def test_an_invitation_enrols_one_browser_once(shop: Shop) -> None:
    code = shop.invite("inspector")
    key = ECKey.generate_key("P-256")
    answer = enrol(shop, code.lower().replace("-", " "), key)
    assert answer.status_code == 201
    assert answer.get_json()["person"] == {
        "id": "inspector", "name": "Inspector", "roles": ["inspector"], "stamp": ""
    }  # fmt: skip
    assert answer.get_json()["kid"] == key.thumbprint()
    again = enrol(shop, code)
    assert again.status_code == 403
    assert "has been used" in again.get_json()["message"]


def test_an_old_invitation_is_refused(shop: Shop) -> None:
    answer = enrol(shop, shop.invite("inspector", life=60, now=int(time.time()) - 61))
    assert answer.status_code == 403
    assert "too old" in answer.get_json()["message"]


def test_an_unknown_invitation_is_refused(shop: Shop) -> None:
    assert enrol(shop, "AAA-AAA-AAA-AAA").status_code == 403


def test_a_key_whose_thumbprint_is_another_is_refused_and_spends_nothing(shop: Shop) -> None:
    code = shop.invite("inspector")
    answer = enrol(shop, code, jwk=public(ECKey.generate_key("P-256")))
    assert answer.status_code == 400
    assert "thumbprint" in answer.get_json()["message"]
    assert enrol(shop, code).status_code == 201


def test_a_key_is_enrolled_once_only(shop: Shop) -> None:
    key = ECKey.generate_key("P-256")
    assert enrol(shop, shop.invite("inspector"), key).status_code == 201
    second = shop.invite("supervisor")
    assert enrol(shop, second, key).status_code == 409
    assert enrol(shop, second).status_code == 201


def test_a_proof_for_another_purpose_is_refused(shop: Shop) -> None:
    assert enrol(shop, shop.invite("inspector"), purpose="sign in").status_code == 400


def test_a_private_key_is_never_taken(shop: Shop) -> None:
    key = ECKey.generate_key("P-256")
    assert enrol(shop, shop.invite("inspector"), key, jwk=key.as_dict(private=True)).status_code == 400


@pytest.mark.parametrize("device", ["", "a\x00b", "x" * 65, 5, None])
def test_a_device_needs_a_plain_name(shop: Shop, device: Any) -> None:
    assert enrol(shop, shop.invite("inspector"), device=device).status_code == 400


PART = st.none() | st.integers() | st.text(max_size=50) | st.lists(st.integers(), max_size=2)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(name=st.sampled_from(["kty", "crv", "x", "y", "d", "jwk"]), value=PART)
def test_any_key_at_all_is_answered(shop: Shop, name: str, value: Any) -> None:
    key = ECKey.generate_key("P-256")
    wrong = value if name == "jwk" else {**public(key), name: value}
    assert enrol(shop, "AAA-AAA-AAA-AAA", key, jwk=wrong).status_code == 400


@pytest.mark.parametrize("proof", ["", "a.b.c", "\ud800.x.y", None, 5])
def test_a_proof_that_is_none_is_answered(shop: Shop, proof: Any) -> None:
    answer = shop.client.post("/api/v1/keys", json={"proof": proof})
    assert answer.status_code in (400, 422)
    assert set(answer.get_json()) >= {"status", "error", "message"}


def test_only_supervisor_and_planner_invite(shop: Shop) -> None:
    def wanted(person: str, by: str) -> TestResponse:
        return shop.sign_in(by).post("/api/v1/invitations", json={"person": person})

    assert wanted("fitter", "inspector").status_code == 403
    assert wanted("nobody", "planner").status_code == 404
    made = wanted("fitter", "planner")
    assert made.status_code == 201
    assert enrol(shop, made.get_json()["invitation"]).get_json()["person"]["id"] == "fitter"
