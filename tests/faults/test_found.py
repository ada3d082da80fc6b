"""What the model has found, each as the shortest case there is."""

import json
from collections.abc import Iterator
from itertools import product

import pytest
from sqlalchemy import select, update

from seamtag.database import db, writing
from seamtag.records.models import Record
from seamtag.sync.models import Entry
from seamtag.sync.verifying import verify
from tests.faults.home import Home
from tests.faults.store import sha_of
from tests.faults.world import World
from tests.shop import JOB

pytestmark = pytest.mark.both_databases
PLACE = {"job": JOB, "piece": f"{JOB}.S-1", "step": "fit"}


@pytest.fixture
def world(home: Home) -> Iterator[World]:
    found = World(home)
    yield found
    found.close()


def write(world: World, kind: str, body: dict[str, object], photos: tuple[bytes, ...] = ()) -> str:
    job = world.phones["ivy-1"].job(JOB)
    assert job is not None
    return world.record("ivy-1", kind, body, photos, basis=dict(job.basis), **PLACE)


def test_a_photo_that_came_before_its_record_comes_back_from_a_backup(world: World) -> None:
    content = world.picture()
    phone = world.phones["ivy-1"]
    write(world, "photo", {"sha256": sha_of(content)}, (content,))
    phone.send_photos()
    world.back_up()
    world.restore()
    with world.app.app_context():
        assert world.app.extensions["vault"].original(sha_of(content)) == content
    body = {"sha256": sha_of(content), "media_type": "image/jpeg", "bytes": len(content), "width": 8, "height": 6}
    world.phones["ivy-1"].store.photos.clear()
    write(world, "photo", body)
    assert phone.turn(urgent=True) == ""
    with world.app.app_context():
        assert [one.kind for one in verify(db.session(), world.app.extensions["vault"])] == []


def test_what_follows_a_record_that_was_not_taken_in_is_no_gap_after_a_restore(world: World) -> None:
    write(world, "photo", {"sha256": "0" * 64})
    write(world, "note", {"text": "next"})
    assert world.phones["ivy-1"].turn() == ""
    world.back_up()
    world.restore()
    with world.app.app_context():
        assert db.session.scalars(select(Record.link)).all() == [""]
        assert list(verify(db.session(), world.app.extensions["vault"])) == []


KINDS = ("person", "key", "plan", "job", "basis", "pieces", "tags", "gauge")


def test_an_altered_entry_of_any_kind_is_told_and_breaks_nothing(world: World) -> None:
    write(world, "note", {"text": "x"})
    assert world.phones["ivy-1"].turn() == ""
    for kind, body in product(KINDS, ("", "[]", "{}", "{", json.dumps({"id": 5, "kid": 5, "hash": 5}))):
        with world.app.app_context():
            with writing() as session:
                entry = session.scalars(select(Entry).where(Entry.kind == kind).order_by(Entry.number)).first()
                assert entry is not None
                number, before = entry.number, entry.body
                session.execute(update(Entry).where(Entry.number == number).values(body=body))
            found = list(verify(db.session(), world.app.extensions["vault"]))
            assert {"chain", "row"} <= {one.kind for one in found}, f"{kind}: {body}"
            with writing() as session:
                session.execute(update(Entry).where(Entry.number == number).values(body=before))
