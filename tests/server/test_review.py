from typing import Any

import pytest

from seamtag.database import db
from seamtag.sync.verifying import verify
from tests.shop import Shop

pytestmark = pytest.mark.both_databases


def only(flags: list[dict[str, Any]], record: str) -> dict[str, Any]:
    found = [one for one in flags if one["record"] == record]
    assert len(found) == 1, flags
    return found[0]


def test_a_reading_out_of_tolerance_appears_with_all_that_is_needed(shop: Shop) -> None:
    text, payload = shop.reading("1/4")
    shop.push(text, shop.reading("3/32", station="3")[0])
    flags = shop.flags()
    assert len(flags) == 1
    flag = only(flags, payload["id"])
    assert (flag["kind"], flag["state"], flag["by"]) == ("out of tolerance", "open", "Inspector")
    assert (flag["piece"]["mark"], flag["step"]["number"], flag["item"]["name"]) == ("S-1", "1.2", "Root opening")
    assert flag["limits"] == {"lower": "0.0625", "upper": "0.15625"}
    assert (flag["value"], flag["uom"], flag["station"]) == ("0.25", "in", "12")
    assert flag["past"] == pytest.approx(1.0)


def test_a_repair_decides_and_the_reading_after_it_closes(shop: Shop) -> None:
    text, payload = shop.reading("1/4")
    shop.push(text)
    shop.catch_up()
    decision, decided = shop.disposition(payload["id"], "repair")
    assert shop.push(decision)[0]["outcome"] == "taken in"
    flag = only(shop.flags(), payload["id"])
    assert (flag["state"], flag["disposition"]) == ("decided", decided["id"])
    assert [line["mark"] for line in review(shop)["lists"]["rework"]["lines"]] == ["S-1"]
    shop.push(shop.reading("3/32", replaces=payload["id"], why="after repair")[0])
    assert only(shop.flags(), payload["id"])["state"] == "closed"
    assert review(shop)["lists"]["rework"] == {"count": 0, "lines": []}


def test_a_reading_after_rework_is_fixed_on_the_spot(shop: Shop) -> None:
    text, payload = shop.reading("1/4")
    shop.push(text, shop.reading("3/32", replaces=payload["id"], why="after rework")[0])
    assert only(shop.flags(), payload["id"])["state"] == "fixed on the spot"
    assert review(shop)["counts"]["on_the_spot"] == 1


def review(shop: Shop, **query: str) -> dict[str, Any]:
    answer = shop.sign_in("supervisor").get("/api/v1/review", query_string=query)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.get_json()
    return found


def test_the_worst_comes_first(shop: Shop) -> None:
    pushed = [
        shop.reading(entered, station=station) for entered, station in (("3/16", "12"), ("1/2", "3"), ("1/4", "6"))
    ]
    shop.push(*[text for text, _ in pushed])
    assert [flag["value"] for flag in shop.flags()] == ["0.5", "0.25", "0.1875"]


def test_a_photo_is_shown_once_with_what_everybody_drew_over_it(shop: Shop) -> None:
    text, _ = shop.reading("1/4")
    photo = {"sha256": "a" * 64, "media_type": "image/jpeg", "bytes": 9, "width": 2048, "height": 1536}
    arrow = {"shape": "arrow", "x1": 0, "y1": 0, "x2": 5000, "y2": 5000}
    ring = {"shape": "ring", "x1": 5000, "y1": 5000, "x2": 6000, "y2": 5000}
    place = {"step": "fit", "item": "gap"}
    drawn = [("inspector", []), ("inspector", [ring]), ("supervisor", [arrow]), ("inspector", [arrow, ring])]
    photos = [shop.record("inspector", "photo", photo, **place)[0]]
    photos += [shop.record(who, "photo", {**photo, "marks": marks}, **place)[0] for who, marks in drawn]
    assert {outcome["outcome"] for outcome in shop.push(text, *photos)} == {"taken in"}
    opened = shop.sign_in("supervisor").get(f"/api/v1/flags/{shop.flags()[0]['id']}").get_json()
    assert opened["photos"] == [
        {"sha256": "a" * 64, "here": False, "shown": "", "width": 2048, "height": 1536, "marks": [arrow, arrow, ring]}
    ]


def test_marks_of_no_known_form_are_not_taken_in(shop: Shop) -> None:
    photo = {"sha256": "a" * 64, "media_type": "image/jpeg", "bytes": 9, "width": 1, "height": 1}
    outcome = shop.push(shop.record("inspector", "photo", {**photo, "marks": [{"shape": "cloud"}]})[0])[0]
    assert outcome["outcome"] == "not taken in"
    assert "body.marks is not a list of at most 100 marks" in outcome["reason"]


def test_filters_let_through_what_they_name(shop: Shop) -> None:
    shop.push(shop.reading("1/4")[0])
    assert len(shop.flags(state="open", job="T1", kind="out of tolerance")) == 1
    for query in ({"state": "closed"}, {"job": "T2"}, {"kind": "photo missing"}):
        assert shop.flags(**query) == []


def test_a_flag_opens_with_its_history_and_what_a_disposition_must_name(shop: Shop) -> None:
    text, payload = shop.reading("1/4")
    shop.push(text)
    flag = only(shop.flags(), payload["id"])
    opened = shop.sign_in("supervisor").get(f"/api/v1/flags/{flag['id']}").get_json()
    assert [line["says"] for line in opened["history"]] == ["1/4"]
    assert opened["agree"] == ["engineering"]
    assert opened["basis"] == shop.basis
    assert opened["gauge"] == {"name": "Taper gauge", "due": "2030-01-01", "uncertainty": "0.001"}
    assert [point["value"] for point in opened["trend"]] == [0.25]


def test_a_flag_that_is_gone_is_404(shop: Shop) -> None:
    answer = shop.sign_in("supervisor").get("/api/v1/flags/nothing")
    assert answer.status_code == 404
    assert "Go back to the list" in answer.get_json()["message"]


@pytest.mark.parametrize("basis", [{"plan": "f" * 64, "figures": 1}, {"plan": "", "figures": 9}])
def test_a_reading_on_an_unknown_basis_is_flagged_and_the_review_still_opens(shop: Shop, basis: dict[str, Any]) -> None:
    text, payload = shop.reading("3/32", basis=basis)
    assert shop.push(text)[0]["verdict"] == "unjudged"
    flag = only(shop.flags(), payload["id"])
    assert shop.sign_in("supervisor").get(f"/api/v1/flags/{flag['id']}").status_code == 200


@pytest.mark.parametrize("day", ["2026-13-01", "tomorrow", "9999-12-31", "0001-01-01", "2026-11-20\n"])
def test_a_day_that_is_none_is_422(shop: Shop, day: str) -> None:
    assert shop.sign_in("supervisor").get("/api/v1/review", query_string={"day": day}).status_code == 422


def test_a_step_met_waits_for_nobody_but_the_inspector(shop: Shop) -> None:
    """Heat and thickness in, QC signs: the plate is released and no flag is left."""
    heat, one = shop.record("inspector", "text", {"value": "H1"}, "P-1", step="receipt", item="heat")
    thick, two = shop.record(
        "inspector", "reading", {"entered": "1/4", "uom": "in"}, "P-1", step="receipt", item="thick"
    )
    signed, _ = shop.record("inspector", "sign-off", {"party": "QC", "covers": [one["id"], two["id"]],
                            "attendance": "present"}, "P-1", step="receipt")  # fmt: skip
    assert [one["outcome"] for one in shop.push(heat, thick, signed)] == ["taken in"] * 3
    assert shop.flags() == []


def test_a_point_for_the_whole_job_is_looked_at_on_every_piece(shop: Shop) -> None:
    """Flags of other pieces that name what is open follow the point, and the void that takes it back."""

    def reasons() -> list[str]:
        with shop.app.app_context():
            assert list(verify(db.session(), shop.app.extensions["vault"])) == []
        return [flag["reason"] for flag in shop.flags() if flag["record"] == behind["id"]]

    heat, named = shop.record("inspector", "text", {"value": "H1"}, "P-1", step="receipt", item="heat")
    thick, read = shop.record(
        "inspector", "reading", {"entered": "1/4", "uom": "in"}, "P-1", step="receipt", item="thick"
    )
    body = {"party": "QC", "covers": [named["id"], read["id"]]}
    signed, release = shop.record("inspector", "sign-off", body, "P-1", step="receipt")
    cut, behind = shop.record("inspector", "reading", {"entered": "1/64", "uom": "in"}, step="finished", item="cut",
                              under=[release["id"]])  # fmt: skip
    shop.push(heat, thick, signed, cut)
    before = reasons()
    point, payload = shop.record(
        "visitor", "point", {"party": "AI", "point": "H", "reach": "job"}, "P-2", step="receipt"
    )
    shop.push(point)
    assert "P-1" in reasons()[0]
    assert "P-1" not in before[0]
    shop.push(shop.record("visitor", "void", {"record": payload["id"], "reason": "wrong job"}, "P-2")[0])
    assert reasons() == before
