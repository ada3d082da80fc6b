"""Uoms of a plan's formulas, checked before it is published."""

import contextlib

import pytest

from seamtag.core import formula
from seamtag.plans.fitting import Fitting, MisfitError
from seamtag.plans.reading import PlanError, read
from tests.shop import PLAN

FIGURES = {name: {"uom": uom} for name, uom in {
    "t": "in", "D": "in", "w_mm": "mm", "P": "psi", "S": "psi", "C": "count", "hot": "degF", "cold": "degF",
    "warm": "degC", "rise": "degF interval", "volts": "V", "amps": "A", "travel": "in/min", "travel_s": "mm/s",
    "area": "in2", "carbon": "%", "hard": "HB", "n": "count",
}.items()}  # fmt: skip
TABLES = {"by_t": {"uom": "in", "x_uom": "in", "rows": []}}
FITTING = Fitting(FIGURES, TABLES, {("fit", "dia"): "in", ("fit", "temp"): "degF", ("fit", "gap_mm"): "mm"})

FIT = [
    ("t/4", "in"), ("min(t/4, 1/8)", "in"), ("1/8", "in"), ("t + 1/16", "in"), ("0.01*D", "in"), ("t**2", "in2"),
    ("t*sqrt(C*S/P)", "in"), ("t**2*S*C/D**2", "psi"), ("1.5*P", "psi"), ("max(1, S/P)*1.5*P", "psi"),
    ("w_mm/25.4", "in"), ("w_mm/25.4/4 + t", "in"), ("t + w_mm/25.4", "in"), ("25.4*t - w_mm", "mm"),
    ("100*(D - t)/D", "%"), ("60*volts*amps/(1000*travel)", "kJ/in"), ("0.8*60*volts*amps/(1000*travel)", "kJ/in"),
    ("arc_energy(volts, amps, travel)", "kJ/in"), ("heat_input(volts, amps, travel, 0.8)", "kJ/in"),
    ("wall_reduction(D, t, t, t)", "%"), ("throat(t, D)", "in"), ("throat(t, 1/4)", "in"),
    ("carbon_equivalent(carbon, carbon, 0, 0, 0, 0, 0)", "%"), ("hot - cold", "degF interval"),
    ("hot + rise", "degF"), ("hot + 50", "degF"), ("hot - rise", "degF"), ("rise + hot", "degF"),
    ("2*rise", "degF interval"),
    ("table('by_t', t)", "in"), ("table('by_t', 25.4*w_mm/25.4/25.4)", "in"), ("spread(dia)", "in"),
    ("spread(temp)", "degF interval"), ("largest(temp)", "degF"), ("count(dia)", "count"), ("fit.dia - D", "in"),
    ("t if hot > 100 else D", "in"), ("t if hot > cold and n > 2 or not n > 1 else D", "in"), ("hard", "HB"),
    ("-t", "in"), ("abs(t - D)", "in"), ("1.1*(t**2 - 0.7854*D**2)*P/S", "in2"), ("mean(gap_mm)/25.4", "in"),
    ("0.3*D + 0.2", "in"), ("n/2", "count"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "uom"), FIT, ids=[text for text, _ in FIT])
def test_what_fits_is_let_through(text: str, uom: str) -> None:
    FITTING.check(formula.parse(text), uom, "fit")


MISFIT = [
    ("t/4", "psi", "it gives in, psi is asked"),
    ("t + P", "in", "in and psi are added"),
    ("t - w_mm", "in", "mm is taken from in: the factor"),
    ("w_mm/4", "in", "the factor 0.03937008 between them must stand in the formula"),
    ("min(t, P)", "in", "min() of in and psi"),
    ("t if P > t else D", "in", "psi is compared with in"),
    ("t if n > 1 else P", "in", "one gives in, the other psi"),
    ("t*t", "in", "it gives"),
    ("sqrt(t)", "in", "it gives"),
    ("(D - t)/D", "%", "the factor 100 between them must stand in the formula"),
    ("hot + cold", "degF", "two temperatures are added"),
    ("hot - cold", "degF", "not the same"),
    ("hot", "degF interval", "not the same"),
    ("rise", "degF", "not the same"),
    ("rise - hot", "degF", "a temperature is taken from an interval"),
    ("2*hot", "degF", "multiplied or divided"),
    ("hot**2", "degF", "raised to a power"),
    ("hot - warm", "degF interval", "the factor"),
    ("table('by_t', P)", "in", "table 'by_t' is asked with psi, it goes by in"),
    ("table('by_t', t)", "psi", "it gives in"),
    ("arc_energy(amps, volts, travel)", "kJ/in", "volts are asked first, A is given"),
    ("arc_energy(volts, amps, travel_s)", "kJ/in", "a travel by the minute is asked third, mm/s is given"),
    ("arc_energy(volts, amps, travel)", "kJ/mm", "the factor"),
    ("throat(t, P)", "in", "in stands beside psi"),
    ("throat(P, P)", "psi", "lengths are asked, psi is given"),
    ("wall_reduction(D, t, w_mm, t)", "%", "stands beside"),
    ("carbon_equivalent(t, 0, 0, 0, 0, 0, 0)", "%", "shares in % are asked, in is given"),
    ("hard", "HV", "it gives HB, HV is asked"),
    ("spread(temp)", "degF", "not the same"),
    ("count(dia)", "in", "it gives count, in is asked"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "uom", "says"), MISFIT, ids=[text for text, _, _ in MISFIT])
def test_what_does_not_fit_says_why(text: str, uom: str, says: str) -> None:
    with pytest.raises(MisfitError) as caught:
        FITTING.check(formula.parse(text), uom, "fit")
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("gap_nom: {uom: in", "gap_nom: {uom: inn", "figure gap_nom, uom: there is no uom 'inn'; did you mean in?"),
        ("gap_nom: {uom: in", "gap_nom: {uom: mm", "step fit, item gap, lower: it gives mm, in is asked: the factor"),
        ("size: {uom: in", "size: {uom: psi", "step receipt, item thick, lower: it gives psi, in is asked"),
        ("kind: measure, uom: in, upper", "kind: measure, uom: xyzzy, upper", "item cut, uom: there is no uom 'xyzzy'"),
        ('upper: "1/32"', 'upper: "1/(2 - 2)"', "step finished, item cut, upper: divides by zero"),
        ("agree:", "tables: {far: {uom: in, x_uom: in, rows: [{from: 'gap_nom', value: 'gap_nom**2'}]}}\n\nagree:",
         "table far, row 1, value: it gives"),
        ("agree:", "tables: {far: {uom: in, x_uom: psi, rows: [{after: 'gap_nom', value: '1'}]}}\n\nagree:",
         "table far, row 1, after: it gives in, psi is asked"),
    ],
)  # fmt: skip
def test_a_misfit_in_a_plan_says_where(old: str, new: str, says: str) -> None:
    assert old in PLAN
    with pytest.raises(PlanError) as caught:
        read(PLAN.replace(old, new, 1))
    assert any(fault.startswith(says) or says in fault for fault in caught.value.faults), caught.value.faults


def test_a_nominal_value_sets_both_limits() -> None:
    document = read(PLAN.replace('upper: "1/32"', 'nominal: "1/2", tolerance: "1/16"', 1))
    item = document["steps"][2]["items"][0]
    names = formula.Names({}, lambda step, item: [], {})
    assert [str(formula.work_out(item[side]["tree"], names)) for side in ("lower", "upper")] == ["0.4375", "0.5625"]
    assert item["upper"]["text"] == "1/2 + (1/16)"


def test_a_nominal_value_may_have_one_side() -> None:
    item = read(PLAN.replace('upper: "1/32"', 'nominal: "1/2", plus: "1/16"', 1))["steps"][2]["items"][0]
    assert "lower" not in item
    assert item["upper"]["tree"][0] == "add"


@pytest.mark.parametrize(
    "limit",
    ['nominal: "1/2"', 'tolerance: "1/16"', 'nominal: "1/2", tolerance: "1/16", plus: "1"',
     'nominal: "1/2", plus: "1/16", upper: "1"'],
)  # fmt: skip
def test_a_nominal_value_stands_with_its_tolerance_and_nothing_else(limit: str) -> None:
    with pytest.raises(PlanError) as caught:
        read(PLAN.replace('upper: "1/32"', limit, 1))
    assert any("nominal" in fault for fault in caught.value.faults)


SHAPES = ("{a} + {b}", "{a}*{b}", "{a}/{b}", "min({a}, {b})", "{a} if {b} > {a} else {b}", "sqrt({a}*{b})")


def test_any_formula_is_fitted_or_refused() -> None:
    """Names and uoms thrown together: a fit or a MisfitError, never anything else."""
    parts = [*FIGURES, "1/8", "25.4", "fit.dia", "largest(dia)", "table('by_t', t)"]
    for a in parts:
        for b in parts:
            for shape in (
                "{a} + {b}",
                "{a}*{b}",
                "{a}/{b}",
                "min({a}, {b})",
                "{a} if {b} > {a} else {b}",
                "sqrt({a}*{b})",
            ):
                with contextlib.suppress(MisfitError):
                    FITTING.check(formula.parse(shape.format(a=a, b=b)), "in", "fit")
