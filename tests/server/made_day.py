"""A day at an invented shop, through the signed intake: 3,000 readings by eight phones, and findings at known places.

`MadeDay(app)` fills the migrated database of an application; a server process may serve that afterwards. It is always
between 17 and 18 o'clock there, whatever the clock says here, so that the day is whole.
"""

import copy
import itertools
import random
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any
from unittest.mock import patch

from flask import Flask
from flask.testing import FlaskClient

from seamtag.core.progress import Progress
from seamtag.database import db, writing
from seamtag.gauges import shelf
from seamtag.jobs.floor import core_job
from seamtag.jobs.opening import open_job
from seamtag.people import qualifications, shutting, staff
from seamtag.people.models import Person
from seamtag.photos.arriving import arrive
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from seamtag.records.intake import TAKEN_IN, take_in
from seamtag.records.reading import payloads_of
from seamtag.review.flagging import flag_device
from seamtag.review.overdue import all_sent
from seamtag.sync import chain, devices
from seamtag.sync.shop import name_shop
from seamtag.trends.drift import drifting
from seamtag.trends.watching import DRIFT_RULE, watch
from seed_demo.phone import Phone
from seed_demo.pictures import scene
from tests.server.made_day_parts import (
    A_SHEET,
    BASELINE,
    BETWEEN,
    BORES,
    COUNTS,
    CYCLE,
    EIGHT,
    FITTER,
    HEARD,
    INSPECTORS,
    JOBS,
    LOST,
    ONE_SIDED,
    OUT,
    PLAN,
    READINGS,
    RESTING,
    RISING,
    ROLES,
    ROLLED,
    SHIFTS,
    SILENT,
    SUPERVISOR,
    WALLS,
    WELDER,
    Planted,
    Planting,
    nozzles,
    pieces,
    split,
    zone_at,
)
from tests.shop import proof_of


class MadeDay:
    """clock: the shop's time, that of the newest record. records: made and taken in on the day, by type."""

    def __init__(self, app: Flask) -> None:
        self.app = app
        self.dice = random.Random(11)
        self.now = datetime.now(zone_at(17))
        self.midnight = self.now.replace(hour=0, minute=0, second=0, microsecond=0)
        self.clock = self.midnight - timedelta(days=30)
        self.phones: dict[str, Phone] = {}
        self.outbox: list[str] = []
        self.records: Counter[str] = Counter()
        self.planted = Planting()
        self.picture = scene("F-1", "page 4", random.Random(3))
        with app.app_context():
            self.open_shop()
            self.days_before()
            self.of_the_day()

    # Making records

    def make(self, who: str, kind: str, place: str, body: dict[str, Any], **more: Any) -> dict[str, Any]:
        """A signed record, ten seconds after the one before; it waits for the next push.

        place: as 'D1 N-1 nozzle.bore 12'. more: what stands beside the body; made: when, by the phone's own clock.
        """
        self.clock += BETWEEN
        made = more.pop("made", self.clock)
        job, mark, step, item, station = split(place)
        whole = {"job": job, "piece": f"{job}.{mark}", "basis": self.basis, **more}
        whole |= {name: text for name, text in (("step", step), ("item", item), ("station", station)) if text}
        text, payload = self.phones[who].record(kind, made, whole, body)
        self.outbox.append(text)
        self.records[kind] += 1
        found: dict[str, Any] = payload
        return found

    def reading(self, who: str, place: str, entered: str, gauge: str = "", **more: Any) -> dict[str, Any]:
        body = {"entered": entered, "uom": "in", **({"gauge": gauge} if gauge else {})}
        foretold = more.pop("foretold", None)
        return self.make(who, "reading", place, body | ({"verdict": foretold} if foretold else {}), **more)

    def look(self, who: str, place: str, result: str = "accept", **more: Any) -> dict[str, Any]:
        return self.make(who, "visual", place, {"result": result}, **more)

    def sign(self, who: str, place: str, party: str, **more: Any) -> dict[str, Any]:
        """A sign-off that lists what core says it rests upon; what waits to be sent is pushed before."""
        self.push()
        job, mark, step, _, _ = split(place)
        core = core_job(db.session(), job)
        assert core is not None
        progress = Progress(core, payloads_of(db.session(), job))
        piece = f"{job}.{mark}"
        covers = [*progress.covered(piece, step), *more.pop("also", [])]
        return self.make(who, "sign-off", place, {"party": party, "covers": covers, **more},
                         under=progress.relied_on(piece, step))  # fmt: skip

    def push(self, now: datetime | None = None) -> None:
        """Send what waits; every phone then has seen the chain up to its head."""
        texts, self.outbox = self.outbox, []
        if texts:
            outcomes = take_in(db.session(), texts, now=int((now or self.clock).timestamp()))
            assert {one.outcome for one in outcomes} == {TAKEN_IN}, outcomes
        number, digest = chain.head(db.session())
        for phone in self.phones.values():
            phone.seen = {"number": number, "hash": digest}

    # The shop, and the days before

    def open_shop(self) -> None:
        now = int(self.clock.timestamp())
        with writing() as session:
            name_shop(session, "Larkspur Boiler Works", str(self.now.tzinfo), now, shifts=SHIFTS)
            for person, role in ROLES.items():
                name = person.replace("_", " ").title()
                staff.engage(session, Person(id=person, name=name, roles=[role], stamp=""), now)
            session.flush()
            yesterday = (self.midnight - timedelta(days=1)).date().isoformat()
            for gauge, uncertainty, due in (("CAL", "0.001", "2099-01-01"), ("OLD", "0.001", yesterday),
                                            ("TAPE", "0.02", "2099-01-01")):  # fmt: skip
                shelf.put(session, {"id": gauge, "kind": "caliper", "name": f"Caliper {gauge}", "uom": "in",
                                    "uncertainty": uncertainty, "due": due}, now)  # fmt: skip
            held = {"id": "Q-1", "person": WELDER, "process": "SMAW", "test": "pipe 6G", "coupon": "0.5", "layers": 3,
                    "tested": "2024-03-11"}  # fmt: skip
            qualifications.put(session, [held], now)
            plan = publish(session, read(PLAN), now)
            session.flush()
            watch(session, ("day", "rolled", "inside"), [DRIFT_RULE], now, SUPERVISOR)
            for job in JOBS:
                source = {"job": job, "title": f"Boiler {job}", "figures": {"gap_nom": "3/32"}, "pieces": pieces()}
                open_job(session, source, plan, now)
            self.basis = {"plan": plan.hash, "figures": 1}
            for person in ROLES:
                self.phones[person] = Phone(person, self.dice)
                self.phones[person].enrol(session, now)
            self.phones[LOST] = Phone(INSPECTORS[0], self.dice)
            self.phones[LOST].device = LOST
            self.phones[LOST].enrol(session, now)
        self.push()

    def days_before(self) -> None:
        """Reports asked for five days ago; what was recorded yesterday, some by somebody who is not here today."""
        self.clock = self.midnight - timedelta(days=5) + timedelta(hours=9)
        for mark in ("C-1", "C-2", "C-3"):
            self.make(INSPECTORS[0], "report", f"D1 {mark} lab.rt", {"kind": "RT", "state": "asked for"})
        self.push()
        self.clock = self.midnight - timedelta(days=1) + timedelta(hours=9)
        for who, mark in ((RESTING, "P-1"), (RESTING, "P-2"), (INSPECTORS[0], "P-3")):
            self.receive(who, "D4", mark)
        self.push()

    def receive(self, who: str, job: str, mark: str, sign: bool = True) -> dict[str, Any]:
        """A plate received in order and, as a rule, released; its last record."""
        self.make(who, "text", f"{job} {mark} receipt.heat", {"value": f"H {mark} 4471"})
        found = self.reading(who, f"{job} {mark} receipt.thick", "0.25")
        return self.sign(who, f"{job} {mark} receipt", "QC") if sign else found

    # The day

    def of_the_day(self) -> None:
        self.clock = self.midnight + timedelta(hours=6, minutes=10)
        self.records.clear()
        self.push()
        self.nozzles = nozzles()
        sheets = iter([f"{job} SH-{number}" for number in range(1, COUNTS["sheet"] + 1) for job in JOBS])
        self.holes(sheets, SILENT, 6 * A_SHEET)
        self.findings()
        self.mended()
        self.plates()
        self.seams()
        self.flanges()
        self.doubts()
        self.of_phones()
        self.drift()
        self.holes(sheets, INSPECTORS[:4], READINGS - self.records["reading"])
        self.last_words()

    def plant(self, kind: str, record: dict[str, Any], past: float | None = None, **more: str) -> Planted:
        """Note that a record is flagged, where its own place is or, of a value worked out, where more says."""
        names = {name: more.get(name, record.get(name) or "") for name in ("step", "item", "station")}
        one = Planted(kind, record["piece"], **names, past=past, record=record["id"])
        self.planted.open.append(one)
        return one

    def moved(self, one: Planted, into: list[Planted]) -> None:
        """What was planted as open is not open any more."""
        self.planted.open.remove(one)
        into.append(one)

    def at_nozzle(self, place: str) -> str:
        return f"{next(self.nozzles)} nozzle.{place}"

    def holes(self, sheets: Iterator[str], people: Iterable[str], count: int) -> None:
        """Holes of tube sheets in tolerance, a hundred or less a sheet, by some people in turn."""
        makers = itertools.cycle(people)
        while count > 0:
            sheet, who = next(sheets), next(makers)
            for number in range(min(count, A_SHEET)):
                self.reading(who, f"{sheet} holes.hole {number + 1}", CYCLE[number % len(CYCLE)])
            self.push()
            count -= A_SHEET

    def findings(self) -> None:
        """Out of tolerance at both sides and of every size, rejected, too close to call, and not judged."""
        who = itertools.cycle(INSPECTORS[:4])
        for entered, past in BORES:
            self.plant(OUT, self.reading(next(who), self.at_nozzle("bore 3"), entered, "CAL"), past)
        twice = self.reading(next(who), self.at_nozzle("bore 3"), "2.025", "OLD")
        self.plant(OUT, twice, 0.25)
        self.plant("gauge ran out", twice)
        for place, entered, gauge, past in ONE_SIDED:
            self.plant(OUT, self.reading(next(who), self.at_nozzle(place), entered, gauge), past)
        for _ in range(4):
            self.plant("rejected", self.look(next(who), self.at_nozzle("look"), "reject"))
        for entered, past in WALLS:
            self.plant("too close to call", self.reading(next(who), self.at_nozzle("wall"), entered, "CAL"), past)
        for gauge in ("", "NONE"):
            self.plant("unjudged", self.reading(next(who), self.at_nozzle("bore 6"), "2.01", gauge), -0.5)
        self.plant("unjudged", self.reading(next(who), self.at_nozzle("bore 6"), "two", "CAL"))
        unknown = {"plan": "f" * 64, "figures": 1}
        self.plant("unjudged", self.reading(next(who), self.at_nozzle("depth"), "1.1", basis=unknown))
        self.push()

    def mended(self) -> None:
        """Fixed on the spot; mistyped and put right; and what a supervisor has decided about already."""
        who = itertools.cycle(INSPECTORS[:4])
        wrong = (
            [("bore 9", "2.05", "2.01", "CAL")] * 6 + [("face", "0.06", "0.04", "")] * 3 + [("depth", "0.9", "1.1", "")]
        )
        for number, (item, bad, good, gauge) in enumerate(wrong, 1):
            self.put_right(next(who), f"D3 N-{number} nozzle.{item}", (bad, good, gauge), "after rework", "on_the_spot")
        for number in (1, 2):
            self.put_right(next(who), f"D4 N-{number} nozzle.depth", ["0.11", "1.1", ""], "slip", "closed")
        for number, item, entered, what in ((3, "bore 3", "2.04", "rework"), (4, "face", "0.07", "repair"),
                                            (5, "bore 3", "2.025", "use as is")):  # fmt: skip
            found = self.reading(next(who), f"D4 N-{number} nozzle.{item}", entered, "CAL")
            self.moved(self.plant(OUT, found), self.planted.decided)
            self.push()
            self.decide(found, OUT, what)
            self.planted.lists.setdefault("rework", set()).add((found["piece"], "nozzle"))
        self.push()

    def put_right(self, who: str, place: str, read: Sequence[str], why: str, state: str) -> None:
        """A reading out of tolerance, and by the same person one in tolerance in its place."""
        bad, good, gauge = read
        found = self.reading(who, place, bad, gauge)
        self.reading(who, place, good, gauge, replaces=found["id"], why=why)
        self.moved(self.plant(OUT, found), getattr(self.planted, state))

    def decide(
        self, about: Mapping[str, Any], flag: str, what: str, who: str = SUPERVISOR, **more: Any
    ) -> dict[str, Any]:
        """A disposition about a record; more: step, item and station of a value worked out, and the verdict seen."""
        names = {"records": [about["id"]], "flag": flag, "plan": self.basis["plan"]}
        names |= {"verdict": more.pop("verdict")} if more.get("verdict") else {}
        body = {"about": names, "disposition": what, "reason": "As found on the day."}
        job, _, mark = about["piece"].partition(".")
        return self.make(who, "disposition", f"{job} {mark}", body, found_by="list", **more)

    def plates(self) -> None:
        """Receipts: released, with an entry after it, shaken, complete with nobody's signature, and signed by nobody
        who may."""
        for mark in ("P-1", "P-2"):
            self.receive(INSPECTORS[0], "D1", mark)
            self.push()
            again = self.reading(INSPECTORS[1], f"D1 {mark} receipt.thick", "0.26")
            self.plant("entry after release", again)
            self.planted.released += 1
        for job, mark in (("D1", "P-3"), ("D2", "P-1")):
            signed = self.receive(INSPECTORS[2], job, mark)
            self.push()
            self.plant(OUT, self.reading(INSPECTORS[3], f"{job} {mark} receipt.thick", "0.2"), 0.04 / 0.24)
            self.plant("sign-off shaken", signed)
        for mark in ("P-1", "P-2"):
            self.receive(INSPECTORS[0], "D3", mark, sign=False)
        self.planted.lists["blocked"] = {("D3.K-1", "close"), ("D3.K-2", "close")}
        for mark in ("P-4", "P-5"):
            self.receive(INSPECTORS[0], "D3", mark, sign=False)
            self.plant("role in doubt", self.sign(FITTER, f"D3 {mark} receipt", "QC"))
        for mark in ("P-6", "P-7", "P-8"):
            self.receive(INSPECTORS[1], "D3", mark)
            self.planted.released += 1
        self.push()

    def seams(self) -> None:
        """Welds looked at past a witness point without notice, and past a hold that nobody released."""
        for mark in ("S-1", "S-2"):
            self.reading(INSPECTORS[0], f"D1 {mark} fit.gap", "3/32")
            self.sign(FITTER, f"D1 {mark} fit", "maker")
            held = self.sign(INSPECTORS[1], f"D1 {mark} fit", "QC")
            self.push()
            self.plant("witness without notice", self.look(INSPECTORS[2], f"D1 {mark} weld.look", under=[held["id"]]))
            self.planted.lists.setdefault("ready_for_ai", set()).add((f"D1.{mark}", "fit"))
            self.plant("went past an open hold", self.look(INSPECTORS[2], f"D2 {mark} weld.look"))
        self.push()

    def flanges(self) -> None:
        """Ready for the Authorized Inspector; some signed in ink, which somebody has to see; and reports."""
        for number in range(1, 6):
            self.look(INSPECTORS[0], f"D1 F-{number} flange.look")
            self.sign(INSPECTORS[1], f"D1 F-{number} flange", "QC")
            self.planted.lists["ready_for_ai"].add((f"D1.F-{number}", "flange"))
        self.look(INSPECTORS[0], "D3 F-1 flange.look")  # waits for QC before the AI
        for mark in ("F-1", "F-2"):
            self.look(INSPECTORS[0], f"D2 {mark} flange.look")
            self.sign(INSPECTORS[1], f"D2 {mark} flange", "QC")
            page = self.make(INSPECTORS[2], "photo", f"D2 {mark} flange", self.picture.body())
            signed = self.sign(INSPECTORS[2], f"D2 {mark} flange", "AI", page=self.picture.sha256, also=[page["id"]])
            self.plant("signed in ink", signed)
            self.planted.released += 1
        for mark in ("C-4", "C-5"):
            self.make(INSPECTORS[0], "report", f"D1 {mark} lab.rt", {"kind": "RT", "state": "asked for"})
        self.planted.lists["reports"] = {(f"D1.C-{number}", "lab") for number in range(1, 6)}
        self.push()
        arrive(self.app.extensions["vault"], self.picture.sha256, self.picture.content)

    def doubts(self) -> None:
        """What no verdict tells: gauges, photos, values that disagree, welders, places nobody planned."""
        who = itertools.cycle(INSPECTORS[:4])
        for _ in range(2):
            self.plant("gauge ran out", self.reading(next(who), self.at_nozzle("bore 12"), "2.01", "OLD"))
        for _ in range(2):
            self.plant("gauge too coarse", self.reading(next(who), self.at_nozzle("bore 12"), "2.01", "TAPE"))
            said = self.reading(next(who), self.at_nozzle("bore 12"), "2.01", "CAL", foretold=OUT)
            self.plant("phone and server differ", said)
            self.plant("photo missing", self.make(next(who), "text", self.at_nozzle("stamped"), {"value": "D 7"}))
        for mark in ("R-1", "R-2"):
            for by, station, entered in ((0, "A", "10.00"), (1, "B", "10.02"), (2, "A", "10.03")):
                last = self.reading(INSPECTORS[by], f"D1 {mark} round.dia {station}", entered)
            self.plant("readings disagree", last, item="spread", station="")
        self.reading(next(who), "D1 R-3 round.dia A", "10.00")
        wide = self.reading(next(who), "D1 R-3 round.dia B", "10.20")
        self.plant(OUT, wide, item="spread", station="")
        for mark in ("L-1", "L-2"):
            passed = {"layer": "root", "welder": FITTER, "stamp": "G7", "procedure": "W-1", "lot": "E 77"}
            self.plant("maker not qualified", self.make(WELDER, "weld", f"D1 {mark} root.pass", passed))
        self.plant("not in the plan", self.look(next(who), "D1 X-9 nozzle.look"))
        self.plant("not in the plan", self.look(next(who), self.at_nozzle("colour")))
        self.push()

    def of_phones(self) -> None:
        """A clock that is fast and one that is slow, a record that never came, two after the same one, a picture that
        did not follow, and a phone that was lost."""
        ada, bo, cleo, dag = INSPECTORS[:4]
        for who, wrong in ((ada, 20), (bo, -40)):
            made = self.clock + timedelta(minutes=wrong)
            self.plant("clock far off", self.reading(who, self.at_nozzle("depth"), "1.1", made=made))
        self.push()
        self.reading(cleo, self.at_nozzle("depth"), "1.1")
        self.outbox.pop()
        self.records["reading"] -= 1
        self.plant("chain gap", self.reading(cleo, self.at_nozzle("depth"), "1.1"))
        before = copy.copy(self.phones[dag])
        for _ in range(2):
            self.phones[dag].seq, self.phones[dag].prev = before.seq, before.prev
            self.plant("chain fork", self.reading(dag, self.at_nozzle("depth"), "1.1"))
        place = self.at_nozzle("stamped")
        self.make(ada, "text", place, {"value": "D 8"})
        lacking = {**self.picture.body(), "sha256": "ab" * 32}
        self.plant("photo missing", self.make(ada, "photo", place, lacking))
        self.plant("phone shut out", self.reading(LOST, self.at_nozzle("depth"), "1.1"))
        self.push()
        now = int(self.clock.timestamp())
        with writing() as session:
            shutting.shut_out(session, LOST, now - 60, "left on the bus", now, SUPERVISOR)
            flag_device(session, LOST, now)

    def drift(self) -> None:
        """A roller that wears: insides in tolerance, ever larger, of which the review warns once."""
        entered = [ROLLED[number % len(ROLLED)] for number in range(BASELINE)]
        entered += [f"{2.25 + number / 500:.3f}" for number in range(RISING)]
        found = drifting([float(one) for one in entered], 2.2, 2.3)
        assert found is not None
        made = [self.reading(INSPECTORS[0], f"D4 B-1 rolled.inside {number}", one)
                for number, one in enumerate(entered, 1)]  # fmt: skip
        self.plant("run rule broken", made[found.index])
        self.push()

    def last_words(self) -> None:
        """What each phone said when it was last heard; those that have sent all are looked through for what never
        came."""
        for person in (*EIGHT, SUPERVISOR, *HEARD):
            hours, waiting, age = HEARD.get(person, (0, 0, 0))
            then = self.now.timestamp() - hours * 3600
            with patch.object(devices.time, "time", return_value=then):
                left = devices.heard(self.phones[person].device, waiting, person, age * 3600, waiting * 3600)
            if left == 0:
                all_sent(self.phones[person].device, int(then))

    # Looking at it

    def sign_in(self, person: str = SUPERVISOR) -> FlaskClient:
        """A browser in which a person is signed in."""
        browser = self.app.test_client()
        nonce = browser.post("/api/v1/challenges").get_json()["nonce"]
        answer = browser.post("/api/v1/sessions", json={"proof": proof_of(self.phones[person].key, nonce)})
        assert answer.status_code == 201, answer.text
        return browser

    def invite(self, person: str) -> str:
        """An invitation by which a browser enrols for somebody."""
        with self.app.app_context(), writing() as session:
            return staff.invite(session, person, int(self.now.timestamp()), 3600)

    def copied(self, app: Flask) -> "MadeDay":
        """The same day in another application, whose database is a copy of this one."""
        other = copy.copy(self)
        other.app, other.outbox = app, []
        other.phones = {name: copy.copy(phone) for name, phone in self.phones.items()}
        return other
