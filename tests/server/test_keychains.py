"""Gaps and forks of a key's chain: shown as flags where they were made, never grounds to refuse."""

import copy
import time

import pytest
from sqlalchemy import select

from seamtag.database import db
from seamtag.records.models import Record
from seamtag.review.flagging import PATIENCE
from seamtag.review.overdue import all_sent
from tests.shop import Shop

pytestmark = pytest.mark.both_databases


def links(shop: Shop) -> dict[str, str]:
    with shop.app.app_context():
        return {row.id: row.link for row in db.session.execute(select(Record.id, Record.link))}


def kinds(shop: Shop) -> list[str]:
    return [flag["kind"] for flag in shop.flags() if flag["kind"].startswith("chain")]


def heard(shop: Shop, waiting: int, *texts: str) -> None:
    shop.post({"records": list(texts), "device": shop.phones["inspector"].device, "waiting": waiting})


def test_a_gap_is_flagged_only_when_the_phone_has_nothing_left_to_send(shop: Shop) -> None:
    texts = [shop.reading(station=station)[0] for station in ("12", "3", "6")]
    ids = [shop.push(text)[0]["id"] for text in (texts[0], texts[2])]
    assert links(shop) == {ids[0]: "", ids[1]: "gap"}
    assert kinds(shop) == []
    heard(shop, 1, texts[2])
    assert kinds(shop) == []
    heard(shop, 0, texts[2])
    assert kinds(shop) == ["chain gap"]


def test_a_gap_closes_when_the_record_comes(shop: Shop) -> None:
    texts = [shop.reading(station=station)[0] for station in ("12", "3", "6")]
    heard(shop, 0, texts[0], texts[2])
    assert kinds(shop) == ["chain gap"]
    shop.push(texts[1])
    assert set(links(shop).values()) == {""}
    assert kinds(shop) == []


def test_a_gap_is_flagged_after_a_day(shop: Shop) -> None:
    texts = [shop.reading(station=station)[0] for station in ("12", "3", "6")]
    shop.push(texts[0], texts[2])
    with shop.app.app_context():
        all_sent(shop.phones["inspector"].device, int(time.time()) + PATIENCE + 1)
    assert kinds(shop) == ["chain gap"]


def test_a_phone_restored_from_a_copy_forks_its_chain_where_it_did(shop: Shop) -> None:
    shop.push(shop.reading(station="12")[0])
    older = copy.copy(shop.phones["inspector"])
    lost = [shop.reading(station=station)[0] for station in ("3", "6")]
    shop.phones["inspector"] = older
    made = [shop.reading(station=station)[0] for station in ("9", "3")]
    first = [one["id"] for one in shop.push(*made)]
    assert set(links(shop).values()) == {""}
    second = [one["id"] for one in shop.push(*lost)]
    found = links(shop)
    assert (found[first[0]], found[second[0]]) == ("fork", "fork")
    assert (found[first[1]], found[second[1]]) == ("", "")
    assert kinds(shop) == ["chain fork", "chain fork"]


def test_the_order_of_arrival_does_not_matter(shop: Shop) -> None:
    texts = [shop.reading(station=station)[0] for station in ("12", "3", "6", "9")]
    for text in reversed(texts):
        shop.push(text)
    assert set(links(shop).values()) == {""}


def test_a_fork_is_closed_by_a_word_about_it_and_no_other(shop: Shop) -> None:
    older = copy.copy(shop.phones["inspector"])
    ids = [shop.push(shop.reading(station="12")[0])[0]["id"]]
    shop.phones["inspector"] = older
    ids += [shop.push(shop.reading(station="3")[0])[0]["id"]]
    for flag, left in (("out of tolerance", 2), ("chain fork", 1)):
        body = {"about": {"records": [ids[0]], "flag": flag}, "disposition": "use as is", "reason": "phone restored"}
        shop.push(shop.record("supervisor", "disposition", body, step="fit", item="gap")[0])
        assert len([f for f in shop.flags() if f["kind"] == "chain fork" and f["state"] == "open"]) == left


def test_a_record_refused_is_no_gap(shop: Shop) -> None:
    first = shop.record("inspector", "reading", {"entered": 5}, step="fit", item="gap")[0]
    second = shop.reading()[0]
    outcomes = shop.push(first, second)
    assert [one["outcome"] for one in outcomes] == ["not taken in", "taken in"]
    assert set(links(shop).values()) == {""}


def test_only_the_phone_itself_says_what_waits_on_it(shop: Shop) -> None:
    texts = [shop.reading(station=station)[0] for station in ("12", "3", "6")]
    shop.push(texts[0], texts[2])
    other = shop.record("fitter", "note", {"text": "x"})[0]
    shop.post({"records": [other], "device": shop.phones["inspector"].device, "waiting": 0})
    assert kinds(shop) == []
