"""Sending needs no session: what is signed goes out after it has ended, and what waits meanwhile is not lost."""

from collections.abc import Iterator
from typing import Any

import pytest

from seamtag.database import writing
from seamtag.people.models import SignIn
from tests.faults.home import Home, busy
from tests.faults.world import REQUEST_LOST, THROUGH, World
from tests.shop import JOB

pytestmark = pytest.mark.both_databases
PLACE: dict[str, Any] = {"job": JOB, "piece": f"{JOB}.S-1", "step": "fit", "item": "gap", "station": "A"}


@pytest.fixture
def world(home: Home) -> Iterator[World]:
    found = World(home)
    yield found
    found.close()


def reading(world: World) -> str:
    basis = dict(world.phones["ivy-1"].job(JOB).basis)  # type: ignore[union-attr]
    return world.record("ivy-1", "reading", {"entered": "3/32", "uom": "in", "gauge": "TG"}, basis=basis, **PLACE)


def sessions_end(world: World) -> None:
    with world.app.app_context(), writing() as session:
        session.query(SignIn).delete()


def test_a_push_is_accepted_and_a_pull_is_401_and_loses_nothing(world: World) -> None:
    phone = world.phones["ivy-1"]
    sessions_end(world)
    made = reading(world)
    assert world.to_server("ivy-1", "GET", "/feed?scope=shop", None, {}).status == 401
    assert set(phone.store.outbox) == {made}, "a pull that fails takes nothing away"
    phone.push()
    assert not phone.store.outbox
    assert world.said.taken_in == {made}
    assert phone.store.records[made].state == "received"
    before = dict(phone.store.records)
    assert world.to_server("ivy-1", "GET", f"/feed?scope=job:{JOB}", None, {}).status == 401
    assert phone.store.records == before


def test_the_phone_signs_in_by_its_key_and_pulls_what_it_has_missed(world: World) -> None:
    phone, other = world.phones["ivy-1"], world.phones["sue-1"]
    sessions_end(world)
    made = reading(world)
    assert phone.turn() == ""
    assert other.turn() == ""
    assert made in other.store.records


def test_where_signing_in_fails_what_was_sent_is_sent_all_the_same(world: World) -> None:
    phone = world.phones["ivy-1"]
    sessions_end(world)
    made = reading(world)
    world.faults = [THROUGH, THROUGH, REQUEST_LOST]
    assert phone.turn() == "lost"
    assert not phone.store.outbox
    assert world.said.taken_in == {made}
    assert phone.turn() == ""


def test_a_busy_database_is_503_with_retry_after_and_loses_nothing(world: World) -> None:
    phone = world.phones["ivy-1"]
    made = reading(world)
    with busy(world.url):
        answer = world.to_server("ivy-1", "POST", "/challenges", b"{}", {"Content-Type": "application/json"})
        assert (answer.status, answer.retry_after) == (503, 5)
        assert phone.turn().startswith("503")
        assert set(phone.store.outbox) == {made}
    assert phone.turn() == ""
    assert not phone.store.outbox
    assert world.broken == []
