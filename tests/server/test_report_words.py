"""The words and figures of the report are those of the screens."""

import re
from decimal import Decimal
from pathlib import Path

import pytest

from seamtag.core.records import DISPOSITIONS
from seamtag.core.standing import ASKS_NEW
from seamtag.review import decisions
from seamtag.review import report as words
from seamtag.review.flagging import RANKS


def test_words_are_those_of_the_screens() -> None:
    catalogue = Path(__file__).parents[2] / "webapp/src/locales/en.ftl"
    messages = dict(re.findall(r"(?m)^([\w-]+) = (.+)$", catalogue.read_text(encoding="utf-8")))
    sets: dict[str, tuple[str, ...]] = {
        "kind": RANKS, "seen": ("use as is", *ASKS_NEW), "party": ("maker", "QC", "AI", "customer", "engineering"),
        "decision": (decisions.TO_DO, decisions.WAITS, decisions.DONE, decisions.NO_EFFECT, decisions.VOID),
    }  # fmt: skip
    assert sets.keys() == words.SAID.keys()
    for of, all_words in sets.items():
        assert words.SAID[of].keys() <= set(all_words)
        for word in all_words:
            assert words.said(of, word) == messages[f"{of}-{re.sub('[^a-z0-9]+', '-', word.lower())}"]
    for word in DISPOSITIONS:
        assert messages[f"disposition-{word.replace(' ', '-')}"] == word


@pytest.mark.parametrize(("value", "uom", "shown"), [
    ("0.34375", "in", "11/32"), ("5.875", "in", "5 7/8"), ("2", "in", "2"), ("2.543", "in", "2.543"),
    ("0.0078125", "in", "0.007812"), ("0.34375", "mm", "0.34375"), ("-0.25", "in", "-1/4"),
    ("9.859154", "%", "9.859154"),
])  # fmt: skip
def test_values_are_shown_as_on_the_phone(value: str, uom: str, shown: str) -> None:
    assert words.figure(Decimal(value), uom) == shown


def test_limits_are_fractions_where_they_are_on_a_mark_and_never_relaxed() -> None:
    third = Decimal(1) / 3
    assert words.limits_said(Decimal("2.53125"), Decimal("2.54125"), "in") == "limits 2 17/32 to 2.54125"
    assert words.limits_said(third, None, "in") == "at least 0.3334"
    assert words.limits_said(None, third, "in") == "at most 0.3333"


def test_a_value_too_long_for_any_rule_is_shown_all_the_same() -> None:
    assert words.figure(Decimal("1E+30"), "in") == "1" + "0" * 30
    assert words.limit_figure(Decimal("-1E+30"), "in") == "-1" + "0" * 30


def test_a_limit_is_not_rounded_again() -> None:
    assert words.limit_figure(Decimal("0.0078125"), "in") == "0.0078125"
    assert words.limit_figure(Decimal("2.53125"), "in") == "2 17/32"
