import pytest

from seamtag.database import writing
from seamtag.people import staff
from seamtag.people.models import Person
from tests.shop import Shop

pytestmark = pytest.mark.both_databases


def test_a_disposition_by_an_inspector_has_no_effect_and_is_flagged(shop: Shop) -> None:
    text, payload = shop.reading("1/4")
    decision, decided = shop.disposition(payload["id"], "use as is", who="inspector")
    assert [one["outcome"] for one in shop.push(text, decision)] == ["taken in"] * 2
    flags = {flag["record"]: flag for flag in shop.flags()}
    assert (flags[payload["id"]]["kind"], flags[payload["id"]]["state"]) == ("out of tolerance", "open")
    assert (flags[decided["id"]]["kind"], flags[decided["id"]]["state"]) == ("role in doubt", "open")


def test_a_sign_off_by_somebody_without_the_role_is_flagged(shop: Shop) -> None:
    text, payload = shop.record("fitter", "sign-off", {"party": "QC", "covers": []}, step="fit")
    shop.push(text)
    assert ("role in doubt", payload["id"]) in [(flag["kind"], flag["record"]) for flag in shop.flags()]


def test_a_role_given_after_the_phone_last_looked_is_in_doubt(shop: Shop) -> None:
    reading, payload = shop.reading("1/4")
    shop.push(reading)
    with shop.app.app_context(), writing() as session:
        staff.engage(session, Person(id="inspector", name="Inspector", roles=["supervisor"], stamp=""), 1)
    shop.push(shop.disposition(payload["id"], "use as is", who="inspector")[0])
    kinds = {flag["kind"]: flag["state"] for flag in shop.flags()}
    assert kinds == {"out of tolerance": "open", "role in doubt": "open"}
    shop.catch_up()
    shop.push(shop.disposition(payload["id"], "repair", who="inspector")[0])
    assert {flag["kind"]: flag["state"] for flag in shop.flags()}["out of tolerance"] == "decided"
