"""Bad input, random and crafted: every formula and every reading ends in a value, a verdict or a named error."""

import json
import random
from decimal import Decimal
from itertools import product
from typing import Any

import pytest

from seamtag.core import formula, numbers, verdict
from seamtag.core.job import Job
from seamtag.core.judging import judged
from seamtag.plans.reading import PlanError, read
from tests.shop import PLAN

RANDOM, CRAFTED = 10_000, 250
"""Random ones of formulas and readings together; crafted ones of each."""
WORDS = (verdict.IN, verdict.OUT, verdict.CLOSE, verdict.UNJUDGED, verdict.RECORDED)

GOOD_FORMULAS = [
    "min(t/4, 1/8)", "t*sqrt(C*S/P)", "table('far', t)", "a.b - t", "spread(d)", "t if t > 1 else 2*t", "-t**2",
    "largest(a.b)/count(d)", "wall_reduction(t, t, 1, 2)", "not (t > 1 and C < 2 or P == 3)", "0.01*D + 1e-3",
    "heat_input(24, 180, t, 0.8)", "abs(t - C)", "throat(t, 1/4)", "max(1, 2, t)", "((t))",
]  # fmt: skip
GOOD_READINGS = [
    "1 7/8", "1-7/8", "7/8", "⅞", ".875", "0,875", "2' 6 1/2\"", "-3/64", "17/8", "3 ft 2 in", "+5", "1⅞", "12'", "5\"",
]  # fmt: skip
STRANGE = (
    "\x00", "\n", "\t", "\u2028", "\u202e", "\ud800", "٣", "五", "²", "½", "⁄", "∞", "−", "–", "'", '"', "\\", "#",
    ";", ":=", "lambda: 0", "__class__", "(", ")", "[", "]", "{", "}", ",", ".", "..", "...", "e", "E", "j", "0x",
    "0b1", "_", "**", "//", "%", "@", "&", "|", "^", "~", "<<", "==", "!=", "<", ">", " if ", " else ", " and ",
    " in ", " is ", "not ", "yield ", "await ", "*", "f''", "b''", "None", "True", "nan", "inf", "Infinity", "-0",
    "1e999", "1e-999", "9" * 25, "/0", "/", "1/3", "5/1", " ", "\u00a0", "é", "💥", "ft", "in", "mm", "t", "a.b",
    "sqrt", "min(", "table(", "count(d)", "0", "1",
)  # fmt: skip

CRAFTED_FORMULAS = [
    "", " ", "(" * 200, "(" * 40 + "1" + ")" * 40, "-" * 400 + "1", "1" + "+1" * 240, "t" * 501, "1" * 499,
    "((((((10**6)**6)**6)**6)**6)**6)", "1/(((((10**6)**6)**6)**6)**6)", "t/(t-t)", "sqrt(0-t)", "10**20", "10**-1",
    "t**t", "t**2.0", "t**True", "1e400", "1e-400", "0.1e5", "1_000.5", "0o17", "0b101", "0xff", "1j", "'t'",
    "b't'", "f'{t}'", "None", "True", "...", "[1]", "{1}", "(1, 2)", "lambda: 1", "t := 1", "(t := 1)", "yield 1",
    "await t", "t if t", "if t else 1", "t < 1 < 2", "t in (1,)", "t is 1", "t[0]", "t.x.y", "a.b.c", "(t).x",
    "1 .real", "t()", "min()", "min(*d)", "min(t=1)", "sqrt(1, 2)", "abs()", "table()", "table('far')",
    "table(far, t)", "table('no', t)", "table('far', t, 1)", "table(f'far', t)", "spread(1)", "spread(d, d)",
    "mean(t + 1)", "count()", "count(1)", "throat(1)", "throat(0, 0)", "arc_energy(1, 1, 0)",
    "heat_input(1, 1, 1, 2)", "wall_reduction(1, 1, 1, 1)", "__import__('os').system('true')", "eval('1')",
    "().__class__", "open('x')", "t; t", "t\nt", "t # words", "\\\nt", "d", "d + d", "no_such", "no.such",
    "count(no.such)", "1 if t else 2", "t + (t > 1)", "not t", "t and C", "(t > 1) + 1", "min(t > 1, 2)",
    "1if t>1else 2", "1 < 2", "not 1 > 2", "t == t", "t != t", "sqrt(2)*sqrt(2)", "0/1", "-0", "0*-1",
]  # fmt: skip
CRAFTED_READINGS = [
    "", " ", "1/0", "0/0", "0/8", "/8", "8/", "1 /", "1 7", "1 7/", "1 9/8", "1  7/8", "--1", "+-1", "1-", "1--7/8",
    "1.5/2", "1/2.5", "1,5,2", "1.5.2", "1.5,2", "1e5", "1E5", "0x10", "1_000", "NaN", "inf", "-inf", "Infinity",
    "٣", "五", "²", "½½", "1½½", "½1", "⅓", "1⅔", "1'", "1' 13\"", "1' 11 63/64\"", "1.5'", "'", '"', "1''", "1′ 2″",
    "1'2'", "1\"2\"", "ft", "1 ft ft", "1 in in", "1\x007", "1\u202e7", "\ud800", "💥", "9" * 20, "9" * 21,
    "." + "0" * 20 + "1", "0" * 30, "1/" + "2" * 19, "1/1024", "127/128", "1/256", "-", "+", "−", "- 1", "1 - 7/8",
    "one", "1 mm", "4mm", "x" * 5000, "1" + " " * 5000 + "2",
]  # fmt: skip


def bent(dice: random.Random, text: str) -> str:
    """The text with one or a few strange things done to it."""
    for _ in range(dice.choice((1, 1, 1, 2, 4))):
        at = dice.randint(0, len(text))
        match dice.randint(0, 3):
            case 0:
                text = text[:at] + dice.choice(STRANGE) + text[at:]
            case 1:
                text = text[:at] + text[at + dice.randint(1, 3) :]
            case 2:
                text = text[:at] + text[at:][::-1]
            case _:
                text += text[at : at + 5]
    return text


def of_all(good: list[str], crafted: list[str], seed: int) -> list[str]:
    """Half of the random ones and half of the crafted ones: crafted by hand, or a good one with each strange part."""
    dice = random.Random(seed)
    joined = [a + part + b for a, (part, b) in zip(good * 20, product(STRANGE, ("", " ")), strict=False)]
    crafted = [*crafted, *joined][:CRAFTED]
    assert len(crafted) == CRAFTED
    return [*crafted, *(bent(dice, dice.choice(good)) for _ in range(RANDOM // 2))]


NAMES = formula.Names(
    {"t": Decimal("0.625"), "C": Decimal("2.2"), "S": Decimal(13800), "P": Decimal("1E+19"), "D": Decimal("-1E-19")},
    lambda step, item: {"d": [Decimal(1), Decimal(2)], "b": [Decimal(3)]}.get(item, []),
    {"far": {"rows": [{"reached": "after", "edge": ["num", "0"], "value": ["div", ["name", "t"], ["num", "4"]]}]}},
)


def test_every_formula_has_a_value_or_a_named_error() -> None:
    """Parsed, made JSON and back as for a phone, worked out as a limit, and judged against."""
    seen = {"value": 0, "refused": 0, "no value": 0}
    for text in of_all(GOOD_FORMULAS, CRAFTED_FORMULAS, 1):
        try:
            tree = json.loads(json.dumps(formula.parse(text)))
        except formula.FormulaError as error:
            seen["refused"] += bool(str(error))
            continue
        try:
            value = formula.evaluate(tree, NAMES, 0)
        except formula.FormulaError as error:
            seen["no value"] += bool(str(error))
            continue
        seen["value"] += isinstance(value, bool) or value.is_finite()
    assert sum(seen.values()) == CRAFTED + RANDOM // 2
    assert min(seen.values()) > 300, seen


def test_every_formula_of_a_plan_is_published_or_a_fault() -> None:
    published = named = 0
    for text in of_all(GOOD_FORMULAS, CRAFTED_FORMULAS, 2)[:600]:
        plan = PLAN.replace('"gap_nom - 1/32"', json.dumps(text), 1)
        try:
            read(plan)
        except PlanError as error:
            named += bool(error.faults) and all(error.faults)
        else:
            published += 1
    assert (published > 0, named + published) == (True, 600)


def job_of(item: dict[str, Any]) -> Job:
    plan = {"steps": [{"code": "s", "stage": "1", "kinds": ["k"], "points": [], "items": [item]}],
            "stages": [{"number": "1"}]}  # fmt: skip
    gauges = {"g": {"uncertainty": "0.01", "uom": "mm"}, "h": {"uncertainty": "1", "uom": "psi"}}
    return Job({"id": "j", "bases": [{"plan": "p", "figures": 1}], "plans": {"p": plan}, "gauges": gauges,
                "figure_sets": {"1": {"values": {"t": "5/8"}}},
                "pieces": [{"id": "w", "mark": "w", "kind": "k"}]})  # fmt: skip


def limit(text: str) -> dict[str, Any]:
    return {"text": text, "tree": formula.parse(text)}


@pytest.mark.parametrize("rule", ["simple", "guarded"])
def test_every_reading_has_a_verdict(rule: str) -> None:
    item = {"code": "i", "kind": "measure", "uom": "in", "lower": limit("t - 1/8"), "upper": limit("t + 1/8"),
            "rule": rule, "gauge": "tape"}  # fmt: skip
    job, seen = job_of(item), dict.fromkeys(WORDS, 0)
    dice = random.Random(3)
    for text in of_all(GOOD_READINGS, CRAFTED_READINGS, 4):
        body = {"entered": text, "uom": dice.choice(["in", "mm", "ft", "psi", "", "x"]), "comma": dice.random() < 0.3,
                "gauge": dice.choice(["g", "h", "none", ""])}  # fmt: skip
        payload = {"id": "r", "type": "reading", "piece": "w", "step": "s", "item": "i", "body": body, "by": "b",
                   "basis": {"plan": "p", "figures": 1}}  # fmt: skip
        found = judged(payload, "", job).verdict
        assert found.word in WORDS
        assert found.reason or found.word != verdict.UNJUDGED, text
        assert found.margin is None or found.margin.is_finite()
        assert found.probability is None or 0 <= found.probability <= 1
        seen[found.word] += 1
    assert seen[verdict.UNJUDGED] > 1000
    assert seen[verdict.OUT] > 20


def test_every_number_is_read_or_refused_by_name() -> None:
    read_well = refused = 0
    for text in of_all(GOOD_READINGS, CRAFTED_READINGS, 5):
        for comma in (False, True):
            try:
                value = numbers.parse(text, comma).value
            except numbers.NumberError as error:
                refused += bool(str(error))
                continue
            assert value.is_finite()
            assert numbers.parse(numbers.text_of(value).replace(".", "," if comma else "."), comma).value == value
            read_well += 1
    assert read_well > 500
    assert read_well + refused == 2 * (CRAFTED + RANDOM // 2)
