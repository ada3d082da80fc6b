"""A generated day, told by the review: all that was planted and nothing else; and what becomes of it."""

import shutil
import sqlite3
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from marshmallow import Schema

from seamtag.core.progress import Progress
from seamtag.database import db, writing
from seamtag.jobs.floor import core_job
from seamtag.jobs.opening import set_basis
from seamtag.people import staff
from seamtag.people.models import Person
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from seamtag.records.reading import payloads_of
from seamtag.review.calendar import day_of
from seamtag.review.day import flags
from seamtag.review.models import FlagRow
from seamtag.review.schemas import DecisionSchema, OpenedFlagSchema, ReviewSchema, SpotSchema, WaitingLineSchema
from seamtag.sync.verifying import verify
from tests.conftest import app_in, close, made_ready
from tests.server.made_day import MadeDay
from tests.server.made_day_parts import ENGINEER, INSPECTORS, JOBS, OUT, READINGS, RESTING, SILENT
from tests.shop import JOB, PLAN, Shop

WORST_FIRST = (
    "phone shut out", "chain fork", "went past an open hold", "witness without notice", "sign-off shaken", OUT,
    "rejected", "too close to call", "unjudged", "role in doubt", "signed in ink", "maker not qualified",
    "readings disagree", "gauge ran out", "gauge too coarse", "photo missing", "entry after release",
    "phone and server differ", "not in the plan", "run rule broken", "clock far off", "chain gap",
)  # fmt: skip
FINDINGS = (OUT, "rejected", "too close to call", "unjudged", "readings disagree", "sign-off shaken")
"""What a word alone does not close; all the others are doubts, and seen is seen."""


def copied(day: MadeDay, folder: Path) -> MadeDay:
    """The same day in a database of its own, with its photos."""
    shutil.copytree(day.app.config["SEAMTAG"].photos, folder / "photos")
    with day.app.app_context():
        source = db.engine.raw_connection()
        with sqlite3.connect(folder / "seamtag.db") as target:
            source.driver_connection.backup(target)  # type: ignore[union-attr]
        target.close()
        source.close()
    return day.copied(app_in(folder))


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> Iterator[MadeDay]:
    """As the day has been; a test of it changes nothing."""
    app = app_in(tmp_path_factory.mktemp("day"))
    made_ready(app)
    yield MadeDay(app)
    close(app)


@pytest.fixture(scope="module")
def disposed(day: MadeDay, tmp_path_factory: pytest.TempPathFactory) -> Iterator[MadeDay]:
    """The day after the supervisor has said a word about every open flag."""
    found = copied(day, tmp_path_factory.mktemp("disposed"))
    with found.app.app_context():
        dispose(found)
    yield found
    close(found.app)


def get(day: MadeDay, path: str = "", **query: str) -> Any:
    answer = day.sign_in().get(f"/api/v1/{path or 'review'}", query_string=query)
    assert answer.status_code == 200, answer.text
    return answer.get_json()


def open_flags(day: MadeDay) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = get(day, state="open")["flags"]
    return found


def place(flag: Mapping[str, Any]) -> tuple[str, ...]:
    return (flag["kind"], flag["piece"]["id"], flag["step"]["code"], flag["item"]["code"], flag["station"])


# What the review tells


def test_the_review_tells_exactly_what_was_planted(day: MadeDay) -> None:
    planted = day.planted
    assert len(planted.open) == 60
    assert {one.kind for one in planted.open} == {*WORST_FIRST}
    for state, wanted in (("open", planted.open), ("decided", planted.decided),
                          ("fixed on the spot", planted.on_the_spot), ("closed", planted.closed)):  # fmt: skip
        assert Counter(map(place, get(day, state=state)["flags"])) == Counter(one.place for one in wanted), state
    records = {one.place: one.record for one in planted.open}
    assert all(flag["record"] == records[place(flag)] for flag in open_flags(day) if flag["kind"] != "chain fork")


def test_the_counts_are_those_of_the_day(day: MadeDay) -> None:
    planted = day.planted
    every = [*planted.open, *planted.decided, *planted.on_the_spot, *planted.closed]
    assert day.records["reading"] == READINGS
    assert get(day)["counts"] == {
        "recorded": day.records.total(), "flagged": len({one.record for one in every}), "open": 60,
        "decided": len(planted.decided), "on_the_spot": 10, "released": planted.released,
        "of_day": {"open": len(planted.open), "decided": len(planted.decided), "on_the_spot": 10,
                   "closed": len(planted.closed)},
    }  # fmt: skip


def test_the_shifts_of_the_day_add_up_to_it(day: MadeDay) -> None:
    shifts = [get(day, shift=str(number))["counts"] for number in (1, 2, 3)]
    whole = get(day)["counts"]
    for name in ("recorded", "flagged", "on_the_spot", "released"):
        assert sum(one[name] for one in shifts) == whole[name]
    assert shifts[1]["recorded"] > 0
    assert shifts[2]["recorded"] == 0


def test_the_worst_comes_first_holds_before_all_findings(day: MadeDay) -> None:
    told = open_flags(day)
    ranks = [WORST_FIRST.index(flag["kind"]) for flag in told]
    assert ranks == sorted(ranks)
    past = {one.place: one.past for one in day.planted.open}
    for kind in (OUT, "too close to call", "unjudged"):
        shown = [flag for flag in told if flag["kind"] == kind]
        assert [flag["past"] for flag in shown] == [pytest.approx(past[place(flag)]) for flag in shown]
        sizes = [flag["past"] or 0.0 for flag in shown]
        assert sizes == sorted(sizes, reverse=True)


def test_silent_phones_are_told_with_what_they_said_waits(day: MadeDay) -> None:
    told = {one["device"]: one for one in get(day)["silent"]}
    assert set(told) == {day.phones[person].device for person in SILENT}
    for person, (hours, waiting, age) in SILENT.items():
        one, then = told[day.phones[person].device], day.now.timestamp() - hours * 3600
        assert one["person"] == person.replace("_", " ").title()
        assert one["waiting"] == waiting
        assert one["last_heard"] == pytest.approx(then, abs=2)
        assert one["oldest"] == pytest.approx(then - age * 3600, abs=2)
        assert one["holds_until"] > then


def test_who_recorded_yesterday_and_not_today_is_missing(day: MadeDay) -> None:
    assert [one["person"] for one in get(day)["missing"]] == [RESTING.replace("_", " ").title()]


@pytest.mark.parametrize("name", ["ready_for_ai", "blocked", "reports", "rework"])
def test_the_lists_hold_what_was_planted(day: MadeDay, name: str) -> None:
    lines = get(day, f"review/lists/{name}")
    assert Counter((line["piece"], line["step"]) for line in lines) == Counter(day.planted.lists[name])
    review = get(day)["lists"][name]
    assert review == {"count": len(lines), "lines": lines[: len(review["lines"])]}
    assert [line["since"] for line in lines] == sorted(line["since"] for line in lines)


def test_reports_that_are_overdue_are_those_of_five_days_ago(day: MadeDay) -> None:
    review = get(day)
    late = [line["mark"] for line in review["lists"]["reports"]["lines"]
            if line["since"] < day.now.timestamp() - review["report_days"] * 86_400]  # fmt: skip
    assert sorted(late) == ["C-1", "C-2", "C-3"]


def test_what_blocks_is_named_with_whose_signature_it_waits_for(day: MadeDay) -> None:
    for line in get(day, "review/lists/blocked"):
        assert line["parties"] == ["QC"]
        assert [(one["piece"], one["step"]) for one in line["behind"]] == [(f"D3.P-{line['mark'][2:]}", "receipt")]


def test_what_was_fixed_on_the_spot_is_told_by_item(day: MadeDay) -> None:
    told = [(line["item"], line["count"], len(line["flags"])) for line in get(day, "review/on-the-spot")]
    assert told == [("Bore", 6, 6), ("Face out of true", 3, 3), ("Depth", 1, 1)]


def test_the_flags_that_are_written_at_once_are_those_that_are_read(day: MadeDay) -> None:
    with day.app.app_context():
        asked = day_of(db.session(), "")
        for filters in ({"state": "open"}, {"state": "open", "job": "D2"}, {}):
            assert get(day, **filters)["flags"] == flags(db.session(), asked, filters)


def test_filters_add_up(day: MadeDay) -> None:
    filters = get(day, state="open")["filters"]
    assert filters["left"] == 60
    for name in ("job", "kind", "person", "stage"):
        assert sum(one["count"] for one in filters[name]) == 60, name
        for one in filters[name]:
            answer = get(day, state="open", **{name: one["value"]})
            assert len(answer["flags"]) == answer["filters"]["left"] == one["count"], one
    one = get(day, state="open", job=JOBS[0], kind=OUT)
    planted = [p for p in day.planted.open if p.kind == OUT and p.piece.startswith("D1.")]
    assert len(one["flags"]) == one["filters"]["left"] == len(planted) > 0


def test_every_answer_has_the_form_that_is_published(day: MadeDay) -> None:
    """They are written without a pass through their schemas, so nothing else holds them to these."""
    fits(ReviewSchema(), get(day))
    fits(DecisionSchema(many=True), get(day, "decisions", which="all"))
    fits(SpotSchema(many=True), get(day, "review/on-the-spot"))
    for name in get(day)["lists"]:
        fits(WaitingLineSchema(many=True), get(day, f"review/lists/{name}"))
    for flag in open_flags(day)[::6]:
        fits(OpenedFlagSchema(), get(day, f"flags/{flag['id']}"))


def fits(schema: Schema, answer: Any) -> None:
    """An answer may say more than its schema, and never less or something else."""
    assert answer
    assert set(messages(schema.validate(answer))) <= {"Unknown field."}


def messages(faults: Any) -> Iterator[str]:
    for one in faults.values() if isinstance(faults, dict) else faults:
        yield from [one] if isinstance(one, str) else messages(one)


# What becomes of it


def dispose(day: MadeDay) -> None:
    """A word about every open flag: rework and repair by turns for findings, 'use as is' for doubts."""
    day.push()
    for number, flag in enumerate(open_flags(day)):
        finding = flag["kind"] in (OUT, "rejected", "unjudged")
        what = ("rework", "repair")[number % 2] if finding else "use as is"
        of_derived = {"step": "round", "item": "spread"} if flag["item"]["code"] == "spread" else {}
        about = {"id": flag["record"], "piece": flag["piece"]["id"]}
        day.decide(about, flag["kind"], what, verdict=flag["verdict"], **of_derived)
    day.push()


def test_a_word_about_every_flag_leaves_none_open_that_a_word_closes(disposed: MadeDay) -> None:
    planted = {one.record for one in disposed.planted.open}
    left = Counter(flag["kind"] for flag in open_flags(disposed) if flag["record"] in planted)
    assert left == {"sign-off shaken": 2}
    with disposed.app.app_context():
        rows = [row for row in db.session.query(FlagRow) if row.record in planted and row.kind not in FINDINGS]
        assert len(rows) > 25
        assert {row.state for row in rows} == {"closed"}


def test_all_that_is_kept_can_be_derived_again_from_the_records(disposed: MadeDay) -> None:
    """Only what was planted is found: a record and a picture that never came, and two after the same record."""
    with disposed.app.app_context():
        found = Counter(one.kind for one in verify(db.session(), disposed.app.extensions["vault"]))
    assert found == {"key chain": 3, "photo": 1}


def test_every_finding_waits_to_be_carried_out(disposed: MadeDay) -> None:
    wanted = sum(one.kind in (OUT, "rejected", "unjudged") for one in disposed.planted.open)
    lines = get(disposed, "decisions")
    assert len(lines) == wanted + 3
    assert Counter(line["state"] for line in lines) == {"to do": wanted + 2, "waits for agreement": 1}
    assert {line["disposition"] for line in lines} == {"rework", "repair", "use as is"}


def test_new_records_and_an_agreement_carry_them_out(disposed: MadeDay, tmp_path: Path) -> None:
    found = copied(disposed, tmp_path)
    with found.app.app_context():
        for line in get(found, "decisions"):
            carry_out(found, line)
        found.push()
    assert get(found, "decisions") == []
    assert get(found, "review/lists/rework") == []
    states = Counter(line["state"] for line in get(found, "decisions", which="all"))
    assert set(states) == {"done"}
    assert get(found, state="decided")["flags"] == []
    close(found.app)


def carry_out(day: MadeDay, line: Mapping[str, Any]) -> None:
    """What was asked: a good record in the place of the bad one, or the engineer's agreement."""
    job, _, mark = line["piece"]["id"].partition(".")
    if line["disposition"] == "use as is":
        day.make(ENGINEER, "agreement", f"{job} {mark}", {"disposition": line["id"], "party": "engineering"})
        return
    item = "dia" if line["item"]["code"] == "spread" else line["item"]["code"]
    where = f"{job} {mark} {line['step']['code']}.{item}"
    station = "B" if item == "dia" else line["station"]
    where = f"{where} {station}" if station else where
    why = {"rework": "after rework", "repair": "after repair"}[line["disposition"]]
    more = {"replaces": line["record"], "why": why}
    good = {"bore": "2.01", "face": "0.04", "depth": "1.1", "thick": "0.25", "dia": "10.00"}
    if item == "look":
        day.look(INSPECTORS[0], where, **more)
    else:
        day.reading(INSPECTORS[0], where, good[item], "CAL", **more)


# Records pushed by hand


def thin(shop: Shop) -> dict[str, Any]:
    """A plate below a limit of the code."""
    plate = {"mark": "P-1", "step": "receipt"}
    heat, _ = shop.record("inspector", "text", {"value": "H 4471"}, item="heat", **plate)
    text, found = shop.record("inspector", "reading", {"entered": "0.2", "uom": "in"}, item="thick", **plate)
    shop.push(heat, text)
    return found


def decided(shop: Shop, about: Mapping[str, Any], what: str, who: str = "supervisor") -> dict[str, Any]:
    """A disposition about a plate, taken in."""
    body = {"about": {"records": [about["id"]], "flag": OUT}, "disposition": what, "reason": "as found"}
    text, made = shop.record(who, "disposition", body, "P-1")
    assert shop.push(text)[0]["outcome"] == "taken in"
    return made


def state_of(shop: Shop, record: Mapping[str, Any], kind: str = OUT) -> str:
    told = shop.flags(state="open") + shop.flags(state="decided") + shop.flags(state="closed")
    (found,) = [flag for flag in told if flag["record"] == record["id"] and flag["kind"] == kind]
    return str(found["state"])


def released(shop: Shop) -> bool:
    """Whether the plate is released once an inspector signs over all that is there."""
    with shop.app.app_context():
        job = core_job(db.session(), JOB)
        assert job is not None
        progress = Progress(job, payloads_of(db.session(), JOB))
        body = {"party": "QC", "covers": progress.covered(f"{JOB}.P-1", "receipt")}
    shop.push(shop.record("inspector", "sign-off", body, "P-1", step="receipt")[0])
    with shop.app.app_context():
        progress = Progress(job, payloads_of(db.session(), JOB))
    return progress.step(f"{JOB}.P-1", "receipt").state == "released"


def test_an_inspectors_disposition_changes_nothing_and_is_flagged(shop: Shop) -> None:
    found = thin(shop)
    made = decided(shop, found, "use as is", "inspector")
    assert state_of(shop, found) == "open"
    assert state_of(shop, made, "role in doubt") == "open"
    (line,) = shop.sign_in("supervisor").get("/api/v1/decisions?which=all").get_json()
    assert line["state"] == "no effect"
    assert not released(shop)


def agreed(shop: Shop, disposition: Mapping[str, Any], party: str, who: str) -> None:
    body = {"disposition": disposition["id"], "party": party}
    shop.push(shop.record(who, "agreement", body, "P-1")[0])


def test_use_as_is_on_a_limit_of_the_code_waits_for_those_who_must_agree(shop: Shop) -> None:
    found = thin(shop)
    made = decided(shop, found, "use as is")
    assert state_of(shop, found) == "decided"
    (line,) = shop.sign_in("supervisor").get("/api/v1/decisions").get_json()
    assert (line["state"], line["lacking"]) == ("waits for agreement", ["engineering", "AI"])
    agreed(shop, made, "AI", "visitor")
    agreed(shop, made, "engineering", "inspector")
    assert state_of(shop, found) == "decided"
    assert not released(shop)


def test_use_as_is_on_a_limit_of_the_code_releases_once_all_agree(shop: Shop) -> None:
    found = thin(shop)
    made = decided(shop, found, "use as is")
    make_engineer(shop)
    agreed(shop, made, "AI", "visitor")
    agreed(shop, made, "engineering", "planner")
    assert state_of(shop, found) == "closed"
    assert shop.sign_in("supervisor").get("/api/v1/decisions").get_json() == []
    assert released(shop)


def make_engineer(shop: Shop) -> None:
    """The planner is an engineer as well from now on."""
    with shop.app.app_context(), writing() as session:
        person = Person(id="planner", name="Planner", roles=["planner", "engineer"], stamp="")
        staff.engage(session, person, int(shop.clock.timestamp()))
    shop.catch_up()


@pytest.fixture
def strict(shop: Shop) -> Shop:
    """The small shop with a plan by which nobody disposes of a finding of their own."""
    now = int(shop.clock.timestamp())
    with shop.app.app_context(), writing() as session:
        plan = publish(session, read(PLAN.replace("agree:", "not_recorder: true\nagree:")), now)
        session.flush()
        basis = set_basis(session, JOB, plan.hash, {"gap_nom": "3/32"}, {}, "nobody decides about their own", now)
        shop.basis = {"plan": plan.hash, "figures": basis.figures}
    shop.catch_up()
    return shop


@pytest.mark.parametrize(("recorder", "state"), [("supervisor", "open"), ("inspector", "decided")])
def test_where_the_plan_says_so_nobody_decides_about_their_own(strict: Shop, recorder: str, state: str) -> None:
    text, found = strict.reading("1/4", who=recorder)
    strict.push(text)
    word, made = strict.disposition(found["id"], "repair")
    strict.push(word)
    assert state_of(strict, found) == state
    (line,) = strict.sign_in("supervisor").get("/api/v1/decisions?which=all").get_json()
    assert line["state"] == ("no effect" if recorder == "supervisor" else "to do")
    if recorder == "supervisor":
        assert state_of(strict, made, "role in doubt") == "open"


def test_without_that_in_the_plan_a_supervisor_decides_about_their_own(shop: Shop) -> None:
    text, found = shop.reading("1/4", who="supervisor")
    shop.push(text)
    shop.push(shop.disposition(found["id"], "repair")[0])
    assert state_of(shop, found) == "decided"
