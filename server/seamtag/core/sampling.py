"""Sampling by attributes: the single plans for normal inspection of MIL-STD-105E, by code letter and AQL.

It fits what a shop makes by the hundred: diameters of tube holes, projection of tube ends, rolled inside diameters,
stud and clip welds. Dimensions at hold points and pressure tests are never sampled: each one is measured, each vessel
is tested (common practice, no source).

Not worked here: tightened and reduced inspection and the switching between them, double and multiple plans. The
standard was cancelled in 1995 in favour of ANSI/ASQC Z1.4.
"""

import re
from dataclasses import dataclass
from decimal import Decimal

LEVELS = ("S-1", "S-2", "S-3", "S-4", "I", "II", "III")
AQLS = ("0.65", "1.0", "1.5", "2.5", "4.0", "6.5")

TABLE_I: tuple[tuple[int, str], ...] = (
    (8, "A A A A A A B"),
    (15, "A A A A A B C"),
    (25, "A A B B B C D"),
    (50, "A B B C C D E"),
    (90, "B B C C C E F"),
    (150, "B B C D D F G"),
    (280, "B C D E E G H"),
    (500, "B C D E F H J"),
    (1200, "C C E F G J K"),
    (3200, "C D E G H K L"),
    (10000, "C D F G J L M"),
    (35000, "C D F H K M N"),
    (150000, "D E G J L N P"),
    (500000, "D E G J M P Q"),
)
"""Largest lot of each row, and its code letters in the order of LEVELS.

Source: MIL-STD-105E, Table I, read in two copies that agree.
"""
ABOVE = "D E H K N Q R"
"""The row of every larger lot."""

TABLE_II_A: tuple[tuple[str, int, str], ...] = (
    ("A", 2, "v v v v v 0/1"),
    ("B", 3, "v v v v 0/1 ^"),
    ("C", 5, "v v v 0/1 ^ v"),
    ("D", 8, "v v 0/1 ^ v 1/2"),
    ("E", 13, "v 0/1 ^ v 1/2 2/3"),
    ("F", 20, "0/1 ^ v 1/2 2/3 3/4"),
    ("G", 32, "^ v 1/2 2/3 3/4 5/6"),
    ("H", 50, "v 1/2 2/3 3/4 5/6 7/8"),
    ("J", 80, "1/2 2/3 3/4 5/6 7/8 10/11"),
    ("K", 125, "2/3 3/4 5/6 7/8 10/11 14/15"),
    ("L", 200, "3/4 5/6 7/8 10/11 14/15 21/22"),
    ("M", 315, "5/6 7/8 10/11 14/15 21/22 ^"),
    ("N", 500, "7/8 10/11 14/15 21/22 ^ ^"),
    ("P", 800, "10/11 14/15 21/22 ^ ^ ^"),
    ("Q", 1250, "14/15 21/22 ^ ^ ^ ^"),
    ("R", 2000, "21/22 ^ ^ ^ ^ ^"),
)
"""Code letter, sample size, and for each of AQLS the numbers Ac/Re as printed, or an arrow.

v: use the first plan below; ^: use the first plan above. Source: MIL-STD-105E, Table II-A, read in two copies that
agree.
"""
ARROWS = {"v": 1, "^": -1}
PER_CENT = re.compile(r"[0-9]+(?:\.[0-9]+)?")


class SamplingError(ValueError):
    """There is no plan for what was asked. The message says what is wrong, with what."""


@dataclass(frozen=True)
class SamplingPlan:
    """letter: code letter of Table I. sample: pieces to draw. accept, reject: most and least defectives to do so.

    An arrow of Table II-A has been followed: sample, accept and reject are those of the row it led to, while the letter
    stays. all_of_it: the sample is as large as the lot or larger; the whole lot is inspected, by the same two numbers.
    """

    letter: str
    sample: int
    accept: int
    reject: int
    all_of_it: bool


def code_letter(lot: int, level: str) -> str:
    """The code letter of a lot's size at an inspection level, one of LEVELS.

    Raises SamplingError where the lot has fewer than 2 pieces or the level is not known.
    Source: MIL-STD-105E, Table I, read.
    """
    if lot < 2:
        raise SamplingError(f"a lot to draw a sample from has at least 2 pieces, and this one has {lot}")
    if level not in LEVELS:
        raise SamplingError(f"there is no inspection level '{level[:40]}'; there are {', '.join(LEVELS)}")
    letters = next((letters for most, letters in TABLE_I if lot <= most), ABOVE)
    return letters.split(" ")[LEVELS.index(level)]


def plan(lot: int, level: str, aql: str) -> SamplingPlan:
    """The single plan for normal inspection of a lot.

    lot: its number of pieces. level: one of LEVELS. aql: acceptable quality level as text, one of AQLS or a number
    equal to one, in per cent defective.
    Raises SamplingError as code_letter does, and where there is no such AQL.
    Source: MIL-STD-105E, Tables I and II-A, read.
    """
    letter = code_letter(lot, level)
    column = column_of(aql)
    row = next(place for place, (name, _, _) in enumerate(TABLE_II_A) if name == letter)
    cell = cell_at(row, column)
    step = ARROWS.get(cell, 0)
    while cell in ARROWS:
        row += step
        cell = cell_at(row, column)
    sample = TABLE_II_A[row][1]
    accept, reject = (int(part) for part in cell.split("/"))
    return SamplingPlan(letter, sample, accept, reject, sample >= lot)


def cell_at(row: int, column: int) -> str:
    return TABLE_II_A[row][2].split(" ")[column]


def column_of(aql: str) -> int:
    """The column of Table II-A. Raises SamplingError where none is equal to the AQL."""
    value = Decimal(aql) if PER_CENT.fullmatch(aql) else None
    for column, known in enumerate(AQLS):
        if Decimal(known) == value:
            return column
    raise SamplingError(f"there is no plan for AQL '{aql[:40]}'; there are {', '.join(AQLS)}")


def accepted(plan: SamplingPlan, defectives: int) -> bool:
    """Whether a lot is accepted by a plan. defectives: how many of the pieces inspected were defective.

    Raises SamplingError where they are below 0. Source: MIL-STD-105E, single sampling, read.
    """
    if defectives < 0:
        raise SamplingError(f"the defectives must not be below 0, and they are {defectives}")
    return defectives <= plan.accept
