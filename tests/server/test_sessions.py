import re
import time

import pytest
from flask.testing import FlaskClient
from joserfc.jwk import ECKey
from werkzeug.test import TestResponse

from seamtag.database import db, writing
from seamtag.people.models import Challenge, SignIn
from tests.shop import Shop, proof_of

pytestmark = pytest.mark.both_databases


def nonce_of(client: FlaskClient) -> str:
    return str(client.post("/api/v1/challenges").get_json()["nonce"])


def sign_in(client: FlaskClient, proof: str) -> TestResponse:
    return client.post("/api/v1/sessions", json={"proof": proof})


def test_a_nonce_is_good_once(shop: Shop) -> None:
    key = shop.phones["inspector"].key
    proof = proof_of(key, nonce_of(shop.client))
    assert sign_in(shop.client, proof).get_json()["id"] == "inspector"
    again = sign_in(shop.app.test_client(), proof)
    assert again.status_code == 403
    assert "Set-Cookie" not in again.headers


def test_an_old_nonce_is_refused(shop: Shop) -> None:
    nonce = nonce_of(shop.client)
    with shop.app.app_context(), writing() as session:
        session.query(Challenge).update({"expires": int(time.time()) - 1})
    assert sign_in(shop.client, proof_of(shop.phones["inspector"].key, nonce)).status_code == 403


def test_a_nonce_of_ones_own_is_refused(shop: Shop) -> None:
    assert sign_in(shop.client, proof_of(shop.phones["inspector"].key, "mine")).status_code == 403


def test_a_foreign_key_is_refused(shop: Shop) -> None:
    assert sign_in(shop.client, proof_of(ECKey.generate_key("P-256"), nonce_of(shop.client))).status_code == 403


def test_the_cookie_is_out_of_reach_of_scripts_and_other_sites(shop: Shop) -> None:
    answer = sign_in(shop.client, proof_of(shop.phones["inspector"].key, nonce_of(shop.client)))
    cookie = answer.headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    assert "Secure" not in cookie
    secure = shop.app.test_client().post(
        "/api/v1/sessions", json={"proof": proof_of(shop.phones["inspector"].key, nonce_of(shop.client))},
        base_url="https://localhost",
    )  # fmt: skip
    assert "Secure" in secure.headers["Set-Cookie"]


@pytest.mark.parametrize(
    "path", ["sessions", "feed?scope=shop", "review", "tags/AAAAAAA", "flags/x", f"photos/{'0' * 64}"]
)
def test_nobody_signed_in_is_401_in_the_one_shape(client: FlaskClient, path: str) -> None:
    answer = client.get(f"/api/v1/{path}")
    assert answer.status_code == 401
    assert answer.get_json() == {
        "status": 401, "error": "Unauthorized", "message": "Nobody is signed in. Unlock the app to sign in."
    }  # fmt: skip
    assert answer.headers["Cache-Control"] == "no-store"


def test_without_the_role_it_is_403_in_the_one_shape(shop: Shop) -> None:
    answer = shop.sign_in("fitter").post("/api/v1/invitations", json={"person": "fitter"})
    assert answer.status_code == 403
    assert answer.get_json() == {
        "status": 403, "error": "Forbidden", "message": "This is for supervisor or planner. Ask somebody who is."
    }  # fmt: skip


def test_signing_out_ends_the_session_on_the_server(shop: Shop) -> None:
    browser = shop.sign_in("inspector")
    cookie = browser.get_cookie("seamtag")
    assert cookie is not None
    assert browser.get("/api/v1/sessions").get_json()["name"] == "Inspector"
    assert browser.delete("/api/v1/sessions").status_code == 204
    browser.set_cookie("seamtag", cookie.value)
    assert browser.get("/api/v1/sessions").status_code == 401


@pytest.mark.parametrize(("begun", "used"), [(8 * 24, 0), (13, 13)])
def test_a_session_runs_out(shop: Shop, begun: int, used: int) -> None:
    browser = shop.sign_in("inspector")
    now = int(time.time())
    with shop.app.app_context(), writing() as session:
        session.query(SignIn).update({"begun": now - begun * 3600, "last_used": now - used * 3600})
    assert browser.get("/api/v1/sessions").status_code == 401


def test_the_cookie_itself_is_not_kept(shop: Shop) -> None:
    cookie = shop.sign_in("inspector").get_cookie("seamtag")
    assert cookie is not None
    with shop.app.app_context():
        assert cookie.value not in [one.digest for one in db.session.query(SignIn)]


def test_over_https_the_cookie_is_one_that_only_https_can_set(shop: Shop) -> None:
    browser = shop.app.test_client()
    nonce = browser.post("/api/v1/challenges", base_url="https://localhost").get_json()["nonce"]
    proof = {"proof": proof_of(shop.phones["inspector"].key, nonce)}
    answer = browser.post("/api/v1/sessions", json=proof, base_url="https://localhost")
    name, *flags = re.split("[=;] ?", answer.headers["Set-Cookie"])
    assert name == "__Host-seamtag"
    assert {"Secure", "HttpOnly", "Path", "/", "SameSite", "Strict"} <= set(flags)
    assert "Domain" not in flags
    assert browser.get("/api/v1/sessions", base_url="https://localhost").status_code == 200
    browser.delete("/api/v1/sessions", base_url="https://localhost")
    assert browser.get_cookie("__Host-seamtag") is None


def test_a_session_without_https_counts_for_nothing_over_https(shop: Shop) -> None:
    browser = shop.sign_in("inspector")
    assert browser.get("/api/v1/sessions").status_code == 200
    assert browser.get("/api/v1/sessions", base_url="https://localhost").status_code == 401
