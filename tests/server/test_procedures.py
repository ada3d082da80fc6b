"""Welding procedures: read strictly, kept in the chain, and every pass judged by them."""

from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner
from sqlalchemy import select

from seamtag.cli import main
from seamtag.database import db, writing
from seamtag.fields import FieldError
from seamtag.jobs.floor import job_data
from seamtag.procedures import book
from seamtag.procedures.models import Procedure
from seamtag.records.models import Record
from seamtag.sync.models import Entry
from seamtag.sync.restoring import back_up, restore
from seamtag.sync.verifying import verify
from tests.conftest import app_in, close, made_ready
from tests.shop import JOB, Shop

pytestmark = pytest.mark.both_databases

W12: dict[str, Any] = {
    "id": "W-12", "revision": "3", "name": "Groove, plate", "process": "SMAW", "positions": ["V", "F"],
    "thickness": {"from": "3/16", "to": 1.5}, "preheat_min": 50, "interpass_max": "550", "volts": [22, 28],
    "amps": ["90", 140], "heat_input_max": 45, "fillers": ["E7018, 1/8 in"], "source": "invented",
}  # fmt: skip


def keep(shop: Shop, *rows: Any) -> None:
    with shop.app.app_context(), writing() as session:
        book.put(session, rows, 5)


def logged(shop: Shop, **more: str) -> str:
    """The id of a pass that was pushed."""
    body = {"layer": "root", "welder": "fitter", "stamp": "F1", "procedure": "W-12", "lot": "L1", **more}
    text, payload = shop.record("fitter", "weld", body, step="fit", item="clean")
    assert shop.push(text)[0]["outcome"] == "taken in"
    return str(payload["id"])


def said(shop: Shop, record: str) -> tuple[str, str]:
    with shop.app.app_context():
        row = db.session.get_one(Record, record)
        return row.verdict, row.reason


def test_a_procedure_is_kept_as_plain_figures(shop: Shop) -> None:
    keep(shop, W12)
    with shop.app.app_context():
        document = db.session.get_one(Procedure, "W-12").document
    assert document == {
        "id": "W-12", "revision": "3", "name": "Groove, plate", "process": "SMAW", "positions": ["F", "V"],
        "thickness": {"from": "0.1875", "to": "1.5"}, "preheat_min": "50", "interpass_max": "550",
        "volts": ["22", "28"], "amps": ["90", "140"], "travel": None, "heat_input_max": "45",
        "fillers": ["E7018, 1/8 in"], "note": "", "source": "invented", "withdrawn": None,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"id": ""}, "id: is missing"),
        ({"id": "W" * 41}, "id: is longer than 40 characters or cannot be printed"),
        ({"name": None}, "name: is missing"),
        ({"process": "TIG"}, "process: 'TIG' is not one of SAW, SMAW, FCAW, GMAW, GTAW, PAW"),
        ({"positions": []}, "positions: name at least one of F, H, V, O"),
        ({"positions": ["F", "X"]}, "positions: 'X' is not one of F, H, V, O"),
        ({"positions": "F"}, "positions: must be a list of texts"),
        ({"thickness": {"from": "1/4"}}, "thickness: must be from and to, in inches"),
        ({"thickness": {"from": 2, "to": 1}}, "thickness: the lowest, 2, is above the highest, 1"),
        ({"preheat_min": "warm"}, "preheat_min: 'warm' is not a number. Type one such as 1 7/8 or .875."),
        ({"preheat_min": True}, "preheat_min: 'True' is not a number. Type one such as 1 7/8 or .875."),
        ({"interpass_max": -1}, "interpass_max: must not be below 0, and it is -1"),
        ({"volts": [28, 22]}, "volts: the lowest, 28, is above the highest, 22"),
        ({"amps": [90]}, "amps: must be the lowest and the highest, such as [90, 140]"),
        ({"amps": [None, 90]}, "amps: must be the lowest and the highest, such as [90, 140]"),
        ({"travel": 4}, "travel: must be the lowest and the highest, such as [90, 140]"),
        ({"heat_input_max": 0}, "heat_input_max: must be above 0, and it is 0"),
        ({"fillers": [7]}, "fillers: must be a list of texts"),
        ({"withdrawn": "2026-02-30"}, "withdrawn: '2026-02-30' is no day such as 2026-11-25"),
    ],
)
def test_a_fault_names_its_field(shop: Shop, change: dict[str, Any], says: str) -> None:
    with pytest.raises(FieldError) as caught:
        keep(shop, {**W12, **change})
    where = f"procedure {str({**W12, **change}['id'])[:40]}".strip()
    assert caught.value.faults == [f"{where}, {says}"]


def test_what_is_no_procedure_and_what_is_not_known_are_faults(shop: Shop) -> None:
    with pytest.raises(FieldError, match=r"procedure: must be keys(?s:.*)procedure W-12: there is no field 'amp'"):
        keep(shop, "W-12", {**W12, "amp": [1, 2]})
    with shop.app.app_context():
        assert db.session.scalar(select(Procedure)) is None, "all or nothing"


def test_passes_are_judged_by_the_procedure_and_anew_when_it_changes(shop: Shop) -> None:
    cold, hot = logged(shop), logged(shop, amps="150")
    assert said(shop, hot) == ("complete", "")
    keep(shop, W12)
    assert said(shop, cold) == ("recorded", "")
    assert said(shop, hot) == ("out of tolerance", "amps 150: W-12 asks 90 to 140 A")
    assert [(f["kind"], f["state"]) for f in shop.flags()] == [("out of tolerance", "open")]
    keep(shop, {**W12, "amps": [90, 150]})
    assert said(shop, hot) == ("in tolerance", "")
    assert shop.flags() == []
    keep(shop, {**W12, "withdrawn": "2026-11-20"})
    assert said(shop, cold) == ("unjudged", "the procedure W-12 is withdrawn since 2026-11-20")


def test_a_pass_is_judged_as_it_comes_in(shop: Shop) -> None:
    keep(shop, W12)
    assert said(shop, logged(shop, preheat="49"))[0] == "out of tolerance"
    assert said(shop, logged(shop, procedure="W-1"))[0] == "unjudged"


def test_phones_get_it_by_the_feed(shop: Shop) -> None:
    keep(shop, W12)
    feed = shop.sign_in("fitter").get("/api/v1/feed?scope=shop").get_json(force=True)
    [entry] = [one for one in feed["entries"] if one["kind"] == "procedure"]
    assert entry["body"]["amps"] == ["90", "140"]


def test_the_chain_gives_it_back(shop: Shop, tmp_path: Path) -> None:
    hot = logged(shop, amps="150")
    keep(shop, W12)
    with shop.app.app_context():
        assert list(verify(db.session(), shop.app.extensions["vault"])) == []
        back_up(db.session(), shop.app.extensions["vault"], tmp_path / "backup")
        kept = job_data(db.session(), JOB)
    (tmp_path / "new").mkdir()
    new = app_in(tmp_path / "new")
    made_ready(new)
    with new.app_context():
        restore(new.extensions["vault"], tmp_path / "backup", 9)
        assert job_data(db.session(), JOB) == kept
        assert db.session.get_one(Record, hot).verdict == "out of tolerance"
    close(new)


def test_an_altered_row_is_found(shop: Shop) -> None:
    keep(shop, W12)
    with shop.app.app_context(), writing() as session:
        session.get_one(Procedure, "W-12").document = {**W12, "amps": ["0", "999"]}
    with shop.app.app_context():
        [found] = verify(db.session(), shop.app.extensions["vault"])
    assert (found.kind, found.where) == ("row", "procedure W-12")


def test_the_command_keeps_a_files_list(shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("seamtag.cli.opened", lambda: shop.app)
    file = tmp_path / "procedures.yaml"
    file.write_text(yaml.safe_dump({"procedures": [W12, {**W12, "id": "W-13"}]}))
    done = CliRunner().invoke(main, ["procedures", str(file)])
    assert (done.output, done.exit_code) == ("2 procedures are kept.\n", 0)
    with shop.app.app_context():
        assert len(db.session.scalars(select(Entry.number).where(Entry.kind == "procedure")).all()) == 2


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("procedures: [", "is not YAML."),
        ("welds: []", "has no list under 'procedures:'."),
        ("- one", "has no list under 'procedures:'."),
        ("procedures: [{id: W-1}]", "Nothing was kept.\nprocedure W-1, name: is missing\n"),
    ],
)
def test_the_command_says_what_is_wrong(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str, says: str
) -> None:
    monkeypatch.setattr("seamtag.cli.opened", lambda: shop.app)
    (tmp_path / "file.yaml").write_text(text)
    done = CliRunner().invoke(main, ["procedures", str(tmp_path / "file.yaml")])
    assert done.exit_code == 1
    assert says in done.output
