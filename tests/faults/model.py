"""A machine that plays shop, phones, network and bad luck in any order, against the real server in process.

After each step and at its end it asks what `checks.py` lists. A run that fails is told as the shortest list of steps.
"""

import logging
from collections import Counter
from contextlib import suppress
from typing import Any, ClassVar

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule, run_state_machine_as_test

from seamtag.core.flags import flags_of
from seamtag.core.items import RECORDED_AS
from seamtag.core.job import Item
from seamtag.core.progress import Progress
from seamtag.core.signing import Signing
from seamtag.database import writing
from seamtag.gauges import shelf
from seamtag.jobs.opening import set_basis
from seamtag.people.models import SignIn
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from tests.faults import checks
from tests.faults.home import FIGURES, GAUGE, PEOPLE, PLANS, SPARE, Home, busy
from tests.faults.phone import AnswerError, LostError, Phone
from tests.faults.store import MISSING, sha_of
from tests.faults.world import FAULTS, KilledError, World
from tests.shop import JOB

Place = tuple[str, str]
"""Mark of a piece, code of a step."""
PLACES: list[Place] = [
    ("S-1", "fit"), ("S-1", "fit"), ("S-2", "fit"), ("P-1", "receipt"), ("P-2", "receipt"), ("S-1", "finished")
]  # fmt: skip
GOOD = {"gap": "3/32", "thick": "1/4", "cut": "0", "clean": "accept", "heat": "H 4711"}
BAD = {"gap": "1", "thick": "0.1", "cut": "1", "clean": "reject", "heat": "H 4711"}
PARTY = {"fay": "maker", "ivy": "QC", "sue": "QC", "abe": "AI"}
DAY = 24 * 3600
WAIT = 100
"""Milliseconds that a model server waits for a database that is busy."""

phones = st.integers(0, 20)
places = st.sampled_from(PLACES)
picks = st.integers(0, 50)
rarely = st.integers(0, 3).map(lambda number: number == 3)
entries = st.tuples(places, picks, st.booleans(), st.booleans(), rarely)


class Machine(RuleBasedStateMachine):
    """home is set by the test that runs it. seen: what all examples came to, for a table."""

    home: ClassVar[Home]
    seen: ClassVar[Counter[str]]

    def __init__(self) -> None:
        super().__init__()
        self.world = World(self.home)
        self.watch = checks.Watch()
        self.sound = True
        self.night()

    def phone(self, number: int, person: str = "") -> Phone:
        names = [one for one, phone in self.world.phones.items() if not person or phone.store.person == person]
        return self.world.phones[names[number % len(names)]]

    def progress(self, phone: Phone) -> Progress:
        found = phone.progress(JOB)
        assert found is not None
        return found

    # What people do

    @rule(number=phones, entries=st.lists(entries, min_size=1, max_size=4))
    def record(self, number: int, entries: list[Any]) -> None:
        """Items at stations, whether or not a hold is open; now and then in place of an earlier record."""
        for entry in entries:
            self.record_one(self.phone(number), *entry)

    def record_one(self, phone: Phone, place: Place, pick: int, good: bool, honest: bool, again: bool) -> None:
        step = self.progress(phone).job.steps[place[1]]
        item = step["items"][pick % len(step["items"])]
        stations = (item.get("stations") or {}).get("names") or [""]
        self.enter(phone, place, item, stations[pick % len(stations)], good, honest, "after rework" if again else "")

    @rule(number=phones, place=places)
    def work_through(self, number: int, place: Place) -> None:
        """All that a step still lacks, in tolerance."""
        phone = self.phone(number)
        piece, code = f"{JOB}.{place[0]}", place[1]
        for item in self.progress(phone).job.steps[code]["items"]:
            found = self.progress(phone).step(piece, code).items[item["code"]]
            for station in found.missing:
                self.enter(phone, place, item, station, True, True, "")

    def enter(self, phone: Phone, place: Place, item: Item, station: str, good: bool, honest: bool, why: str) -> str:
        piece, code = f"{JOB}.{place[0]}", place[1]
        says = (GOOD if good else BAD)[item["code"]]
        body = {"measure": {"entered": says, "uom": "in", "gauge": "TG"}, "visual": {"result": says},
                "text": {"value": says}}[item["kind"]]  # fmt: skip
        more: dict[str, Any] = {"station": station} if station else {}
        kind = RECORDED_AS[item["kind"]]
        own = [r.id for r in phone.store.records.values()
               if r.payload["by"] == phone.store.person and r.payload["type"] == kind
               and (r.payload["piece"], r.payload.get("item"), r.payload.get("station") or "")
               == (piece, item["code"], station)]  # fmt: skip
        if why and own:
            more |= {"replaces": own[-1], "why": why}
        if honest:
            more["under"] = self.progress(phone).relied_on(piece, code)
        return self.write(phone, kind, body, place, item=item["code"], **more)

    def write(
        self, phone: Phone, kind: str, body: dict[str, Any], place: Place, photos: tuple[bytes, ...] = (), **more: Any
    ) -> str:
        basis = dict(self.progress(phone).job.basis)
        return self.world.record(phone.store.device, kind, body, photos, job=JOB, piece=f"{JOB}.{place[0]}",
                                 step=place[1], basis=basis, **more)  # fmt: skip

    @rule(number=phones, place=places)
    def photo(self, number: int, place: Place) -> None:
        content = self.world.picture()
        body = {"sha256": sha_of(content), "media_type": "image/jpeg", "bytes": len(content), "width": 8, "height": 6}
        self.write(self.phone(number), "photo", body, place, (content,))

    @rule(number=phones)
    def faulty_record(self, number: int) -> None:
        """As only an app with a fault makes it; the server does not take it in, and keeps it."""
        content = self.world.picture()
        made = self.write(self.phone(number), "photo", {"sha256": sha_of(content)}, PLACES[0], (content,))
        self.world.faulty.add(made)

    @rule(place=places, number=phones, person=st.sampled_from(["fay", "ivy", "ivy", "ivy", "abe", "sue"]))
    def sign_off(self, place: Place, number: int, person: str) -> None:
        self.sign(self.phone(number, person), place)

    def sign(self, phone: Phone, place: Place) -> str:
        progress, piece = self.progress(phone), f"{JOB}.{place[0]}"
        body = {
            "party": PARTY[phone.store.person],
            "covers": progress.covered(piece, place[1]),
            "attendance": "present",
        }
        return self.write(phone, "sign-off", body, place, under=progress.relied_on(piece, place[1]))

    @rule(place=places, number=phones)
    def release(self, place: Place, number: int) -> None:
        """On one phone that everybody signs on in turn, as far as their own phones know: so that there are releases."""
        for person in ("fay", "ivy", "abe"):
            phone = self.phone(number, person)
            phone.turn()
            if person == "ivy":
                self.work_through(list(self.world.phones).index(phone.store.device), place)
            signing: Signing = self.progress(phone).piece(f"{JOB}.{place[0]}").signings[place[1]]
            if any(point["party"] == PARTY[person] for point in signing.outstanding()):
                self.sign(phone, place)
            phone.turn()

    @precondition(lambda self: self.watch.released)
    @rule(number=phones, pick=picks, how=st.sampled_from(["void", "slip", "rework"]), told=st.booleans())
    def finding_after_release(self, number: int, pick: int, how: str, told: bool) -> None:
        """A released step is found bad, by somebody who may not know of the release; then the finding is undone."""
        piece, code = sorted(self.watch.released)[pick % len(self.watch.released)]
        place = (piece.removeprefix(f"{JOB}."), code)
        phone = self.phone(number, "ivy")
        if told:
            phone.turn()
        item = next(item for item in self.progress(phone).job.steps[code]["items"] if item["kind"] == "measure")
        station = (item.get("stations") or {}).get("names", [""])[0]
        found = self.enter(phone, place, item, station, False, told, "")
        self.everybody_sends()
        self.holds()
        if how == "void":
            basis = dict(self.progress(phone).job.basis)
            self.world.record(phone.store.device, "void", {"record": found, "reason": "slip"}, job=JOB, piece=piece,
                              step=code, basis=basis)  # fmt: skip
        elif how == "slip":
            self.enter(phone, place, item, station, True, True, "slip")
        else:
            self.decide(pick, "rework", False)
            self.enter(phone, place, item, station, True, True, "after rework")
        self.everybody_sends()

    @rule(pick=picks, what=st.sampled_from(["use as is", "use as is", "rework", "repair", "scrap"]), again=rarely)
    def decide(self, pick: int, what: str, again: bool) -> None:
        """A word on a flag, as the supervisor's phone knows of it."""
        phone = self.phone(0, "sue")
        progress = self.progress(phone)
        flags = [flag for piece in progress.job.pieces for flag in flags_of(progress, piece) if flag.record]
        if not flags:
            return
        flag = flags[pick % len(flags)]
        record = progress.records[flag.record]
        body: dict[str, Any] = {"about": {"records": [flag.record], "flag": flag.kind, "verdict": record.verdict.word},
                                "disposition": what, "reason": "as found"}  # fmt: skip
        if again and what in ("rework", "repair"):
            body["again"] = [flag.step]
        place: dict[str, Any] = {"piece": flag.piece, **({"step": flag.step} if flag.step else {})}
        self.world.record("sue-1", "disposition", body, job=JOB, basis=dict(progress.job.basis), **place)

    @rule(number=phones, pick=picks)
    def void(self, number: int, pick: int) -> None:
        """Of anything but a point, which is a party's own word."""
        phone = self.phone(number)
        known = [r for r in self.progress(phone).records.values() if r.type != "point"]
        if known:
            target = sorted(known, key=lambda r: r.id)[pick % len(known)]
            place: dict[str, Any] = {
                name: target.payload[name] for name in ("piece", "step", "item") if target.payload.get(name)
            }
            basis = dict(self.progress(phone).job.basis)
            self.world.record(phone.store.device, "void", {"record": target.id, "reason": "slip"}, job=JOB, basis=basis,
                              **place)  # fmt: skip

    @rule(place=places, point=st.sampled_from(["H", "W"]), person=st.sampled_from(["sue", "abe"]))
    def set_point(self, place: Place, point: str, person: str) -> None:
        self.write(self.phone(0, person), "point", {"party": "AI", "point": point}, place)

    @rule(number=phones, place=places, party=st.sampled_from(["AI", "QC"]))
    def call(self, number: int, place: Place, party: str) -> None:
        self.write(self.phone(number), "call", {"party": party, "how": "telephone"}, place)

    # What happens on the way

    @rule(number=phones, faults=st.lists(st.sampled_from(FAULTS), max_size=5), most=st.sampled_from([1, 2, 3, 100]),
          shuffled=st.booleans())  # fmt: skip
    def turn(self, number: int, faults: list[str], most: int, shuffled: bool) -> None:
        """One turn with the server; each call of it may fare as named, the others go through."""
        phone = self.phone(number)
        before = checks.outboxes(self.world)
        self.world.faults = list(faults)
        try:
            phone.turn(most, self.world.dice if shuffled else None)
        except KilledError:
            self.app_begins_anew(phone)
        self.world.faults = []
        checks.nothing_left_unheard(self.world, *before)

    @rule()
    def everybody_sends(self) -> None:
        for phone in self.world.phones.values():
            phone.turn()

    @rule()
    def late_requests_arrive(self) -> None:
        self.world.deliver_late()

    @rule(number=phones)
    def database_busy(self, number: int) -> None:
        """Somebody else writes for longer than the server waits: it says so, and the phone keeps what it has."""
        phone = self.phone(number)
        waiting = set(phone.store.outbox)
        before = checks.outboxes(self.world)
        with busy(self.world.url):
            said = phone.turn()
        assert said.startswith("503"), said
        assert set(phone.store.outbox) == waiting
        checks.nothing_left_unheard(self.world, *before)

    # What happens to phones

    @rule(number=phones)
    def app_updated(self, number: int) -> None:
        self.app_begins_anew(self.phone(number))

    def app_begins_anew(self, phone: Phone) -> None:
        self.seen["kills"] += 1
        self.world.switch_on(phone.store.reopened())

    @rule(number=phones, days=st.sampled_from([-400, -3, 2, 30]))
    def phone_clock_jumps(self, number: int, days: int) -> None:
        self.world.clocks[self.phone(number).store.device] += days * DAY

    @rule(number=phones)
    def copy_of_phone(self, number: int) -> None:
        phone = self.phone(number)
        self.world.copies[phone.store.device] = phone.store.copied()

    @precondition(lambda self: len(self.world.made) > 2)
    @rule(pick=picks)
    def phone_from_older_copy(self, pick: int) -> None:
        """What it has made since is on that phone no more, and it goes on from where it was."""
        names = sorted(self.world.copies)
        self.world.switch_on(self.world.copies[names[pick % len(names)]].copied())

    @rule(number=phones, entries=st.lists(entries, min_size=2, max_size=4))
    def phone_lost_in_the_middle(self, number: int, entries: list[Any]) -> None:
        """Its newest record has gone out, those before it have not; then it falls into the water."""
        phone = self.phone(number)
        older = phone.store.copied()
        for entry in entries:
            self.record_one(phone, *entry)
        with suppress(LostError, AnswerError):
            phone.send_batch(phone.store.in_order()[-1:], len(phone.store.outbox) - 1)
        self.world.switch_on(older)

    @precondition(lambda self: not set(SPARE) <= set(self.world.phones))
    @rule()
    def new_phone(self) -> None:
        name = sorted(set(SPARE) - set(self.world.phones))[0]
        self.world.enrol(name)
        assert self.world.phones[name].turn() == ""

    # What happens at the server and in the office

    @rule(days=st.sampled_from([-2, 1, 8]))
    def server_clock_jumps(self, days: int) -> None:
        self.world.clock.ahead += days * DAY

    @rule()
    def sessions_end(self) -> None:
        with self.world.app.app_context(), writing() as session:
            session.query(SignIn).delete()

    @rule(person=st.sampled_from(["fay", "ivy", "sue"]), kept=st.booleans())
    def roles_change(self, person: str, kept: bool) -> None:
        self.world.roles(person, list(PEOPLE[person]) if kept else [])

    @rule(plan=st.integers(0, len(PLANS) - 1), figures=st.sampled_from(FIGURES))
    def basis_changes(self, plan: int, figures: dict[str, str]) -> None:
        now = int(self.world.clock.time())
        with self.world.app.app_context(), writing() as session:
            revision = publish(session, read(PLANS[plan]), now)
            set_basis(session, JOB, revision.hash, dict(figures), {}, "changed", now)

    @rule(due=st.sampled_from(["2030-01-01", "2020-01-01"]), uncertainty=st.sampled_from(["0.001", "0.05"]))
    def certificate_comes(self, due: str, uncertainty: str) -> None:
        with self.world.app.app_context(), writing() as session:
            shelf.put(session, {**GAUGE, "due": due, "uncertainty": uncertainty}, int(self.world.clock.time()))

    @rule(most_push=st.sampled_from([16_000_000, 6_000]))
    def server_restarts(self, most_push: int) -> None:
        self.seen["kills"] += 1
        self.world.restart(most_push)

    @rule()
    def night(self) -> None:
        """The server's backup is made; whoever copies phones does so."""
        self.world.back_up()
        for name, phone in self.world.phones.items():
            self.world.copies[name] = phone.store.copied()

    @precondition(lambda self: len(self.world.made) > 4)
    @rule()
    def server_from_backup(self) -> None:
        """The phones' keys that the backup does not know are let in again."""
        self.world.restore()
        self.watch = checks.Watch()
        self.world.adopt_keys()

    # What must hold

    @invariant()
    def holds(self) -> None:
        world = self.world
        self.sound = False
        checks.nothing_broken(world)
        with world.app.app_context():
            checks.all_is_there_once(world)
            checks.links_are_told(world)
            self.watch.look()
        self.sound = True

    def teardown(self) -> None:
        try:
            if self.sound:
                self.at_the_end()
        finally:
            self.world.close()

    def at_the_end(self) -> None:
        world = self.world
        world.restart(16_000_000)
        for _ in range(3):
            for phone in world.phones.values():
                said = phone.turn(urgent=True)
                assert said == "", said
        self.holds()
        saved = {one.id for phone in world.phones.values() for one in phone.store.records.values()
                 if one.state != MISSING}  # fmt: skip
        with world.app.app_context():
            checks.everything_arrived(world, saved)
            checks.everybody_knows_the_same(world, len(saved))
            checks.only_what_was_made_is_found(world)
            self.seen.update(checks.summary(world))


def played(home: Home, examples: int, steps: int) -> Counter[str]:
    """Play so many examples, the same in every run; what they all came to. Raises where something does not hold."""
    seen: Counter[str] = Counter()
    machine = type("Shop", (Machine,), {"home": home, "seen": seen})
    quiet = settings(deadline=None, database=None, derandomize=True, suppress_health_check=list(HealthCheck),
                     max_examples=examples, stateful_step_count=steps)  # fmt: skip
    logger = logging.getLogger("seamtag")
    logger.disabled = True  # it would tell of each time that the database was busy
    try:
        run_state_machine_as_test(machine, settings=quiet)
    finally:
        logger.disabled = False
    return seen
