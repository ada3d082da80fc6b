"""Both methods of ASTM E29, rounding and absolute, for deciding against a limit. Its table of cases is from memory."""

from decimal import Decimal

import pytest

from seamtag.core import numbers, verdict
from seamtag.core.limits import Limits

# value, least, most, place, by rounding, by the absolute method
E29 = [
    ("35940", "36000", None, "100", False, False), ("35950", "36000", None, "100", True, False),
    ("35960", "36000", None, "100", True, False),
    ("56.4", "57", None, "1", False, False), ("56.5", "57", None, "1", False, False),
    ("56.6", "57", None, "1", True, False),
    ("40.4", None, "40", "1", True, False), ("40.5", None, "40", "1", True, False),
    ("40.6", None, "40", "1", False, False),
    ("0.54", None, "0.5", "0.1", True, False), ("0.55", None, "0.5", "0.1", False, False),
    ("0.56", None, "0.5", "0.1", False, False),
]  # fmt: skip


@pytest.mark.source("ASTM E29")
@pytest.mark.parametrize(("value", "least", "most", "place", "by_rounding", "absolute"), E29)
def test_both_methods_of_astm_e29(
    value: str, least: str | None, most: str | None, place: str, by_rounding: bool, absolute: bool
) -> None:
    limits = Limits(None if least is None else Decimal(least), None if most is None else Decimal(most))
    observed = numbers.parse(value).value
    assert (verdict.judge(observed, limits, place=Decimal(place)).word == verdict.IN) is by_rounding
    assert (verdict.judge(observed, limits).word == verdict.IN) is absolute


@pytest.mark.source("ASTM E29")
@pytest.mark.parametrize(
    ("value", "place", "to"),
    [("6025", "50", "6000"), ("6075", "50", "6100"), ("6024", "50", "6000"), ("6026", "50", "6050")],
)
def test_rounding_to_the_nearest_fifty(value: str, place: str, to: str) -> None:
    """Half way goes to the even multiple of the place (from memory)."""
    rounded = verdict.judge(Decimal(value), Limits(Decimal(0), None), place=Decimal(place)).margin
    assert rounded == Decimal(to)


@pytest.mark.source("ASME Y14.5 2.4")
@pytest.mark.parametrize(
    ("typed", "good"), [("12.2", True), ("12.2000000", True), ("12.2000001", False), ("12.20000000000001", False)]
)
def test_a_limit_of_a_drawing_is_used_as_if_zeros_went_on_for_ever(typed: str, good: bool) -> None:
    """Second hand: the absolute method, 12.2 is 12.2 followed by zeros."""
    found = verdict.judge(numbers.parse(typed).value, Limits(None, Decimal("12.2")))
    assert (found.word == verdict.IN) is good
