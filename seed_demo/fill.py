"""Fills a new database with the invented shop: people, gauges, plans, jobs, weeks of records and a last day.

    python -m seed_demo.fill --folder .demo
    python -m seed_demo.fill --folder .demo --invitations

The database, the photos and the host are taken from SEAMTAG_DATABASE, SEAMTAG_PHOTOS and SEAMTAG_HOST.
"""

import argparse
import heapq
import json
import random
import time
from collections.abc import Callable, Iterator, Mapping
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import yaml
from flask import Flask
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.cli import opened
from seamtag.core.welding import lapses_on
from seamtag.database import db, writing
from seamtag.drawings import shelf as drawings
from seamtag.drawings.pictures import sheet_of
from seamtag.gauges import shelf
from seamtag.jobs import opening
from seamtag.jobs.floor import core_job
from seamtag.jobs.models import Job, Piece
from seamtag.people import qualifications, staff
from seamtag.people.models import Person
from seamtag.photos.arriving import arrive
from seamtag.plans.models import PlanRevision
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read as read_plan
from seamtag.procedures import book
from seamtag.records.intake import TAKEN_IN, take_in
from seamtag.records.models import Record
from seamtag.sync import chain
from seamtag.sync.shop import name_shop
from seamtag.tags.label import as_png, label, symbol
from seamtag.tags.models import Tag
from seamtag.trends.watching import DRIFT_RULE, watch
from seed_demo import floor
from seed_demo.crew import Crew
from seed_demo.phone import Phone
from seed_demo.pictures import Picture
from seed_demo.weld_map import PINS, drawn

HERE = Path(__file__).parent
RAN_OUT = "FG-05"
"""The gauge whose last day is the one before today; all days of gauges and qualifications move with it."""
DAYS = ("calibrated", "due", "tested", "continued")
LAST_HOURS = timedelta(hours=5)
"""How long before the moment of seeding today's work begins."""
SHOP_OPENS = timedelta(weeks=1)
"""How long before the first job people, gauges and plans are put in."""
ENDED = object()
TRY_AS = ("priya_solheim", "ngozi_albrecht", "rosa_lindholm", "helena_castellan", "leonora_fenwick_diaz",
          "mei_abernethy", "farid_lundqvist")  # fmt: skip
TO_SCAN = ("2207", "TS-R")
"""A piece that is ready for an inspector's work: by job and mark."""

DRAWN = "2207"
"""The job that has a drawing."""

WEARS = ("wetback", "tubes_expanded", "wr")
"""An item whose tool wears: its drift is watched."""

Days = Callable[[Crew], Iterator[None]]
Today = Callable[[Crew], None]
JOBS: dict[str, tuple[str, int, Days, Today]] = {
    "2203": ("wetback", 31, floor.tube_days, floor.tubes_today),
    "2205": ("wetback", 26, floor.furnace_days, floor.furnace_today),
    "2207": ("wetback", 13, floor.shell_days, floor.shell_today),
    "2211": ("receiver", 7, floor.receiver_days, floor.receiver_today),
}
"""By number: the plan, how many days ago it was opened, what was done since, and what today."""


class Filling:
    """One filling of one database. now: the shop's time at which it ends."""

    def __init__(self, app: Flask, now: datetime, say: Callable[[str], None] = print) -> None:
        self.app, self.now, self.say = app, now, say
        self.dice = random.Random(2207)
        self.phones: dict[str, Phone] = {}
        self.photos: dict[str, Picture] = {}
        self.sealed: dict[str, str] = {}
        self.crews: dict[str, Crew] = {}
        self.last_stamp = 0

    def everything(self) -> None:
        with writing() as session:
            self.open_shop(session)
        for number in JOBS:
            self.open_job(number)
        self.put_in_drawing()
        self.past_weeks()
        self.last_hours()
        for number in JOBS:
            count = db.session.scalar(select(func.count()).where(Record.job == number))
            self.say(f"Job {number}: {count:,} records")
        self.say(f"{len(self.sealed)} photos")

    def open_shop(self, session: Session) -> None:
        """People with their phones, gauges and plans, from before the first job."""
        source = yaml.safe_load((HERE / "shop.yaml").read_text(encoding="utf-8"))
        stamp = self.before(max(days for _, days, _, _ in JOBS.values())) - int(SHOP_OPENS.total_seconds())
        name_shop(session, source["shop"], source["time_zone"], stamp, shifts=source["shifts"])
        for row in source["people"]:
            staff.engage(session, Person(**{"stamp": "", **row}), stamp)
        session.flush()
        moved = days_until(source["gauges"], self.now - LAST_HOURS)
        for row in source["gauges"]:
            shelf.put(session, later(row, moved), stamp)
        book.put(session, source["procedures"], stamp)
        qualifications.put(
            session, [held_until(later(row, moved), self.now) for row in source["qualifications"]], stamp
        )
        for name in ("wetback", "receiver"):
            publish(session, read_plan((HERE / f"{name}_plan.yaml").read_text(encoding="utf-8")), stamp)
        watch(session, WEARS, [DRIFT_RULE], stamp)
        for row in source["people"]:
            phone = Phone(row["id"], self.dice)
            phone.enrol(session, stamp)
            self.phones[row["id"]] = phone
        self.gauges = first_of_each_kind(source["gauges"])
        self.last_stamp = stamp

    def before(self, days: int) -> int:
        """The first second of the day so many days ago."""
        return int((self.now - timedelta(days=days)).replace(hour=0, minute=0, second=0).timestamp())

    def open_job(self, number: str) -> None:
        """Open one job, and give it its crew. Boilers differ by their number only."""
        plan, days, _, _ = JOBS[number]
        source = opening.read((HERE / f"{plan}_job.yaml").read_text(encoding="utf-8"))
        title = f"{'Boiler' if plan == 'wetback' else 'Receiver'} {number}: {source['title']}"
        self.last_stamp = max(self.last_stamp, self.before(days) if number == next(iter(JOBS)) else 0)
        with writing() as session:
            revision = session.scalars(select(PlanRevision).where(PlanRevision.code == plan)).one()
            opening.open_job(session, {**source, "job": number, "title": title}, revision, self.last_stamp)
        job = core_job(db.session(), number)
        assert job is not None
        start = (self.now - timedelta(days=days)).replace(hour=7, minute=10, second=0, microsecond=0)
        self.crews[number] = Crew(job, self.phones, self.push, self.photos, start, random.Random(int(number)))
        self.crews[number].gauges = dict(self.gauges)
        self.crews[number].pass_time(0)

    def put_in_drawing(self) -> None:
        """The weld map of one boiler, with its pins."""
        sheet = sheet_of(drawn(DRAWN), self.app.config["SEAMTAG"].most_pixels)
        sha256 = drawings.keep(self.app.extensions["vault"], sheet)
        about = {"sheet": "1", "revision": "B", "title": "Shell, seen from the left"}
        pins = [{"piece": f"{DRAWN}.{mark}", "x": x, "y": y} for mark, (x, y) in PINS.items()]
        with writing() as session:
            drawings.put(session, DRAWN, about, sheet, sha256, pins, self.last_stamp)

    def push(self, texts: list[str], at: datetime) -> None:
        """Send records at a crew's time, and the photos drawn since. Stamps of the chain never go backwards."""
        self.last_stamp = max(self.last_stamp, int(at.timestamp()))
        outcomes = take_in(db.session(), texts, now=self.last_stamp)
        wrong = [outcome for outcome in outcomes if outcome.outcome != TAKEN_IN]
        assert not wrong, wrong
        self.pull()
        for sha256 in self.photos.keys() - self.sealed.keys():
            self.sealed[sha256] = arrive(self.app.extensions["vault"], sha256, self.photos[sha256].content)
            assert self.sealed[sha256] == "yes", f"{sha256}: {self.sealed[sha256]}"

    def pull(self) -> None:
        """Every phone has seen the chain up to its head, from the time of its stamp on."""
        number, digest = chain.head(db.session())
        for phone in self.phones.values():
            phone.heads.append((self.last_stamp, {"number": number, "hash": digest}))

    def past_weeks(self) -> None:
        """All jobs at once, whoever is furthest back in time doing the next step."""
        self.pull()
        working = {number: JOBS[number][2](crew) for number, crew in self.crews.items()}
        queue = [(self.crews[number].clock, number) for number in working]
        heapq.heapify(queue)
        while queue:
            _, job = heapq.heappop(queue)
            if next(working[job], ENDED) is None:
                heapq.heappush(queue, (self.crews[job].clock, job))
            else:
                self.say(f"Job {job}: history until {self.crews[job].clock:%Y-%m-%d %H:%M}")

    def last_hours(self) -> None:
        """Today's work, one job after another, up to now at the latest."""
        clock = self.now - LAST_HOURS
        for number in ("2211", "2207", "2205", "2203"):
            crew = self.crews[number]
            assert crew.clock < clock, f"The history of job {number} ends at {crew.clock}"
            crew.clock, crew.hurried = clock, True
            JOBS[number][3](crew)
            clock = crew.clock
        self.say(f"Today's work: {self.now - LAST_HOURS:%Y-%m-%d %H:%M} to {clock:%H:%M}")
        assert clock <= self.now, f"Today's work would end at {clock}"


def days_until(gauges: list[dict[str, Any]], today: datetime) -> timedelta:
    """By how much all days of the shop are moved, so that RAN_OUT was due on the day before today."""
    due = next(date.fromisoformat(row["due"]) for row in gauges if row["id"] == RAN_OUT)
    return today.date() - timedelta(days=1) - due


def later(row: dict[str, Any], moved: timedelta) -> dict[str, Any]:
    """A gauge or a qualification with its days moved."""
    days = [name for name in DAYS if row.get(name)]
    return {**row, **{name: (date.fromisoformat(row[name]) + moved).isoformat() for name in days}}


def held_until(row: dict[str, Any], now: datetime) -> dict[str, Any]:
    """A qualification that lapses in so many days, with its last proof instead: the first that lasts so long."""
    if "lapses_in" not in row:
        return row
    wanted = now.date() + timedelta(days=row["lapses_in"])
    days = ((wanted - timedelta(days=back)).isoformat() for back in range(185, 175, -1))
    proof = next(day for day in days if lapses_on(day) >= wanted.isoformat())
    return {**{name: value for name, value in row.items() if name != "lapses_in"}, "continued": proof}


def first_of_each_kind(rows: list[dict[str, Any]]) -> dict[str, str]:
    """Gauge kind to the id of the first gauge of that kind that has not run out."""
    good = [row for row in rows if row["id"] != RAN_OUT]
    return {row["kind"]: row["id"] for row in reversed(good)}


def write_invitations(app: Flask, folder: Path, now: int) -> None:
    with writing() as session:
        lines = [invitation(session, app, person, now) for person in TRY_AS]
    write_json(folder / "invitations.json", lines)


def invitation(session: Session, app: Flask, person: str, now: int) -> dict[str, Any]:
    found = session.get(Person, person)
    assert found is not None
    code = staff.invite(session, person, now, app.config["SEAMTAG"].invitation_life)
    return {"person": person, "name": found.name, "roles": found.roles, "invitation": code}


def fresh_invitations(folder: Path) -> list[str]:
    """Renew the invitations in the folder that were used or are too old; whose they are."""
    app = opened()
    path, now = folder / "invitations.json", int(time.time())
    lines: list[dict[str, Any]] = json.loads(path.read_text(encoding="utf-8"))
    renewed = []
    with app.app_context():
        with writing() as session:
            for place, line in enumerate(lines):
                try:
                    staff.invited(session, line["invitation"], now)
                except staff.InvitationError:
                    lines[place] = invitation(session, app, line["person"], now)
                    renewed.append(str(line["person"]))
        write_json(path, lines)
        write_tag(app, folder)
    return renewed


def write_tag(app: Flask, folder: Path) -> None:
    """The label of the piece to scan, and its symbol alone."""
    number, mark = TO_SCAN
    session = db.session()
    piece = session.scalars(select(Piece).where(Piece.job == number, Piece.mark == mark)).one()
    tag = session.scalars(select(Tag).where(Tag.piece == piece.id, Tag.retired.is_(False))).first()
    assert tag is not None
    host = app.config["SEAMTAG"].host
    write_json(folder / "tag.json", {"code": tag.code, "mark": mark, "job": number, "piece": piece.id})
    (folder / "tag.png").write_bytes(as_png(label(host, tag.code, mark, number, piece.kind)))
    (folder / "symbol.png").write_bytes(as_png(symbol(host, tag.code)))


def write_json(path: Path, value: list[dict[str, Any]] | Mapping[str, Any]) -> None:
    path.write_text(json.dumps(value, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")


def fill(folder: Path, say: Callable[[str], None] = print) -> Flask:
    """The application with its database filled. Raises SystemExit where there are jobs in it already."""
    app = opened()
    folder.mkdir(parents=True, exist_ok=True)
    zone = ZoneInfo(yaml.safe_load((HERE / "shop.yaml").read_text(encoding="utf-8"))["time_zone"])
    now = datetime.now(zone).replace(microsecond=0)
    with app.app_context():
        if db.session.scalar(select(func.count()).select_from(Job)):
            raise SystemExit("This database has jobs already. Name a new one by SEAMTAG_DATABASE.")
        Filling(app, now, say).everything()
        write_invitations(app, folder, int(now.timestamp()))
        write_tag(app, folder)
    return app


def main() -> None:
    parser = argparse.ArgumentParser(description="Fill a new database with the demonstration's invented shop.")
    parser.add_argument("--folder", type=Path, required=True, help="where invitations and the tag to scan are written")
    parser.add_argument("--invitations", action="store_true", help="only renew the invitations that were used")
    given = parser.parse_args()
    if given.invitations:
        print("Renewed: " + (", ".join(fresh_invitations(given.folder)) or "none"))
    else:
        fill(given.folder)


if __name__ == "__main__":
    main()
