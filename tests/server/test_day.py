"""What the day review is read from: the shop's day, lists kept in step with the records, phones, values, warnings."""

import hashlib
import random
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from seamtag.core.progress import Progress
from seamtag.database import db, writing
from seamtag.jobs.board import Fold
from seamtag.jobs.floor import core_job
from seamtag.jobs.opening import set_open
from seamtag.records.models import Record
from seamtag.records.reading import payloads_of
from seamtag.records.rejudging import derive_anew, reflag
from seamtag.review import lists
from seamtag.review.calendar import day_of
from seamtag.review.flagging import NO_PICTURE
from seamtag.review.models import FlagRow, ListLine, PieceState, Released
from seamtag.review.overdue import all_sent
from seamtag.rows import bring_up_to_date
from seamtag.sync.devices import heard
from seamtag.sync.models import Device, Mark
from seamtag.sync.shop import name_shop
from seamtag.sync.verifying import verify
from seamtag.trends.models import Measured, Series
from seamtag.trends.watching import DRIFT_RULE, WatchError, watch
from tests.shop import JOB, Shop

pytestmark = pytest.mark.both_databases

ZONE = ZoneInfo("America/New_York")
NAMES = ("ready_for_ai", "blocked")
SERIES = ("small", "fit", "gap")


def review(shop: Shop, **query: Any) -> dict[str, Any]:
    answer = shop.sign_in("supervisor").get("/api/v1/review", query_string=query)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.get_json()
    return found


@pytest.fixture
def shifts(shop: Shop) -> Iterator[Session]:
    with shop.app.app_context():
        with writing() as session:
            name_shop(session, "A shop", str(ZONE), 1, shifts=("06:00", "14:00", "22:00"))
        yield db.session()


def at(*moment: int) -> datetime:
    return datetime(*moment, tzinfo=ZONE)  # type: ignore[arg-type]


def test_a_day_begins_with_its_first_shift_and_holds_the_night_shift(shifts: Session) -> None:
    at_night = day_of(shifts, "", 0, at(2026, 11, 26, 3, 15))
    assert (at_night.name, at_night.end - at_night.start) == ("2026-11-25", 86_399)
    assert at_night.start == at(2026, 11, 25, 6).timestamp()
    night = day_of(shifts, "2026-11-25", 3)
    assert (night.start, night.end) == (at(2026, 11, 25, 22).timestamp(), at(2026, 11, 26, 6).timestamp() - 1)
    assert day_of(shifts, "", 0, at(2026, 11, 26, 6)).name == "2026-11-26"


def test_the_day_on_which_clocks_go_back_has_25_hours(shifts: Session) -> None:
    """1 November 2026, 02:00, in New York; the IANA time zone database says so."""
    whole = day_of(shifts, "2026-10-31")
    assert whole.end + 1 - whole.start == 25 * 3600
    parts = [day_of(shifts, "2026-10-31", shift) for shift in (1, 2, 3)]
    assert [part.end + 1 - part.start for part in parts] == [8 * 3600, 8 * 3600, 9 * 3600]


@pytest.mark.parametrize(("day", "shift"), [("2026-02-30", 0), ("9999-01-01", 0), ("2026-11-25", 4)])
def test_a_day_or_shift_that_is_none_is_refused(shop: Shop, shifts: Session, day: str, shift: int) -> None:
    with pytest.raises(ValueError):
        day_of(shifts, day, shift)
    answer = shop.sign_in("supervisor").get("/api/v1/review", query_string={"day": day, "shift": shift})
    assert answer.status_code == 422
    assert "no day" in answer.get_json()["message"]


def test_a_shop_without_shifts_has_days_from_midnight(shop: Shop) -> None:
    with shop.app.app_context():
        db.session.merge(Mark(name="time_zone", value="Asia/Kolkata"))
        found = day_of(db.session(), "", 0, datetime(2026, 11, 25, 20, 0, tzinfo=ZoneInfo("Asia/Kolkata")))
        assert (found.name, found.shifts, found.start) == ("2026-11-25", [], 1_795_545_000)


def kept(shop: Shop) -> dict[str, set[tuple[str, str]]]:
    with shop.app.app_context():
        rows = db.session.execute(select(ListLine.name, ListLine.piece, ListLine.step)).all()
        return {name: {(row.piece, row.step) for row in rows if row.name == name} for name in NAMES}


def worked_out(shop: Shop) -> dict[str, set[tuple[str, str]]]:
    with shop.app.app_context():
        core = core_job(db.session(), JOB)
        assert core is not None
        fold = Fold(Progress(core, payloads_of(db.session(), JOB)))
        lines = {"ready_for_ai": lists.ready_for_ai(fold), "blocked": fold.blocked()}
        return {name: {(line["piece"], line["step"]) for line in found} for name, found in lines.items()}


def test_kept_lists_are_those_worked_out_of_all_records_after_each_push(shop: Shop) -> None:
    dice = random.Random(7)
    for _ in range(30):
        shop.catch_up()
        shop.push(*[one_of(shop, dice) for _ in range(dice.randint(1, 3))])
        assert kept(shop) == worked_out(shop)
    with shop.app.app_context():
        assert [one for one in verify(db.session(), shop.app.extensions["vault"]) if one.kind == "row"] == []


def test_what_waits_for_a_signature_is_on_its_list(shop: Shop) -> None:
    """Both plates are complete and unsigned; the seam is fitted, released, and may not be finished before them."""
    for mark in ("P-1", "P-2"):
        complete(shop, mark)
    gaps = [shop.reading(station=station) for station in ("12", "3", "6", "9")]
    clean = shop.record("inspector", "visual", {"result": "accept"}, step="fit", item="clean")
    maker = shop.record("fitter", "sign-off", {"party": "maker", "covers": []}, step="fit")
    covers = [payload["id"] for _, payload in [*gaps, clean]]
    qc = shop.record("inspector", "sign-off", {"party": "QC", "covers": covers}, step="fit", under=[maker[1]["id"]])[0]
    shop.push(*[text for text, _ in [*gaps, clean, maker]], qc)
    assert kept(shop) == worked_out(shop) == {"ready_for_ai": set(), "blocked": {(f"{JOB}.S-1", "finished")}}
    (line,) = shop.sign_in("supervisor").get("/api/v1/review/lists/blocked").get_json()
    assert (line["parties"], [one["mark"] for one in line["behind"]]) == (["QC"], ["P-1", "P-2"])
    signed(shop, "P-1")
    (line,) = shop.sign_in("visitor").get("/api/v1/review/lists/blocked").get_json()
    assert [one["mark"] for one in line["behind"]] == ["P-2"]


def complete(shop: Shop, mark: str) -> None:
    place = {"mark": mark, "step": "receipt"}
    made = [shop.record("inspector", "text", {"value": "H 1"}, item="heat", **place),
            shop.record("inspector", "reading", {"entered": "1/4", "uom": "in"}, item="thick", **place)]  # fmt: skip
    shop.push(*[text for text, _ in made])


def signed(shop: Shop, mark: str) -> None:
    with shop.app.app_context():
        core = core_job(db.session(), JOB)
        assert core is not None
        covers = Progress(core, payloads_of(db.session(), JOB)).covered(f"{JOB}.{mark}", "receipt")
    body = {"party": "QC", "covers": covers}
    shop.push(shop.record("inspector", "sign-off", body, mark=mark, step="receipt")[0])


def one_of(shop: Shop, dice: random.Random) -> str:
    """Something that moves the job on, or stops it."""
    with shop.app.app_context():
        core = core_job(db.session(), JOB)
        assert core is not None
        progress = Progress(core, payloads_of(db.session(), JOB))
    mark = dice.choice(["P-1", "P-2", "S-1"])
    code = "receipt" if mark != "S-1" else dice.choice(["fit", "finished"])
    place: dict[str, Any] = {"mark": mark, "step": code, "under": progress.relied_on(f"{JOB}.{mark}", code)}
    choice = dice.random()
    if choice < 0.35:
        party, who = dice.choice([("QC", "inspector"), ("AI", "visitor"), ("maker", "fitter")])
        body = {"party": party, "covers": progress.covered(f"{JOB}.{mark}", code)}
        return shop.record(who, "sign-off", body, **place)[0]
    if choice < 0.42:
        point = {"party": "AI", "point": "H", "reach": dice.choice(["piece", "job"])}
        return shop.record("visitor", "point", point, **place)[0]
    if code == "receipt":
        kind, item, body = dice.choice([("text", "heat", {"value": "H 1"}),
                                        ("reading", "thick", {"entered": "1/4", "uom": "in"})])  # fmt: skip
        return shop.record("inspector", kind, body, item=item, **place)[0]
    if code == "finished":
        return shop.record("inspector", "reading", {"entered": "0", "uom": "in"}, item="cut", **place)[0]
    if choice < 0.6:
        return shop.record("inspector", "visual", {"result": "accept"}, item="clean", **place)[0]
    given = {"entered": dice.choice(["3/32"] * 6 + ["1/4"]), "uom": "in", "gauge": "TG"}
    station = dice.choice(["12", "3", "6", "9"])
    return shop.record("inspector", "reading", given, item="gap", station=station, **place)[0]


def test_a_closed_job_is_on_no_list_and_comes_back_when_it_is_opened(shop: Shop) -> None:
    shop.push(shop.record("visitor", "point", {"party": "AI", "point": "H"}, mark="P-1", step="receipt")[0])
    complete(shop, "P-1")
    signed(shop, "P-1")
    before = kept(shop)
    assert before["ready_for_ai"] == {(f"{JOB}.P-1", "receipt")}
    with shop.app.app_context():
        for is_open, expected in ((False, {"ready_for_ai": set(), "blocked": set()}), (True, before)):
            with writing() as session:
                job = lists.Job(id=JOB, title="A small vessel")
                set_open(session, job, is_open, 1, "")
            assert kept(shop) == expected


def test_a_step_counts_as_released_on_the_day_its_last_signature_came(shop: Shop) -> None:
    complete(shop, "P-1")
    signed(shop, "P-1")
    assert review(shop)["counts"]["released"] == 1
    with shop.app.app_context(), writing() as session:
        session.execute(update(Released).values(received=1))
    assert review(shop)["counts"]["released"] == 0


def test_a_clock_far_off_is_told_once_of_a_run_of_records(shop: Shop) -> None:
    shop.clock = datetime.now(UTC) + timedelta(hours=2)
    shop.push(shop.reading()[0], shop.reading(station="3")[0])
    fast = [flag for flag in shop.flags() if flag["kind"] == "clock far off"]
    assert len(fast) == 1
    assert fast[0]["reason"].startswith("the phone's clock is fast by 120 min or more")
    shop.clock = datetime.now(UTC) - timedelta(days=1)
    shop.catch_up()
    shop.push(shop.reading(who="supervisor", station="6")[0])
    slow = [flag for flag in shop.flags() if flag["kind"] == "clock far off" and flag["id"] != fast[0]["id"]]
    assert [flag["reason"] for flag in slow] == [
        "the phone's clock is slow by 1440 min or more: it had seen what came in later"
    ]


def test_a_doubt_to_be_measured_again_is_on_the_rework_list_until_it_is(shop: Shop) -> None:
    shop.clock = datetime.now(UTC) + timedelta(hours=2)
    text, payload = shop.reading()
    shop.push(text)
    shop.catch_up()
    about = {"records": [payload["id"]], "flag": "clock far off"}
    body = {"about": about, "disposition": "rework", "reason": "set the clock and measure again"}
    shop.push(shop.record("supervisor", "disposition", body)[0])
    browser = shop.sign_in("supervisor")
    assert [one["state"] for one in browser.get("/api/v1/decisions").get_json()] == ["to do"]
    assert [one["state"] for one in shop.flags(kind="clock far off")[:1]] == ["decided"]
    shop.push(shop.reading(replaces=payload["id"], why="measured again")[0])
    assert browser.get("/api/v1/decisions").get_json() == []


def test_naming_a_reading_elsewhere_hides_no_work_behind_a_hold(shop: Shop) -> None:
    """The small plan finishes the seam after all earlier holds; a reading of a plate is no release of it."""
    thick, elsewhere = shop.record("inspector", "reading", {"entered": "1/4", "uom": "in"}, mark="P-1",
                                   step="receipt", item="thick")  # fmt: skip
    shop.push(thick)
    cut = shop.record("inspector", "reading", {"entered": "0", "uom": "in"}, step="finished", item="cut",
                      under=[elsewhere["id"]])[0]  # fmt: skip
    shop.push(cut)
    assert [flag["kind"] for flag in shop.flags()] == ["went past an open hold"]


def test_a_picture_that_is_late_is_missed_until_it_comes(shop: Shop) -> None:
    content = b"no picture, and sealed all the same"
    sha256 = hashlib.sha256(content).hexdigest()
    photo = {"sha256": sha256, "media_type": "image/jpeg", "bytes": len(content), "width": 9, "height": 9}
    text, payload = shop.record("inspector", "photo", photo, step="fit", item="gap")
    shop.push(text)
    assert shop.flags() == []
    now = int(time.time()) + 2 * 3600
    with shop.app.app_context():
        all_sent(payload["device"], now)
    assert [(flag["kind"], flag["reason"], flag["record"]) for flag in shop.flags()] == [
        ("photo missing", NO_PICTURE, payload["id"])
    ]
    assert shop.client.put(f"/api/v1/photos/{sha256}", data=content).status_code == 200
    assert shop.flags() == []


def test_a_silent_phone_tells_what_it_held_and_how_long_it_can(shop: Shop) -> None:
    with shop.app.app_context():
        heard("phone-1", 7, "inspector", 3600, 5 * 86_400)
        heard("phone-2", 0, "fitter", 0, 0)
        heard("phone-1", 6)
        now = int(time.time())
        with writing() as session:
            session.execute(update(Device).where(Device.id.in_(["phone-1", "phone-2"])).values(last_heard=now - 9000))
    told = {one["device"]: one for one in review(shop)["silent"]}
    assert (told["phone-1"]["person"], told["phone-1"]["waiting"]) == ("Inspector", 6)
    assert told["phone-1"]["oldest"] == pytest.approx(now - 3600, abs=5)
    assert told["phone-1"]["holds_until"] == pytest.approx(now + 5 * 86_400, abs=5)
    assert (told["phone-2"]["waiting"], told["phone-2"]["oldest"], told["phone-2"]["holds_until"]) == (0, 0, 0)
    assert next(iter(told)) == "phone-1", "one that has something to lose comes first"


def test_who_recorded_the_day_before_and_not_today_is_told(shop: Shop) -> None:
    shop.push(shop.reading(who="inspector")[0], shop.reading(who="supervisor", station="3")[0])
    with shop.app.app_context(), writing() as session:
        session.execute(update(Record).where(Record.by == "inspector").values(received=Record.received - 86_400))
    assert [one["person"] for one in review(shop)["missing"]] == ["Inspector"]


def test_values_follow_their_records(shop: Shop) -> None:
    text, payload = shop.reading("1/4")
    shop.push(text)
    assert values(shop) == [("in force", 0.25, "out of tolerance", 0.0625, 0.15625, "TG")]
    shop.push(shop.reading("3/32", replaces=payload["id"], why="after rework")[0])
    assert [one[:2] for one in values(shop)] == [("replaced", 0.25), ("in force", 0.09375)]
    with shop.app.app_context():
        series = db.session.get(Series, SERIES)
        assert series is not None
        assert (series.name, series.uom, series.count, series.step_number) == ("Root opening", "in", 2, "1.2")


def values(shop: Shop) -> list[tuple[Any, ...]]:
    with shop.app.app_context():
        rows = db.session.scalars(select(Measured).order_by(Measured.number))
        return [(r.standing, r.value, r.verdict, r.lower, r.upper, r.gauge) for r in rows]


def wear(shop: Shop, values: list[str], start: int = 0) -> list[Any]:
    made = [shop.reading(value, station=f"t {start + place}") for place, value in enumerate(values)]
    shop.push(*[text for text, _ in made])
    return [payload for _, payload in made]


def test_a_watched_item_that_drifts_is_warned_of_once_until_it_was_seen(shop: Shop) -> None:
    """Root openings that grow from 0.080 to 0.130 in (invented); the limits are 0.0625 and 0.15625."""
    rising = [f"{0.080 + 0.002 * place + (0.001, -0.001)[place % 2]:.3f}" for place in range(24)]
    wear(shop, rising)
    assert [flag for flag in shop.flags() if flag["kind"] == "run rule broken"] == [], "nobody watches it"
    with shop.app.app_context(), writing() as session:
        watch(session, SERIES, [DRIFT_RULE], 1)
    last = wear(shop, ["0.128", "0.129"], 24)[-1]
    (flag,) = [flag for flag in shop.flags() if flag["kind"] == "run rule broken"]
    assert (flag["record"], flag["reason"].split(":")[0]) == (last["id"], "rising")
    wear(shop, ["0.130"], 26)
    assert [one["id"] for one in shop.flags() if one["kind"] == "run rule broken"] == [flag["id"]]
    about = {"records": [last["id"]], "flag": "run rule broken"}
    shop.catch_up()
    shop.push(
        shop.record("supervisor", "disposition", {"about": about, "disposition": "use as is", "reason": "seen"})[0]
    )
    assert [one["state"] for one in shop.flags() if one["kind"] == "run rule broken"] == ["closed"]
    wear(shop, ["0.131"], 27)
    assert [one["state"] for one in shop.flags() if one["kind"] == "run rule broken"] == ["closed"]
    with shop.app.app_context():
        reflag(JOB)
        assert [one for one in verify(db.session(), shop.app.extensions["vault"]) if one.kind == "row"] == []


def test_a_server_that_kept_less_works_it_out_when_it_is_brought_up_to_date(shop: Shop) -> None:
    shop.push(shop.reading("1/4")[0])
    before = (values(shop), kept(shop), shop.flags())
    with shop.app.app_context():
        with writing() as session:
            for model in (Measured, ListLine, PieceState):
                session.execute(delete(model))
            session.execute(update(FlagRow).values(shown={}, received=0))
        derive_anew()
        assert (values(shop), kept(shop), shop.flags()) == before
        with writing() as session:
            session.execute(delete(Measured))
        derive_anew()
        assert values(shop) == [], "once is enough"


def test_a_rule_that_is_none_is_refused(shop: Shop) -> None:
    with shop.app.app_context(), pytest.raises(WatchError, match="no rule 'gut feeling'"), writing() as session:
        watch(session, SERIES, ["gut feeling"], 1)


def test_rows_are_written_only_where_they_differ(shop: Shop) -> None:
    rows = [{"job": "J", "piece": piece, "step": "s", "received": 1} for piece in ("a", "b", "c")]
    with shop.app.app_context(), writing() as session:
        where = (Released.job == "J",)
        assert bring_up_to_date(session, Released, where, rows) == (rows, [])
        assert bring_up_to_date(session, Released, where, rows) == ([], [])
        changed = [{**rows[0], "received": 2}, rows[1]]
        assert bring_up_to_date(session, Released, where, changed) == ([changed[0]], [rows[0], rows[2]])
        assert bring_up_to_date(session, Released, where, [{**rows[0], "received": 3}], ("received",))[0] == []


def test_the_other_answers_hold_what_the_review_counts(shop: Shop) -> None:
    text, payload = shop.reading("1/4")
    shop.push(text, shop.reading("3/32", replaces=payload["id"], why="after rework")[0])
    other, found = shop.reading("1/2", station="3")
    shop.push(other)
    shop.catch_up()
    shop.push(shop.disposition(found["id"], "repair", ncr="26-7", extent="3 o'clock", cycle=1, again=["fit"])[0])
    browser = shop.sign_in("inspector")
    spot = browser.get("/api/v1/review/on-the-spot").get_json()
    assert [(one["item"], one["count"], one["flags"][0]["value"]) for one in spot] == [("Root opening", 1, "0.25")]
    (decided,) = browser.get("/api/v1/decisions").get_json()
    told = {name: decided[name] for name in ("state", "ncr", "extent", "cycle", "again", "by", "value", "age")}
    assert told == {"state": "to do", "ncr": "26-7", "extent": "3 o'clock", "cycle": 1, "again": ["fit"],
                    "by": "Supervisor", "value": "0.5", "age": 0}  # fmt: skip
    assert [line["what"] for line in browser.get("/api/v1/review/lists/rework").get_json()] == ["Root opening"]
    assert browser.get("/api/v1/review/lists/nothing").status_code == 404
    assert browser.get("/api/v1/head").get_json() == {"number": shop.head()[0]}
    counted = review(shop)
    assert counted["filters"]["kind"] == [{"value": "out of tolerance", "name": "out of tolerance", "count": 2}]
    assert {"decided": 1, "on_the_spot": 1, "open": 0}.items() <= counted["counts"].items()
    shop.push(shop.reading("3/32", station="3", replaces=found["id"], why="after repair")[0])
    assert browser.get("/api/v1/decisions").get_json() == []
    assert [one["state"] for one in browser.get("/api/v1/decisions?which=all").get_json()] == ["done"]


def test_what_waits_for_an_agreement_says_whose(shop: Shop) -> None:
    text, found = shop.reading("1/2")
    shop.push(text)
    shop.push(shop.disposition(found["id"], "use as is")[0])
    browser = shop.sign_in("supervisor")
    (line,) = browser.get("/api/v1/review/lists/rework").get_json()
    assert (line["disposition"], line["parties"]) == ("use as is", ["engineering"])
    shop.push(shop.disposition(found["id"], "repair")[0])
    (line,) = browser.get("/api/v1/review/lists/rework").get_json()
    assert (line["disposition"], line["parties"]) == ("repair", [])


def test_who_is_to_sign_is_told_of_open_flags_at_the_step(shop: Shop) -> None:
    heat = shop.record("inspector", "text", {"value": "H-1"}, "P-1", step="receipt", item="heat")
    thick = shop.record("inspector", "reading", {"entered": "1/2", "uom": "in", "verdict": "out of tolerance"}, "P-1",
                        step="receipt", item="thick")  # fmt: skip
    shop.push(heat[0], thick[0])
    kinds = [(flag["kind"], flag["step"]["code"]) for flag in shop.flags()]
    assert kinds == [("phone and server differ", "receipt")]
    with shop.app.app_context(), writing() as session:
        session.add(ListLine(name="ready_for_ai", job=JOB, piece=f"{JOB}.P-1", step="receipt", record="", since=1,
                             shown={"job": JOB, "piece": f"{JOB}.P-1", "mark": "P-1", "kind": "plate",
                                    "step": "receipt", "number": "1.1", "name": "Receipt of plate"}))  # fmt: skip
    assert [line["flags"] for line in review(shop)["lists"]["ready_for_ai"]["lines"]] == [1]
    (line,) = shop.sign_in("visitor").get("/api/v1/review/lists/ready_for_ai").get_json()
    assert line["flags"] == 1
