"""A flag opened tells of its own place and of no other: what was recorded there, and the words about that."""

from types import SimpleNamespace
from typing import Any

import pytest
from flask import Flask

from seamtag.core.flags import DECIDED, OPEN, Flag
from seamtag.review.decisions import place_decided, places_of
from tests.shop import PLAN, Shop

pytestmark = pytest.mark.both_databases


def opened(shop: Shop, record: str, kind: str = "out of tolerance") -> dict[str, Any]:
    browser = shop.sign_in("supervisor")
    (flag,) = [one for one in shop.flags() if (one["record"], one["kind"]) == (record, kind)]
    found: dict[str, Any] = browser.get(f"/api/v1/flags/{flag['id']}").get_json()
    return found


def said(shop: Shop, what: str, *about: str, kind: str = "out of tolerance", **place: str) -> tuple[str, Any]:
    """A word about records, not yet sent."""
    body = {"about": {"records": about, "flag": kind}, "disposition": what, "reason": "as found"}
    return shop.record("supervisor", "disposition", body, **place)


def told(flag: dict[str, Any], name: str = "history") -> list[str]:
    return [line["id"] for line in flag[name]]


def two_stations(shop: Shop) -> tuple[str, str]:
    """The ids of two readings out of tolerance, at 12 and at 3 o'clock."""
    pushed = [shop.reading("1/4", station=station) for station in ("12", "3")]
    shop.push(*[text for text, _ in pushed])
    shop.catch_up()
    return pushed[0][1]["id"], pushed[1][1]["id"]


def test_a_word_about_one_station_is_not_told_at_the_other(shop: Shop) -> None:
    left, right = two_stations(shop)
    text, word = shop.disposition(left, "repair", ncr="26-1", again=["fit"])
    shop.push(text)
    assert told(opened(shop, left)) == [left, word["id"]]
    assert told(opened(shop, right)) == [right]
    assert told(opened(shop, right), "others") == [left]


def test_a_word_about_both_stations_is_told_at_both(shop: Shop) -> None:
    left, right = two_stations(shop)
    text, word = said(shop, "rework", left, right)
    shop.push(text)
    assert told(opened(shop, left)) == [left, word["id"]]
    assert told(opened(shop, right)) == [right, word["id"]]


def test_what_is_lined_out_and_agreed_to_is_told_where_it_belongs(shop: Shop) -> None:
    left, right = two_stations(shop)
    text, word = shop.disposition(left, "use as is", ncr="26-2")
    agreed, agreement = shop.record("visitor", "agreement", {"disposition": word["id"], "party": "AI"})
    other, over = shop.disposition(right, "repair")
    out, void = shop.record("supervisor", "void", {"record": over["id"], "reason": "wrong side"})
    shop.push(text, agreed, other, out)
    assert told(opened(shop, left)) == [left, word["id"], agreement["id"]]
    assert told(opened(shop, right)) == [right, over["id"], void["id"]]


def test_notes_are_told_at_their_step_and_where_they_clear_one_of_it(shop: Shop) -> None:
    left, _ = two_stations(shop)
    here, note = shop.record("inspector", "note", {"text": "ground twice", "pass_on": True}, step="fit")
    there, _ = shop.record("inspector", "note", {"text": "see sheet 4"}, step="finished")
    aside, beside = shop.record("inspector", "note", {"text": "scale"}, step="fit", item="clean")
    done, clear = shop.record("fitter", "note", {"text": "done", "clears": note["id"]})
    shop.push(here, there, aside, done)
    flag = opened(shop, left)
    assert told(flag) == [left, note["id"], clear["id"]]
    assert beside["id"] in told(flag, "others")


def test_a_word_says_what_kind_of_flag_it_is_about(shop: Shop) -> None:
    left, _ = two_stations(shop)
    text, _ = said(shop, "use as is", left, kind="run rule broken")
    shop.push(text)
    assert [line["flag"] for line in opened(shop, left)["history"]] == ["", "run rule broken"]


SPREAD = """      - code: spread
        name: Largest less smallest
        kind: derived
        uom: in
        formula: spread(gap)
        upper: "1/64"
        binds: shop
"""
CLEAN = "      - {code: clean"


def test_a_word_about_a_worked_out_value_is_not_told_at_the_reading_behind_it(
    app: Flask, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tests.shop.PLAN", PLAN.replace(CLEAN, SPREAD + CLEAN))
    shop = Shop(app)
    pushed = [shop.reading(entered, station=station) for entered, station in (("3/32", "12"), ("1/4", "3"))]
    shop.push(*[text for text, _ in pushed])
    shop.catch_up()
    newest = pushed[1][1]["id"]
    of_value, word = said(shop, "use as is", newest, step="fit", item="spread")
    of_reading, other = shop.disposition(newest, "use as is", ncr="26-3")
    shop.push(of_value, of_reading)
    flags = [one for one in shop.flags() if one["kind"] == "out of tolerance"]
    browser = shop.sign_in("supervisor")
    by_item = {one["item"]["code"]: browser.get(f"/api/v1/flags/{one['id']}").get_json() for one in flags}
    assert told(by_item["spread"]) == [newest, word["id"]]
    assert told(by_item["gap"]) == [newest, other["id"]]


def test_a_decision_about_a_doubt_stands_where_the_doubt_does() -> None:
    behind = SimpleNamespace(place=("T1.S-1", "fit", "gap", "3"))
    of_doubt = SimpleNamespace(place=("T1.S-1", "", "", ""))
    of_value = SimpleNamespace(place=("T1.S-1", "fit", "spread", ""))
    own = SimpleNamespace(standing=SimpleNamespace(speaks_of_derived=lambda word: word is of_value))
    flags = [Flag("run rule broken", "r", "T1.S-1", "fit", "spread", "", DECIDED),
             Flag("gauge ran out", "r", "T1.S-1", "fit", "gap", "3", OPEN)]  # fmt: skip
    places = places_of(flags)

    def place(disposition: Any, kind: str) -> tuple[str, str, str]:
        return place_decided(own, disposition, behind, places.get((kind, "r"), ()))  # type: ignore[arg-type]

    assert place(of_doubt, "run rule broken") == ("fit", "spread", "")
    assert place(of_doubt, "gauge ran out") == place(of_doubt, "clock far off") == ("fit", "gap", "3")
    assert place(of_value, "out of tolerance") == ("fit", "spread", "")
    places["run rule broken", "r"].add(("fit", "gap", "3"))
    assert place(of_doubt, "run rule broken") == ("fit", "gap", "3")
