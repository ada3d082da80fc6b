"""A database as full as that of a shop after years, its rows written directly and not through the signed intake.

Every row is one that the intake would derive from records such as these, but no record is signed and nothing is judged:
so a million readings are there in minutes. People, the plan and the keys go in the proper way.
"""

import base64
import json
import random
import sqlite3
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from flask import Flask
from sqlalchemy import Table
from sqlalchemy.orm import DeclarativeBase

from seamtag.database import db, writing
from seamtag.jobs.models import Basis, Job, Piece
from seamtag.people import staff
from seamtag.people.models import Person
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from seamtag.records.models import Record
from seamtag.review.flagging import RANKS
from seamtag.review.models import Decision, FlagRow, ListLine, PieceState, Released
from seamtag.sync import chain
from seamtag.sync.models import Device, Entry
from seamtag.sync.shop import name_shop
from seamtag.trends.models import Measured, Series
from seed_demo.phone import Phone, uuid7

Row = dict[str, Any]

PLAN = """
notice: Made up for measuring.
plan: bench
title: Tube sheets
agree: {code: [engineering], drawing: [engineering], shop: []}
stages:
  - {number: "1", name: Holes}
  - {number: "2", name: Tubes}
steps:
  - code: fit
    number: "1.1"
    stage: "1"
    name: Fit of the sheet
    kinds: [sheet]
    points: [{party: QC, point: H}]
    items:
      - {code: gap, name: Gap, kind: measure, uom: in, stations: {least: 6}, upper: "0.2", binds: shop}
      - {code: flat, name: Flatness, kind: measure, uom: in, stations: {least: 4}, upper: "0.2", binds: drawing}
  - code: holes
    number: "1.2"
    stage: "1"
    name: Holes
    kinds: [sheet]
    points: [{party: QC, point: H}]
    items:
      - {code: dia, name: Hole, kind: measure, uom: in, stations: {least: 30}, lower: "2.5", upper: "2.52", binds: code}
  - code: roll
    number: "2.1"
    stage: "2"
    name: Rolled tubes
    kinds: [sheet]
    points: [{party: QC, point: H}, {party: AI, point: H}]
    items:
      - {code: inside, name: Inside, kind: measure, uom: in, stations: {least: 10}, lower: "2.2", upper: "2.3",
         binds: code}
"""
ITEMS = (("fit", "gap", 6), ("fit", "flat", 4), ("holes", "dia", 30), ("roll", "inside", 10))
"""Step, item, and how many readings of it a piece has."""
LIMITS: dict[str, tuple[float | None, float]] = {
    "gap": (None, 0.2), "flat": (None, 0.2), "dia": (2.5, 2.52), "inside": (2.2, 2.3),
}  # fmt: skip
STEPS = {"fit": ("1.1", "Fit of the sheet", "1"), "holes": ("1.2", "Holes", "1"), "roll": ("2.1", "Rolled tubes", "2")}
LARGEST = ("bench", "holes", "dia")
A_PIECE = sum(count for _, _, count in ITEMS)
A_JOB = 500
PIECES = A_JOB // A_PIECE
OPEN_JOBS = 40
LAST_DAY = 3000
"""Readings of the last day, and of the day before it."""
FLAGGED = 0.02
OPEN_FLAGS, DECIDED_FLAGS = 200, 60
RECENT = 9000
"""Readings at the end among which those are that are open or decided."""
SPAN = timedelta(days=730)
KINDS = ("out of tolerance", "out of tolerance", "out of tolerance", "too close to call", "gauge ran out",
         "photo missing", "role in doubt", "phone and server differ")  # fmt: skip
LINES = {"ready_for_ai": 120, "blocked": 400, "reports": 80}
AT_ONCE = 20_000
MAKERS = [f"inspector-{number}" for number in range(8)]
SILENT = 2


@dataclass(frozen=True)
class Made:
    """day: the last one, as ISO text. flag: id of one that is open, of the largest item."""

    day: str
    flag: str
    job: str


class Loader:
    """Gathers rows by table and writes them many at once, past SQLAlchemy."""

    def __init__(self, raw: Any) -> None:
        self.raw, self.waiting = raw, dict[str, tuple[Table, list[Row]]]()

    def add(self, model: type[DeclarativeBase], row: Row) -> None:
        table: Any = model.__table__
        rows = self.waiting.setdefault(table.name, (table, []))[1]
        rows.append(row)
        if len(rows) >= AT_ONCE:
            self.flush()

    def flush(self) -> None:
        for table in db.metadatas[None].sorted_tables:
            _, rows = self.waiting.pop(table.name, (table, []))
            if rows:
                self.write(table, rows)

    def write(self, table: Table, rows: list[Row]) -> None:
        names = [column.name for column in table.columns]
        lines = [tuple(plain(row.get(name)) for name in names) for row in rows]
        quoted = ", ".join(f'"{name}"' for name in names)
        if isinstance(self.raw, sqlite3.Connection):
            marks = ", ".join("?" * len(names))
            self.raw.executemany(f'INSERT INTO "{table.name}" ({quoted}) VALUES ({marks})', lines)
            return
        with self.raw.cursor() as cursor, cursor.copy(f'COPY "{table.name}" ({quoted}) FROM STDIN') as copy:
            for line in lines:
                copy.write_row(line)


def item_at(place: int) -> tuple[str, str, int]:
    """Step and item of a piece's reading, and which one of that item it is."""
    for step, item, count in ITEMS:
        if place < count:
            return step, item, place
        place -= count
    raise ValueError(f"A piece has {A_PIECE} readings.")


def plain(value: Any) -> Any:
    return json.dumps(value) if isinstance(value, dict | list) else value


class Filling:
    """One filling of one database. readings: in all; jobs: over how many."""

    def __init__(self, app: Flask, readings: int, jobs: int) -> None:
        self.app, self.readings, self.jobs = app, readings, jobs
        self.dice = random.Random(7)
        self.number, self.hash = 0, ""
        self.start = datetime.now(UTC).replace(hour=0, minute=0, second=0, microsecond=0)
        recent = range(readings - min(readings, RECENT), readings)
        wanted = self.dice.sample(recent, OPEN_FLAGS + DECIDED_FLAGS)
        self.states = {place: "open" if n < OPEN_FLAGS else "decided" for n, place in enumerate(wanted)}
        self.seq: dict[str, int] = {}
        self.made = Made(self.start.date().isoformat(), "", "")

    def everything(self) -> Made:
        self.plan = self.open_shop()
        raw = db.engine.raw_connection()
        driver: Any = raw.driver_connection
        try:
            lite = isinstance(driver, sqlite3.Connection)
            if lite:
                for pragma in ("synchronous=OFF", "cache_size=-800000", "foreign_keys=OFF"):
                    driver.execute(f"PRAGMA {pragma}")
                driver.execute("BEGIN")
            self.loader = Loader(driver)
            self.rows()
            self.loader.flush()
            driver.execute("COMMIT") if lite else driver.commit()
        finally:
            raw.close()
        if not lite:
            with db.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
                connection.exec_driver_sql("VACUUM ANALYZE")
        db.engine.dispose()
        return self.made

    def open_shop(self) -> str:
        """People, their keys and the plan, through the chain; the plan's hash."""
        now = int((self.start - SPAN - timedelta(days=7)).timestamp())
        self.supervisor = Phone("supervisor", self.dice)
        with writing() as session:
            name_shop(session, "A shop for measuring", "UTC", now)
            people = [
                ("supervisor", "supervisor"),
                ("visitor", "authorized inspector"),
                *((one, "inspector") for one in MAKERS),
            ]
            people += [(f"fitter-{number}", "fitter") for number in range(20)]
            for person, role in people:
                name = person.replace("-", " ").title()
                staff.engage(session, Person(id=person, name=name, roles=[role], stamp=""), now)
            session.flush()
            self.supervisor.enrol(session, now)
            plan = publish(session, read(PLAN), now)
            session.flush()
            self.number, self.hash = chain.head(session)
            return plan.hash

    def entry(self, kind: str, scope: str, body: str, stamp: str) -> int:
        self.number += 1
        self.hash = f"{self.dice.getrandbits(256):064x}"
        self.loader.add(Entry, {"number": self.number, "hash": self.hash, "kind": kind, "scope": scope, "body": body,
                                "stamp": stamp})  # fmt: skip
        return self.number

    def rows(self) -> None:
        generation = 0
        for place in range(self.readings):
            first_of = place % (OPEN_JOBS * A_JOB) == 0
            if first_of:
                self.open_jobs(generation, self.moment(place))
                generation += 1
            self.reading(place)
        self.rest()

    def moment(self, place: int) -> int:
        """When a reading came in: the last two days alike, the others evenly over the span before them."""
        left = self.readings - place
        if left <= 2 * LAST_DAY:
            days, within = (left - 1) // LAST_DAY, LAST_DAY - 1 - (left - 1) % LAST_DAY
            return int(self.start.timestamp()) - 86_400 * days + 6 * 3600 + within * 16 * 3600 // LAST_DAY
        begin = int((self.start - SPAN).timestamp())
        return begin + int((SPAN.total_seconds() - 86_400) * place / (self.readings - 2 * LAST_DAY))

    def jobs_of(self, generation: int) -> list[str]:
        first = generation * OPEN_JOBS
        return [f"B{number:05}" for number in range(first, min(first + OPEN_JOBS, self.jobs))]

    def open_jobs(self, generation: int, now: int) -> None:
        stamp = json.dumps({"at": now, "by": "planner"})
        last = (generation + 1) * OPEN_JOBS >= self.jobs
        for job in self.jobs_of(generation):
            title = f"Boiler {job}"
            self.entry("job", "shop", json.dumps({"id": job, "title": title, "open": True}), stamp)
            self.loader.add(Job, {"id": job, "title": title, "open": last})
            number = self.entry("basis", f"job:{job}", json.dumps({"plan": self.plan, "figures": 1}), stamp)
            self.loader.add(Basis, {"number": number, "job": job, "plan": self.plan, "figures": 1, "values": {},
                                    "drawings": {}, "reason": ""})  # fmt: skip
            self.entry("pieces", f"job:{job}", json.dumps({"pieces": []}), stamp)
            for position in range(PIECES):
                piece = f"{job}.TS-{position}"
                self.loader.add(Piece, {"id": piece, "job": job, "position": position, "mark": f"TS-{position}",
                                        "kind": "sheet", "name": "", "part_of": [], "joins": [], "figures": {},
                                        "sheet": "", "place": "", "remade": ""})  # fmt: skip
                states = {step: ["released", [], []] if not last else ["started", ["QC"], ["QC"]] for step in STEPS}
                self.loader.add(PieceState, {"job": job, "piece": piece, "states": states, "scrapped": False})
                for step in STEPS if not last else ():
                    self.loader.add(Released, {"job": job, "piece": piece, "step": step, "received": now + 86_400 * 10})

    def place_of(self, place: int) -> tuple[str, int]:
        """The job of a reading, and which of the job's readings it is. Forty jobs are worked on at a time."""
        generation, within = divmod(place, OPEN_JOBS * A_JOB)
        jobs = self.jobs_of(generation)
        return jobs[within % len(jobs)], within // len(jobs)

    def reading(self, place: int) -> None:
        job, within = self.place_of(place)
        position, left = divmod(within, A_PIECE)
        step, item, left = item_at(left)
        now, state = self.moment(place), self.states.get(place, "")
        flagged = bool(state) or (self.dice.random() < FLAGGED)
        lower, upper = LIMITS[item]
        value = (upper + 0.01 * self.dice.random()) if flagged else self.dice.uniform(lower or upper / 2, upper)
        at = {"job": job, "piece": f"{job}.TS-{position}", "step": step, "item": item, "station": str(left + 1)}
        row = self.record(at, "reading", {"entered": f"{value:.4f}", "uom": "in", "gauge": ""}, place, now)
        word = "out of tolerance" if flagged else "in tolerance"
        row |= {"value": f"{value:.4f}", "value_float": value, "verdict": word, "margin": f"{upper - value:.4f}"}
        self.loader.add(Record, row)
        names = ("number", "job", "piece", "step", "item", "station", "by", "at", "received")
        self.loader.add(Measured, {
            **{name: row[name] for name in names}, "id": row["id"], "record": row["id"], "mark": f"TS-{position}",
            "kind": "sheet", "plan": "bench", "gauge": "", "procedure": "", "value": value, "lower": lower,
            "upper": upper, "uom": "in", "verdict": word, "standing": "in force",
        })  # fmt: skip
        if flagged:
            self.flag(
                row, state or self.dice.choice(("closed", "closed", "closed", "fixed on the spot")), value - upper
            )

    def record(self, at: Row, kind: str, body: Row, place: int, now: int) -> Row:
        """An entry with a record that has the form of a signed one, and the row derived from it."""
        by = MAKERS[place % len(MAKERS)] if kind == "reading" else "supervisor"
        seq = self.seq[by] = self.seq.get(by, 0) + 1
        made = datetime.fromtimestamp(now, UTC).isoformat(timespec="seconds")
        payload = {
            "id": uuid7(now * 1000 + place % 1000, self.dice), "schema": 1, "core": 5, "type": kind,
            "found_by": "scanned", "by": by, "device": f"phone-{by}", "seq": seq, "prev": self.hash,
            "seen": {"number": self.number, "hash": self.hash}, "at": made, **at,
            "basis": {"plan": self.plan, "figures": 1}, "body": body,
        }  # fmt: skip
        text = base64.urlsafe_b64encode(json.dumps(payload).encode()).rstrip(b"=").decode()
        signed = f"eyJhbGciOiJFUzI1NiIsImtpZCI6IiJ9.{text}.{self.hash}{self.hash[:22]}"
        role = "" if kind == "reading" else "held"
        number = self.entry("record", f"job:{at['job']}", signed, f'{{"at":{now},"role":"{role}"}}')
        return {
            **at, "id": payload["id"], "number": number, "type": kind, "by": by, "device": payload["device"],
            "kid": self.supervisor.key.thumbprint() if kind != "reading" else f"kid-{by}", "seq": seq,
            "prev": payload["prev"], "digest": f"{self.dice.getrandbits(256):064x}", "at": made, "received": now,
            "role": role, "verdict": "complete", "reason": "", "value": None, "value_float": None, "margin": None,
            "waiting": False, "link": "", "clock": 0,
        }  # fmt: skip

    def flag(self, row: Row, state: str, past: float) -> None:
        """The flag of a reading and, where one was decided, the disposition."""
        kind = "out of tolerance" if state == "decided" else self.dice.choice(KINDS)
        number, name, stage = STEPS[row["step"]]
        lower, upper = LIMITS[row["item"]]
        shown = {
            "piece": {"id": row["piece"], "mark": row["piece"].partition(".")[2], "kind": "sheet", "name": ""},
            "step": {"code": row["step"], "number": number, "name": name},
            "item": {"code": row["item"], "name": row["item"].title(), "binds": "code", "source": "drawing"},
            "stage": stage, "value": row["value"], "margin": row["margin"], "uom": "in", "verdict": row["verdict"],
            "limits": {"lower": None if lower is None else str(lower), "upper": str(upper)}, "at": row["at"],
        }  # fmt: skip
        decided = state == "decided" or (state == "closed" and self.dice.random() < 0.5)
        disposition = self.decision(row, state, kind, shown) if decided else ""
        flag = f"{self.dice.getrandbits(80):020x}"
        names = ("job", "piece", "step", "item", "station", "number", "by", "received")
        self.loader.add(FlagRow, {
            **{one: row[one] for one in names}, "id": flag, "kind": kind, "state": state, "record": row["id"],
            "disposition": disposition, "reason": "", "past": past, "rank": RANKS.index(kind), "severity": -past,
            "stage": stage, "shown": shown,
        })  # fmt: skip
        if state == "open" and row["item"] == LARGEST[2]:
            self.made = Made(self.made.day, flag, row["job"])

    def decision(self, row: Row, state: str, kind: str, shown: Row) -> str:
        names = ("job", "piece", "step", "item", "station")
        at = {name: row[name] for name in names}
        what = self.dice.choice(("rework", "repair"))
        body = {"about": {"records": [row["id"]], "flag": kind}, "disposition": what, "reason": "Grind and measure."}
        made = self.record(at, "disposition", body, 0, row["received"])
        self.loader.add(Record, made)
        open_state = self.dice.choice(("to do", "to do", "waits for agreement"))
        self.loader.add(Decision, {
            **at, "id": made["id"], "number": made["number"], "state": open_state if state == "decided" else "done",
            "flag": kind, "record": row["id"], "disposition": what, "ncr": f"NCR {made['number']}",
            "reason": body["reason"], "extent": "", "cycle": 0, "again": [row["step"]], "lacking": [],
            "by": "supervisor", "at": row["at"], "received": row["received"], "shown": shown,
        })  # fmt: skip
        return str(made["id"])

    def rest(self) -> None:
        """Lists, what phones last said, and the series."""
        for name, line in self.lines():
            at = {key: line[key] for key in ("job", "piece", "step", "since")}
            self.loader.add(ListLine, {"name": name, **at, "record": line.get("record", ""), "shown": line})
        now = int(time.time())
        for place, one in enumerate(MAKERS):
            silent = place < SILENT
            self.loader.add(Device, {"id": f"phone-{one}", "last_heard": now - (9 * 3600 if silent else 60),
                                     "waiting": 12 * silent, "person": one, "oldest": now - 10 * 3600 if silent else 0,
                                     "holds_until": now + 86_400 if silent else 0})  # fmt: skip
        for step, item, count in ITEMS:
            number, name, _ = STEPS[step]
            self.loader.add(Series, {"plan": "bench", "step": step, "item": item, "step_number": number,
                                     "step_name": name, "name": item.title(), "uom": "in",
                                     "count": self.readings * count // A_PIECE, "last": now})  # fmt: skip

    def lines(self) -> Iterator[tuple[str, Row]]:
        jobs = self.jobs_of((self.jobs - 1) // OPEN_JOBS)
        now = int(self.start.timestamp())
        for name, count in LINES.items():
            for place in range(count):
                job, step = jobs[place % len(jobs)], list(STEPS)[place // len(jobs) % 3]
                position = place // len(jobs) // 3
                number, title, _ = STEPS[step]
                line: Row = {"job": job, "piece": f"{job}.TS-{position}", "mark": f"TS-{position}", "kind": "sheet",
                             "step": step, "number": number, "name": title, "since": now - 3600 * place}  # fmt: skip
                behind = {"piece": line["piece"], "mark": line["mark"], "step": "fit", "number": "1.1",
                          "name": "Fit of the sheet", "parties": ["QC"]}  # fmt: skip
                line |= {"parties": ["QC"], "behind": [behind]} if name == "blocked" else {}
                report = {"what": "RT", "station": "", "record": f"record-{place}", "state": "asked for",
                          "number_of_report": "", "result": ""}  # fmt: skip
                yield name, line | (report if name == "reports" else {})


def fill(app: Flask, readings: int, jobs: int) -> tuple[Made, Phone]:
    """Fill the migrated database of an application; what to look at in it, and the supervisor's phone."""
    with app.app_context():
        filling = Filling(app, readings, jobs)
        return filling.everything(), filling.supervisor
