"""A server in process, the phones around it, and the way between them: what is lost on it, and what was truly said."""

import io
import json
import random
import shutil
import sys
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from flask import Flask
from PIL import Image
from sqlalchemy import select

from seamtag.database import db, writing
from seamtag.people import staff
from seamtag.people.models import Person
from seamtag.records import jws
from seamtag.records.carrying import adopted
from seamtag.records.models import Record, Refusal
from seamtag.sync.restoring import back_up, restore
from tests.conftest import close
from tests.faults.home import PEOPLE, PHONES, SPARE, START, Home
from tests.faults.phone import Answer, LostError, Phone
from tests.faults.store import Store

THROUGH, REQUEST_LOST, ANSWER_LOST, TWICE, LATE = "through", "request lost", "answer lost", "sent twice", "late"
PORTAL, PORTAL_JSON, CUT, KILLED = "portal", "portal that speaks JSON", "cut", "app killed"
FAULTS = (THROUGH, REQUEST_LOST, ANSWER_LOST, TWICE, LATE, PORTAL, PORTAL_JSON, CUT, KILLED)


class KilledError(Exception):
    """The app was killed; what it had written down stays."""


@dataclass(frozen=True)
class Made:
    """A record as a phone made it. after: the digest of the one it follows, '' for the first of its key."""

    id: str
    kid: str
    after: str


@dataclass
class Backup:
    folder: Path
    taken_in: frozenset[str]
    photos: frozenset[str]


@dataclass
class Said:
    """The server's own words since it was set up or restored: records taken in, not taken in, photos received."""

    taken_in: set[str] = field(default_factory=set)
    not_taken_in: set[str] = field(default_factory=set)
    photos: set[str] = field(default_factory=set)


class Clock:
    """Stands in for the time module in the server's files."""

    def __init__(self) -> None:
        self.ahead = 0.0

    def time(self) -> float:
        return time.time() + self.ahead


class World:
    """dice: for whatever the rules leave to chance, the same in every run."""

    def __init__(self, home: Home) -> None:
        self.home, self.dice, self.clock = home, random.Random(1), Clock()
        self.folder = home.folder / f"world-{home.count}"
        self.lives = 0
        self.said = Said()
        self.broken: list[str] = []
        self.made: dict[str, Made] = {}
        self.faulty: set[str] = set()
        self.phones: dict[str, Phone] = {}
        self.clocks: dict[str, float] = {}
        self.copies: dict[str, Store] = {}
        self.late: list[tuple[str, str, bytes | None, Mapping[str, str]]] = []
        self.faults: list[str] = []
        self.backup: Backup | None = None
        self.pictures = 0
        with_clock(self.clock)
        self.start(home.fresh("shop"))
        for name, person in PHONES.items():
            self.switch_on(Store(name, person, list(PEOPLE[person])))
            self.phones[name].turn()

    # The server

    def start(self, url: str, most_push: int = 16_000_000) -> None:
        """A server on a database; an older one of this world is gone."""
        self.url = url
        self.photos = self.folder / f"photos-{self.lives}"
        self.app: Flask = self.home.app(url, self.photos, most_push)
        self.clients: dict[str, Any] = {}

    def restart(self, most_push: int) -> None:
        close(self.app)
        self.start(self.url, most_push)

    def back_up(self) -> None:
        self.backup = None
        folder = self.folder / "backup"
        shutil.rmtree(folder, ignore_errors=True)
        with self.app.app_context():
            back_up(db.session(), self.app.extensions["vault"], folder)
        self.backup = Backup(folder, frozenset(self.said.taken_in), frozenset(self.said.photos))

    def restore(self) -> None:
        """Last night's backup, in an empty database; what came in since is not on the server any more."""
        assert self.backup is not None
        close(self.app)
        self.home.gone(self.url)
        self.lives += 1
        self.start(self.home.fresh("empty"))
        with self.app.app_context():
            restore(self.app.extensions["vault"], self.backup.folder, int(self.clock.time()))
            here = set(db.session.scalars(select(Record.id)))
            refused = set(db.session.scalars(select(Refusal.id)))
        assert here >= self.backup.taken_in, "the backup lacks what had been taken in"
        self.said = Said(here, refused, set(self.backup.photos))

    def close(self) -> None:
        close(self.app)
        self.home.gone(self.url)
        shutil.rmtree(self.folder, ignore_errors=True)
        with_clock(time)

    # The phones

    def switch_on(self, store: Store) -> None:
        """An app begins on what lies on a phone's disk."""
        name = store.device
        self.clocks.setdefault(name, float(START))
        self.phones[name] = Phone(store, self.home.keys[name], lambda *call: self.carry(name, *call),
                                  lambda: self.tick(name), self.dice)  # fmt: skip

    def tick(self, name: str) -> float:
        self.clocks[name] += 60
        return self.clocks[name]

    def enrol(self, name: str) -> None:
        """By an invitation, as a new browser is enrolled."""
        key, person = self.home.keys[name], {**PHONES, **SPARE}[name]
        with self.app.app_context(), writing() as session:
            code = staff.invite(session, person, int(self.clock.time()), 3600)
        claim = {"purpose": "enrol", "invitation": code, "device": name, "jwk": self.jwk(name)}
        proof = jws.sign(claim, key)
        answer = self.to_server(name, "POST", "/keys", json.dumps({"proof": proof}).encode(),
                                {"Content-Type": "application/json"})  # fmt: skip
        assert answer.status == 201, answer.body
        self.switch_on(Store(name, person, list(PEOPLE[person])))

    def adopt_keys(self) -> None:
        """The office lets in the keys that a restored server does not know, as out of the phones' own files."""
        with self.app.app_context():
            for name, phone in self.phones.items():
                adopted({"jwk": self.jwk(name), "person": phone.store.person, "device": name})

    def jwk(self, name: str) -> dict[str, str]:
        return {part: str(self.home.keys[name].as_dict(private=False)[part]) for part in ("kty", "crv", "x", "y")}

    def record(
        self, name: str, kind: str, body: Mapping[str, Any], photos: tuple[bytes, ...] = (), **place: Any
    ) -> str:
        """Save a record on a phone; its id. What it follows is noted here, apart from what it says itself."""
        phone = self.phones[name]
        after = phone.store.prev
        kept = phone.save(kind, body, photos, **place)
        self.made[phone.store.prev] = Made(kept.id, phone.key.thumbprint(), after)
        return kept.id

    def roles(self, person: str, roles: list[str]) -> None:
        with self.app.app_context(), writing() as session:
            staff.engage(session, Person(id=person, name=person.title(), roles=roles, stamp=""), int(self.clock.time()))

    def picture(self) -> bytes:
        self.pictures += 1
        out = io.BytesIO()
        Image.new("RGB", (8, 6), (self.pictures % 256, self.pictures // 256, 7)).save(out, "JPEG")
        return out.getvalue()

    # The way between them

    def carry(self, name: str, method: str, path: str, body: bytes | None, headers: Mapping[str, str]) -> Answer:
        """One call of a phone, with the fault that is due; none where none is."""
        fault = self.faults.pop(0) if self.faults else THROUGH
        if fault == REQUEST_LOST:
            raise LostError
        if fault == KILLED:
            raise KilledError
        if fault == LATE:
            self.late.append((method, path, body, headers))
            raise LostError
        if fault == PORTAL:
            return Answer(200, "text/html", b"<title>Guest network</title>")
        if fault == PORTAL_JSON:
            return Answer(200, "application/json", b'{"login": "https://guest.example"}')
        if fault == CUT:
            self.to_server(name, method, path, (body or b"")[: len(body or b"") // 2], headers)
            raise LostError
        answer = self.to_server(name, method, path, body, headers)
        if fault == TWICE:
            answer = self.to_server(name, method, path, body, headers)
        if fault == ANSWER_LOST:
            raise LostError
        return answer

    def to_server(self, name: str, method: str, path: str, body: bytes | None, headers: Mapping[str, str]) -> Answer:
        client = self.clients.setdefault(name, self.app.test_client())
        found = client.open(f"/api/v1{path}", method=method, data=body, headers=dict(headers))
        retry = found.headers.get("Retry-After", "")
        if found.status_code >= 500 and (found.status_code != 503 or not retry):
            self.broken.append(f"{method} {path}: {found.status_code}")
        if found.status_code == 503 and "busy" not in found.text:
            self.broken.append(f"{method} {path}: {found.text}")
        answer = Answer(found.status_code, found.content_type or "", found.data, int(retry or 0))
        self.listen(method, path, answer)
        return answer

    def listen(self, method: str, path: str, answer: Answer) -> None:
        """Note what the server has given its word on, whether or not the phone ever hears it."""
        if answer.status != 200 or method == "GET":
            return
        value = json.loads(answer.body)
        if method == "PUT" and path.startswith("/photos/"):
            assert value == {"sha256": path.split("/")[2], "outcome": "taken in", "shown": value["shown"]}
            self.said.photos.add(value["sha256"])
        for outcome in value.get("outcomes", []):
            if outcome["outcome"] == "taken in":
                self.said.taken_in.add(outcome["id"])
            elif outcome["outcome"] == "not taken in":
                self.said.not_taken_in.add(outcome["id"])

    def deliver_late(self) -> None:
        """What was on its way arrives, when nobody waits for it any more."""
        waiting, self.late = self.late, []
        for method, path, body, headers in waiting:
            self.to_server("late", method, path, body, headers)


def with_clock(clock: Any) -> None:
    """Let the server's files read the time from a clock."""
    for name, module in list(sys.modules.items()):
        if name.startswith("seamtag.") and isinstance(getattr(module, "time", None), type(time) | Clock):
            module.time = clock  # type: ignore[attr-defined]
