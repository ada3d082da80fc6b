"""The demonstration's shop is filled once, and shows what was planted and nothing else."""

import json
import shutil
import time
from collections import Counter
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from flask import Flask
from PIL import Image
from sqlalchemy import func, select

from seamtag.cli import opened as opened_shop
from seamtag.core.items import Bench
from seamtag.core.progress import Progress
from seamtag.core.standing import Standing
from seamtag.core.tagcode import forgiven
from seamtag.database import db, writing
from seamtag.gauges.models import Gauge
from seamtag.jobs.floor import core_job
from seamtag.people import qualifications, staff
from seamtag.photos.models import Photo
from seamtag.records.models import Record, Refusal
from seamtag.records.reading import payloads_of
from seamtag.review.calendar import Day, time_zone
from seamtag.review.calendar import today as shop_day
from seamtag.review.day import flags
from seamtag.review.lists import NAMES, list_named
from seamtag.review.models import FlagRow
from seamtag.review.opened import opened
from seamtag.sync import chain
from seamtag.sync.models import Entry, Mark
from seed_demo.fill import JOBS, TRY_AS, fill, fresh_invitations

BY_PLACE = {
    ("2207", "G-1", "out of tolerance", "fixed on the spot"): 1,
    ("2207", "PL-7", "rejected", "open"): 1,
    ("2207", "L-2", "rejected", "closed"): 1,
    ("2207", "N-5", "maker not qualified", "open"): 1,
    ("2205", "F-2", "went past an open hold", "open"): 2,  # the pass and its photo
    ("2205", "AT-1", "gauge ran out", "open"): 2,
    ("2205", "AT-2", "gauge ran out", "open"): 2,
    ("2205", "TS-R", "out of tolerance", "decided"): 1,
    ("2203", "TF-2T", "rejected", "fixed on the spot"): 1,
    ("2203", "TF-3F", "run rule broken", "open"): 1,
    ("2211", "R", "out of tolerance", "closed"): 1,
}

EVER = Day("", 0, 0, 2**31 - 1, [])


@pytest.fixture(scope="module")
def folder(demonstration: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shutil.copytree(demonstration, tmp_path_factory.mktemp("demo"), dirs_exist_ok=True)


@pytest.fixture(scope="module")
def demo(folder: Path) -> Iterator[Flask]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SEAMTAG_DATABASE", f"sqlite:///{folder / 'seamtag.db'}")
        patch.setenv("SEAMTAG_PHOTOS", str(folder / "photos"))
        patch.setenv("SEAMTAG_HOST", "tags.example.org")
        app = opened_shop()
        with app.app_context():
            yield app
            db.session.remove()
            db.engine.dispose()


def test_flags_are_those_planted_and_no_others(demo: Flask) -> None:
    found = flags(db.session(), EVER, {})
    assert Counter((f["job"], f["piece"]["mark"], f["kind"], f["state"]) for f in found) == BY_PLACE


def test_flags_say_what_was_found(demo: Flask) -> None:
    found = {(f["job"], f["piece"]["mark"]): f for f in flags(db.session(), EVER, {})}
    offset, water = found["2207", "G-1"], found["2211", "R"]
    assert (offset["station"], offset["value"], offset["limits"]["upper"]) == ("4:30", "0.15625", "0.140625")
    assert (water["value"], water["limits"]["lower"]) == ("66", "70")
    assert found["2205", "F-2"]["reason"] == "FT 4.7"
    assert found["2205", "TS-R"]["value"] == "2.543"
    assert found["2207", "N-5"]["reason"].startswith("Yusuf Marchand: GTAW lapsed on ")
    roller = found["2203", "TF-3F"]
    assert roller["reason"].startswith("rising: the average went from 6.")
    assert (roller["item"]["name"], roller["state"]) == ("Wall reduction", "open")
    row = db.session.get(FlagRow, found["2207", "PL-7"]["id"])
    assert row is not None
    photos = opened(db.session(), row)["photos"]
    assert [(p["here"], p["shown"]) for p in photos] == [(True, "yes")]


def test_the_welders_passes_are_inside_their_procedures_and_one_lapses_soon(demo: Flask) -> None:
    words = db.session.execute(
        select(Record.verdict, func.count()).where(Record.type == "weld").group_by(Record.verdict)
    )
    assert {word for word, _ in words} == {"recorded", "in tolerance"}
    today = shop_day(db.session())
    first, second, *others = qualifications.continuity(db.session(), today.isoformat())
    assert (first.person, first.process, first.lapsed) == ("yusuf_marchand", "GTAW", True)
    assert (second.person, second.process, second.lapsed) == ("rosa_lindholm", "GTAW", False)
    assert date.fromisoformat(second.lapses) - today <= timedelta(days=4)
    assert all(date.fromisoformat(one.lapses) - today > timedelta(days=30) for one in others)


def test_lists_have_somebody_to_wait_for(demo: Flask) -> None:
    found = {name: list_named(db.session(), name) for name in NAMES}
    ready = {(line["job"], line["mark"], line["step"]) for line in found["ready_for_ai"]}
    assert {("2205", "FT", "set_ft"), ("2203", "TF-3F", "tubes_expanded")} <= ready
    blocked = {(line["job"], line["mark"]): line["parties"] for line in found["blocked"]}
    assert blocked["2205", "F-2"] == ["AI"]
    assert [(line["job"], line["mark"]) for line in found["rework"]] == [("2205", "TS-R")]


def test_chain_holds_and_never_runs_ahead_or_back(demo: Flask) -> None:
    previous, stamp = chain.START, 0
    for entry in db.session.scalars(select(Entry).order_by(Entry.number)):
        expected = chain.entry_hash(previous, entry.number, entry.kind, entry.scope, entry.body, entry.stamp)
        at = json.loads(entry.stamp)["at"]
        assert entry.hash == expected
        assert stamp <= at <= time.time()
        previous, stamp = entry.hash, at


def test_no_record_is_made_in_the_future_or_after_it_came_in(demo: Flask) -> None:
    for at, received in db.session.execute(select(Record.at, Record.received)):
        assert datetime.fromisoformat(at).timestamp() <= received + 1


def test_all_is_taken_in_and_every_photo_is_there(demo: Flask) -> None:
    assert db.session.scalar(select(func.count()).select_from(Refusal)) == 0
    assert db.session.scalar(select(func.count()).where(Photo.stored.is_(False))) == 0
    for number in JOBS:
        assert (db.session.scalar(select(func.count()).where(Record.job == number)) or 0) > 100


def test_shop_has_its_name_and_zone(demo: Flask) -> None:
    marks = dict(db.session.execute(select(Mark.name, Mark.value)).all())
    assert marks["shop"] == "Ottermarsh Boiler Works"
    assert str(time_zone(db.session())) == marks["time_zone"]
    ran_out = db.session.get(Gauge, "FG-05")
    assert ran_out is not None
    assert ran_out.due is not None
    newest = db.session.scalar(select(func.max(Record.at)))
    assert newest is not None
    assert ran_out.due < newest[:10]


def test_tag_to_scan_is_of_a_piece_ready_for_the_inspector(demo: Flask, folder: Path) -> None:
    tag = json.loads((folder / "tag.json").read_text())
    assert forgiven(tag["code"]) == tag["code"]
    job = core_job(db.session(), tag["job"])
    assert job is not None
    progress = Progress(job, payloads_of(db.session(), tag["job"]))
    step = next(s["code"] for s in job.steps_of(tag["piece"]))
    assert progress.step(tag["piece"], step).state == "open"
    assert progress.blocked(tag["piece"], step) == []
    for name in ("tag.png", "symbol.png"):
        with Image.open(folder / name) as picture:
            assert picture.height > 200


def test_used_invitations_are_renewed_and_others_kept(demo: Flask, folder: Path) -> None:
    path = folder / "invitations.json"
    before = json.loads(path.read_text())
    assert len(before) == len(TRY_AS)
    with writing() as session:
        staff.invited(session, before[2]["invitation"], int(time.time())).used = int(time.time())
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SEAMTAG_DATABASE", demo.config["SEAMTAG"].database)
        patch.setenv("SEAMTAG_PHOTOS", demo.config["SEAMTAG"].photos)
        assert fresh_invitations(folder) == [before[2]["person"]]
    after = json.loads(path.read_text())
    assert [a["invitation"] != b["invitation"] for a, b in zip(after, before, strict=True)] == [
        place == 2 for place in range(len(TRY_AS))
    ]
    db.session.rollback()
    assert staff.invited(db.session(), after[2]["invitation"], int(time.time())).person == before[2]["person"]


def test_filling_twice_is_refused(demo: Flask, folder: Path) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SEAMTAG_DATABASE", demo.config["SEAMTAG"].database)
        patch.setenv("SEAMTAG_PHOTOS", demo.config["SEAMTAG"].photos)
        with pytest.raises(SystemExit, match="has jobs already"):
            fill(folder)


def test_a_roundness_taken_by_tape_was_too_close_to_call_and_taken_again(demo: Flask) -> None:
    with demo.app_context():
        session, furnace = db.session(), "2205.FU"
        job = core_job(session, "2205")
        assert job is not None
        progress = Progress(job, payloads_of(session, "2205"))
        tape = [r for r in progress.by_piece[furnace] if r.body.get("gauge") == "TP-04"]
        assert len(tape) == 4
        step, item = progress.job.steps["furnace_done"], progress.job.item("furnace_done", "round")
        assert item is not None
        state = progress.step(furnace, "furnace_done")
        assert state.state == "released"
        value, found = state.items["round"].derived["mid front"]
        assert (str(value), found.word) == ("0.262", "in tolerance")
        taken = {r.payload["replaces"]: r for r in progress.by_piece[furnace] if r.payload.get("replaces")}
        before = [r for r in progress.by_piece[furnace] if r not in taken.values()]
        bench = Bench(furnace, before, Standing(before, progress.job), progress.job)
        value, found = bench.derived_at(step, item, "mid front")
        assert (str(value), found.word) == ("0.28", "too close to call")
