"""Welders' qualifications: read strictly, kept in the chain, and every pass of who lacks one flagged."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner

from seamtag.cli import main
from seamtag.database import db, writing
from seamtag.fields import FieldError
from seamtag.people import qualifications
from seamtag.people.models import Qualification
from seamtag.procedures import book
from seamtag.sync.verifying import verify
from tests.server.test_procedures import W12
from tests.shop import Shop

pytestmark = pytest.mark.both_databases

TEST: dict[str, Any] = {
    "id": "Q-1", "person": "fitter", "process": "SMAW", "test": "pipe 6G", "coupon": "1/2", "layers": 3,
    "coupon_od": "2 7/8", "tested": "2026-03-01", "certificate": "invented",
}  # fmt: skip
"""Lapses on 2026-09-01."""


@pytest.fixture
def welding(shop: Shop) -> Shop:
    """The shop with a procedure and a qualification."""
    with shop.app.app_context(), writing() as session:
        book.put(session, [W12, {**W12, "id": "G-1", "process": "GTAW"}], 5)
        qualifications.put(session, [TEST], 5)
    return shop


def keep(shop: Shop, *rows: Any) -> None:
    with shop.app.app_context(), writing() as session:
        qualifications.put(session, rows, 5)


def at(shop: Shop, day: str) -> None:
    shop.clock = datetime.fromisoformat(f"{day}T13:00:00").replace(tzinfo=UTC)


def weld(shop: Shop, day: str, mark: str = "S-1", procedure: str = "W-12", welder: str = "fitter") -> tuple[str, str]:
    """The text and the id of a pass of a day."""
    at(shop, day)
    body = {"layer": "root", "welder": welder, "stamp": "F1", "procedure": procedure, "lot": "L1"}
    text, payload = shop.record("fitter", "weld", body, mark, step="fit", item="clean")
    return text, str(payload["id"])


def flagged(shop: Shop) -> dict[str, str]:
    """The reasons by record."""
    return {f["record"]: f["reason"] for f in shop.flags() if f["kind"] == "maker not qualified"}


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"person": "nobody"}, "person: there is nobody called 'nobody' here"),
        ({"process": "SAWS"}, "process: 'SAWS' is not one of SAW, SMAW, FCAW, GMAW, GTAW, PAW"),
        ({"test": "6G"}, "test: '6G' is not one of plate 1G"),
        ({"coupon": None}, "coupon: is missing"),
        ({"coupon": 0}, "coupon: must be above 0, and it is 0"),
        ({"layers": 0}, "layers: '0' must be a whole number from 1 to 999"),
        ({"layers": True}, "layers: 'True' must be a whole number from 1 to 999"),
        ({"coupon_od": "wide"}, "coupon_od: 'wide' is not a number"),
        ({"tested": None}, "tested: is missing"),
        ({"tested": "March"}, "tested: 'March' is no day such as 2026-11-25"),
        ({"continued": "2026-02-28"}, "continued: 2026-02-28 is before the test, 2026-03-01"),
        ({"years": 2}, "there is no field 'years'"),
    ],
)
def test_a_fault_names_its_field(shop: Shop, change: dict[str, Any], says: str) -> None:
    with pytest.raises(FieldError) as caught:
        keep(shop, {**TEST, **change})
    [fault] = caught.value.faults
    assert fault.startswith("qualification Q-1")
    assert says in fault


def test_a_qualification_stays_its_owners(welding: Shop) -> None:
    with pytest.raises(FieldError, match="id: it is a qualification of fitter"):
        keep(welding, {**TEST, "person": "inspector"})


def test_who_lacks_one_is_flagged_as_it_comes_in_and_until_he_has_one(welding: Shop) -> None:
    text, one = weld(welding, "2026-08-31", procedure="G-1")
    welding.push(text)
    assert flagged(welding) == {one: "Fitter: none for GTAW"}
    keep(welding, {**TEST, "id": "Q-2", "process": "GTAW"})
    assert flagged(welding) == {}


def test_a_lapse_is_flagged_and_a_proof_on_paper_undoes_it(welding: Shop) -> None:
    text, one = weld(welding, "2026-09-01")
    welding.push(text)
    assert flagged(welding) == {one: "Fitter: SMAW lapsed on 2026-09-01; last proof 2026-03-01"}
    keep(welding, {**TEST, "continued": "2026-08-14"})
    assert flagged(welding) == {}


@pytest.mark.parametrize("first", [True, False])
def test_a_weld_on_another_piece_keeps_him_up_whichever_comes_first(welding: Shop, first: bool) -> None:
    early, late = weld(welding, "2026-06-01", "P-1"), weld(welding, "2026-10-01", "S-1")
    welding.push(early[0] if first else late[0])
    assert flagged(welding) == ({} if first else {late[1]: "Fitter: SMAW lapsed on 2026-09-01; last proof 2026-03-01"})
    welding.push(late[0] if first else early[0])
    assert flagged(welding) == {}
    lapsed, _ = welding.record("fitter", "void", {"record": early[1], "reason": "not welded"}, "P-1")
    welding.push(lapsed)
    assert flagged(welding) == {late[1]: "Fitter: SMAW lapsed on 2026-09-01; last proof 2026-03-01"}
    with welding.app.app_context():
        assert list(verify(db.session(), welding.app.extensions["vault"])) == []


def test_a_supervisors_word_closes_it(welding: Shop) -> None:
    text, one = weld(welding, "2026-09-01")
    welding.push(text)
    about = {"records": [one], "flag": "maker not qualified"}
    body = {"about": about, "disposition": "use as is", "reason": "log of the other shop seen"}
    welding.push(welding.record("supervisor", "disposition", body)[0])
    assert [f["state"] for f in welding.flags() if f["kind"] == "maker not qualified"] == ["closed"]


def test_an_altered_row_is_found(welding: Shop) -> None:
    with welding.app.app_context(), writing() as session:
        session.get_one(Qualification, "Q-1").continued = "2026-11-01"
    with welding.app.app_context():
        found = list(verify(db.session(), welding.app.extensions["vault"]))
    assert [(one.kind, one.where) for one in found] == [("row", "qualification Q-1")]


def test_continuity_counts_the_welds_of_every_job(welding: Shop) -> None:
    welding.push(
        weld(welding, "2026-08-14")[0], weld(welding, "2026-11-30")[0], weld(welding, "2026-12-01", procedure="G-1")[0]
    )
    keep(welding, {**TEST, "id": "Q-3", "person": "inspector", "process": "GTAW", "tested": "2026-01-31"})
    with welding.app.app_context():
        found = qualifications.continuity(db.session(), "2026-11-25")
    assert [(one.person, one.process, one.last, one.lapses, one.lapsed) for one in found] == [
        ("inspector", "GTAW", "2026-01-31", "2026-07-31", True),
        ("fitter", "SMAW", "2026-08-14", "2027-02-14", False),
    ]


def run(shop: Shop, monkeypatch: pytest.MonkeyPatch, *words: str) -> str:
    monkeypatch.setattr("seamtag.cli.opened", lambda: shop.app)
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 0, done.output
    return str(done.output)


def test_the_commands_keep_and_list(shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert run(shop, monkeypatch, "continuity") == "No qualification is kept.\n"
    file = tmp_path / "qualifications.yaml"
    long_ago, today = {**TEST, "tested": "2001-03-31"}, datetime.now(UTC).date().isoformat()
    file.write_text(
        yaml.safe_dump({"qualifications": [long_ago, {**TEST, "id": "Q-2", "process": "GTAW", "tested": today}]})
    )
    assert run(shop, monkeypatch, "qualifications", str(file)) == "2 qualifications are kept.\n"
    first, second = run(shop, monkeypatch, "continuity").splitlines()
    assert first.split(maxsplit=1) == ["SMAW", "Fitter: last proof 2001-03-31, lapsed on 2001-09-30"]
    assert f"last proof {today}, lapses on" in second
    assert run(shop, monkeypatch, "continuity", "--days", "30").count("\n") == 1
