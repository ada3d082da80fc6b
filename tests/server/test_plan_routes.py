"""Plans by the server's interface: checked, published, given out again."""

import base64
import json
from typing import Any

import pytest
from flask.testing import FlaskClient

from seamtag.plans.files import document_of, template
from tests.shop import PLAN, Shop


def sent(content: bytes, **more: Any) -> dict[str, Any]:
    return {"name": "plan.xlsx", "content": base64.b64encode(content).decode(), **more}


@pytest.fixture
def planner(shop: Shop) -> FlaskClient:
    return shop.sign_in("planner")


def test_a_workbook_is_checked_with_figures(planner: FlaskClient) -> None:
    answer = planner.post("/api/v1/plans/check", json=sent(template(), figures={"t_shell": "3/8", "gap_nom": "1/8"}))
    assert answer.status_code == 200
    found = answer.get_json()
    assert (found["title"], found["steps"], found["faults"]) == ("Example: a seam from plate to test", 4, [])
    limits = {(one["step"], one["item"]): one["shown"] for one in found["limits"]}
    assert limits["fit", "offset"] == "at most 3/32 = 0.09375 in (at most 2.38 mm)"
    assert limits["fit", "gap"] == "3/32 = 0.09375 to 3/16 = 0.1875 in (2.39 to 4.76 mm)"
    assert limits["receipt", "t_meas"].startswith("limit not known: ")


def test_faults_come_all_at_once(planner: FlaskClient) -> None:
    text = PLAN.replace("binds: drawing", "binds: paper").replace('upper: "1/32"', 'upper: "1/x"')
    found = planner.post("/api/v1/plans/check", json=sent(text.encode())).get_json()
    assert [fault.split(": ")[0] for fault in found["faults"]] == [
        "step fit, item gap, binds",
        "step finished, item cut, upper",
    ]


def test_a_plan_is_published_and_given_out_again(planner: FlaskClient) -> None:
    made = planner.post("/api/v1/plans", json=sent(template()))
    assert made.status_code == 201
    plan = made.get_json()
    assert (plan["code"], plan["revision"]) == ("example", 1)
    again = planner.post("/api/v1/plans", json=sent(template())).get_json()
    assert again["hash"] == plan["hash"], "the same document is the same revision"
    for form in ("xlsx", "yaml"):
        file = planner.get(f"/api/v1/plans/{plan['hash']}/file?form={form}")
        assert document_of(file.data) == document_of(template())
        assert file.headers["Content-Disposition"] == f"attachment; filename=example-1.{form}"
    source = planner.get(f"/api/v1/plans/{plan['hash']}").get_json()["source"]
    source["steps"][0]["name"] = "Receipt of plates"
    changed = planner.post("/api/v1/plans", json=sent(repr_json(source)))
    assert changed.get_json()["revision"] == 2
    listed = planner.get("/api/v1/plans").get_json()
    assert [(one["code"], one["revision"], one["jobs"]) for one in listed] == [
        ("example", 2, []), ("example", 1, []), ("small", 1, ["T1"]),
    ]  # fmt: skip


def repr_json(source: dict[str, Any]) -> bytes:
    return json.dumps(source).encode()


@pytest.mark.parametrize("content", [b"", b"PK", b"{", b"[1]", b'{"plan": 1}', b"\xff\xfe", b"plan: x", b"[" * 100_000])
def test_what_is_no_plan_is_refused_in_words(planner: FlaskClient, content: bytes) -> None:
    checked = planner.post("/api/v1/plans/check", json=sent(content))
    assert checked.status_code == 200
    assert checked.get_json()["faults"]
    answer = planner.post("/api/v1/plans", json=sent(content))
    assert answer.status_code == 422
    assert answer.get_json()["message"].startswith("Not published. ")


def test_only_planners_publish(shop: Shop) -> None:
    answer = shop.sign_in("inspector").post("/api/v1/plans", json=sent(template()))
    assert answer.status_code == 403
    assert shop.app.test_client().get("/api/v1/plans").status_code == 401


def test_points_rules_and_stations_are_lines_in_the_editor(planner: FlaskClient) -> None:
    plan = planner.post("/api/v1/plans", json=sent(template())).get_json()
    source = planner.get(f"/api/v1/plans/{plan['hash']}").get_json()["source"]
    fit = source["steps"][1]
    assert fit["points"] == ["maker sign fitter", "QC H not maker", "AI W"]
    assert fit["not_before"] == ["receipt of joins"]
    assert fit["items"][0]["stations"] == "clock 12; 3; 6; 9 seen from the front"
    same = planner.post("/api/v1/plans", json=sent(repr_json(source))).get_json()
    assert same["hash"] == plan["hash"], "what was not touched is the same plan"
    fit["points"][2] = "AI H"
    fit["items"][0]["stations"] = "numbered 3"
    changed = planner.post("/api/v1/plans", json=sent(repr_json(source))).get_json()
    written = planner.get(f"/api/v1/plans/{changed['hash']}").get_json()["source"]["steps"][1]
    assert (written["points"][2], written["items"][0]["stations"]) == ("AI H", "numbered 3")
    fit["points"][2], fit["not_before"][0], fit["items"][0]["stations"] = "the inspector", "later", "everywhere"
    found = planner.post("/api/v1/plans/check", json=sent(repr_json(source))).get_json()["faults"]
    assert [fault.split(" cannot be read")[0] for fault in found[:3]] == [
        "step fit, points: 'the inspector'", "step fit, not_before: 'later'",
        "step fit, item gap, stations: 'everywhere'",
    ]  # fmt: skip
