"""`seamtag plan try`: a planner tries limits before publishing."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from seamtag.cli import main
from tests.shop import PLAN


@pytest.fixture
def plan(tmp_path: Path) -> str:
    derived = """
      - {code: dia, name: Diameter, kind: measure, uom: in, stations: {least: 2}, gauge: tape}
      - {code: round, name: Roundness, kind: derived, uom: in, formula: "spread(dia)", upper: "0.28", rule: guarded}
"""
    file = tmp_path / "plan.yaml"
    file.write_text(PLAN.rstrip("\n") + derived)
    return str(file)


def tried(plan: str, *words: str) -> str:
    result = CliRunner().invoke(main, ["plan", "try", plan, *words])
    assert result.exit_code == 0, result.output
    return result.output


def test_a_limit_is_shown_in_both_notations_with_what_it_binds_by(plan: str) -> None:
    said = tried(plan, "--figure", "gap_nom=3/32")
    assert "limit: 1/16 = 0.0625 to 5/32 = 0.15625 in (1.59 to 3.96 mm)" in said
    assert "binds by drawing" in said
    assert "lower: gap_nom - 1/32" in said


def test_a_reading_is_judged(plan: str) -> None:
    said = tried(plan, "--figure", "gap_nom=3/32", "--reading", "gap@3=5/32", "--reading", "fit.gap@6=4 mm")
    assert "3: 5/32 in = 0.15625 in: in tolerance, 0 in inside the limit" in said
    assert "6: 4 mm = 0.1575 in: out of tolerance, 0.00123 in past the limit" in said


def test_a_value_is_worked_out_with_its_uncertainty(plan: str) -> None:
    readings = ["--reading", "dia@1=30", "--reading", "dia@2=30.27"]
    assert "round: Roundness" not in tried(plan, *readings)
    assert "worked out = 0.27 in: unjudged" in tried(plan, *readings)
    assert "worked out = 0.27 in: too close to call" in tried(plan, *readings, "--uncertainty", "dia=0.04")
    assert "worked out = 0.27 in: in tolerance" in tried(plan, *readings, "--uncertainty", "dia=0.004")


def test_json_gives_exact_texts(plan: str) -> None:
    found = json.loads(tried(plan, "--json", "--figure", "gap_nom=3/32", "--reading", "gap=0.157"))
    assert (found[0]["step"], found[0]["item"], found[0]["lower"], found[0]["upper"]) == (
        "fit",
        "gap",
        "0.0625",
        "0.15625",
    )
    assert found[0]["values"][0]["verdict"] == "out of tolerance"
    assert found[0]["values"][0]["margin"] == "-0.00075"


def test_a_figure_that_lacks_is_said(plan: str) -> None:
    assert "limit not known: no gap_nom" in tried(plan)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--figure", "gap_nmo=1"], "there is no figure 'gap_nmo' in the plan; did you mean gap_nom?"),
        (["--figure", "gap_nom"], "'gap_nom' is no figure. Write name=value, such as t=5/8."),
        (["--figure", "gap_nom=x"], "figure gap_nom: 'x' is not a number."),
        (["--reading", "gop=1"], "there is no item 'gop' in the plan; did you mean gap?"),
        (["--reading", "gap"], "'gap' is no reading. Write item=value"),
        (["--reading", "clean=1"], "'clean' is a visual item; only a measure item takes a reading"),
        (["--uncertainty", "gap=x"], "figure gap: 'x' is not a number."),
    ],
)
def test_what_cannot_be_tried_says_why(plan: str, words: list[str], says: str) -> None:
    result = CliRunner().invoke(main, ["plan", "try", plan, *words])
    assert result.exit_code == 1
    assert says in result.output


def test_a_plan_with_faults_says_them(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text(PLAN.replace('"1/32"', '"1/0"', 1))
    result = CliRunner().invoke(main, ["plan", "try", str(file)])
    assert result.exit_code == 1
    assert "divides by zero" in result.output
