"""Two hundred alterations of a job's database, by chance: `seamtag verify` finds each of them."""

import hashlib
import random
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from sqlalchemy import delete, select, text
from sqlalchemy.orm import Session

from seamtag.database import db, writing
from seamtag.photos.store import Vault
from seamtag.records.models import Record
from seamtag.sync import chain
from seamtag.sync.models import Entry
from seamtag.sync.verifying import Finding, verify
from tests.faults.altering import ALTERATIONS
from tests.faults.client import picture
from tests.shop import JOB, Shop

pytestmark = pytest.mark.both_databases
ON_POSTGRESQL = 5
"""There every fifth alteration is made."""


@pytest.fixture
def worked(shop: Shop) -> Shop:
    """Records of three people, one out of tolerance and reworked, a photo, a sign-off, and a role that changed."""
    dice = random.Random(1)
    for station in ("12", "3"):
        shop.push(shop.reading(station=station)[0])
        shop.catch_up()
    content = picture(dice)
    sha256 = hashlib.sha256(content).hexdigest()
    body = {"sha256": sha256, "media_type": "image/jpeg", "bytes": len(content), "width": 40, "height": 30}
    shop.push(shop.record("inspector", "photo", body, step="fit", item="gap")[0])
    assert shop.client.put(f"/api/v1/photos/{sha256}", data=content).status_code == 200
    shop.catch_up()
    bad = shop.push(shop.reading("1", station="6")[0])[0]["id"]
    shop.catch_up()
    shop.push(shop.disposition(bad, "rework", step="fit")[0])
    shop.push(shop.record("fitter", "sign-off", {"party": "maker", "covers": []}, step="fit")[0])
    shop.catch_up()
    shop.push(shop.reading(station="6", replaces=bad, why="after rework")[0])
    shop.catch_up()
    shop.push(shop.record("fitter", "note", {"text": "done"})[0], shop.reading("1", station="9")[0])
    return shop


@contextmanager
def altered(shop: Shop) -> Iterator[Session]:
    """A session whose transaction comes to nothing; keys to other tables do not hinder it."""
    with shop.app.app_context(), db.engine.connect() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SET LOCAL session_replication_role = replica"))
        else:
            connection.rollback()
            connection.exec_driver_sql("PRAGMA defer_foreign_keys = ON")
        with Session(connection) as session:
            yield session
        connection.rollback()


def vault_of(shop: Shop) -> Vault:
    found: Vault = shop.app.extensions["vault"]
    return found


def found(shop: Shop, heads: dict[int, str] | None = None) -> list[Finding]:
    with shop.app.app_context():
        return list(verify(db.session(), vault_of(shop), heads))


@pytest.mark.parametrize("what", ALTERATIONS)
def test_each_alteration_is_found(worked: Shop, what: str, engine: str) -> None:
    alter, often = ALTERATIONS[what]
    assert found(worked) == []
    for number in range(often if engine == "sqlite" else -(-often // ON_POSTGRESQL)):
        dice = random.Random(f"{what} {number}")
        with altered(worked) as session:
            done = alter(session.connection(), dice)
            assert list(verify(session, vault_of(worked))), f"{number}: {done} was not found"
    assert found(worked) == [], "each alteration has been taken back"


def cut(shop: Shop, after: int) -> None:
    """Remove the last entries and what they wrote, so that nothing is left of them."""
    with shop.app.app_context(), writing() as session:
        session.execute(delete(Record).where(Record.number > after))
        session.execute(delete(Entry).where(Entry.number > after))


def rederive(shop: Shop) -> None:
    """Flags and waiting as they are without what was cut off, as somebody careful would leave them."""
    from seamtag.records.rejudging import rejudge_now

    with shop.app.app_context(), writing() as session:
        rejudge_now(session, JOB)
        for record in session.scalars(select(Record)):
            record.link = ""


@pytest.mark.parametrize("count", [1, 2, 5])
def test_a_tail_that_was_cut_off_is_found_by_a_head_known_from_elsewhere(worked: Shop, count: int) -> None:
    number, digest = worked.head()
    cut(worked, number - count)
    rederive(worked)
    assert found(worked) == [], "by itself a shorter chain is as good as any"
    assert [(one.kind, one.where) for one in found(worked, {number: digest})] == [("chain", f"entry {number}")]


@pytest.mark.parametrize("count", [1, 2, 5])
def test_a_tail_that_was_cut_off_is_found_by_what_a_later_record_had_seen(worked: Shop, count: int) -> None:
    number, _ = worked.head()
    worked.catch_up()
    cut(worked, number - count)
    rederive(worked)
    worked.push(worked.record("visitor", "note", {"text": "later"})[0])
    told = [one for one in found(worked) if one.kind == "chain"]
    assert [one.where for one in told] == [f"entry {number - count + 1}"]
    assert f"had seen entry {number} " in told[0].says


def test_a_photo_altered_cut_or_removed_is_found(worked: Shop, tmp_path: Path) -> None:
    file = next(one for one in (tmp_path / "photos" / "original").iterdir() if len(one.name) == 64)
    whole = file.read_bytes()
    for number in range(12):
        dice = random.Random(number)
        content, place = bytearray(whole), dice.randrange(len(whole))
        content[place] ^= 1 << dice.randrange(8)
        file.write_bytes(content if number % 3 == 0 else content[:place])
        if number % 3 == 1:
            file.unlink()
        assert [(one.kind, one.where) for one in found(worked)] == [("photo", file.name[:12])], number
        file.write_bytes(whole)
    assert found(worked) == []


def test_heads_known_from_elsewhere_are_held_against_every_entry(worked: Shop) -> None:
    with worked.app.app_context():
        known = dict(db.session.execute(select(Entry.number, Entry.hash)).all())
    assert found(worked, {0: chain.START, **known}) == []
