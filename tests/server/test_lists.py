"""Lists of pieces: the same out as in, and every fault with its row and column."""

import io
import random
from pathlib import Path
from typing import Any

import pytest
import yaml
from openpyxl import load_workbook

from seamtag.jobs import lists
from seamtag.jobs.opening import JobError, faults_of, pieces_of
from seamtag.plans.reading import read as read_plan
from tests.shop import PLAN

DEMO = Path(__file__).resolve().parents[2] / "seed_demo"
SMALL = read_plan(PLAN)
SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-./ '\"=+@éñ¼"
"""Also what a spreadsheet would read as a formula or a date."""
GENERATED = 100


@pytest.mark.parametrize("name", ["wetback", "receiver"])
def test_the_demonstration_goes_out_and_in(name: str) -> None:
    document = read_plan((DEMO / f"{name}_plan.yaml").read_text(encoding="utf-8"))
    source = yaml.safe_load((DEMO / f"{name}_job.yaml").read_text(encoding="utf-8"))
    back = lists.read(lists.write(source["pieces"], document), "pieces.xlsx", document)
    assert pieces_of("J", back) == pieces_of("J", source["pieces"])


def made_up(dice: random.Random) -> list[dict[str, Any]]:
    """A list of pieces as odd as a planner may type it."""

    def text(longest: int) -> str:
        return "".join(dice.choices(SIGNS, k=dice.randint(0, longest))).strip()

    marks = list(dict.fromkeys(f"{text(4)}{number}" for number in range(dice.randint(1, 30))))
    return [
        {
            "mark": mark, "kind": dice.choice(["plate", "seam"]), "name": text(20), "place": text(20), "sheet": text(3),
            "part_of": dice.sample(marks[:place], dice.randint(0, min(2, place))),
            "joins": dice.sample(marks[:place], dice.randint(0, min(3, place))),
            "figures": {"size": dice.choice(["1/4", "0.375", "1 7/16", ".5", "12"])},
        }
        for place, mark in enumerate(marks)
    ]  # fmt: skip


def test_made_up_lists_go_out_and_in() -> None:
    for seed in range(GENERATED):
        pieces = made_up(random.Random(seed))
        back = lists.read(lists.write(pieces, SMALL), "pieces.xlsx", SMALL)
        assert pieces_of("J", back) == pieces_of("J", pieces), f"seed {seed}"


def broken(pieces: list[dict[str, Any]], row: int, column: str, text: str) -> bytes:
    """The workbook of a list with one cell changed. row: of the sheet, from 1."""
    workbook = load_workbook(io.BytesIO(lists.write(pieces, SMALL)))
    sheet = workbook.active
    assert sheet is not None
    names = [cell.value for cell in sheet[1]]
    cell = sheet.cell(row, names.index(column) + 1)
    cell.value, cell.data_type = text, "s"
    out = io.BytesIO()
    workbook.save(out)
    return out.getvalue()


BREAKS = [("mark", ""), ("mark", "A,B"), ("kind", ""), ("kind", "plaet"), ("part of", "not-there"),
          ("joins", "not-there"), ("size", "a quarter")]  # fmt: skip


def test_a_broken_list_names_row_and_column() -> None:
    for seed in range(GENERATED):
        dice = random.Random(seed)
        pieces = made_up(dice)
        row = dice.randint(2, len(pieces) + 1)
        wholes = {mark for piece in pieces for mark in piece["part_of"]}
        held = pieces[row - 2]["mark"] in wholes
        column, text = dice.choice([one for one in BREAKS if one != ("kind", "plaet") or not held])
        with pytest.raises(JobError) as caught:
            lists.read(broken(pieces, row, column, text), "pieces.xlsx", SMALL)
        place = f"sheet Pieces, row {row}, column {column}: "
        assert any(fault.startswith(place) for fault in caught.value.faults), (seed, place, caught.value.faults)


def test_a_mark_that_stands_twice_names_both_rows() -> None:
    content = b"mark,kind,size\nP-1,plate,1/4\nP-2,plate,1/4\nP-1,plate,1/4\n"
    with pytest.raises(JobError) as caught:
        lists.read(content, "pieces.csv", SMALL)
    assert caught.value.faults == ["the list, row 4, column mark: 'P-1' stands in row 2 already"]


def test_a_circle_of_thousands_of_pieces_is_found() -> None:
    """A seam that joins what is made of itself: nothing of it could ever begin."""
    document = read_plan(PLAN.replace("- {steps: earlier, of: job}", "- {steps: [finished], of: joins}"))
    plates = [{"mark": f"P-{i}", "kind": "plate", "figures": {"size": "1/4"}} for i in range(1000)]
    seams = [{"mark": f"S-{i}", "kind": "seam", "joins": [f"S-{(i + 1) % 1000}"]} for i in range(1000)]
    source = {"job": "J", "figures": {"gap_nom": "1/8"}, "pieces": plates + seams}
    (fault,) = faults_of(source, document)
    assert "step finished: waits for itself: S-" in fault
