"""Formulas: nothing but a FormulaError comes of any text, tree or figure."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seamtag.core import formula

QUIET = settings(deadline=None, database=None, derandomize=True, max_examples=300)
WORDS = (
    "0 1 2 0.125 1e3 t gap fit.off ( ) [ ] , + - * / ** % // < <= == != and or not if else in is lambda : := . ' # "
    "min max abs sqrt table spread largest count mean smallest True None ... ~ @ & ; = _ é 1if 0x1 1j"
)
TEXTS = st.lists(st.sampled_from(WORDS.split()), max_size=14).map(" ".join) | st.text(max_size=40)
DIGITS = st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**20), max_value=10**20)
NAMES = formula.Names(
    {"t": Decimal("0.5625"), "zero": Decimal(0)},
    lambda step, item: [Decimal("0.1"), Decimal("0.3")] if item == "gap" else [],
    {"rows": {"rows": [{"edge": ["num", "0"], "reached": "from", "value": ["name", "t"]}]}},
)

LEAVES = (
    DIGITS.map(lambda value: ["num", format(value, "f")])
    | st.sampled_from(["t", "zero", "none", "gap"]).map(lambda name: ["name", name])
    | st.just(["item", "fit", "gap"])
    | st.sampled_from(["largest", "spread", "mean", "count"]).map(lambda name: ["call", name, ["name", "gap"]])
)
TREES = st.recursive(
    LEAVES,
    lambda below: (
        st.tuples(st.sampled_from(["add", "sub", "mul", "div", "lt", "ge", "eq", "and", "or"]), below, below).map(list)
        | st.tuples(st.sampled_from(["neg", "not"]), below).map(list)
        | st.tuples(st.just("pow"), below, st.integers(1, 6)).map(list)
        | st.tuples(st.just("if"), below, below, below).map(list)
        | st.tuples(st.just("call"), st.sampled_from(["min", "max"]), below, below).map(list)
        | st.tuples(st.just("call"), st.sampled_from(["abs", "sqrt"]), below).map(list)
        | st.tuples(st.just("table"), st.just("rows"), below).map(list)
    ),
    max_leaves=12,
)


@QUIET
@given(TEXTS)
def test_only_a_formula_error_comes_of_any_text(text: str) -> None:
    try:
        tree = formula.parse(text)
    except formula.FormulaError:
        return
    worked_out(tree)


@QUIET
@given(TREES)
def test_only_a_formula_error_comes_of_any_tree(tree: formula.Tree) -> None:
    worked_out(tree)


def worked_out(tree: formula.Tree) -> None:
    try:
        value = formula.evaluate(tree, NAMES, 0)
    except formula.FormulaError:
        return
    assert isinstance(value, bool) or value.is_finite()


@pytest.mark.parametrize("word", ["9" * 20, "0." + "0" * 18 + "1"])
def test_a_result_beyond_all_measure_is_a_named_error(word: str) -> None:
    tree: formula.Tree = ["num", word]
    for _ in range(9):
        tree = ["pow", tree, 6]
    with pytest.raises(formula.FormulaError, match=r"too large|too small"):
        formula.work_out(tree, NAMES)


@pytest.mark.parametrize("sign", ["~", "+"])
def test_a_long_row_of_signs_is_a_named_error(sign: str) -> None:
    with pytest.raises(formula.FormulaError):
        formula.parse(sign * 450 + "t")


def test_what_can_be_read_can_be_worked_out() -> None:
    assert formula.holds(formula.parse(" and ".join(["t > 0"] * 30)), NAMES)
    with pytest.raises(formula.FormulaError, match="conditions in a row"):
        formula.parse(" and ".join(["t>0"] * 45))
