"""Sampling against MIL-STD-105E of 10 May 1989, Tables I and II-A (title page at studylib.net/doc/26308233).

The tables were read in copies: the source tables of a statistics package that cites archive.org/details/MIL-STD-105E_1
(both tables), the data tables of a second one (Table I), nibs.org/FMOC/DPW_AC/AC-TABLE.ASC (level II, rejection
numbers). The copies of Table I agree in all cells, those of Table II-A in the 90 cells of letters A to Q. Single
sampling, normal inspection.
"""

import pytest
from scipy.stats import binom

from seamtag.core import sampling

LEVELS = ("S-1", "S-2", "S-3", "S-4", "I", "II", "III")
AQLS = ("0.65", "1.0", "1.5", "2.5", "4.0", "6.5")

# Smallest and largest lot, and the code letters at the levels above.
TABLE_I = """
2 8 A A A A A A B
9 15 A A A A A B C
16 25 A A B B B C D
26 50 A B B C C D E
51 90 B B C C C E F
91 150 B B C D D F G
151 280 B C D E E G H
281 500 B C D E F H J
501 1200 C C E F G J K
1201 3200 C D E G H K L
3201 10000 C D F G J L M
10001 35000 C D F H K M N
35001 150000 D E G J L N P
150001 500000 D E G J M P Q
500001 99999999 D E H K N Q R
"""
CODE_LETTERS = [
    (int(lowest), int(highest), level, letter)
    for lowest, highest, *letters in (row.split() for row in TABLE_I.strip().splitlines())
    for level, letter in zip(LEVELS, letters, strict=True)
]

# Table II-A with its arrows followed by hand: sample size, acceptance and rejection number at the AQLs above.
RESOLVED = """
A 20:0/1 13:0/1 8:0/1 5:0/1 3:0/1 2:0/1
B 20:0/1 13:0/1 8:0/1 5:0/1 3:0/1 2:0/1
C 20:0/1 13:0/1 8:0/1 5:0/1 3:0/1 8:1/2
D 20:0/1 13:0/1 8:0/1 5:0/1 13:1/2 8:1/2
E 20:0/1 13:0/1 8:0/1 20:1/2 13:1/2 13:2/3
F 20:0/1 13:0/1 32:1/2 20:1/2 20:2/3 20:3/4
G 20:0/1 50:1/2 32:1/2 32:2/3 32:3/4 32:5/6
H 80:1/2 50:1/2 50:2/3 50:3/4 50:5/6 50:7/8
J 80:1/2 80:2/3 80:3/4 80:5/6 80:7/8 80:10/11
K 125:2/3 125:3/4 125:5/6 125:7/8 125:10/11 125:14/15
L 200:3/4 200:5/6 200:7/8 200:10/11 200:14/15 200:21/22
M 315:5/6 315:7/8 315:10/11 315:14/15 315:21/22 200:21/22
N 500:7/8 500:10/11 500:14/15 500:21/22 315:21/22 200:21/22
P 800:10/11 800:14/15 800:21/22 500:21/22 315:21/22 200:21/22
Q 1250:14/15 1250:21/22 800:21/22 500:21/22 315:21/22 200:21/22
R 2000:21/22 1250:21/22 800:21/22 500:21/22 315:21/22 200:21/22
"""
PLANS = [
    (letter, aql, plan)
    for letter, *plans in (row.split() for row in RESOLVED.strip().splitlines())
    for aql, plan in zip(AQLS, plans, strict=True)
]

SAMPLE_OF_LETTER = {
    "A": 2, "B": 3, "C": 5, "D": 8, "E": 13, "F": 20, "G": 32, "H": 50, "J": 80, "K": 125, "L": 200, "M": 315,
    "N": 500, "P": 800, "Q": 1250, "R": 2000,
}  # fmt: skip


def lot_with(letter: str) -> tuple[int, str]:
    """The largest lot with this code letter, and the level it has it at."""
    found = [(highest, level) for _, highest, level, one in CODE_LETTERS if one == letter]
    return max(found, key=lambda lot: lot[0])


def numbers_of(plan: sampling.SamplingPlan) -> str:
    return f"{plan.sample}:{plan.accept}/{plan.reject}"


@pytest.mark.source("MIL-STD-105E, Table I")
@pytest.mark.parametrize(("lowest", "highest", "level", "letter"), CODE_LETTERS)
def test_code_letter_from_the_smallest_to_the_largest_lot_of_a_row(
    lowest: int, highest: int, level: str, letter: str
) -> None:
    assert sampling.code_letter(lowest, level) == letter
    assert sampling.code_letter((lowest + highest) // 2, level) == letter
    assert sampling.code_letter(highest, level) == letter


@pytest.mark.source("MIL-STD-105E, Table II-A")
@pytest.mark.parametrize(("letter", "aql", "plan"), PLANS)
def test_the_plan_of_a_letter_with_its_arrows_followed(letter: str, aql: str, plan: str) -> None:
    """Re is Ac + 1 in normal single sampling, so that no number of defectives is left without an answer."""
    lot, level = lot_with(letter)
    found = sampling.plan(lot, level, aql)
    assert (found.letter, numbers_of(found)) == (letter, plan)
    assert found.reject == found.accept + 1
    assert sampling.accepted(found, found.accept)
    assert not sampling.accepted(found, found.reject)


@pytest.mark.source("MIL-STD-105E, Table II-A")
@pytest.mark.parametrize(("letter", "sample"), SAMPLE_OF_LETTER.items())
def test_the_sample_size_of_a_letter(letter: str, sample: int) -> None:
    assert {name: size for name, size, _ in sampling.TABLE_II_A}[letter] == sample


@pytest.mark.source("MIL-STD-105E, Table II-A")
def test_an_arrow_stands_just_where_the_plan_is_that_of_another_row() -> None:
    """42 of the 96 cells: a plan that keeps the sample size of its own row would be wrong in nearly half of them."""
    printed = [
        (letter, aql, cell)
        for letter, _, cells in sampling.TABLE_II_A
        for aql, cell in zip(AQLS, cells.split(), strict=True)
    ]
    elsewhere = [plan.split(":")[0] != str(SAMPLE_OF_LETTER[letter]) for letter, _, plan in PLANS]
    assert [cell in ("v", "^") for _, _, cell in printed] == elsewhere
    assert sum(elsewhere) == 42
    assert [(letter, aql) for letter, aql, _ in printed] == [(letter, aql) for letter, aql, _ in PLANS]


# Looked up by hand in both tables: lot, level, AQL, code letter, plan, whether the whole lot is inspected.
EXAMPLES = """
2 II 2.5 A 5:0/1 yes
8 I 0.65 A 20:0/1 yes
8 III 6.5 B 2:0/1 no
15 II 1.0 B 13:0/1 no
25 II 4.0 C 3:0/1 no
25 II 6.5 C 8:1/2 no
40 II 2.5 D 5:0/1 no
50 II 4.0 D 13:1/2 no
90 II 1.0 E 13:0/1 no
90 II 1.5 E 8:0/1 no
150 II 1.0 F 13:0/1 no
150 I 2.5 D 5:0/1 no
151 II 2.5 G 32:2/3 no
200 II 0.65 G 20:0/1 no
280 III 2.5 H 50:3/4 no
281 II 2.5 H 50:3/4 no
500 II 0.65 H 80:1/2 no
500 I 1.5 F 32:1/2 no
1000 II 1.0 J 80:2/3 no
1200 III 1.0 K 125:3/4 no
1201 II 1.0 K 125:3/4 no
3200 II 2.5 K 125:7/8 no
10000 II 6.5 L 200:21/22 no
10001 II 6.5 M 200:21/22 no
35000 III 4.0 N 315:21/22 no
150000 II 0.65 N 500:7/8 no
500000 II 1.0 P 800:14/15 no
500000 III 6.5 Q 200:21/22 no
"""


@pytest.mark.source("MIL-STD-105E, Tables I and II-A")
@pytest.mark.parametrize(
    ("lot", "level", "aql", "letter", "plan", "all_of_it"), [row.split() for row in EXAMPLES.strip().splitlines()]
)
def test_the_plan_of_a_lot_as_looked_up_by_hand(
    lot: str, level: str, aql: str, letter: str, plan: str, all_of_it: str
) -> None:
    found = sampling.plan(int(lot), level, aql)
    assert (found.letter, numbers_of(found), found.all_of_it) == (letter, plan, all_of_it == "yes")


@pytest.mark.source("MIL-STD-105E, Table II-A")
@pytest.mark.parametrize(
    ("lot", "level", "aql", "all_of_it"),
    [
        (19, "II", "0.65", True), (20, "II", "0.65", True), (21, "II", "0.65", False), (80, "III", "0.65", False),
        (51, "III", "0.65", False), (13, "II", "1.0", True), (14, "II", "1.0", False), (2, "I", "6.5", True),
        (3, "I", "6.5", False), (3, "II", "4.0", True), (4, "II", "4.0", False),
    ],
)  # fmt: skip
def test_the_whole_lot_is_inspected_where_the_sample_is_as_large(
    lot: int, level: str, aql: str, all_of_it: bool
) -> None:
    """The rule beside the arrows in the legend of the table; it is for the sample the arrows lead to."""
    assert sampling.plan(lot, level, aql).all_of_it is all_of_it


# Operating characteristic by the binomial distribution: share defective and probability of acceptance.
@pytest.mark.source("binomial distribution, scipy")
@pytest.mark.parametrize(
    ("lot", "aql", "sample", "accept", "share", "probability"),
    [
        (1000, "1.0", 80, 2, 0.01, 0.953447), (281, "2.5", 50, 3, 0.025, 0.963796),
        (3200, "2.5", 125, 7, 0.025, 0.986384), (90, "1.0", 13, 0, 0.01, 0.877521),
    ],
)  # fmt: skip
def test_the_probability_that_a_lot_at_its_aql_is_accepted(
    lot: int, aql: str, sample: int, accept: int, share: float, probability: float
) -> None:
    found = sampling.plan(lot, "II", aql)
    assert (found.sample, found.accept) == (sample, accept)
    assert binom.cdf(found.accept, found.sample, share) == pytest.approx(probability, abs=5e-7)
