"""Gauges, welding procedures and people at the desk: who may change them, and what is refused in words."""

from datetime import timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient

from seamtag.database import db
from seamtag.sync.verifying import verify
from tests.shop import Shop

pytestmark = pytest.mark.both_databases

GAUGE = {
    "id": "TG-9", "kind": "taper gauge", "name": "Taper gauge 9", "uom": "in", "uncertainty": ".005",
    "certificate": "C 9, invented", "calibrated": "2026-11-02", "due": "2027-11-02",
}  # fmt: skip

W12 = {
    "id": "W-12", "revision": "3", "name": "Groove, plate", "process": "SMAW", "positions": ["V", "F"],
    "thickness": {"from": "3/16", "to": "1.5"}, "preheat_min": "50", "volts": ["22", "28"], "amps": ["90", "140"],
    "heat_input_max": "45", "fillers": ["E7018, 1/8 in"], "source": "invented",
}  # fmt: skip


@pytest.fixture
def planner(shop: Shop) -> FlaskClient:
    return shop.sign_in("planner")


def verified(shop: Shop) -> list[Any]:
    with shop.app.app_context():
        return list(verify(db.session(), shop.app.extensions["vault"]))


def test_a_gauge_is_added_and_its_certificate_renewed(shop: Shop, planner: FlaskClient) -> None:
    made = planner.post("/api/v1/gauges", json=GAUGE)
    assert made.status_code == 201, made.text
    assert (made.get_json()["uncertainty"], made.get_json()["standing"]) == ("0.005", "in date")
    for due, standing in (("2020-01-01", "overdue"), ("", "no day")):
        again = planner.post("/api/v1/gauges", json={**GAUGE, "calibrated": "2019-01-01", "due": due})
        assert again.get_json()["standing"] == standing
    listed = planner.get("/api/v1/gauges").get_json()
    assert [(one["id"], one["standing"]) for one in listed] == [("TG", "in date"), ("TG-9", "no day")]
    assert verified(shop) == []


def test_a_new_certificate_judges_its_readings_anew(shop: Shop, planner: FlaskClient) -> None:
    text, _ = shop.reading("3/32")
    shop.push(text)
    coarse = {**GAUGE, "id": "TG", "uncertainty": "0.2"}
    assert planner.post("/api/v1/gauges", json=coarse).status_code == 201
    found = planner.get("/api/v1/gauges/TG/readings?since=2026-11-01").get_json()
    assert [one["verdict"] for one in found["readings"]] == ["in tolerance"], "its rule is simple: U is for show"
    assert verified(shop) == []


def test_a_certificate_with_faults_is_refused_with_all_of_them(planner: FlaskClient) -> None:
    wrong = {**GAUGE, "id": "tg", "uom": "inch", "uncertainty": "-1", "due": "2026-10-01", "calibrated": "2.11.26"}
    answer = planner.post("/api/v1/gauges", json=wrong)
    assert answer.status_code == 422
    says = answer.get_json()["message"]
    assert says.startswith("Not kept. gauge tg, uom: 'inch' is not one of in, ft, ")
    assert "gauge tg, calibrated: '2.11.26' is no day such as 2026-11-25" in says
    assert "gauge tg, id: there is TG already" in says
    before = planner.post("/api/v1/gauges", json={**GAUGE, "due": "2026-10-01"}).get_json()["message"]
    assert before == "Not kept. gauge TG-9, due: 2026-10-01 is before the calibration, 2026-11-02"


def test_the_readings_a_gauge_has_touched(shop: Shop, planner: FlaskClient) -> None:
    """Of this gauge alone, from the day on, the newest first."""
    first, _ = shop.reading("3/32", station="12")
    second, two = shop.reading("1", station="3")
    other, _ = shop.record(
        "inspector", "reading", {"entered": "3/32", "uom": "in"}, step="fit", item="gap", station="6"
    )
    shop.push(first, second, other)
    day = shop.clock.date()
    found = planner.get(f"/api/v1/gauges/TG/readings?since={day}").get_json()
    assert (found["count"], found["gauge"]["name"]) == (2, "Taper gauge")
    newest = found["readings"][0]
    assert newest["record"] == two["id"]
    assert {name: newest[name] for name in ("job", "mark", "station", "entered", "uom", "by", "verdict")} == {
        "job": "T1", "mark": "S-1", "station": "3", "entered": "1", "uom": "in", "by": "Inspector",
        "verdict": "out of tolerance",
    }  # fmt: skip
    void, _ = shop.record("inspector", "void", {"record": two["id"], "reason": "wrong seam"})
    shop.push(void)
    again = planner.get(f"/api/v1/gauges/TG/readings?since={day}").get_json()["readings"]
    assert [one["standing"] for one in again] == ["void", "in force"], "what is void already is told"
    assert planner.get(f"/api/v1/gauges/TG/readings?since={day + timedelta(days=1)}").get_json()["count"] == 0
    assert planner.get("/api/v1/gauges/TG/readings?since=now").status_code == 422
    assert planner.get("/api/v1/gauges/XX/readings?since=2026-11-20").status_code == 404


def test_a_procedure_is_added_replaced_and_withdrawn(shop: Shop, planner: FlaskClient) -> None:
    assert planner.post("/api/v1/procedures", json=W12).status_code == 201
    changed = {**planner.get("/api/v1/procedures").get_json()[0], "revision": "4", "withdrawn": "2026-11-30"}
    assert planner.post("/api/v1/procedures", json=changed).get_json() == changed
    assert planner.get("/api/v1/procedures").get_json() == [changed]
    assert verified(shop) == []


def test_a_procedure_with_faults_is_refused_with_all_of_them(planner: FlaskClient) -> None:
    answer = planner.post("/api/v1/procedures", json={**W12, "process": "MIG", "volts": ["30", "20"], "positions": []})
    assert answer.status_code == 422
    says = answer.get_json()["message"]
    assert "procedure W-12, process: 'MIG' is not one of SAW, " in says
    assert "procedure W-12, volts: the lowest, 30, is above the highest, 20" in says
    assert "procedure W-12, positions: name at least one of F, H, V, O" in says


@pytest.mark.parametrize(
    ("path", "body"), [("gauges", GAUGE), ("procedures", W12)], ids=["gauges", "procedures"]
)  # fmt: skip
def test_who_may_change_the_master_data(shop: Shop, path: str, body: dict[str, Any]) -> None:
    assert shop.app.test_client().get(f"/api/v1/{path}").status_code == 401
    assert shop.app.test_client().post(f"/api/v1/{path}", json=body).status_code == 401
    fitter = shop.sign_in("fitter")
    assert fitter.get(f"/api/v1/{path}").status_code == 200
    answer = fitter.post(f"/api/v1/{path}", json=body)
    assert (answer.status_code, answer.get_json()["message"][:12]) == (403, "This is for ")
    assert shop.sign_in("supervisor").post(f"/api/v1/{path}", json=body).status_code == 201


def person(**more: Any) -> dict[str, Any]:
    return {"id": "mason", "name": "Mason Ito", "roles": ["welder"], "stamp": "M7", **more}


def test_somebody_is_engaged_and_invited(shop: Shop, planner: FlaskClient) -> None:
    made = planner.post("/api/v1/people", json=person())
    assert made.status_code == 201, made.text
    listed = {one["id"]: one for one in planner.get("/api/v1/people").get_json()}
    assert (listed["mason"]["roles"], listed["mason"]["phones"]) == (["welder"], [])
    phone = listed["fitter"]["phones"][0]
    assert (phone["device"], phone["shut"], phone["last_heard"]) == (shop.phones["fitter"].device, False, None)
    invited = planner.post("/api/v1/invitations", json={"person": "mason"}).get_json()
    assert invited["address"] == f"https://tags.example/#/enrol/{invited['invitation']}"
    assert invited["symbol"]["side"] > 21
    assert invited["symbol"]["path"].startswith("M4 4h1v1h-1z")
    assert planner.post("/api/v1/people", json=person(roles=[])).get_json()["roles"] == [], "who leaves keeps none"
    assert verified(shop) == []


def test_when_a_phone_was_last_heard(shop: Shop, planner: FlaskClient) -> None:
    device = shop.phones["fitter"].device
    shop.sign_in("fitter").get(f"/api/v1/feed?scope=shop&device={device}&waiting=2")
    listed = {one["id"]: one for one in planner.get("/api/v1/people").get_json()}
    assert listed["fitter"]["phones"][0]["waiting"] == 2
    assert listed["fitter"]["phones"][0]["last_heard"] > 0


def test_only_a_supervisor_engages_who_decides(shop: Shop, planner: FlaskClient) -> None:
    for change in (
        person(roles=["engineer"]),
        person(id="supervisor", name="Supervisor", roles=["fitter"], stamp=""),
        person(id="planner", name="Planner", roles=["planner", "supervisor"], stamp=""),
    ):
        answer = planner.post("/api/v1/people", json=change)
        assert answer.status_code == 403
        assert answer.get_json()["message"].startswith("Only a supervisor engages")
    supervisor = shop.sign_in("supervisor")
    assert supervisor.post("/api/v1/people", json=person(roles=["engineer"])).status_code == 201
    fitter = shop.sign_in("fitter")
    assert fitter.get("/api/v1/people").status_code == 403
    assert fitter.post("/api/v1/people", json=person()).status_code == 403
    assert shop.app.test_client().post("/api/v1/people", json=person()).status_code == 401


def test_the_last_supervisor_stays_one(shop: Shop) -> None:
    supervisor = shop.sign_in("supervisor")
    less = person(id="supervisor", name="Supervisor", roles=["planner"], stamp="")
    answer = supervisor.post("/api/v1/people", json=less)
    assert answer.status_code == 422
    assert "Supervisor is the only supervisor. Make somebody else a supervisor first." in answer.get_json()["message"]
    supervisor.post("/api/v1/people", json=person(roles=["supervisor"]))
    assert supervisor.post("/api/v1/people", json=less).status_code == 201


def test_inspectors_have_a_commission_and_a_stand_in(shop: Shop) -> None:
    supervisor = shop.sign_in("supervisor")
    inspector = person(roles=["authorized inspector"], stamp="", commission="C 1, invented", stands_in_for="visitor")
    assert supervisor.post("/api/v1/people", json=inspector).get_json() == inspector
    listed = {one["id"]: one for one in supervisor.get("/api/v1/people").get_json()}
    assert (listed["mason"]["commission"], listed["visitor"]["commission"]) == ("C 1, invented", "")
    assert verified(shop) == []
    cleared = supervisor.post("/api/v1/people", json={**inspector, "commission": "", "stands_in_for": ""}).get_json()
    assert (cleared["commission"], cleared["stands_in_for"]) == ("", "")
    assert verified(shop) == []


def test_a_person_with_faults_is_refused_with_all_of_them(shop: Shop) -> None:
    supervisor = shop.sign_in("supervisor")
    supervisor.post("/api/v1/people", json=person())
    wrong = person(id="two", name="", roles=["boss"], commission="1", stands_in_for="fitter")
    answer = supervisor.post("/api/v1/people", json=wrong)
    assert answer.status_code == 422
    says = answer.get_json()["message"]
    assert "person two, name: is missing" in says
    assert "person two, roles: 'boss' is not one of layout, fitter, " in says
    assert "person two, commission: is for the role authorized inspector only" in says
    assert "person two, stands_in_for: 'fitter' is no other authorized inspector here" in says
    assert "person two, stamp: M7 is the stamp of Mason Ito" in says


QUALIFICATION = {
    "id": "Q-1", "person": "fitter", "process": "SMAW", "test": "pipe 6G", "coupon": "1/2", "layers": 3,
    "coupon_od": "2 7/8", "tested": "2026-03-01", "certificate": "invented",
}  # fmt: skip


def test_a_qualification_is_added_and_continued(shop: Shop, planner: FlaskClient) -> None:
    assert planner.post("/api/v1/qualifications", json=QUALIFICATION).status_code == 201
    found = planner.get("/api/v1/qualifications").get_json()
    assert [(one["name"], one["coupon_od"]) for one in found["held"]] == [("Fitter", "2.875")]
    lapse = found["lapses"][0]
    assert (lapse["process"], lapse["lapses"], lapse["lapsed"]) == ("SMAW", "2026-09-01", True)
    assert lapse["left"] < 0
    planner.post("/api/v1/qualifications", json={**QUALIFICATION, "continued": "2026-08-20"})
    assert planner.get("/api/v1/qualifications").get_json()["lapses"][0]["lapses"] == "2027-02-20"
    assert verified(shop) == []
    wrong = planner.post("/api/v1/qualifications", json={**QUALIFICATION, "continued": "2026-02-01", "test": "7G"})
    assert wrong.status_code == 422
    assert "qualification Q-1, continued: 2026-02-01 is before the test, 2026-03-01" in wrong.get_json()["message"]
    assert "qualification Q-1, test: '7G' is not one of plate 1G, " in wrong.get_json()["message"]
    assert shop.sign_in("inspector").post("/api/v1/qualifications", json=QUALIFICATION).status_code == 403
    assert shop.sign_in("fitter").get("/api/v1/qualifications").status_code == 403
