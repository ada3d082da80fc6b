"""Backups read back and checked, a server made of one, records carried in a file, and judging anew."""

import base64
import gzip
import hashlib
import io
import json
from pathlib import Path

import pytest
from PIL import Image
from sqlalchemy import delete, select, update

from seamtag.database import db, writing
from seamtag.gauges import shelf
from seamtag.jobs.opening import set_basis
from seamtag.people.models import Key
from seamtag.records.carrying import take_in_file
from seamtag.records.models import Record
from seamtag.records.rejudging import rejudge
from seamtag.sync import chain
from seamtag.sync.epoch import covered, epoch
from seamtag.sync.restoring import CHAIN, BackupError, back_up, restore
from seamtag.sync.verifying import verify
from tests.conftest import app_in, close, made_ready
from tests.shop import JOB, Shop

pytestmark = pytest.mark.both_databases


def photo() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "red").save(out, "JPEG")
    return out.getvalue()


def worked(shop: Shop) -> str:
    """Some records, one of them a photo whose bytes are here; its hash."""
    sha256 = hashlib.sha256(photo()).hexdigest()
    body = {"sha256": sha256, "media_type": "image/jpeg", "bytes": len(photo()), "width": 40, "height": 30}
    texts = [shop.reading(station=station)[0] for station in ("12", "3")]
    texts += [shop.record("inspector", "photo", body, step="fit", item="gap")[0], shop.reading("1", station="6")[0]]
    texts += [shop.record("inspector", "reading", {"entered": 5}, step="fit", item="gap")[0]]
    shop.push(*texts)
    assert shop.client.put(f"/api/v1/photos/{sha256}", data=photo()).status_code == 200
    return sha256


def faults(shop_app: object) -> list[object]:
    return list(verify(db.session(), shop_app.extensions["vault"]))  # type: ignore[attr-defined]


def test_a_backup_covers_the_chain_and_is_told_to_the_phones(shop: Shop, tmp_path: Path) -> None:
    worked(shop)
    assert shop.post({"records": []}).get_json(force=True)["covered"] == 0
    with shop.app.app_context():
        found = back_up(db.session(), shop.app.extensions["vault"], tmp_path / "backup")
        assert (found.number, found.hash) == chain.head(db.session())
        assert (found.photos, found.refusals, found.missing) == (1, 1, 0)
        assert covered(db.session()) == found.number
    assert shop.post({"records": []}).get_json(force=True)["covered"] == found.number


@pytest.mark.parametrize("into", ["sqlite", "same"])
def test_a_server_made_of_a_backup_is_the_same_with_a_new_epoch(shop: Shop, tmp_path: Path, into: str, engine: str,
                                                                request: pytest.FixtureRequest) -> None:  # fmt: skip
    sha256 = worked(shop)
    before = shop.flags()
    with shop.app.app_context():
        found = back_up(db.session(), shop.app.extensions["vault"], tmp_path / "backup")
        old = epoch(db.session())
    (tmp_path / "new").mkdir()
    url = request.getfixturevalue("cluster").new() if engine == "postgresql" and into == "same" else ""
    fresh = app_in(tmp_path / "new", url)
    made_ready(fresh)
    with fresh.app_context():
        restore(fresh.extensions["vault"], tmp_path / "backup", 1)
        assert faults(fresh) == []
        assert epoch(db.session()) != old
        assert chain.head(db.session())[0] == found.number + 1
        assert fresh.extensions["vault"].original(sha256) == photo()
    shop.app, shop.client = fresh, fresh.test_client()
    assert shop.flags() == before
    close(fresh)


def test_a_backup_is_restored_into_an_empty_database_only(shop: Shop, tmp_path: Path) -> None:
    with shop.app.app_context():
        back_up(db.session(), shop.app.extensions["vault"], tmp_path / "backup")
        with pytest.raises(BackupError, match="not empty"):
            restore(shop.app.extensions["vault"], tmp_path / "backup", 1)


@pytest.mark.parametrize("harm", ["cut", "altered", "removed", "no gzip", "another format"])
def test_a_damaged_backup_is_not_believed(shop: Shop, tmp_path: Path, harm: str) -> None:
    worked(shop)
    with shop.app.app_context():
        back_up(db.session(), shop.app.extensions["vault"], tmp_path / "backup")
    file = tmp_path / "backup" / CHAIN
    lines = gzip.decompress(file.read_bytes()).split(b"\n")
    if harm == "cut":
        file.write_bytes(file.read_bytes()[:-40])
    elif harm == "no gzip":
        file.write_bytes(b"words")
    else:
        lines[0] = lines[0].replace(b"chain 1", b"chain 9") if harm == "another format" else lines[0]
        lines[3] = lines[3].replace(b"roles", b"rolez") if harm == "altered" else lines[3]
        file.write_bytes(gzip.compress(b"\n".join(lines[:3] + lines[3 + (harm == "removed") :])))
    (tmp_path / "new").mkdir()
    fresh = app_in(tmp_path / "new")
    made_ready(fresh)
    with fresh.app_context(), pytest.raises(BackupError):
        restore(fresh.extensions["vault"], tmp_path / "backup", 1)
    close(fresh)


def test_a_backup_brought_up_to_date_keeps_what_it_has(shop: Shop, tmp_path: Path) -> None:
    worked(shop)
    vault = shop.app.extensions["vault"]
    with shop.app.app_context():
        first = back_up(db.session(), vault, tmp_path / "backup")
    shop.push(shop.reading(station="9")[0])
    with shop.app.app_context():
        assert back_up(db.session(), vault, tmp_path / "backup").number == first.number + 1


def test_records_carried_in_a_file_are_taken_in(shop: Shop, tmp_path: Path) -> None:
    sha256 = hashlib.sha256(photo()).hexdigest()
    body = {"sha256": sha256, "media_type": "image/jpeg", "bytes": len(photo()), "width": 40, "height": 30}
    texts = [shop.reading()[0], shop.record("inspector", "photo", body, step="fit", item="gap")[0]]
    lines = [json.dumps({"record": text}) for text in texts]
    lines += [json.dumps({"photo": sha256, "bytes": base64.b64encode(photo()).decode()}), "{", "", "[]", "{}"]
    lines += [json.dumps({"photo": sha256[::-1], "bytes": "AAAA"}), json.dumps({"record": "x"}), lines[0]]
    file = tmp_path / "unsent.jsonl"
    file.write_text("\n".join(lines), encoding="utf-8")
    with shop.app.app_context():
        counts = take_in_file(shop.app.extensions["vault"], file)
    assert counts == {"taken in": 3, "photos": 1, "photos damaged": 1, "unreadable": 4}
    assert shop.flags() == []
    with shop.app.app_context():
        assert faults(shop.app) == []


def verdicts(shop: Shop) -> list[str]:
    with shop.app.app_context():
        return list(db.session.scalars(select(Record.verdict).where(Record.type == "reading").order_by(Record.number)))


def test_judging_anew_mends_rows_and_changes_no_record(shop: Shop) -> None:
    shop.push(shop.reading()[0], shop.reading("1", station="3")[0])
    head = shop.head()
    with shop.app.app_context():
        with writing() as session:
            session.execute(update(Record).values(verdict="in tolerance", value="7"))
        changes = list(rejudge())
        assert [(c.before, c.after) for c in changes] == [("in tolerance", "out of tolerance")]
        assert faults(shop.app) == []
    assert shop.head() == head


def test_a_new_certificate_judges_what_was_read_with_the_gauge(shop: Shop) -> None:
    text = shop.record("inspector", "reading", {"entered": "3/32", "uom": "in", "gauge": "NEW"}, step="fit", item="gap",
                       station="12")[0]  # fmt: skip
    assert shop.push(text)[0]["verdict"] == "unjudged"
    with shop.app.app_context(), writing() as session:
        shelf.put(session, {"id": "NEW", "kind": "taper gauge", "name": "New", "uom": "in"}, 2)
    assert verdicts(shop) == ["in tolerance"]
    assert shop.flags() == []


def test_new_figures_leave_a_reading_judged_by_those_it_names(shop: Shop) -> None:
    shop.push(shop.reading()[0])
    with shop.app.app_context(), writing() as session:
        set_basis(session, JOB, shop.basis["plan"], {"gap_nom": "1/2"}, {}, "drawing changed", 2)
    assert verdicts(shop) == ["in tolerance"]
    with shop.app.app_context():
        assert faults(shop.app) == []


def test_a_backup_without_a_photo_covers_nothing(shop: Shop, tmp_path: Path) -> None:
    """The phone may be the only one to hold it, and lets photos go once they are covered."""
    sha256 = worked(shop)
    (tmp_path / "photos" / "original" / sha256).unlink()
    with shop.app.app_context():
        assert back_up(db.session(), shop.app.extensions["vault"], tmp_path / "backup").missing == 1
        assert covered(db.session()) == 0


def test_a_key_that_a_restored_server_lost_is_enrolled_again_by_the_office(shop: Shop, tmp_path: Path) -> None:
    phone = shop.phones["inspector"]
    jwk = {name: str(phone.key.as_dict(private=False)[name]) for name in ("kty", "crv", "x", "y")}
    strange = [{"jwk": {**jwk, "x": "A" * 43}, "person": "inspector", "device": "d"}, {"jwk": jwk, "person": "nobody",
               "device": "d"}, {"jwk": jwk, "device": "d"}, "words", None]  # fmt: skip
    lines = [{"key": one} for one in [*strange, {"jwk": jwk, "person": "inspector", "device": phone.device}]]
    file = tmp_path / "unsent.jsonl"
    file.write_text("\n".join(map(json.dumps, [*lines, {"record": shop.reading()[0]}])), encoding="utf-8")
    with shop.app.app_context():
        with writing() as session:
            session.execute(delete(Key).where(Key.kid == phone.key.thumbprint()))
        assert take_in_file(shop.app.extensions["vault"], file) == {"unreadable": 1}
        found = take_in_file(shop.app.extensions["vault"], file, adopt_keys=True)
        assert found == {"keys enrolled again": 1, "taken in": 1}
