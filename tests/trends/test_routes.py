"""What the trends answer: columns and figures of an item, who sees names, shares, stages, and the study of a gauge."""

import base64
import io
import random
from collections.abc import Sequence
from typing import Any

import pytest
import yaml
from openpyxl import Workbook

from seamtag.database import db, writing
from seamtag.plans.reading import read
from seamtag.trends import stages
from seamtag.trends.models import Measured, Series
from seamtag.trends.schemas import ItemTrendSchema, ProportionsSchema, StagesSchema, StudySchema
from seamtag.trends.statistics import capability, ewma_limits, individuals, wilson
from tests.shop import PLAN, Shop

DICE = random.Random(4)
VALUES = [round(DICE.gauss(0.1, 0.01), 4) for _ in range(120)]


def measured(shop: Shop, values: Sequence[float], **common: Any) -> None:
    """Rows of one item, as the records would have left them; numbers of the chain go on where others are."""
    with shop.app.app_context(), writing() as session:
        start = session.query(Measured).count()
        place = {"plan": "small", "step": "fit", "item": "gap"}
        place |= {name: common[name] for name in place if name in common}
        for at, value in enumerate(values, start + 1):
            row = {
                "id": f"{at:06}", "record": f"{at:06}", "number": at, "job": "T1", "piece": "T1.S-1", "mark": "S-1",
                "kind": "seam", "station": "12", "by": "inspector", "gauge": "TG", "procedure": "", "received": 2**40,
                "at": "2026-11-20T08:00:00-05:00", "value": value, "lower": 0.05, "upper": 0.15, "uom": "in",
                "verdict": "in tolerance", "standing": "in force", **place,
            }  # fmt: skip
            session.add(Measured(**{**row, **common}))
        series = session.get(Series, tuple(place.values()))
        if series is None:
            session.add(Series(**place, step_number="2", step_name="Fit-up", name="Root opening", uom="in",
                               count=len(values), last=start))  # fmt: skip
        else:
            series.count += len(values)


def ask(shop: Shop, path: str = "series", who: str = "supervisor", **query: Any) -> dict[str, Any]:
    given = {"step": "fit", "item": "gap", **query} if path == "series" else query
    answer = shop.sign_in(who).get(f"/api/v1/trends/{path}", query_string=given)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.get_json()
    return found


def refused(shop: Shop, path: str = "series", who: str = "supervisor", **query: Any) -> tuple[int, str]:
    answer = shop.sign_in(who).get(f"/api/v1/trends/{path}", query_string=query)
    return answer.status_code, answer.text


def test_a_reading_pushed_is_in_the_list_and_in_the_trend(shop: Shop) -> None:
    first = shop.reading("3/32", station="3")[0]
    text, _ = shop.reading("1/4")
    shop.push(text, first)
    (item,) = shop.sign_in("fitter").get("/api/v1/trends").get_json()
    assert (item["plan"], item["step"], item["item"], item["uom"], item["count"]) == ("small", "fit", "gap", "in", 2)
    found = ask(shop)
    assert found["plan"] == "small"
    points = found["points"]
    assert points["value"] == [0.09375, 0.25]
    assert points["verdict"] == ["in tolerance", "out of tolerance"]
    assert points["by"] == ["inspector"] * 2
    assert points["piece"] == ["T1.S-1"] * 2
    assert found["people"] == {"inspector": "Inspector"}
    assert found["verdicts"] == {"in tolerance": 1, "out of tolerance": 1}


def test_the_answer_is_as_its_schema_says(shop: Shop) -> None:
    """It is written without passing through the schema, so this holds one to the other."""
    measured(shop, VALUES[:40])
    assert ItemTrendSchema().validate(ask(shop)) == {}
    assert ItemTrendSchema().validate(ask(shop, gauge="none such")) == {}
    measured(shop, VALUES[:2], upper=0.16)
    assert "position" in ask(shop)["points"]
    assert ItemTrendSchema().validate(ask(shop, who="fitter")) == {}
    assert StagesSchema().validate(ask(shop, "stages", plan="small", item="gap")) == {}
    assert ProportionsSchema().validate(ask(shop, "proportions", days=7)) == {}


def test_the_baseline_is_the_first_hundred_or_all(shop: Shop) -> None:
    measured(shop, VALUES)
    for baseline, count in (("first", 100), ("all", 120)):
        found, wanted = ask(shop, baseline=baseline), individuals(VALUES[:count])
        assert found["control"]["baseline"] == count
        assert found["control"]["centre"] == pytest.approx(wanted.centre)
        assert found["control"]["upper"] == pytest.approx(wanted.upper)


def test_the_average_and_its_limits(shop: Shop) -> None:
    measured(shop, VALUES[:30])
    found, own = ask(shop, weight=0.5), individuals(VALUES[:30])
    level = own.centre
    for value, shown in zip(VALUES, found["ewma"]["values"], strict=False):
        level += 0.5 * (value - level)
        assert shown == pytest.approx(level)
    assert found["ewma"]["upper"][0] == pytest.approx(ewma_limits(own.centre, own.sigma, 0.5, 3, 1).high)
    assert found["ewma"]["upper"][-1] == pytest.approx(ewma_limits(own.centre, own.sigma, 0.5, 3).high)


def test_a_signal_stands_at_its_point(shop: Shop) -> None:
    measured(shop, [0.1, 0.101] * 20 + [0.12])
    assert ask(shop)["signals"] == {"beyond-3": [40], "eight-on-one-side": []}
    assert ask(shop, rules="fourteen-alternating")["signals"]["fourteen-alternating"][:2] == [13, 14]
    assert ask(shop, rules="")["signals"] == {}


def test_capability_between_two_limits_that_are_alike(shop: Shop) -> None:
    measured(shop, VALUES)
    found = ask(shop)
    whole = found["summary"]
    wanted = capability(whole["mean"], whole["sd"], 120, 0.05, 0.15)
    assert found["capability"]["sides"] == "both"
    assert found["capability"]["cp"]["value"] == pytest.approx(0.1 / 6 / whole["sd"])
    assert found["capability"]["cpk"]["interval"]["low"] == pytest.approx(wanted.cpk.interval.low)


def test_capability_beside_a_single_limit(shop: Shop) -> None:
    measured(shop, VALUES[:20], lower=None)
    found = ask(shop)["capability"]
    assert (found["sides"], found["cp"]) == ("upper", None)
    assert found["cpk"]["value"] > 0


def test_where_limits_differ_the_statistics_are_of_positions(shop: Shop) -> None:
    measured(shop, [0.1, 0.12])
    measured(shop, [0.1, 0.15], lower=0.1, upper=0.2)
    found = ask(shop)
    assert (found["scale"], found["unit"], found["lower"], found["upper"]) == ("position", "half tolerance", -1, 1)
    assert found["points"]["position"] == pytest.approx([0, 0.4, -1, 0])
    assert found["capability"]["sides"] == "both", "the tolerances are all as wide"
    measured(shop, [0.1], upper=0.3)
    assert ask(shop)["capability"]["why"] == "tolerances differ"


def test_beside_single_limits_that_differ_the_distance_counts(shop: Shop) -> None:
    measured(shop, [0.1, 0.12], lower=None, upper=0.15)
    measured(shop, [0.2], lower=None, upper=0.25)
    found = ask(shop)
    assert (found["unit"], found["lower"], found["upper"]) == ("uom", None, 0)
    assert found["points"]["position"] == pytest.approx([-0.05, -0.03, -0.05])
    assert found["capability"]["sides"] == "upper"


def test_limits_on_different_sides_are_not_compared(shop: Shop) -> None:
    measured(shop, [0.1, 0.11])
    measured(shop, [0.1, 0.12], lower=None)
    found = ask(shop)
    assert (found["scale"], found["why"], found["control"]) == ("none", "limits on different sides", None)
    assert found["capability"]["why"] == "limits on different sides"
    assert found["groups"]["gauge"][0]["mean"] is None


@pytest.mark.parametrize(
    ("values", "why"),
    [([0.1], "one value"), ([0.1, 0.1, 0.1], "no spread"), ([0.1, 1e200], "values too large")],
)
def test_nothing_is_worked_out_from_too_little(shop: Shop, values: list[float], why: str) -> None:
    measured(shop, values)
    found = ask(shop)
    assert (found["why"], found["capability"]["why"]) == (why, why)
    assert found["control"] is found["ewma"] is None
    assert found["signals"] == {}
    assert len(found["points"]["value"]) == len(values)


def test_a_baseline_without_spread_gives_no_signals(shop: Shop) -> None:
    measured(shop, [0.1] * 100 + [0.12])
    found = ask(shop)
    assert (found["why"], found["signals"], found["ewma"]) == ("no spread in the baseline", {}, None)


def test_without_limits_there_is_no_capability(shop: Shop) -> None:
    measured(shop, VALUES[:10], lower=None, upper=None)
    found = ask(shop)
    assert found["capability"]["why"] == "no limits"
    assert found["control"]["baseline"] == 10


def test_what_was_lined_out_is_never_shown_what_was_replaced_only_as_found(shop: Shop) -> None:
    measured(shop, [0.1, 0.11])
    measured(shop, [0.2], standing="replaced", verdict="out of tolerance")
    measured(shop, [0.3], standing="void")
    assert ask(shop)["points"]["value"] == [0.1, 0.11]
    assert ask(shop, show="found")["points"]["value"] == [0.1, 0.11, 0.2]


def test_filters_work_within_the_newest_values(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("seamtag.trends.series.MOST", 3)
    measured(shop, [0.1], gauge="OLD")
    measured(shop, [0.11, 0.12, 0.13], gauge="TG")
    found = ask(shop)
    assert (found["looked_at"], found["older"], found["count"]) == (3, True, 4)
    assert found["filters"]["gauge"] == [{"value": "TG", "count": 3}]
    assert ask(shop, gauge="OLD")["points"]["value"] == []


@pytest.mark.parametrize(
    ("filter_name", "column", "other"),
    [("job", "job", "T2"), ("gauge", "gauge", "CA"), ("maker", "by", "fitter"), ("procedure", "procedure", "W-1"),
     ("kind", "kind", "plate")],
)  # fmt: skip
def test_each_filter(shop: Shop, filter_name: str, column: str, other: str) -> None:
    measured(shop, [0.1, 0.11])
    measured(shop, [0.12], **{column: other})
    found = ask(shop, **{filter_name: other})
    assert found["points"]["value"] == [0.12]
    assert {"value": other, "count": 1} in found["filters"][filter_name]
    assert found["summary"]["n"] == 1


def test_values_stand_in_the_order_in_which_they_were_made(shop: Shop) -> None:
    """A phone without network sends late."""
    measured(shop, [0.1, 0.12])
    with shop.app.app_context(), writing() as session:
        session.query(Measured).filter_by(id="000002").update({"record": "000000"})
    assert ask(shop)["points"]["value"] == [0.12, 0.1]


def test_groups_with_their_shares(shop: Shop) -> None:
    measured(shop, VALUES[:30])
    measured(shop, [0.2, 0.21, 0.1], gauge="CA", verdict="out of tolerance")
    large, small = ask(shop)["groups"]["gauge"]
    assert (large["name"], large["n"], large["flagged"], large["small"]) == ("TG", 30, 0, False)
    assert (small["name"], small["n"], small["flagged"], small["small"]) == ("CA", 3, 3, True)
    assert small["mean"] == pytest.approx(0.17)
    assert (small["low"], small["high"]) == pytest.approx((wilson(3, 3).low, 1))


@pytest.mark.parametrize("who", ["fitter", "inspector", "visitor"])
def test_makers_are_compared_only_for_those_who_lead(shop: Shop, who: str) -> None:
    measured(shop, VALUES[:4], by="fitter", verdict="out of tolerance")
    found = ask(shop, who=who)
    assert found["names_left_out"] is True
    assert (found["points"]["by"], found["people"]) == ([], {})
    assert "maker" not in found["groups"]
    assert "maker" not in found["filters"]
    shares = ask(shop, "proportions", who=who)
    assert (shares["names_left_out"], shares["lines"][0]["person"]) == (True, "")
    code, says = refused(shop, who=who, step="fit", item="gap", maker="fitter")
    assert code == 403
    assert "supervisor, planner, engineer" in says
    assert "maker" in ask(shop, who="planner")["groups"]


def test_shares_flagged_by_person_and_item_the_surest_first(shop: Shop) -> None:
    measured(shop, [0.1] * 20, by="inspector")
    measured(shop, [0.2] * 20, by="inspector", verdict="out of tolerance", standing="replaced")
    measured(shop, [0.2], by="fitter", verdict="too close to call")
    measured(shop, [0.2] * 9, by="fitter", verdict="out of tolerance", standing="void")
    measured(shop, [0.2] * 9, by="planner", received=1)
    one, other = ask(shop, "proportions")["lines"]
    assert (one["person_name"], one["n"], one["flagged"], one["small"]) == ("Inspector", 40, 20, False)
    assert (other["person"], other["n"], other["flagged"], other["small"]) == ("fitter", 1, 1, True)
    assert one["low"] > other["low"]


@pytest.mark.parametrize(
    ("query", "says"),
    [({"rules": "beyond-3,odd"}, "no run rule 'odd'"), ({"weight": "0"}, "weight"), ({"weight": "nan"}, "weight"),
     ({"show": "some"}, "show"), ({"baseline": "last"}, "baseline")],
)  # fmt: skip
def test_what_cannot_be_asked(shop: Shop, query: dict[str, str], says: str) -> None:
    code, text = refused(shop, step="fit", item="gap", **query)
    assert code == 422
    assert says in text


def test_an_item_without_values_is_404(shop: Shop) -> None:
    code, text = refused(shop, step="fit", item="gap")
    assert code == 404
    assert "No value of item 'gap' at step 'fit'" in text
    assert refused(shop, "stages", plan="none")[0] == 404


def test_without_a_plan_the_one_with_the_newest_value_is_taken(shop: Shop) -> None:
    measured(shop, [0.1])
    measured(shop, [0.3, 0.4], plan="thick")
    assert ask(shop)["plan"] == "thick"
    assert ask(shop, plan="small")["points"]["value"] == [0.1]


def test_steps_are_listed_by_their_numbers(shop: Shop) -> None:
    for number, step in (("4.10", "a"), ("4.9", "b")):
        measured(shop, [0.1], step=step)
        with shop.app.app_context(), writing() as session:
            session.query(Series).filter_by(step=step).update({"step_number": number})
    found = shop.sign_in("planner").get("/api/v1/trends?order=step").get_json()
    assert [one["step_number"] for one in found] == ["4.9", "4.10"]


def staged() -> dict[str, Any]:
    """The small plan with the gap measured again once the seam is finished."""
    source = yaml.safe_load(PLAN)
    fit, finished = (next(step for step in source["steps"] if step["code"] == code) for code in ("fit", "finished"))
    gap = next(item for item in fit["items"] if item["code"] == "gap")
    finished["items"].append({**gap, "code": "gap2", "name": f"{gap['name']} after welding"})
    found: dict[str, Any] = read(yaml.safe_dump(source))
    return found


def test_the_same_dimension_at_two_steps() -> None:
    (found,) = stages.dimensions(staged())
    assert [one.place for one in found] == [("fit", "gap"), ("finished", "gap2")]


@pytest.mark.parametrize("change", [{"uom": "mm"}, {"name": "Another length"}])
def test_what_is_another_dimension(change: dict[str, str]) -> None:
    document = staged()
    item = next(one for step in document["steps"] for one in step["items"] if one["code"] == "gap2")
    item.update(change)
    assert stages.dimensions(document) == []


def test_steps_that_share_no_kind_of_piece_are_not_compared() -> None:
    document = staged()
    next(step for step in document["steps"] if step["code"] == "finished")["kinds"] = ["plate"]
    assert stages.dimensions(document) == []


@pytest.mark.parametrize(
    ("name", "kept"),
    [("Inside diameter before expanding", "inside diameter"), ("Inside Diameter AFTER expanding", "inside diameter"),
     ("Thickness after corrugating, thinnest", "thickness thinnest"), ("Diámetro después de expandir", "diámetro"),
     ("After welding", "after welding"), ("Afterburner gap", "afterburner gap")],
)  # fmt: skip
def test_when_is_left_out_of_a_name(name: str, kept: str) -> None:
    assert stages.plain(name) == kept


def test_values_of_a_piece_side_by_side(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    (dimension,) = stages.dimensions(staged())
    monkeypatch.setattr(stages, "dimensions", lambda document: [dimension])
    measured(shop, [0.1, 0.11], station="12")
    measured(shop, [0.1], station="3")
    measured(shop, [0.14], station="12", step="finished", item="gap2")
    (found,) = ask(shop, "stages", plan="small", item="gap")["dimensions"]
    assert [one["step"] for one in found["stages"]] == ["fit", "finished"]
    (row,) = found["rows"]
    assert [one["value"] for one in row["values"]] == [0.11, 0.14], "the newest of each step"
    assert row["changes"] == [None, pytest.approx(0.03)]
    assert (row["mark"], row["station"], found["single"]) == ("S-1", "12", 1)
    assert ask(shop, "stages", plan="small", item="gap", step="receipt")["dimensions"] == []
    assert ask(shop, "stages", plan="small")["dimensions"][0]["rows"] == []


ROWS = [
    {"part": part, "operator": operator, "value": f"{1 + place + trial / 50 + (operator == 'B') / 100:.3f}"}
    for place, part in enumerate("123")
    for operator in "AB"
    for trial in range(2)
]


def study(shop: Shop, who: str = "supervisor", **body: Any) -> tuple[int, dict[str, Any]]:
    answer = shop.sign_in(who).post("/api/v1/trends/gauge-study", json=body)
    return answer.status_code, answer.get_json()


def test_a_study_of_a_gauge(shop: Shop) -> None:
    code, found = study(shop, rows=ROWS, tolerance="1")
    assert code == 200
    assert StudySchema().validate(found) == {}
    assert (found["parts"], found["operators"], found["trials"]) == (3, 2, 2)
    assert [one["source"] for one in found["with_interaction"]][-1] == "total"
    assert found["means"][:2] == ["tells the parts apart", "takes little of the tolerance"]


def test_a_study_from_a_workbook_and_from_pasted_text(shop: Shop) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Part", "Operator", "Value"])
    for row in ROWS:
        sheet.append([row["part"], row["operator"], float(row["value"])])
    out = io.BytesIO()
    book.save(out)
    pasted = "part\toperator\tvalue\n" + "\n".join("\t".join(row.values()) for row in ROWS)
    answers = [study(shop, rows=ROWS)[1]]
    for content, comma in ((out.getvalue(), False), (out.getvalue(), True), (pasted.encode(), False)):
        body = {"content": base64.b64encode(content).decode(), "name": "readings", "comma": comma}
        answers.append(study(shop, **body)[1])
    assert answers == answers[:1] * 4


@pytest.mark.parametrize(
    ("body", "says"),
    [
        ({"rows": [*ROWS, {"part": "1", "operator": "", "value": "wide"}]},
         "row 13: the operator is missing. · row 13, value: 'wide' is not a number"),
        ({"rows": ROWS[:-1]}, "part 3 by operator B (1 of 2)"),
        ({"rows": ROWS, "tolerance": "-1"}, "above 0"),
        ({"rows": ROWS, "tolerance": "much"}, "The tolerance: 'much' is not a number"),
        ({"rows": ROWS * 200}, "at most 2,000"),
        ({"rows": [{**row, "value": "1"} for row in ROWS]}, "All readings are equal"),
        ({"content": base64.b64encode(b"part,reading\n1,2").decode()}, "the column 'operator' is missing"),
        ({"content": "?"}, "did not arrive whole"),
        ({"rows": []}, "Parts: 0"),
    ],
)  # fmt: skip
def test_faults_of_a_study_in_words(shop: Shop, body: dict[str, Any], says: str) -> None:
    code, found = study(shop, **body)
    assert code == 422
    assert says in found["message"]


def test_decimals_after_a_comma(shop: Shop) -> None:
    rows = [{**row, "value": row["value"].replace(".", ",")} for row in ROWS]
    assert study(shop, rows=rows, comma=True)[1]["means"] == study(shop, rows=ROWS)[1]["means"]


def test_who_may_study_a_gauge(shop: Shop) -> None:
    assert study(shop, "inspector", rows=ROWS)[0] == 403
    assert study(shop, "planner", rows=ROWS)[0] == 200


def test_nobody_reads_without_signing_in(shop: Shop) -> None:
    for path in ("", "/series?step=fit&item=gap", "/proportions", "/stages?plan=small"):
        assert shop.app.test_client().get(f"/api/v1/trends{path}").status_code == 401
    with shop.app.app_context():
        assert db.session.query(Measured).count() == 0


def test_a_supervisor_chooses_by_which_rules_an_item_is_watched(shop: Shop) -> None:
    measured(shop, VALUES[:5])
    asked = {"plan": "small", "step": "fit", "item": "gap", "rules": ["beyond-3", "drift"]}
    browser = shop.sign_in("supervisor")
    assert browser.post("/api/v1/trends/watch", json=asked).get_json()["rules"] == ["drift", "beyond-3"]
    shown = browser.get("/api/v1/trends/series", query_string={"step": "fit", "item": "gap"}).get_json()
    assert shown["watched"] == ["drift", "beyond-3"]
    assert browser.post("/api/v1/trends/watch", json={**asked, "rules": []}).get_json()["rules"] == []
    assert browser.post("/api/v1/trends/watch", json={**asked, "rules": ["luck"]}).status_code == 422
    assert browser.post("/api/v1/trends/watch", json={**asked, "item": "none"}).status_code == 404
    assert shop.sign_in("inspector").post("/api/v1/trends/watch", json=asked).status_code == 403


def test_merged_cells_by_the_million_are_refused_before_they_are_made(shop: Shop) -> None:
    """A file of a few kilobytes would fill the server's memory: each cell under a merged range is made when opened."""
    workbook = Workbook()
    assert workbook.active is not None
    workbook.active.append(["part", "operator", "value"])
    workbook.active.merged_cells.add("A1:XFD1048576")
    packed = io.BytesIO()
    workbook.save(packed)
    content = base64.b64encode(packed.getvalue()).decode()
    answer = shop.sign_in("planner").post("/api/v1/trends/gauge-study", json={"content": content, "name": "a.xlsx"})
    assert answer.status_code == 422
    assert "too many cells are merged" in answer.get_data(as_text=True)


def test_a_list_with_more_columns_than_letters_can_name_is_refused(shop: Shop) -> None:
    content = base64.b64encode(b"part,operator," + b"x," * 20_000 + b"\n1,A,2\n").decode()
    answer = shop.sign_in("planner").post("/api/v1/trends/gauge-study", json={"content": content, "name": "a.csv"})
    assert answer.status_code == 422


@pytest.mark.both_databases
def test_a_character_that_no_database_keeps_is_refused(shop: Shop) -> None:
    answer = shop.sign_in("supervisor").get("/api/v1/review?job=a%00b")
    assert answer.status_code < 500


def test_the_list_tells_how_many_of_the_newest_in_force_are_out(shop: Shop) -> None:
    out = {"verdict": "out of tolerance"}
    measured(shop, [0.2] * 3, **out)
    measured(shop, [0.1] * 48)
    measured(shop, [0.2], **out)
    measured(shop, [0.2] * 4, standing="replaced", **out)
    measured(shop, [0.1, 0.1], item="offset")
    items = shop.sign_in("fitter").get("/api/v1/trends").get_json()
    assert {one["item"]: (one["out"], one["recent"]) for one in items} == {"gap": (2, 50), "offset": (0, 2)}
