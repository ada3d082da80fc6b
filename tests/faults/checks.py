"""What must hold at every moment, and what must hold once everything has been sent."""

import random
from collections import Counter
from collections.abc import Iterable
from typing import Any

from sqlalchemy import func, select

from seamtag.core.progress import RELEASED, Progress
from seamtag.database import db
from seamtag.jobs.floor import core_job, last_change
from seamtag.photos.models import Photo
from seamtag.records import jws
from seamtag.records.models import Record, Refusal
from seamtag.records.reading import payloads_of
from seamtag.review.flagging import CHAIN_FORK
from seamtag.review.models import FlagRow
from seamtag.sync.models import Entry
from seamtag.sync.verifying import verify
from tests.core.test_progress_properties import digest
from tests.faults.phone import Phone
from tests.faults.store import MISSING, NOT_TAKEN_IN
from tests.faults.world import World
from tests.shop import JOB

RELEASING = ("H", "W", "R")


class Watch:
    """Looks at every step between one moment and the next: a release never comes back without a new sign-off.

    What has once been valid and is not any more never is again; and a step that was released, and then not, is
    released anew only upon a sign-off that was not valid before.
    """

    def __init__(self) -> None:
        self.progress: Progress | None = None
        self.number, self.master = 0, ""
        self.valid: set[str] = set()
        self.was_valid: set[str] = set()
        self.released: set[tuple[str, str]] = set()
        self.lost: dict[tuple[str, str], set[str]] = {}

    def look(self) -> None:
        """Inside an application context."""
        session = db.session()
        master = last_change(session, JOB)
        if self.progress is None or master != self.master:
            job = core_job(session, JOB)
            assert job is not None
            self.progress, self.number, self.master = Progress(job, []), 0, master
        query = select(Entry.number, Entry.body, Record.role).join(Record, Record.number == Entry.number)
        for number, body, role in session.execute(query.where(Entry.number > self.number).order_by(Entry.number)):
            self.progress.add(jws.json_of(body.split(".")[1]), role)
            self.number = number
        valid = set()
        for piece in self.progress.job.pieces:
            own = self.progress.piece(piece)
            for code, signing in own.signings.items():
                if any(point["point"] in RELEASING for point in signing.points):
                    here = {s.id for p in signing.points if p["point"] in RELEASING for s in signing.valid(p["party"])}
                    self.step((piece, code), own.steps[code].state == RELEASED, here)
                    valid |= here
        again = valid & self.was_valid
        assert not again, f"{again} are valid again"
        self.was_valid |= self.valid - valid
        self.valid = valid

    def step(self, place: tuple[str, str], released: bool, valid: set[str]) -> None:
        if released and place in self.lost:
            assert valid - self.lost.pop(place), f"{place} is released again, and nobody has signed"
        if not released and place in self.released:
            self.lost[place] = self.valid | self.was_valid
            self.released.discard(place)
        if released:
            self.released.add(place)


def nothing_broken(world: World) -> None:
    assert not world.broken, "an answer that is no 503 with Retry-After"


def all_is_there_once(world: World) -> None:
    """What the server gave its word on is in the chain once, and nothing is there twice."""
    session = db.session()
    bodies = session.scalars(select(Entry.body).where(Entry.kind == "record")).all()
    ids = Counter(jws.json_of(body.split(".")[1])["id"] for body in bodies)
    rows = set(session.scalars(select(Record.id)))
    assert set(ids.values()) <= {1}, f"in the chain more than once: {[one for one, n in ids.items() if n > 1]}"
    assert rows == set(ids), "rows and chain differ"
    assert world.said.taken_in <= rows, f"acknowledged and gone: {world.said.taken_in - rows}"
    refused = set(session.scalars(select(Refusal.id)))
    assert world.said.not_taken_in <= refused, "a record that was not taken in was not kept"
    assert refused <= world.faulty, f"not taken in, and nothing was wrong with it: {refused - world.faulty}"
    assert not rows & world.faulty, "a faulty record was taken in"
    stored = set(session.scalars(select(Photo.sha256).where(Photo.stored)))
    assert world.said.photos <= stored, f"photos acknowledged and gone: {world.said.photos - stored}"


def links_wanted(world: World) -> dict[str, str]:
    """Gaps and forks by id, from what the phones have made and what is here, not from what records say."""
    session = db.session()
    rows = set(session.scalars(select(Record.digest)))
    here = rows | set(session.scalars(select(Refusal.digest)))
    following = Counter((made.kid, made.after) for one, made in world.made.items() if one in rows)
    found = {}
    for one in rows:
        made = world.made[one]
        if following[made.kid, made.after] > 1:
            found[made.id] = "fork"
        elif made.after and made.after not in here:
            found[made.id] = "gap"
    return found


def links_are_told(world: World) -> None:
    rows = db.session.execute(select(Record.id, Record.link).where(Record.link != "")).all()
    told, wanted = {row.id: row.link for row in rows}, links_wanted(world)
    assert told == wanted, f"told {told}, made {wanted}"


def nothing_left_unheard(world: World, before: dict[str, set[str]], photos_before: dict[str, set[str]]) -> None:
    """Nothing has left an outbox but on the server's word."""
    for name, phone in world.phones.items():
        gone = before.get(name, set()) - set(phone.store.outbox)
        assert gone <= world.said.taken_in | world.said.not_taken_in, f"{name} lost {gone} from its outbox"
        assert gone <= set(phone.store.records)
        photos = photos_before.get(name, set()) - set(phone.store.photo_outbox)
        assert photos <= world.said.photos, f"{name} lost photos from its outbox"


def outboxes(world: World) -> tuple[dict[str, set[str]], dict[str, set[str]]]:
    return ({name: set(phone.store.outbox) for name, phone in world.phones.items()},
            {name: set(phone.store.photo_outbox) for name, phone in world.phones.items()})  # fmt: skip


# Once everything has been sent


def everybody_knows_the_same(world: World, seed: int) -> None:
    """The server's fold, each phone's own, and a fresh one of the same set in any order."""
    session = db.session()
    job = core_job(session, JOB)
    assert job is not None
    records = payloads_of(session, JOB)
    wanted = digest(Progress(job, records))
    for count in range(3):
        dice = random.Random(seed + count)
        shuffled = [*records, *dice.sample(records, len(records) // 2)]
        dice.shuffle(shuffled)
        assert digest(Progress(job, shuffled)) == wanted
    for name, phone in world.phones.items():
        assert everything_here(phone) == {payload["id"] for payload, _ in records}, f"{name} has another set"
        progress = phone.progress(JOB)
        assert progress is not None
        assert digest(progress) == wanted, f"{name} says otherwise"


def everything_here(phone: Phone) -> set[str]:
    return {one.id for one in phone.store.records.values() if one.state not in (NOT_TAKEN_IN, MISSING)}


def everything_arrived(world: World, saved: Iterable[str]) -> None:
    """What any phone has saved and still holds is on the server, taken in or kept with the reason why not."""
    session = db.session()
    here = set(session.scalars(select(Record.id))) | set(session.scalars(select(Refusal.id)))
    assert set(saved) <= here, f"{set(saved) - here} never arrived"
    for name, phone in world.phones.items():
        assert not phone.store.outbox, f"{name} still holds records"


def only_what_was_made_is_found(world: World) -> None:
    """Verifying finds the forks and gaps that were made, photos whose phone was lost, and nothing else."""
    session = db.session()
    wanted = {("key chain", f"record {one}") for one in links_wanted(world)}
    held = {sha for phone in world.phones.values() for sha in phone.store.photos}
    for photo in session.scalars(select(Photo).where(Photo.named, ~Photo.stored)):
        assert photo.sha256 not in held, "a photo that a phone holds never arrived"
        wanted.add(("photo", photo.sha256[:12]))
    found = list(verify(session, world.app.extensions["vault"]))
    assert {(one.kind, one.where) for one in found} == wanted, "\n".join(map(str, found))
    forks = {one for one, link in links_wanted(world).items() if link == "fork"}
    flagged = set(session.scalars(select(FlagRow.record).where(FlagRow.kind == CHAIN_FORK)))
    assert flagged == forks, "forks are flagged where they were made, and nowhere else"
    assert session.scalar(select(func.count()).select_from(Record)) == len(payloads_of(session, JOB))


def summary(world: World) -> dict[str, Any]:
    """What an example came to, for the table of a long run."""
    session = db.session()
    links = Counter(links_wanted(world).values())
    return {"records": session.scalar(select(func.count()).select_from(Record)) or 0,
            "photos": session.scalar(select(func.count()).where(Photo.stored)) or 0,
            "acknowledged": len(world.said.taken_in), "gaps": links["gap"], "forks": links["fork"]}  # fmt: skip
