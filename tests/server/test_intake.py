import gzip
import json
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from joserfc.jwk import ECKey

from seamtag.guard.limits import Gate
from seamtag.records import jws
from tests.shop import Shop

pytestmark = pytest.mark.both_databases

ONE_SHOP = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-3, 2**54) | st.floats(allow_nan=False) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner, max_size=3),
    max_leaves=6,
)


def test_a_record_is_taken_in_with_its_number_and_verdict(shop: Shop) -> None:
    before, _ = shop.head()
    text, payload = shop.reading("3/32")
    assert shop.push(text) == [
        {"id": payload["id"], "outcome": "taken in", "reason": "", "number": before + 1, "verdict": "in tolerance"}
    ]


def test_a_reading_out_of_tolerance_is_taken_in_and_called_so(shop: Shop) -> None:
    assert shop.push(shop.reading("1/4")[0])[0]["verdict"] == "out of tolerance"


def test_a_repeat_gets_the_stored_outcome_and_no_second_entry(shop: Shop) -> None:
    text, _ = shop.reading()
    first = shop.push(text)
    head = shop.head()
    assert shop.push(text, text) == first * 2
    assert shop.head() == head


def test_other_bytes_under_the_same_id_are_not_taken_in(shop: Shop) -> None:
    text, payload = shop.reading("3/32")
    other = jws.sign({**payload, "body": {**payload["body"], "entered": "1/8"}}, shop.phones["inspector"].key)
    assert [one["outcome"] for one in shop.push(text, other)] == ["taken in", "not taken in"]
    assert shop.push(other)[0]["reason"] == "another record has this id"
    assert shop.push(text)[0]["outcome"] == "taken in"


def resigned(shop: Shop, **changes: Any) -> str:
    return jws.sign({**shop.reading()[1], **changes}, shop.phones["inspector"].key)


def test_an_unknown_schema_is_not_taken_in(shop: Shop) -> None:
    outcome = shop.push(resigned(shop, schema=2))[0]
    assert outcome["outcome"] == "not taken in"
    assert "schema" in outcome["reason"]


@pytest.mark.parametrize("changes", [{"by": "supervisor"}, {"device": "another"}])
def test_a_record_for_somebody_else_is_not_taken_in(shop: Shop, changes: dict[str, str]) -> None:
    outcome = shop.push(resigned(shop, **changes))[0]
    assert (outcome["outcome"], outcome["reason"]) == ("not taken in", "by and device are not the key's")


def test_a_foreign_key_is_unreadable_and_its_id_is_named(shop: Shop) -> None:
    payload = shop.reading()[1]
    outcome = shop.push(jws.sign(payload, ECKey.generate_key("P-256")))[0]
    assert (outcome["outcome"], outcome["id"]) == ("unreadable", payload["id"])
    assert "not enrolled" in outcome["reason"]


def test_a_changed_payload_or_signature_is_unreadable(shop: Shop) -> None:
    (one, _), (two, _) = shop.reading("3/32"), shop.reading("1/8")
    header, payload, _ = one.split(".")
    outcomes = shop.push(f"{header}.{payload}.{two.split('.')[2]}", f"{header}.{two.split('.')[1]}.{one.split('.')[2]}")
    assert [one["outcome"] for one in outcomes] == ["unreadable"] * 2


@pytest.mark.parametrize("header", [{"alg": "none"}, {"alg": "HS256"}, {"alg": "ES256", "crit": ["b64"]}])
def test_only_our_form_of_a_signature_is_read(shop: Shop, header: dict[str, Any]) -> None:
    text, _ = shop.reading()
    part = jws.encode(json.dumps({"kid": shop.phones["inspector"].key.thumbprint(), **header}).encode())
    assert shop.push(".".join([part, *text.split(".")[1:]]))[0]["outcome"] == "unreadable"


def test_one_bad_element_does_not_fail_its_neighbours(shop: Shop) -> None:
    one, two = shop.reading()[0], shop.reading(station="3")[0]
    bad: list[Any] = [None, 5, {}, [], "", "..", "a.b.c", "\ud800.\ud800.\ud800", "é" * 9, "x" * 1_000_001, one[:-2]]
    for element in bad:
        words = [outcome["outcome"] for outcome in shop.push(one, element, two)]
        assert words == ["taken in", "unreadable", "taken in"], str(element)[:40]


@ONE_SHOP
@given(where=st.sampled_from(["", "body", "seen", "basis", "about"]), value=JSON, data=st.data())
def test_whatever_a_key_has_signed_is_answered(shop: Shop, where: str, value: Any, data: st.DataObject) -> None:
    """A field replaced by anything at all; the push goes on, and its neighbours are taken in."""
    good, payload = shop.reading() if where != "about" else shop.disposition(shop.reading()[1]["id"], "repair")
    part = payload["body"]["about"] if where == "about" else payload[where] if where else payload
    names = [*part, "pages", "page", "sha256", "replaces", "under", "again", "cycle"]
    changed = {**part, data.draw(st.sampled_from(names)): value}
    whole = changed if not where else {**payload, where: changed}
    if where == "about":
        whole = {**payload, "body": {**payload["body"], "about": changed}}
    text = jws.sign(whole, shop.phones[payload["by"]].key)
    assert shop.push(text, shop.reading()[0])[1]["outcome"] == "taken in"
    assert shop.push(good)[0]["outcome"] in ("taken in", "not taken in")
    assert shop.sign_in("supervisor").get("/api/v1/review").status_code == 200


@ONE_SHOP
@given(raw=st.binary(max_size=200) | JSON.map(lambda value: json.dumps(value).encode()), packed=st.booleans())
def test_any_bytes_are_answered(shop: Shop, raw: bytes, packed: bool) -> None:
    headers = {"Content-Encoding": "gzip"} if packed else {}
    assert shop.post(raw, headers=headers, content_type="application/json").status_code == 200


def test_a_sign_off_over_thousands_of_records_is_read(shop: Shop) -> None:
    covers = [f"01a1f90b-c2e0-7226-b80c-{number:012x}" for number in range(12_000)]
    text, _ = shop.record("inspector", "sign-off", {"party": "QC", "covers": covers}, step="fit")
    assert shop.push(text)[0]["outcome"] == "taken in"


def test_a_gzipped_push_is_read(shop: Shop) -> None:
    raw = gzip.compress(json.dumps({"records": [shop.reading()[0]]}).encode())
    answer = shop.post(raw, headers={"Content-Encoding": "gzip"})
    assert answer.get_json(force=True)["outcomes"][0]["outcome"] == "taken in"


def test_a_gzip_bomb_is_413(shop: Shop) -> None:
    answer = shop.post(gzip.compress(b" " * 17_000_000), headers={"Content-Encoding": "gzip"})
    assert answer.status_code == 413
    assert "16 MB" in answer.get_json()["message"]


@pytest.mark.parametrize("size", [17_000_000, 31_000_000])
def test_a_push_too_large_is_413(shop: Shop, size: int) -> None:
    assert shop.post(b" " * size, content_type="application/json").status_code == 413


def test_too_many_records_at_once_are_413(shop: Shop) -> None:
    assert shop.post({"records": [None] * 1001}).status_code == 413


def test_too_many_unreadable_records_are_429_with_when_to_try_again(shop: Shop) -> None:
    shop.app.extensions["gate"] = Gate({"unreadable": "5/minute", "attempt": "5/minute"})
    assert shop.post({"records": [None] * 5}).status_code == 200
    assert shop.push(shop.reading()[0], None)[0]["outcome"] == "taken in", "what can be believed is let in all the same"
    answer = shop.post({"records": [None]})
    assert answer.status_code == 429
    assert 0 < int(answer.headers["Retry-After"]) <= 61
    assert answer.get_json()["status"] == 429
