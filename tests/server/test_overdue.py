"""What should have come and has not: flagged when its phone has nothing left, or when it is late, and gone when it is
there."""

import hashlib
import time
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier
from typing import Any

import pytest
from sqlalchemy.exc import OperationalError

from seamtag.database import db
from seamtag.review import flagging, overdue
from seamtag.review.flagging import NEVER_CAME, NO_PICTURE, PATIENCE, PICTURE_LATE
from seamtag.review.overdue import EVERY, look_back
from seamtag.sync.verifying import verify
from tests.shop import Shop

pytestmark = pytest.mark.both_databases


def looked(shop: Shop, later: int) -> list[tuple[str, str, str]]:
    """The open flags once all phones were looked after, so many seconds from now: kind, reason, record."""
    with shop.app.app_context():
        look_back(int(time.time()) + later)
    return [(flag["kind"], flag["reason"], flag["record"]) for flag in shop.flags(state="open")]


def fitted(shop: Shop) -> tuple[list[str], list[dict[str, Any]], str, dict[str, Any]]:
    """All that the fit asks for, the first of it from a phone of its own, with the sign-off of its maker; and that of
    QC, which lists it. Nothing is pushed."""
    made = [shop.reading(station="12", who="supervisor"), *(shop.reading(station=one) for one in ("3", "6", "9"))]
    made.append(shop.record("inspector", "visual", {"result": "accept"}, step="fit", item="clean"))
    maker = shop.record("fitter", "sign-off", {"party": "maker", "covers": []}, step="fit")
    covers = [payload["id"] for _, payload in made]
    text, signed = shop.record("inspector", "sign-off", {"party": "QC", "covers": covers}, step="fit",
                               under=[maker[1]["id"]])  # fmt: skip
    return [text for text, _ in [*made, maker]], [payload for _, payload in [*made, maker]], text, signed


def test_a_release_that_lists_what_never_comes_is_told_after_a_day_and_until_it_is_there(shop: Shop) -> None:
    texts, _, text, signed = fitted(shop)
    shop.push(*texts[1:], text)
    assert looked(shop, PATIENCE - 60) == []
    assert looked(shop, PATIENCE + 1) == [("sign-off shaken", NEVER_CAME, signed["id"])]
    with shop.app.app_context():
        assert list(verify(db.session(), shop.app.extensions["vault"])) == []
    shop.push(texts[0])
    assert shop.flags(state="open") == []


def test_signed_anew_it_is_told_no_more(shop: Shop) -> None:
    texts, made, text, _ = fitted(shop)
    shop.push(*texts[1:], text)
    assert len(looked(shop, PATIENCE + 1)) == 1
    other = shop.reading(station="12")
    covers = [other[1]["id"], *(one["id"] for one in made[1:-1])]
    anew = shop.record("inspector", "sign-off", {"party": "QC", "covers": covers}, step="fit", under=[made[-1]["id"]])[
        0
    ]
    shop.push(other[0], anew)
    assert shop.flags(state="open") == []


def test_work_that_names_a_release_that_never_comes_is_told(shop: Shop) -> None:
    texts, _, _, signed = fitted(shop)
    shop.push(*texts)
    weld, made = shop.record("inspector", "reading", {"entered": "0", "uom": "in"}, step="finished", item="cut",
                             under=[signed["id"]])  # fmt: skip
    shop.push(weld)
    assert looked(shop, PATIENCE - 60) == []
    assert ("went past an open hold", NEVER_CAME, made["id"]) in looked(shop, PATIENCE + 1)


def test_the_phone_that_has_nothing_left_is_not_waited_for(shop: Shop) -> None:
    texts, _, text, signed = fitted(shop)
    shop.post({"records": [*texts[1:], text], "device": signed["device"], "waiting": 1})
    assert shop.flags() == []
    shop.post({"records": [text], "device": signed["device"], "waiting": 0})
    assert [(flag["kind"], flag["reason"]) for flag in shop.flags()] == [("sign-off shaken", NEVER_CAME)]


def photo(shop: Shop, content: bytes, mark: str, **place: str) -> str:
    """Push the record of a picture that does not come; its id."""
    sha256 = hashlib.sha256(content).hexdigest()
    body = {"sha256": sha256, "media_type": "image/jpeg", "bytes": 9, "width": 9, "height": 9}
    text, payload = shop.record("inspector", "photo", body, mark, **place)
    shop.push(text)
    return str(payload["id"])


def test_what_is_late_is_looked_at_once(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    looks = []
    flag = overdue.flag_pieces
    monkeypatch.setattr(overdue, "flag_pieces", lambda *given: (looks.append(given[-1]), flag(*given)))
    one, late = photo(shop, b"one", "S-1", step="fit", item="gap"), PICTURE_LATE + 5
    assert looked(shop, late - EVERY) == []
    assert looked(shop, late - 2) == []
    for later in (0, 2 * EVERY, 4 * EVERY):
        assert looked(shop, late + later) == [("photo missing", NO_PICTURE, one)]
    assert len(looks) == 1


def test_what_is_late_is_found_where_the_clock_was_set_back(shop: Shop) -> None:
    one = photo(shop, b"one", "S-1", step="fit", item="gap")
    assert len(looked(shop, 9 * PATIENCE)) == 1
    two = photo(shop, b"two", "P-1", step="receipt", item="thick")
    assert looked(shop, PICTURE_LATE - 60) == [("photo missing", NO_PICTURE, one)]
    assert sorted(looked(shop, PICTURE_LATE + 5)) == sorted(("photo missing", NO_PICTURE, late) for late in (one, two))


def test_a_pull_looks_once_a_minute(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    texts, _, text, signed = fitted(shop)
    shop.push(*texts[1:], text)
    browser = shop.sign_in("supervisor")
    feed = "/api/v1/feed?scope=shop"
    assert browser.get(feed).status_code == 200
    assert shop.flags() == []
    now = time.time()
    monkeypatch.setattr("seamtag.sync.routes.time.time", lambda: now + PATIENCE + 1)
    late = shop.sign_in("supervisor")
    assert late.get(feed).status_code == 200
    assert [flag["record"] for flag in shop.flags()] == [signed["id"]]


def test_of_several_who_call_at_once_one_looks(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    photo(shop, b"one", "S-1", step="fit", item="gap")
    looks = []
    monkeypatch.setattr(overdue, "flag_places", lambda queries, now: looks.append(now))
    later = int(time.time()) + PICTURE_LATE + 5
    together = Barrier(6)

    def look() -> None:
        with shop.app.app_context():
            together.wait()
            look_back(later)

    with ThreadPoolExecutor(6) as threads:
        for done in [threads.submit(look) for _ in range(6)]:
            done.result()
    assert looks == [later]


def test_a_piece_that_fails_holds_up_neither_a_pull_nor_the_others(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    photo(shop, b"one", "P-1", step="receipt", item="thick")
    two = photo(shop, b"two", "S-1", step="fit", item="gap")
    flag = overdue.flag_pieces

    def fail(session: Any, places: Any, now: int) -> None:
        if any(piece.endswith("P-1") for _, piece in places):
            raise RuntimeError("this piece cannot be worked out")
        flag(session, places, now)

    monkeypatch.setattr(overdue, "flag_pieces", fail)
    now = time.time()
    monkeypatch.setattr("seamtag.sync.routes.time.time", lambda: now + PICTURE_LATE + 5)
    assert shop.sign_in("supervisor").get("/api/v1/feed?scope=shop").status_code == 200
    assert [flag["record"] for flag in shop.flags()] == [two]
    assert "cannot be worked out" in caplog.text


def test_records_that_wait_are_looked_at_when_what_they_wait_for_comes_and_not_before(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    release, signed = shop.record("supervisor", "sign-off", {"party": "QC", "covers": []}, "P-1", step="receipt")
    cut = shop.record("inspector", "reading", {"entered": "0", "uom": "in"}, step="finished", item="cut",
                      under=[signed["id"]])[0]  # fmt: skip
    shop.push(cut)
    seen: list[set[str]] = []
    monkeypatch.setattr(flagging, "flag_job", lambda session, job, pieces, now: seen.append(pieces))
    thick = {"entered": "1/2", "uom": "in"}
    shop.push(shop.record("inspector", "reading", thick, "P-2", step="receipt", item="thick")[0])
    shop.push(release)
    assert seen == [{"T1.P-2"}, {"T1.P-1", "T1.S-1"}]


def test_of_one_record_each_thing_that_is_late_is_told(shop: Shop) -> None:
    """A picture that is missed after an hour, of a photo whose release is missed after a day."""
    release = shop.record("supervisor", "sign-off", {"party": "QC", "covers": []}, "P-1", step="receipt")[1]
    body = {"sha256": "0" * 64, "media_type": "image/jpeg", "bytes": 9, "width": 9, "height": 9}
    text, _ = shop.record("inspector", "photo", body, step="finished", item="cut", under=[release["id"]])
    shop.push(text)
    assert [kind for kind, _, _ in looked(shop, PICTURE_LATE + 5)] == ["photo missing"]
    kinds = [kind for kind, _, _ in looked(shop, PATIENCE + 5)]
    assert sorted(kinds) == ["photo missing", "went past an open hold"]


def test_where_others_write_too_long_the_next_look_goes_back_to_it(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    one = photo(shop, b"one", "S-1", step="fit", item="gap")
    flag = overdue.flag_pieces

    def busy(*_: Any) -> None:
        raise OperationalError("the lock", {}, Exception("busy"))

    monkeypatch.setattr(overdue, "flag_pieces", busy)
    assert looked(shop, PICTURE_LATE + 5) == []
    monkeypatch.setattr(overdue, "flag_pieces", flag)
    assert looked(shop, PICTURE_LATE + 6 + EVERY) == [("photo missing", NO_PICTURE, one)]
