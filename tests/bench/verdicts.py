"""What a verdict costs on the server core, beside the same comparisons in bare decimal.

Run as `python -m tests.bench.verdicts`.
Ratios are measured side by side in one run, since absolute times differ from machine to machine.
"""

import time
from collections.abc import Callable
from decimal import Decimal

from seamtag.core import numbers, uoms, verdict
from seamtag.core.limits import Limits

MANY = 20_000
ROUNDS = 5
LIMITS = Limits(Decimal("0.0625"), Decimal("0.15625"))
TYPED = [numbers.shown_inches(Decimal(marks) / 64) for marks in range(16)]
VALUES = [numbers.parse(text).value for text in TYPED]
GAUGE = verdict.Gauge(Decimal("0.005"))
IN_MM = uoms.conversion("mm", "in")


def bare(number: int) -> bool:
    """What a verdict comes down to: both limits compared, and the distance to the nearer."""
    value = VALUES[number % 16]
    nearer = min(value - Decimal("0.0625"), Decimal("0.15625") - value)
    return nearer >= 0


def simple(number: int) -> verdict.Verdict:
    return verdict.judge(VALUES[number % 16], LIMITS)


def with_gauge(number: int) -> verdict.Verdict:
    return verdict.judge(VALUES[number % 16], LIMITS, GAUGE, "guarded")


def converted(number: int) -> verdict.Verdict:
    return verdict.judge(VALUES[number % 16], LIMITS, GAUGE, "simple", None, IN_MM or uoms.SAME)


def typed(number: int) -> verdict.Verdict:
    return verdict.judge(numbers.parse(TYPED[number % 16]).value, LIMITS, GAUGE)


def rate(work: Callable[[int], object]) -> float:
    """Calls a second, of the best of several rounds."""
    best = 0.0
    for _ in range(ROUNDS):
        start = time.perf_counter()
        for number in range(MANY):
            work(number)
        best = max(best, MANY / (time.perf_counter() - start))
    return best


def main() -> None:
    floor = rate(bare)
    print(f"{'comparisons in bare decimal':42} {floor:12,.0f} /s")
    for name, work in (("a verdict, simple rule, no gauge", simple), ("with U, guarded rule, probability", with_gauge),
                       ("with U, converted from mm", converted), ("with U, from the text typed", typed)):  # fmt: skip
        found = rate(work)
        print(f"{name:42} {found:12,.0f} /s   {floor / found:5.1f} times the bare comparison")


if __name__ == "__main__":
    main()
