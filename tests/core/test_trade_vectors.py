"""The vectors of the trade's quantities and of sampling, which the TypeScript core answers as well."""

import json
from collections.abc import Callable
from dataclasses import asdict
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from seamtag.core import numbers, sampling, welding

VECTORS = Path(__file__).parents[1] / "vectors"
WELDING = json.loads((VECTORS / "welding.json").read_text())
SAMPLING = json.loads((VECTORS / "sampling.json").read_text())

Case = dict[str, Any]

WORKED_OUT: dict[str, Callable[..., Decimal | None]] = {
    "throat": welding.throat,
    "arc_energy": welding.arc_energy,
    "heat_input": welding.heat_input,
    "carbon_equivalent": welding.carbon_equivalent,
    "wall_reduction": welding.wall_reduction,
    "target_id": welding.target_id,
    "stay_constant": welding.stay_constant,
    "stayed_plate_pressure": welding.stayed_plate_pressure,
    "stayed_plate_thickness": welding.stayed_plate_thickness,
    "stay_pitch": welding.stay_pitch,
    "test_pressure": welding.test_pressure,
    "test_ceiling": welding.test_ceiling,
    "most_thickness": welding.most_thickness,
    "least_od": welding.least_od,
}
OTHERS = {"efficiency", "gauge_range", "water", "positions", "lapses_on", "has_lapsed"}


def cases(found: dict[str, list[Case]], *parts: str) -> list[Any]:
    """One parameter a case: its part and the case."""
    assert all(found[part] for part in parts)
    return [
        pytest.param(part, case, id=f"{part}-{place}-{next(iter(case.values()))!a:.20}")
        for part in parts
        for place, case in enumerate(found[part])
    ]


def given(case: Case) -> dict[str, Decimal | int]:
    """What a function is given, by the names of its parameters: texts are numbers, whole numbers stay so."""
    inputs = {name: value for name, value in case.items() if name not in ("value", "error")}
    return {name: Decimal(value) if isinstance(value, str) else value for name, value in inputs.items()}


def answered(work: Callable[[], object], error: type[ValueError], case: Case, answer: object) -> None:
    if "error" not in case:
        assert work() == answer
        return
    with pytest.raises(error) as caught:
        work()
    assert str(caught.value) == case["error"]


def text(value: Decimal | None) -> str | None:
    return None if value is None else numbers.text_of(value)


def test_every_part_of_the_files_is_answered() -> None:
    assert set(WELDING) == WORKED_OUT.keys() | OTHERS
    assert set(SAMPLING) == {"code_letter", "plan", "accepted"}


@pytest.mark.parametrize(("part", "case"), cases(WELDING, *WORKED_OUT))
def test_a_quantity_is_worked_out_or_refused_with_its_message(part: str, case: Case) -> None:
    answered(lambda: text(WORKED_OUT[part](**given(case))), welding.NoAnswerError, case, case.get("value"))


@pytest.mark.parametrize(("part", "case"), cases(WELDING, "gauge_range"))
def test_the_range_of_a_test_gauge(part: str, case: Case) -> None:
    pressure = Decimal(case["test_pressure"])
    answered(
        lambda: [text(value) for value in welding.gauge_range(pressure)], welding.NoAnswerError, case, case.get("range")
    )


def test_the_efficiency_of_each_process() -> None:
    found = {process: numbers.text_of(value) for process, value in welding.EFFICIENCY.items()}
    assert found == {case["process"]: case["value"] for case in WELDING["efficiency"]}


def test_the_temperature_of_the_water_by_each_rule() -> None:
    found = {rule: (numbers.text_of(least), numbers.text_of(most), uom)
             for rule, (least, most, uom) in welding.WATER.items()}  # fmt: skip
    assert found == {case["rule"]: (case["lowest"], case["highest"], case["uom"]) for case in WELDING["water"]}


def test_the_positions_each_test_qualifies_for() -> None:
    found = {test: (list(groove), list(fillet)) for test, (groove, fillet) in welding.POSITIONS.items()}
    assert found == {case["test"]: (case["groove"], case["fillet"]) for case in WELDING["positions"]}


@pytest.mark.parametrize(("part", "case"), cases(WELDING, "lapses_on"))
def test_the_day_a_qualification_lapses(part: str, case: Case) -> None:
    answered(lambda: welding.lapses_on(case["last"]), welding.NoAnswerError, case, case.get("day"))


@pytest.mark.parametrize(("part", "case"), cases(WELDING, "has_lapsed"))
def test_whether_a_qualification_has_lapsed(part: str, case: Case) -> None:
    answered(lambda: welding.has_lapsed(case["last"], case["on"]), welding.NoAnswerError, case, case.get("lapsed"))


@pytest.mark.parametrize(("part", "case"), cases(SAMPLING, "code_letter"))
def test_a_lot_has_its_code_letter(part: str, case: Case) -> None:
    lot, level = case["lot"], case["level"]
    answered(lambda: sampling.code_letter(lot, level), sampling.SamplingError, case, case.get("letter"))


@pytest.mark.parametrize(("part", "case"), cases(SAMPLING, "plan"))
def test_a_lot_has_its_plan(part: str, case: Case) -> None:
    wanted = {name: case.get(name) for name in ("letter", "sample", "accept", "reject", "all_of_it")}
    asked = case["lot"], case["level"], case["aql"]
    answered(lambda: asdict(sampling.plan(*asked)), sampling.SamplingError, case, wanted)


@pytest.mark.parametrize(("part", "case"), cases(SAMPLING, "accepted"))
def test_a_lot_is_accepted_up_to_its_number(part: str, case: Case) -> None:
    plan = sampling.plan(case["lot"], case["level"], case["aql"])
    defectives = case["defectives"]
    answered(lambda: sampling.accepted(plan, defectives), sampling.SamplingError, case, case.get("accepted"))
