"""Jobs by the server's interface: opened from a list, changed with a preview, looked at stage by stage, traced."""

import base64
import time
from pathlib import Path
from typing import Any

import pytest
import yaml
from flask.testing import FlaskClient

from seamtag.database import db, writing
from seamtag.jobs import lists
from seamtag.jobs.advice import advice_on
from seamtag.jobs.models import Piece
from seamtag.jobs.opening import open_job, pieces_of
from seamtag.plans.models import PlanRevision
from seamtag.plans.reading import read as read_plan
from seamtag.records.rejudging import rejudge
from seamtag.sync.verifying import verify
from tests.shop import JOB, PIECES, PLAN, SOURCE, Shop

ROWS = [
    {"mark": "V", "kind": "vessel", "name": "the vessel"},
    {"mark": "PL-1", "kind": "plate", "part of": "V", "size": "1/4", "place": "top edge"},
    {"mark": "PL-2", "kind": "plate", "part of": "V", "size": "1/4", "place": "top edge"},
    {"mark": "L-1", "kind": "seam", "part of": "V", "joins": "PL-1, PL-2", "place": "beside the seam"},
]


pytestmark = pytest.mark.both_databases


@pytest.fixture
def planner(shop: Shop) -> FlaskClient:
    return shop.sign_in("planner")


@pytest.fixture
def visitor(shop: Shop) -> FlaskClient:
    return shop.sign_in("visitor")


def new_job(shop: Shop, **more: Any) -> dict[str, Any]:
    plan = shop.basis["plan"]
    return {"job": "T2", "title": "Another", "plan": plan, "figures": {"gap_nom": "1/8"}, "rows": ROWS, **more}


def as_file(shop: Shop, rows: list[dict[str, Any]]) -> dict[str, str]:
    with shop.app.app_context():
        document = db.session.get_one(PlanRevision, shop.basis["plan"]).document
    return {"name": "pieces.xlsx", "content": base64.b64encode(lists.write(rows, document)).decode()}


def test_jobs_are_listed(visitor: FlaskClient, shop: Shop) -> None:
    plan = {"hash": shop.basis["plan"], "code": "small", "revision": 1}
    assert visitor.get("/api/v1/jobs").get_json() == [
        {"id": JOB, "title": "A small vessel", "open": True, "plan": plan, "pieces": 4}
    ]


def test_a_job_is_opened_from_typed_rows(planner: FlaskClient, shop: Shop) -> None:
    answer = planner.post("/api/v1/jobs", json=new_job(shop, drawings={"1": "A"}))
    assert answer.status_code == 201, answer.text
    assert answer.get_json()["pieces"] == 4
    pieces = planner.get("/api/v1/jobs/T2/pieces").get_json()
    assert [(one["mark"], one["part_of"], one["joins"]) for one in pieces] == [
        ("V", [], []), ("PL-1", ["V"], []), ("PL-2", ["V"], []), ("L-1", ["V"], ["PL-1", "PL-2"]),
    ]  # fmt: skip
    page = planner.get("/api/v1/jobs/T2").get_json()
    assert page["figures"] == [{"name": "gap_nom", "what": "root opening", "uom": "in", "typed": "1/8"}]
    assert page["drawings"] == {"1": "A"}
    assert page["changes"][0]["by"] == "Planner"


def test_a_job_is_opened_from_a_workbook(planner: FlaskClient, shop: Shop) -> None:
    answer = planner.post("/api/v1/jobs", json=new_job(shop, rows=[], file=as_file(shop, PIECES)))
    assert answer.status_code == 201, answer.text
    given = planner.get("/api/v1/jobs/T2/pieces.xlsx")
    assert given.headers["Content-Disposition"] == "attachment; filename=pieces-T2.xlsx"
    with shop.app.app_context():
        document = db.session.get_one(PlanRevision, shop.basis["plan"]).document
        back = lists.read(given.data, "pieces.xlsx", document)
    assert pieces_of("T2", back) == pieces_of("T2", PIECES)


def test_all_faults_are_told_at_once(planner: FlaskClient, shop: Shop) -> None:
    rows = [{**ROWS[1], "part of": "W", "size": ""}, {**ROWS[3], "kind": "saem"}]
    data = new_job(shop, job=JOB, title=" ", rows=rows, figures={"gap_nom": "1/8x", "gap_nim": "1"})
    found = planner.post("/api/v1/jobs/check", json=data).get_json()
    assert found["faults"] == [
        "the job's number: there is a job T1 already",
        "the job's title is missing",
        "figure gap_nim: the plan asks for no such figure; is 'gap_nom' meant?",
        found["faults"][3],
        "row 1, column part of: 'W' is no mark of this list",
        "row 1, column size: is missing; a limit of its steps asks for it",
        "row 2, column kind: no step is for the kind 'saem', and nothing is a part of this piece; is 'seam' meant?",
        "row 2, column part of: 'V' is no mark of this list",
        "row 2, column joins: 'PL-2' is no mark of this list",
    ]
    assert found["faults"][3].startswith("figure gap_nom: ")
    answer = planner.post("/api/v1/jobs", json=data)
    assert answer.status_code == 422
    assert answer.get_json()["message"].startswith("Not opened. the job's number: there is a job T1 already · ")
    assert [job["id"] for job in planner.get("/api/v1/jobs").get_json()] == [JOB]


@pytest.mark.parametrize(("number", "says"), [("a/b", "no stroke"), ("", "1 to 40"), ("T1.P-1", "")])
def test_the_number_of_a_job(planner: FlaskClient, shop: Shop, number: str, says: str) -> None:
    faults = planner.post("/api/v1/jobs/check", json=new_job(shop, job=number)).get_json()["faults"]
    assert any(says in fault for fault in faults) if says else faults == []


def test_a_piece_of_another_job_has_the_name(planner: FlaskClient, shop: Shop) -> None:
    assert planner.post("/api/v1/jobs", json=new_job(shop, job="1.2", rows=ROWS[:1])).status_code == 422
    assert planner.post("/api/v1/jobs", json=new_job(shop, job="1.2", rows=ROWS)).status_code == 201
    rows = [{**ROWS[1], "mark": "2.PL-1", "part of": ""}]
    answer = planner.post("/api/v1/jobs/check", json=new_job(shop, job="1", rows=rows))
    assert answer.get_json()["faults"] == ["piece 2.PL-1: job 1.2 has a piece of this name"]


def test_advice_stops_nothing(planner: FlaskClient, shop: Shop) -> None:
    rows = [ROWS[0], {**ROWS[1], "size": "6.35"}, *ROWS[2:], {"mark": "L-9", "kind": "seam"}]
    found = planner.post("/api/v1/jobs/check", json=new_job(shop, rows=rows)).get_json()
    assert found["faults"] == []
    assert found["advice"] == [
        "2 pieces have no place for the tag: V, L-9. Say where it goes.",
        "1 piece has nothing under 'joins', though the kind is a joint: L-9.",
        "piece PL-1: figure size: 6.35 in is unusually large for ordered thickness. In mm it would be 0.250 in.",
    ]
    assert [piece["mark"] for piece in found["pieces"]] == ["V", "PL-1", "PL-2", "L-1", "L-9"]


def test_pieces_are_added_and_may_name_those_there(planner: FlaskClient, shop: Shop) -> None:
    rows = [{"mark": "S-2", "kind": "seam", "joins": "P-1, P-3"}, {"mark": "P-3", "kind": "plate", "size": "1/4"}]
    answer = planner.post(f"/api/v1/jobs/{JOB}/pieces", json={"rows": rows})
    assert answer.status_code == 201, answer.text
    assert [one["mark"] for one in answer.get_json()] == ["V", "P-1", "P-2", "S-1", "S-2", "P-3"]
    again = planner.post(f"/api/v1/jobs/{JOB}/pieces", json={"rows": rows})
    assert again.status_code == 422
    assert "row 1, column mark: the job has a piece 'S-2' already" in again.get_json()["message"]


def test_who_may_do_what(shop: Shop) -> None:
    inspector, supervisor = shop.sign_in("inspector"), shop.sign_in("supervisor")
    change = {"figures": {"gap_nom": "1/8"}}
    assert inspector.post("/api/v1/jobs", json=new_job(shop)).status_code == 403
    assert inspector.post(f"/api/v1/jobs/{JOB}/close").status_code == 403
    assert supervisor.post(f"/api/v1/jobs/{JOB}/basis", json={**change, "reason": "B"}).status_code == 403
    assert supervisor.post(f"/api/v1/jobs/{JOB}/basis/preview", json=change).status_code == 200
    assert inspector.get("/api/v1/board").status_code == 200
    assert shop.app.test_client().get("/api/v1/board").status_code == 401


def test_a_job_is_closed_and_opened_again(planner: FlaskClient, shop: Shop) -> None:
    assert planner.post(f"/api/v1/jobs/{JOB}/close").get_json()["open"] is False
    assert planner.post(f"/api/v1/jobs/{JOB}/close").status_code == 409
    assert planner.get("/api/v1/board").get_json()["jobs"] == []
    assert planner.post(f"/api/v1/jobs/{JOB}/open").get_json()["open"] is True
    assert planner.post("/api/v1/jobs/T9/open").status_code == 404


def released_receipt(shop: Shop, mark: str = "P-1", heat: str = "H 4471") -> None:
    """The receipt of a plate, recorded and released."""
    place = {"mark": mark, "step": "receipt"}
    heats, one = shop.record("inspector", "text", {"value": heat}, item="heat", **place)
    thick, other = shop.record("inspector", "reading", {"entered": "0.25", "uom": "in"}, item="thick", **place)
    covers = [one["id"], other["id"]]
    signed, _ = shop.record("inspector", "sign-off", {"party": "QC", "covers": covers}, **place)
    shop.push(heats, thick, signed)


def test_a_preview_tells_what_a_change_undoes_and_writes_nothing(planner: FlaskClient, shop: Shop) -> None:
    shop.push(*(shop.reading("3/32", station=station)[0] for station in ("12", "3", "6", "9")))
    before = shop.head()
    found = planner.post(f"/api/v1/jobs/{JOB}/basis/preview", json={"figures": {"gap_nom": "1/4"}}).get_json()
    assert [(one["mark"], one["item"], one["station"], one["says"], one["before"], one["after"])
            for one in found["verdicts"]] == [
        ("S-1", "Root opening", station, "3/32 in", "in tolerance", "out of tolerance")
        for station in ("12", "3", "6", "9")
    ]  # fmt: skip
    assert [(one["mark"], one["step"], one["before"], one["after"]) for one in found["again"]] == [
        ("S-1", "fit", "started", "started")
    ]
    assert found["releases"] == []
    assert shop.head() == before


def test_a_new_plan_revision_takes_releases_away(planner: FlaskClient, shop: Shop) -> None:
    released_receipt(shop)
    text = PLAN.replace('"size - 0.01"', '"size - 0.001"')
    plan = planner.post("/api/v1/plans", json={"name": "p", "content": base64.b64encode(text.encode()).decode()})
    change = {"plan": plan.get_json()["hash"]}
    found = planner.post(f"/api/v1/jobs/{JOB}/basis/preview", json=change).get_json()
    assert [(one["mark"], one["step"], one["party"], one["by"], one["reason"]) for one in found["releases"]] == [
        ("P-1", "receipt", "QC", "Inspector", "plan changed")
    ]
    assert [(one["says"], one["before"], one["after"]) for one in found["verdicts"]] == [
        ("0.25 in", "in tolerance", "in tolerance")
    ]
    assert [(one["mark"], one["before"], one["after"]) for one in found["again"]] == [("P-1", "released", "started")]
    made = planner.post(f"/api/v1/jobs/{JOB}/basis", json={**change, "reason": "tighter by the drawing"})
    assert made.status_code == 201, made.text
    assert made.get_json()["plan"]["revision"] == 2
    assert made.get_json()["changes"][0]["reason"] == "tighter by the drawing"
    row = planner.get("/api/v1/board").get_json()["jobs"][0]
    assert row["stages"][0]["released"] == 0


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({}, "nothing would change"),
        ({"figures": {"gap_nom": "3/32"}}, "nothing would change"),
        ({"figures": {"gap_nim": "1"}}, "is 'gap_nom' meant?"),
        ({"figures": {"gap_nom": "x"}}, "figure gap_nom: "),
        ({"plan": "0" * 64}, "no such revision"),
    ],
)
def test_a_change_that_cannot_be_is_refused(
    planner: FlaskClient, shop: Shop, change: dict[str, Any], says: str
) -> None:
    for path, more in (("basis/preview", {}), ("basis", {"reason": "so"})):
        answer = planner.post(f"/api/v1/jobs/{JOB}/{path}", json={**change, **more})
        assert answer.status_code == 422
        assert says in answer.get_json()["message"]
    without = {"figures": {"gap_nom": "1"}, "reason": " "}
    assert planner.post(f"/api/v1/jobs/{JOB}/basis", json=without).status_code == 422


def test_the_board_counts_stage_by_stage(planner: FlaskClient, shop: Shop) -> None:
    released_receipt(shop)
    place = {"mark": "P-2", "step": "receipt"}
    thick, _ = shop.record("inspector", "reading", {"entered": "0.25", "uom": "in"}, item="thick", **place)
    heat, one = shop.record("inspector", "text", {"value": "K 77"}, item="heat", **place)
    shop.push(thick, heat)
    row = planner.get("/api/v1/board").get_json()["jobs"][0]
    assert row["stages"][0] == {"number": "1", "name": "Fit-up", "asked": 3, "released": 1, "complete": 1,
                                "flagged": 0, "blocked": 0, "open": 1}  # fmt: skip
    assert row["stages"][1]["blocked"] == 1
    assert row["waiting_for"] == {"QC": 1}
    assert [(one["mark"], one["number"], one["party"]) for one in row["waits"]] == [("P-2", "1.1", "QC")]
    assert row["waits"][0]["since"] == one["at"]


def test_a_board_is_folded_again_for_the_touched_job_only(
    planner: FlaskClient, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    from seamtag.jobs import board

    planner.post("/api/v1/jobs", json=new_job(shop))
    folded: list[str] = []
    whole = board.Fold.row
    monkeypatch.setattr(board.Fold, "row", lambda self: (folded.append(self.job.data["id"]), whole(self))[1])
    for expected in (["T1", "T2"], [], ["T1"]):
        folded.clear()
        planner.get("/api/v1/board")
        assert folded == expected
        if not expected:
            shop.push(shop.reading("3/32")[0])


def scrapped(shop: Shop, mark: str = "P-2") -> None:
    text, one = shop.record("inspector", "reading", {"entered": "0.1", "uom": "in"}, mark, step="receipt", item="thick")
    shop.push(text)
    about = {"records": [one["id"]], "flag": "out of tolerance"}
    body = {"about": about, "disposition": "scrap", "reason": "too thin"}
    shop.push(shop.record("supervisor", "disposition", body, mark, step="receipt", item="thick")[0])


def test_a_scrapped_piece_is_remade(planner: FlaskClient, shop: Shop) -> None:
    path = f"/api/v1/jobs/{JOB}/pieces/{JOB}.P-2/remade"
    assert "P-2 is not scrapped" in planner.post(path).get_json()["message"]
    scrapped(shop)
    answer = planner.post(path)
    assert answer.status_code == 201, answer.text
    found = answer.get_json()
    assert (found["piece"]["mark"], found["piece"]["part_of"], found["piece"]["figures"]) == (
        "P-2-R1", ["V"], {"size": "1/4"},
    )  # fmt: skip
    assert (found["moved"], found["left"]) == (["S-1"], [])
    pieces = {one["mark"]: one for one in planner.get(f"/api/v1/jobs/{JOB}/pieces").get_json()}
    assert list(pieces) == ["V", "P-1", "P-2", "S-1", "P-2-R1"], "a renewed piece keeps its place"
    assert pieces["S-1"]["joins"] == ["P-1", "P-2-R1"]
    assert pieces["P-2"]["remade"] == "P-2-R1"
    assert planner.get("/api/v1/board").get_json()["jobs"][0]["pieces"] == 4
    assert "remade already, as P-2-R1" in planner.post(path).get_json()["message"]
    scrapped(shop, "P-2-R1")
    again = planner.post(f"/api/v1/jobs/{JOB}/pieces/{JOB}.P-2-R1/remade").get_json()
    assert again["piece"]["mark"] == "P-2-R2"


def test_a_joint_with_records_stays_as_it_was_made(planner: FlaskClient, shop: Shop) -> None:
    shop.push(shop.reading("3/32")[0])
    scrapped(shop)
    found = planner.post(f"/api/v1/jobs/{JOB}/pieces/{JOB}.P-2/remade").get_json()
    assert (found["moved"], found["left"]) == ([], ["S-1"])


def test_what_the_office_wrote_is_derived_again_from_the_chain(planner: FlaskClient, shop: Shop) -> None:
    scrapped(shop)
    planner.post(f"/api/v1/jobs/{JOB}/pieces/{JOB}.P-2/remade")
    planner.post("/api/v1/jobs", json=new_job(shop))
    planner.post("/api/v1/jobs/T2/close")
    with shop.app.app_context():
        assert list(verify(db.session(), shop.app.extensions["vault"])) == []
        assert list(rejudge()) == []


@pytest.mark.parametrize("asked", ["H 4471", "h4471", " H4471 "])
def test_a_heat_is_traced_into_the_vessel(visitor: FlaskClient, shop: Shop, asked: str) -> None:
    released_receipt(shop)
    found = visitor.get("/api/v1/trace", query_string={"heat": asked}).get_json()
    assert [(one["job"], one["mark"], one["what"], one["number"], one["standing"]) for one in found] == [
        (JOB, "P-1", "Heat number", "H 4471", "in force")
    ]
    assert [(one["mark"], one["how"]) for one in found[0]["into"]] == [("V", "part of"), ("S-1", "joined by")]
    assert visitor.get("/api/v1/trace?heat=H447").get_json() == []
    assert visitor.get("/api/v1/trace?heat=").status_code == 422


def test_a_filler_lot_is_traced_by_its_own_heat(visitor: FlaskClient, planner: FlaskClient, shop: Shop) -> None:
    """The lot a weld names is the mark of a piece, on which the maker's lot number is recorded."""
    planner.post(f"/api/v1/jobs/{JOB}/pieces", json={"rows": [{"mark": "FL-1", "kind": "plate", "size": "1/8"}]})
    shop.push(shop.record("inspector", "text", {"value": "4C-118"}, "FL-1", step="receipt", item="heat")[0])
    weld = {"layer": "root", "welder": "fitter", "stamp": "F1", "procedure": "W-1", "lot": "FL-1"}
    shop.push(shop.record("fitter", "weld", weld, step="fit", item="clean")[0])
    (found,) = visitor.get("/api/v1/trace?heat=4c-118").get_json()
    assert [(one["mark"], one["how"]) for one in found["into"]] == [("S-1", "welded with"), ("V", "part of")]
    made = visitor.get(f"/api/v1/jobs/{JOB}/trace/{JOB}.V").get_json()
    assert {(one["mark"], one["number"], one["how"]) for one in made} == {
        ("S-1", "FL-1", "part"), ("FL-1", "4C-118", "filler"),
    }  # fmt: skip


def test_a_piece_tells_what_is_in_it(visitor: FlaskClient, shop: Shop) -> None:
    released_receipt(shop)
    weld = {"layer": "root", "welder": "fitter", "stamp": "F1", "procedure": "W-1", "lot": "L 9"}
    shop.push(shop.record("fitter", "weld", weld, step="fit", item="clean")[0])
    for mark, expected in (("V", {("P-1", "part"), ("S-1", "part")}), ("S-1", {("S-1", "itself"), ("P-1", "joined")}),
                           ("P-1", {("P-1", "itself"), ("S-1", "joint")})):  # fmt: skip
        found = visitor.get(f"/api/v1/jobs/{JOB}/trace/{JOB}.{mark}").get_json()
        assert {(one["mark"], one["how"]) for one in found} == expected, mark
    assert visitor.get(f"/api/v1/jobs/{JOB}/trace/none").status_code == 404
    (lot,) = visitor.get("/api/v1/trace?heat=l9").get_json()
    assert (lot["mark"], lot["type"]) == ("S-1", "weld")


FAR = {"name": "L_tubes", "what": "tube length between the sheets", "uom": "in"}


@pytest.mark.parametrize(
    ("typed", "kinds", "said"),
    [("21'", ["tube sheet"], True), ("20'", ["tube sheet"], False), ("240.1 in", ["tube sheet"], True),
     ("300", ["tube sheet", "support plate"], False), ("300", ["plate"], False)],
)  # fmt: skip
def test_tube_sheets_far_apart_want_a_support_plate(typed: str, kinds: list[str], said: bool) -> None:
    """Common practice, no source: tubes longer than 20 ft are held between their sheets."""
    document = {"figures": {"L": FAR}, "piece_figures": {}, "steps": []}
    pieces = [{"mark": kind, "kind": kind, "place": "edge"} for kind in kinds]
    found = advice_on({"pieces": pieces, "figures": {"L": typed.removesuffix(" in")}}, document)
    assert [one.startswith(f"figure L: {typed} is more than 20 ft") for one in found] == [True] * said


@pytest.mark.parametrize("name", ["wetback", "receiver"])
def test_the_demonstration_wants_no_advice(name: str) -> None:
    folder = Path(__file__).resolve().parents[2] / "seed_demo"
    document = read_plan((folder / f"{name}_plan.yaml").read_text(encoding="utf-8"))
    assert advice_on(yaml.safe_load((folder / f"{name}_job.yaml").read_text(encoding="utf-8")), document) == []


def test_5000_pieces_open_within_seconds(shop: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    """5 s on a machine that does nothing else; three times that is let pass under load."""
    pieces = [{"mark": f"P-{i}", "kind": "plate", "figures": {"size": "1/4"}} for i in range(2500)]
    pieces += [{"mark": f"S-{i}", "kind": "seam", "joins": [f"P-{i}", f"P-{i - 1}"]} for i in range(1, 2501 - 1)]
    with shop.app.app_context(), writing() as session:
        plan = session.get_one(PlanRevision, shop.basis["plan"])
        begun = time.perf_counter()
        open_job(session, {**SOURCE, "job": "T5", "pieces": pieces}, plan, 1)
        took = time.perf_counter() - begun
        assert session.query(Piece).filter(Piece.job == "T5").count() == len(pieces)
    with capsys.disabled():
        print(f"\n{len(pieces):,} pieces opened in {took:.2f} s")
    assert took < 15
