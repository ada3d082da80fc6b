"""The real server behind a bad network, killed again and again, and phones in processes of their own.

At the end every record is in the chain once, every photo's bytes are right, and verifying finds nothing.
"""

import hashlib
import json
import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from flask import Flask
from joserfc.jwk import ECKey
from sqlalchemy import func, select

from seamtag.database import db, writing
from seamtag.gauges import shelf
from seamtag.jobs.opening import open_job
from seamtag.people import staff
from seamtag.people.models import Key, Person
from seamtag.photos.models import Photo
from seamtag.photos.store import PhotoError
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from seamtag.records import jws
from seamtag.records.models import Record, Refusal
from seamtag.sync.models import Entry
from tests.browser.place import Server, free_port
from tests.conftest import app_in, close, made_ready
from tests.faults.home import FIGURES, GAUGE, PLANS, START
from tests.faults.proxy import Proxy
from tests.faults.table import Row
from tests.shop import JOB, PIECES

TOP = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Size:
    """records and photos are those of each phone; most: how many records it makes, and sends, at once at most."""

    phones: int
    records: int
    photos: int
    kills: int
    most: int
    seconds: int


FULL = Size(20, 500, 20, 50, 20, 3600)
SHORT = Size(4, 40, 3, 3, 8, 120)
PIECES_A_PHONE = 8
"""A reading is judged beside the others of its piece, of which a shop has a few dozen."""


class Round:
    """One server, its database, its phones. url: PostgreSQL's; '' for SQLite."""

    def __init__(self, size: Size, url: str = "", seed: int = 1) -> None:
        self.size, self.dice, self.seed = size, random.Random(seed), seed
        self.place = tempfile.TemporaryDirectory(prefix="seamtag-sockets-")
        self.folder = Path(self.place.name)
        self.database = "PostgreSQL" if url else "SQLite"
        self.keys = [ECKey.generate_key("P-256", private=True) for _ in range(size.phones)]
        self.app = app_in(self.folder, url)
        made_ready(self.app)
        self.fill()
        close(self.app)
        self.server = Server(self.folder, free_port())
        self.server.env["SEAMTAG_DATABASE"] = url or self.server.env["SEAMTAG_DATABASE"]
        self.clients: list[subprocess.Popen[bytes]] = []
        self.kills = 0

    def fill(self) -> None:
        seams = [f"S-{phone}-{number}" for phone in range(self.size.phones) for number in range(PIECES_A_PHONE)]
        pieces = [*PIECES, *({"mark": mark, "kind": "seam", "part_of": ["V"]} for mark in seams)]
        source = {"job": JOB, "title": "A vessel", "plan": "small", "figures": FIGURES[0], "pieces": pieces}
        with self.app.app_context(), writing() as session:
            shelf.put(session, GAUGE, START)
            plan = publish(session, read(PLANS[0]), START)
            open_job(session, source, plan, START)
            self.basis = {"plan": plan.hash, "figures": 1}
            for number, key in enumerate(self.keys):
                person = Person(id=f"p{number}", name=f"P {number}", roles=["inspector"], stamp="")
                staff.engage(session, person, START)
                jwk = {part: str(key.as_dict(private=False)[part]) for part in ("kty", "crv", "x", "y")}
                name = f"phone-{number}"
                staff.add_key(session, Key(kid=key.thumbprint(), person=person.id, device=name, jwk=jwk), START)

    def told(self, number: int, port: int) -> Path:
        """What a phone is to do. Some of its pieces are its own, one is everybody's."""
        own = [f"{JOB}.S-{number}-{place}" for place in range(PIECES_A_PHONE)]
        told = {"seed": self.seed * 1000 + number, "port": port, "device": f"phone-{number}", "person": f"p{number}",
                "roles": ["inspector"], "key": self.keys[number].as_dict(private=True), "job": JOB,
                "pieces": [*own, f"{JOB}.S-1"], "basis": self.basis, "records": self.size.records,
                "photos": self.size.photos, "most": self.size.most,
                "until": time.monotonic() + self.size.seconds}  # fmt: skip
        file = self.folder / f"phone-{number}.json"
        file.write_text(json.dumps(told), encoding="utf-8")
        return file

    def run(self) -> Row:
        begun = time.monotonic()
        proxy = Proxy(self.server.port, self.seed)
        try:
            self.server.start()
            self.clients = [self.client(number, proxy.port) for number in range(self.size.phones)]
            self.kill_at_random(proxy)
            ended = [client.wait(self.size.seconds) for client in self.clients]
            row = self.row(begun, "" if not any(ended) else "a phone's process failed")
        finally:
            for client in self.clients:
                client.kill()
                client.wait()
            self.server.kill()
            proxy.stop()
            close(self.app)
            self.place.cleanup()
        return row

    def client(self, number: int, port: int) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", "tests.faults.client", str(self.told(number, port))]
        with (self.folder / f"phone-{number}.log").open("wb") as log:
            return subprocess.Popen(command, cwd=TOP, stdout=log, stderr=log)

    def kill_at_random(self, proxy: Proxy) -> None:
        """Kill the server while it works: after so many calls have been passed on, give or take some time."""
        expected = self.size.phones * (2 * self.size.records / self.size.most + self.size.photos)
        for _ in range(self.size.kills):
            wanted = proxy.counts["passed on"] + self.dice.uniform(0.2, 1.2) * expected / self.size.kills
            while proxy.counts["passed on"] < wanted:
                if all(client.poll() is not None for client in self.clients):
                    return
                time.sleep(0.01)
            time.sleep(self.dice.random() * 0.1)
            self.server.kill()
            self.kills += 1
            self.server.start()

    def said(self) -> list[dict[str, Any]]:
        found = []
        for number in range(self.size.phones):
            file = self.folder / f"phone-{number}.said"
            if not file.exists():
                raise AssertionError((self.folder / f"phone-{number}.log").read_text(encoding="utf-8")[-2000:])
            found.append(json.loads(file.read_text(encoding="utf-8")))
        return found

    def row(self, begun: float, fault: str) -> Row:
        """Count what is there against what the phones made and were told."""
        said = self.said()
        made = {one for phone in said for one in phone["made"]}
        received = {one for phone in said for one in phone["received"]}
        photos = {sha: size for phone in said for sha, size in phone["photos"].items()}
        verified = self.verified()
        with self.app.app_context():
            bodies = db.session.scalars(select(Entry.body).where(Entry.kind == "record"))
            ids = Counter(jws.json_of(body.split(".")[1])["id"] for body in bodies)
            rows = set(db.session.scalars(select(Record.id)))
            links = Counter(db.session.scalars(select(Record.link)))
            refused = db.session.scalar(select(func.count()).select_from(Refusal))
            damaged = sum(not self.photo_is_here(sha, size) for sha, size in photos.items())
        everything = self.size.phones * self.size.records
        if len(made) != everything or received != made or rows != set(ids) or refused:
            fault = fault or f"{len(made)} made, {len(received)} received, {len(rows)} rows, {refused} refused"
        lost = len((made | received) - set(ids)) + damaged
        doubled = sum(count - 1 for count in ids.values()) + len(set(ids) - made)
        return Row("sockets", self.database, len(rows), len(photos), self.kills, len(received), lost, doubled,
                   links["gap"], links["fork"], time.monotonic() - begun, fault or verified)  # fmt: skip

    def photo_is_here(self, sha256: str, size: int) -> bool:
        photo = db.session.get(Photo, sha256)
        with suppress(PhotoError):
            content = vault_of(self.app).original(sha256)
            return bool(photo and photo.stored and photo.named and photo.bytes == len(content) == size
                        and hashlib.sha256(content).hexdigest() == sha256)  # fmt: skip
        return False

    def verified(self) -> str:
        """What `seamtag verify` says that is not right; '' where its exit status is 0."""
        command = [str(Path(sys.executable).with_name("seamtag")), "verify"]
        done = subprocess.run(command, env=self.server.env, capture_output=True, text=True, check=False)
        return "" if done.returncode == 0 else f"verify: {done.stdout[-300:]}{done.stderr[-300:]}"


def vault_of(app: Flask) -> Any:
    return app.extensions["vault"]
