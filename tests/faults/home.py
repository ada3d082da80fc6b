"""Databases for the model: a small shop made once for each engine, copied for each example; empty ones to restore into.

The plan has revisions, so that a job can be moved from one to the next and back.
"""

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from flask import Flask
from joserfc.jwk import ECKey
from sqlalchemy import create_engine, event, text
from sqlalchemy.engine import Engine

from seamtag import create_app, database
from seamtag.database import db, writing
from seamtag.gauges import shelf
from seamtag.jobs.opening import open_job
from seamtag.people import staff
from seamtag.people.models import Key, Person
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from seamtag.settings import Settings
from tests.conftest import close, made_ready
from tests.postgres import Cluster
from tests.shop import JOB, PIECES, PLAN

START = 1_795_000_000
"""Unix second at which the phones' clocks begin."""
PEOPLE = {"fay": ["fitter"], "ivy": ["inspector"], "sue": ["supervisor"], "abe": ["authorized inspector"]}
PHONES = {"ivy-1": "ivy", "ivy-2": "ivy", "fay-1": "fay", "sue-1": "sue", "abe-1": "abe"}
SPARE = {"ivy-3": "ivy", "fay-2": "fay"}
"""Phones that are enrolled later on."""
BASE = PLAN.replace("clock: 4", "names: [A, B]")
PLANS = (
    BASE,
    BASE.replace("gap_nom + 1/16", "gap_nom + 3/32"),
    BASE.replace("{code: clean, name: Edges bright,", "{code: clean, name: Edges bright and dry,"),
    BASE.replace(
        "- {party: QC, point: H, not_maker: true}",
        "- {party: QC, point: H, not_maker: true}\n      - {party: AI, point: W}",
    ),
)
FIGURES = ({"gap_nom": "3/32"}, {"gap_nom": "1/8"})
SOURCE = {"job": JOB, "title": "A small vessel", "plan": "small", "figures": FIGURES[0],
          "pieces": [*PIECES, {"mark": "S-2", "kind": "seam", "part_of": ["V"]}]}  # fmt: skip
GAUGE = {"id": "TG", "kind": "taper gauge", "name": "Taper gauge", "uom": "in", "uncertainty": "0.001",
         "due": "2030-01-01"}  # fmt: skip
PLENTY = "1000000/minute"


class Home:
    """cluster: PostgreSQL, None for SQLite. Keys are made once: a key costs more than the rest of an example."""

    def __init__(self, cluster: Cluster | None = None) -> None:
        self.cluster = cluster
        self.folder = Path(tempfile.mkdtemp(prefix="seamtag-faults-"))
        self.count = 0
        self.keys = {name: ECKey.generate_key("P-256", private=True) for name in (*PHONES, *SPARE)}
        self.templates = {"empty": self.made("empty")}
        app = self.app(self.templates["empty"], self.folder / "photos")
        made_ready(app)
        self.templates["shop"] = self.fresh("empty")
        app = self.app(self.templates["shop"], self.folder / "photos")
        with app.app_context():
            fill(self.keys)
        close(app)

    def made(self, name: str) -> str:
        return self.cluster.new() if self.cluster else f"sqlite:///{self.folder}/{name}.db"

    def fresh(self, template: str) -> str:
        """The URL of a new database, copied from 'shop' or 'empty'."""
        self.count += 1
        source = self.templates[template]
        if self.cluster:
            return self.cluster.new(source.split("/")[3].split("?")[0])
        url = self.made(f"{template}-{self.count}")
        shutil.copy(file_of(source), file_of(url))
        return url

    def app(self, url: str, photos: Path, most_push: int = 16_000_000) -> Flask:
        app = create_app(Settings(database=url, photos=str(photos), web=str(self.folder), host="tags.example",
                                  unreadable_rate=PLENTY, attempt_rate=PLENTY, challenge_rate=PLENTY,
                                  most_push=most_push))  # fmt: skip
        with app.app_context():
            if db.engine.dialect.name == "sqlite":
                event.listen(db.engine, "connect", hurry)
        return app

    def gone(self, url: str) -> None:
        """A database that nobody needs any more."""
        if not self.cluster:
            for ending in ("", "-wal", "-shm"):
                Path(f"{file_of(url)}{ending}").unlink(missing_ok=True)

    def close(self) -> None:
        shutil.rmtree(self.folder, ignore_errors=True)


def file_of(url: str) -> str:
    return url.removeprefix("sqlite:///")


def hurry(connection: object, _: object) -> None:
    """Nobody pulls the plug on a model."""
    connection.execute("PRAGMA synchronous=OFF")  # type: ignore[attr-defined]


def fill(keys: dict[str, ECKey]) -> None:
    """The shop's people, gauge, plan and job, and the phones that it begins with."""
    with writing() as session:
        for person, roles in PEOPLE.items():
            staff.engage(session, Person(id=person, name=person.title(), roles=roles, stamp=""), START)
        shelf.put(session, GAUGE, START)
        open_job(session, SOURCE, publish(session, read(PLANS[0]), START), START)
        for name, person in PHONES.items():
            jwk = {part: str(keys[name].as_dict(private=False)[part]) for part in ("kty", "crv", "x", "y")}
            staff.add_key(session, Key(kid=keys[name].thumbprint(), person=person, device=name, jwk=jwk), START)


@contextmanager
def busy(url: str) -> Iterator[None]:
    """The database while somebody else writes and does not end."""
    engine: Engine = create_engine(url)
    try:
        with engine.connect().execution_options(writing=True) as connection:
            if connection.dialect.name == "postgresql":
                connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": database.WRITER})
            else:
                connection.execute(text("SELECT 1"))
            yield
            connection.rollback()
    finally:
        engine.dispose()
