import contextlib
from collections.abc import Iterator
from typing import Any

import pytest
import yaml

from seamtag.plans.reading import PlanError, Reader, read
from tests.shop import PLAN


def faults_of(text: str) -> list[str]:
    with pytest.raises(PlanError) as caught:
        read(text)
    return caught.value.faults


def test_the_small_plan_is_read() -> None:
    document = read(PLAN)
    assert [step["code"] for step in document["steps"]] == ["receipt", "fit", "finished"]


def test_an_empty_file_says_how_to_begin() -> None:
    assert faults_of("") == ["The plan file is empty. Begin with the keys plan, title, stages and steps."]


@pytest.mark.parametrize("text", ["- one", "just words", "5"])
def test_a_file_that_is_no_plan_says_so(text: str) -> None:
    assert "must begin with keys" in faults_of(text)[0]


def test_yaml_that_cannot_be_read_names_its_line() -> None:
    assert faults_of("plan: small\ntitle: {a\nsteps: []\n")[0].startswith("The plan file is not YAML. line 3: ")


def changed(old: str, new: str) -> str:
    assert old in PLAN
    return PLAN.replace(old, new, 1)


@pytest.mark.parametrize(
    ("old", "new", "parts"),
    [
        ('"gap_nom - 1/32"', '"(gap_nom - 1/32"', ["step fit", "item gap", "lower"]),
        ('"gap_nom - 1/32"', '"gap_nmo - 1/32"', ["step fit", "item gap", "lower", "gap_nmo"]),
        ('"1/32"', '"1/0"', ["step finished", "item cut", "upper", "zero"]),
        ("kind: text", "kind: words", ["step receipt", "item heat", "kind", "words"]),
        ("{clock: 4}", "{clock: 5}", ["step fit", "item gap", "clock"]),
        ("party: QC, point: H}", "party: QX, point: H}", ["step receipt", "point", "QX"]),
        ("steps: earlier", "steps: [nothing]", ["step finished", "not_before", "nothing"]),
        ('stage: "2"', 'stage: "9"', ["step finished", "stage", "9"]),
        ("code: finished", "code: fit", ["step fit", "two steps"]),
        ("code: thick", "code: heat", ["step receipt", "item heat", "two items"]),
        ("agree:", "not_recorder: sometimes\nagree:", ["not_recorder", "sometimes", "true or false"]),
    ],
)
def test_a_fault_says_where(old: str, new: str, parts: list[str]) -> None:
    said = "\n".join(faults_of(changed(old, new)))
    assert all(part in said for part in parts), said


def test_whether_nobody_decides_about_a_finding_of_their_own() -> None:
    """Left out where anybody may, so that a plan without it keeps its hash."""
    assert read(changed("agree:", "not_recorder: true\nagree:"))["not_recorder"] is True
    assert read(changed("agree:", "not_recorder: false\nagree:")) == read(PLAN)
    assert "not_recorder" not in read(PLAN)


def test_a_weld_may_say_its_thickness_and_that_it_is_a_fillet() -> None:
    with_weld = changed("kind: visual}", "kind: visual}\n      - {code: leg, name: Pass, kind: weld, WITH}")
    read_as = read(with_weld.replace("WITH", "thickness: gap_nom + size, fillet: true"))["steps"][1]["items"][2]
    assert (read_as["thickness"]["text"], read_as["fillet"]) == ("gap_nom + size", True)
    assert "fillet" not in read(with_weld.replace("WITH", "fillet: false"))["steps"][1]["items"][2]
    assert faults_of(with_weld.replace("WITH", "thickness: size*size")) == [
        "step fit, item leg, thickness: it gives in², in is asked"
    ]


@pytest.mark.parametrize("more", ["fillet: true", "thickness: size"])
def test_nothing_but_a_weld_says_them(more: str) -> None:
    assert faults_of(changed("kind: visual}", f"kind: visual, {more}}}")) == [
        "step fit, item clean: only a weld has a thickness of weld metal or is a fillet"
    ]


def test_all_faults_are_found_in_one_pass() -> None:
    twice = changed('"gap_nom - 1/32"', '"(gap_nom"').replace('"size - 0.01"', '"sise"', 1)
    assert len(faults_of(twice)) == 2


VALUES: list[Any] = [None, 5, -1, "", "words", [], [5], [{}], [[1]], {}, {"a": 5}, True, {"clock": "x"}]


def places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every place in a nested value, as its holder and its key."""
    for key in value if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ():
        yield value, key
        yield from places(value[key])


def test_a_value_of_another_shape_is_a_fault_or_nothing() -> None:
    """Whatever stands in a place of the plan, it is never a stack trace."""
    source = yaml.safe_load(PLAN)
    source["tables"] = {"by_size": {"what": "", "rows": [{"from": "0", "value": "1/32"}]}}
    source["steps"][0]["cautions"] = ["Heavy"]
    source["steps"][2]["not_before"].append({"steps": ["fit"], "of": "kinds", "kinds": ["seam"], "for": ["seam"]})
    for holder, key in list(places(source)):
        kept = holder[key]
        for value in VALUES:
            holder[key] = value
            with contextlib.suppress(PlanError):
                Reader(source).document()
        holder[key] = kept
    assert Reader(source).document()
