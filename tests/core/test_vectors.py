"""The small vectors of tests/vectors, which the TypeScript core answers as well."""

import json
from decimal import Decimal
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from seamtag.core import formula, layers, limits, numbers, records, tagcode, uoms, verdict
from seamtag.core.limits import Limits

VECTORS = Path(__file__).parents[1] / "vectors"

Case = dict[str, Any]


def cases(file: str, part: str) -> list[Any]:
    found = json.loads((VECTORS / f"{file}.json").read_text())[part]
    assert found
    return [pytest.param(case, id=f"{place}-{label(case)}") for place, case in enumerate(found)]


def label(case: Case) -> str:
    return str(case.get("text") or next(iter(case.values())))[:40].encode("ascii", "replace").decode()


def number(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)


@pytest.mark.parametrize("case", cases("numbers", "parse"))
def test_a_typed_number_is_read_or_refused_with_its_message(case: Case) -> None:
    if "error" in case:
        with pytest.raises(numbers.NumberError) as caught:
            numbers.parse(case["text"], case["comma"])
        assert str(caught.value) == case["error"]
        return
    typed = numbers.parse(case["text"], case["comma"])
    assert (numbers.text_of(typed.value), typed.doubt) == (case["value"], case.get("doubt", ""))
    assert not (typed.value.is_signed() and typed.value == 0)


@pytest.mark.parametrize("case", cases("numbers", "text_of"))
def test_a_value_is_written_in_plain_figures(case: Case) -> None:
    assert numbers.text_of(Decimal(case["value"])) == case["text"]


@pytest.mark.parametrize("case", cases("numbers", "shown_short"))
def test_a_value_with_many_decimals_is_shown_short(case: Case) -> None:
    assert numbers.shown_short(Decimal(case["value"])) == case["text"]


@pytest.mark.parametrize("case", cases("numbers", "shown_inches"))
def test_a_value_on_a_mark_of_the_rule_is_shown_as_a_fraction(case: Case) -> None:
    assert numbers.shown_inches(Decimal(case["value"]), case.get("finest", 64)) == case["text"]


@pytest.mark.parametrize("case", cases("numbers", "nearest_fraction"))
def test_the_nearest_mark_of_the_rule_is_found(case: Case) -> None:
    assert numbers.nearest_fraction(Decimal(case["value"]), case.get("finest", 64)) == case["text"]


@pytest.mark.parametrize("case", cases("formula", "parse"))
def test_a_formula_becomes_its_tree(case: Case) -> None:
    assert formula.parse(case["text"]) == case["tree"]


@pytest.mark.parametrize("case", cases("formula", "parse_errors"))
def test_what_is_no_formula_is_refused_with_its_message(case: Case) -> None:
    with pytest.raises(formula.FormulaError) as caught:
        formula.parse(case["text"])
    if "error" in case:
        assert str(caught.value) == case["error"]
    else:
        assert str(caught.value).startswith(case["error_starts"])


@pytest.mark.parametrize("case", cases("formula", "cases"))
def test_a_tree_is_worked_out(case: Case) -> None:
    if "text" in case:
        assert formula.parse(case["text"]) == case["tree"]
    names = names_of(case)
    work = formula.holds if "holds" in case or case.get("asks") == "holds" else formula.work_out
    if "error" in case:
        with pytest.raises(formula.FormulaError) as caught:
            work(case["tree"], names)
        assert str(caught.value) == case["error"]
        assert isinstance(caught.value, formula.MissingValueError) == case.get("missing", False)
        return
    found = work(case["tree"], names)
    assert (found if isinstance(found, bool) else numbers.text_of(found)) == case.get("holds", case.get("value"))


def names_of(case: Case) -> formula.Names:
    figures = {name: Decimal(value) for name, value in case["figures"].items()}
    readings = {key: [Decimal(value) for value in values] for key, values in case["readings"].items()}
    return formula.Names(figures, lambda step, item: readings.get(f"{step}.{item}", []), case["tables"])


@pytest.mark.parametrize("case", cases("uoms", "conversion"))
def test_a_value_is_converted(case: Case) -> None:
    found = uoms.conversion(case["from"], case["to"])
    gives = None if found is None else numbers.text_of(found.of(Decimal(case["value"])).value())
    assert gives == case["gives"]


@pytest.mark.parametrize("case", cases("uoms", "of_interval"))
def test_an_uncertainty_is_converted_without_its_zero_point(case: Case) -> None:
    assert numbers.text_of(way(case).of_interval(Decimal(case["interval"])).value()) == case["gives"]


@pytest.mark.parametrize("case", cases("verdict", "judge"))
def test_a_value_is_judged(case: Case) -> None:
    found_limits = Limits(number(case.get("lower")), number(case.get("upper")), case.get("reason") or "")
    rule, place = case.get("rule") or "simple", number(case.get("place"))
    found = verdict.judge(Decimal(case["value"]), found_limits, gauge_of(case), rule, place, conversion_of(case))
    margin = None if found.margin is None else numbers.text_of(found.margin)
    assert (found.word, margin, found.reason) == (case["word"], case["margin"], case["why"])
    assert found.probability == (None if case["probability"] is None else pytest.approx(case["probability"], abs=1e-9))


def way(case: Case) -> uoms.Conversion:
    found = uoms.conversion(case["from"], case["to"])
    assert found is not None
    return found


def conversion_of(case: Case) -> uoms.Conversion:
    written, wanted = case.get("conversion") or ("", "")
    return way({"from": written, "to": wanted})


def gauge_of(case: Case) -> verdict.Gauge | None:
    """gauge_uom: what the uncertainty is in, on the way to that of the limits: uom, or the one converted to."""
    uncertainty = case.get("uncertainty")
    if uncertainty is None or uncertainty == "unknown":
        return None if uncertainty is None else verdict.Gauge(None)
    written, wanted = case.get("gauge_uom") or "", case.get("uom") or (case.get("conversion") or ("", ""))[1]
    return verdict.Gauge(Decimal(uncertainty), way({"from": written or wanted, "to": wanted}))


@pytest.mark.parametrize("case", cases("verdict", "rounded"))
def test_a_value_is_rounded_to_a_place(case: Case) -> None:
    found = verdict.rounded(Decimal(case["value"]), Decimal(case["place"]), conversion_of(case))
    assert numbers.text_of(found) == case["to"]


@pytest.mark.parametrize("case", cases("verdict", "too_coarse"))
def test_a_gauge_is_too_coarse_over_a_quarter_of_the_tolerance_or_of_an_upper_limit(case: Case) -> None:
    assert verdict.too_coarse(Limits(number(case["lower"]), number(case["upper"])), gauge_of(case)) == case["says"]


@pytest.mark.parametrize("case", cases("verdict", "shown_inward"))
def test_a_limit_is_shown_in_another_uom_and_never_relaxed(case: Case) -> None:
    found = limits.shown_inward(Decimal(case["limit"]), case["upper"], Decimal(case["place"]), way(case))
    assert numbers.text_of(found) == case["text"]


@pytest.mark.parametrize("case", cases("verdict", "shown"))
def test_a_limit_is_shown_in_its_own_uom(case: Case) -> None:
    assert numbers.text_of(limits.shown(Decimal(case["limit"]), case["upper"])) == case["text"]


@pytest.mark.parametrize("case", cases("verdict", "in_counterpart"))
def test_limits_are_shown_in_the_other_system(case: Case) -> None:
    found = limits.in_counterpart(Limits(number(case["lower"]), number(case["upper"])), case["uom"])
    shown = found and [None if one is None else numbers.text_of(one) for one in (found[0].lower, found[0].upper)]
    assert (found and shown and [*shown, found[1]]) == case["other"]


@pytest.mark.parametrize("case", cases("verdict", "shown_probability"))
def test_a_probability_is_shown_coarsely(case: Case) -> None:
    assert verdict.shown_probability(case["probability"]) == case["text"]


@pytest.mark.parametrize("case", cases("tagcode", "check_symbol"))
def test_a_check_symbol_is_worked_out(case: Case) -> None:
    assert tagcode.check_symbol(case["symbols"]) == case["check"]


@pytest.mark.parametrize("case", cases("tagcode", "code_of"))
def test_a_code_is_made_unless_its_check_symbol_is_easily_misread(case: Case) -> None:
    assert tagcode.code_of(case["number"]) == case["code"]


@pytest.mark.parametrize("case", cases("tagcode", "forgiven"))
def test_typing_a_code_is_forgiven_or_refused(case: Case) -> None:
    assert tagcode.forgiven(case["typed"]) == case["code"]


@pytest.mark.parametrize("case", cases("tagcode", "read_link"))
def test_a_scanned_link_is_read(case: Case) -> None:
    found = tagcode.read_link(case["text"])
    assert (list(found) if found else None) == case["read"]


@pytest.mark.parametrize("case", cases("tagcode", "link_of"))
def test_a_link_is_written_in_capitals(case: Case) -> None:
    assert tagcode.link_of(case["host"], case["code"]) == case["link"]


@pytest.mark.parametrize("case", cases("layers", "marks"))
def test_marks_over_a_photo_are_looked_at_to_the_letter(case: Case) -> None:
    assert records.are_marks(case["marks"]) == case["fit"]


@pytest.mark.parametrize("case", cases("layers", "layers"))
def test_the_marks_over_a_photo_are_each_persons_newest(case: Case) -> None:
    judged: list[Any] = [
        SimpleNamespace(id=one["id"], type="photo", payload={"by": one["by"]}, body={**one, "by": None})
        for one in case["records"]
    ]
    for order in (judged, judged[::-1]):
        assert layers.layer_of(order, set(case["void"]), case["of"]) == case["layer"]
