"""Writes progress.json from the cases beside it: `python -m tests.vectors.make_progress`, from the repository's top.

What a case expects is written by hand of progress, never taken from what the core answers.
"""

import json
from pathlib import Path

from tests.vectors import (  # noqa: F401  (each adds its cases)
    progress_deciding,
    progress_doubts,
    progress_gauges,
    progress_holds,
    progress_ink,
    progress_items,
    progress_plans,
    progress_shift,
    progress_signing,
    progress_standing,
    progress_welding,
)
from tests.vectors.progress_builder import CASES
from tests.vectors.progress_jobs import JOBS

FILE = Path(__file__).with_name("progress.json")


def progress_json() -> str:
    """The whole file: a job a line, and of each case its records a line each."""
    jobs = ",\n".join(f"  {json.dumps(name)}: {one_line(job)}" for name, job in JOBS.items())
    cases = ",\n".join(case_text(case) for case in CASES)
    return f'{{\n "jobs": {{\n{jobs}\n }},\n "cases": [\n{cases}\n ]\n}}\n'


def case_text(case: dict) -> str:
    head = ", ".join(f"{json.dumps(name)}: {one_line(case[name])}" for name in ("name", "rule", "job"))
    records = ",\n".join(f"    {one_line(record)}" for record in case["records"])
    body = f"[\n{records}\n   ]" if records else "[]"
    return f'  {{{head},\n   "records": {body},\n   "expect": {one_line(case["expect"])}}}'


def one_line(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)


if __name__ == "__main__":
    FILE.write_text(progress_json())
    print(f"{len(CASES)} cases, {sum(len(case['records']) for case in CASES)} records")
