"""How quickly the day review and what is opened from it answer, beside the bare queries behind each answer.

Run as `python -m tests.bench.review [--readings N] [--jobs N] [--database sqlite|postgresql|both]`. It fills a database
with 10,000 readings and one with a million; the rows are written directly and not through the signed intake (see
many_records.py). An answer is asked for through Flask's test client by a supervisor who is signed in. Right
after it the statements that it sent are sent again through the driver's own cursor and fetched: the bare queries. Every
query is explained: none may read a table whole that grows with the records.
"""

import argparse
import os
import sqlite3
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import Engine, event

from seamtag.database import db
from tests.bench.many_records import LARGEST, Made, fill
from tests.conftest import app_in, close, made_ready
from tests.postgres import NEVER, Cluster, programs
from tests.shop import proof_of

ROUNDS = 120
WARMING = 8
GROWING = ("entry", "record", "flag", "decision", "measured", "released", "piece_state", "piece", "basis", "job",
           "photo")  # fmt: skip
"""Tables that grow with the work. People, keys, sessions, phones, series and lines of lists are few, and some are read
whole on purpose."""
FEW = (10_000, 20)
"""Readings and jobs of the small database."""
MOST_MS, MOST_RATIO, MOST_GROWTH = 50.0, 3.0, 1.5
WORTH = 1.0
"""Milliseconds that the bare queries must take before the ratio says anything: any answer costs what 'head' does."""

Statement = tuple[str, Any]


@dataclass(frozen=True)
class Figures:
    """In milliseconds, of one kind of answer. quick, bare: of the answers and of their bare queries the tenth that was
    least disturbed by other work. late: the 95th percentile. scans: growing tables read whole, a line each."""

    quick: float
    median: float
    late: float
    bare: float
    statements: int
    bytes: int
    scans: list[str]

    @property
    def ratio(self) -> float:
        return self.quick / self.bare


def paths(made: Made) -> dict[str, str]:
    """What is asked for, by what it is called here."""
    plan, step, item = LARGEST
    return {
        "review, open": f"/api/v1/review?day={made.day}&state=open",
        "review, open, of one job": f"/api/v1/review?day={made.day}&state=open&job={made.job}",
        "review, closed, of one kind": f"/api/v1/review?day={made.day}&state=closed&kind=out of tolerance",
        "review, no state": f"/api/v1/review?day={made.day}",
        "one flag opened": f"/api/v1/flags/{made.flag}",
        "decisions, open": "/api/v1/decisions?which=open",
        "decisions, all of a job": f"/api/v1/decisions?which=all&job={made.job}",
        "list, blocked": "/api/v1/review/lists/blocked",
        "on the spot": f"/api/v1/review/on-the-spot?day={made.day}",
        "head": "/api/v1/head",
        "series, the largest": f"/api/v1/trends/series?plan={plan}&step={step}&item={item}",
    }  # fmt: skip


@contextmanager
def listening(engine: Engine, into: list[Statement]) -> Iterator[None]:
    """Gathers every statement that is sent, with its parameters."""

    def note(_c: Any, _cursor: Any, statement: str, parameters: Any, _context: Any, _many: bool) -> None:
        into.append((statement, parameters))

    event.listen(engine, "before_cursor_execute", note)
    try:
        yield
    finally:
        event.remove(engine, "before_cursor_execute", note)


def timed(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def bare(driver: Any, statements: list[Statement]) -> None:
    """The statements in one transaction, as the answer sends them."""
    cursor = driver.cursor()
    if isinstance(driver, sqlite3.Connection):
        cursor.execute("BEGIN")
    for statement, parameters in statements:
        cursor.execute(statement, parameters)
        cursor.fetchall()
    if isinstance(driver, sqlite3.Connection):
        cursor.execute("ROLLBACK")
    else:
        driver.rollback()
    cursor.close()


def measure(engine: Engine, browser: FlaskClient, path: str, rounds: int) -> Figures:
    """One kind of answer. No context of the application is held, so that each answer has a session of its own."""
    statements: list[Statement] = []
    for _ in range(WARMING):
        answer = browser.get(path)
        assert answer.status_code == 200, f"{path}: {answer.text[:300]}"
    with listening(engine, statements):
        browser.get(path)
    reading = [one for one in statements if one[0].lstrip().startswith("SELECT")]
    with closing(engine.raw_connection()) as raw:
        driver = raw.driver_connection
        for _ in range(WARMING):
            bare(driver, reading)
        pairs = [(timed(lambda: browser.get(path)), timed(lambda: bare(driver, reading))) for _ in range(rounds)]
        scans = sorted({scan for one in reading for scan in scans_of(driver, *one)})
    whole, queries = (sorted(times) for times in zip(*pairs, strict=True))
    return Figures(at(whole, 0.1), at(whole, 0.5), at(whole, 0.95), at(queries, 0.1), len(reading), len(answer.data),
                   scans)  # fmt: skip


def at(times: list[float], part: float) -> float:
    """Of sorted times the one that a part of them does not reach."""
    return times[int(len(times) * part)]


def scans_of(driver: Any, statement: str, parameters: Any) -> Iterator[str]:
    """The growing tables that a statement reads whole, as the database itself explains it."""
    cursor = driver.cursor()
    if isinstance(driver, sqlite3.Connection):
        lines = [str(row[3]) for row in cursor.execute(f"EXPLAIN QUERY PLAN {statement}", parameters).fetchall()]
        found = [line for line in lines if line.startswith("SCAN ")]
        named = [(line.split()[1], line) for line in found]
    else:
        cursor.execute(f"EXPLAIN {statement}", parameters)
        lines = [str(row[0]) for row in cursor.fetchall()]
        found = [line.strip() for line in lines if "Seq Scan on " in line]
        named = [(line.split("Seq Scan on ")[1].split()[0].strip('"'), line) for line in found]
        driver.rollback()
    cursor.close()
    newest = "WHERE" not in statement and "LIMIT" in statement and not any("TEMP B-TREE" in line for line in lines)
    if newest:  # read from its end by its key, and no further than the limit
        return
    yield from (f"{line} <- {' '.join(statement.split())[:160]}" for table, line in named if table in GROWING)


def signed_in(app: Flask, phone: Any) -> FlaskClient:
    browser = app.test_client()
    nonce = browser.post("/api/v1/challenges").get_json()["nonce"]
    answer = browser.post("/api/v1/sessions", json={"proof": proof_of(phone.key, nonce)})
    assert answer.status_code == 201, answer.text
    return browser


def of_database(folder: Path, database: str, readings: int, jobs: int, rounds: int) -> dict[str, Figures]:
    app = app_in(folder, database)
    made_ready(app)
    start = time.perf_counter()
    made, phone = fill(app, readings, jobs)
    tell(f"{readings:,} readings over {jobs:,} jobs written in {time.perf_counter() - start:.0f} s")
    browser = signed_in(app, phone)
    found = {}
    print(f"  {'':28} {'quick':>8} {'median':>8} {'95 %':>8} {'bare':>8} {'ratio':>6} {'sent':>5} {'kB':>5}   load")
    with app.app_context():
        engine = db.engine
    for name, path in paths(made).items():
        one = found[name] = measure(engine, browser, path, rounds)
        miss = " <- too slow" * (one.late > MOST_MS) + " <- too far from bare" * (
            one.bare > WORTH and one.ratio > MOST_RATIO
        )
        tell(f"  {name:28} {one.quick:8.2f} {one.median:8.2f} {one.late:8.2f} {one.bare:8.2f} {one.ratio:6.2f}"
             f" {one.statements:5} {one.bytes / 1000:5.0f}   {os.getloadavg()[0]:.1f}{miss}")  # fmt: skip
        for scan in one.scans if readings > FEW[0] else ():  # what is small PostgreSQL reads whole, and rightly
            tell(f"    reads a table whole: {scan}")
    close(app)
    return found


def tell(text: str) -> None:
    print(text, flush=True)


def compare(few: dict[str, Figures], many: dict[str, Figures]) -> None:
    tell("  from the few to the many: answers and bare queries")
    for name in few:
        growth = many[name].quick / few[name].quick
        tell(
            f"  {name:28} {growth:5.2f} {many[name].bare / few[name].bare:5.2f}" + " <- grows" * (growth > MOST_GROWTH)
        )


def main() -> None:
    parser = argparse.ArgumentParser(description="Measure the day review over very many readings.")
    parser.add_argument("--readings", type=int, default=1_000_000)
    parser.add_argument("--jobs", type=int, default=2000)
    parser.add_argument("--database", choices=("sqlite", "postgresql", "both"), default="both")
    parser.add_argument("--rounds", type=int, default=ROUNDS)
    given = parser.parse_args()
    cluster = Cluster() if given.database != "sqlite" and programs() is not None else None
    if cluster is None and given.database != "sqlite":
        tell(NEVER)
    kinds = [
        one for one in ("sqlite", "postgresql") if given.database in (one, "both") and (one == "sqlite" or cluster)
    ]
    try:
        for kind in kinds:
            tell(f"{kind}:")
            found = []
            for readings, jobs in (FEW, (given.readings, given.jobs)):
                with tempfile.TemporaryDirectory(prefix="seamtag-bench-") as folder:
                    url = cluster.new() if kind == "postgresql" and cluster else ""
                    found.append(of_database(Path(folder), url, readings, jobs, given.rounds))
            compare(*found)
    finally:
        if cluster:
            cluster.stop()


if __name__ == "__main__":
    main()
