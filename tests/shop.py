"""A small shop for the tests: its people, one job with four pieces, their phones, and a browser each."""

import random
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from joserfc.jwk import ECKey
from werkzeug.test import TestResponse

from seamtag.database import db, writing
from seamtag.gauges import shelf
from seamtag.jobs.opening import open_job
from seamtag.people import staff
from seamtag.people.models import Person
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from seamtag.records import jws
from seamtag.sync import chain
from seed_demo.phone import Phone

PLAN = (Path(__file__).parent / "server" / "small_plan.yaml").read_text(encoding="utf-8")
JOB = "T1"
ROLES = {"fitter": "fitter", "inspector": "inspector", "supervisor": "supervisor", "planner": "planner",
         "visitor": "authorized inspector"}  # fmt: skip
PIECES: list[dict[str, Any]] = [
    {"mark": "V", "kind": "vessel"},
    {"mark": "P-1", "kind": "plate", "part_of": ["V"], "figures": {"size": "1/4"}},
    {"mark": "P-2", "kind": "plate", "part_of": ["V"], "figures": {"size": "1/4"}},
    {"mark": "S-1", "kind": "seam", "part_of": ["V"], "joins": ["P-1", "P-2"]},
]
SOURCE = {"job": JOB, "title": "A small vessel", "plan": "small", "figures": {"gap_nom": "3/32"}, "pieces": PIECES}
EARLIER = timedelta(minutes=5)
"""By how much the phones' clocks are slow at the start: as much as may be without a word."""


class Shop:
    def __init__(self, app: Flask) -> None:
        self.app, self.client = app, app.test_client()
        self.phones: dict[str, Phone] = {}
        self.clock = datetime.now(UTC) - EARLIER
        now = int(self.clock.timestamp())
        dice = random.Random(1)
        with app.app_context(), writing() as session:
            for person, role in ROLES.items():
                staff.engage(session, Person(id=person, name=person.title(), roles=[role], stamp=""), now)
            session.flush()
            shelf.put(session, {"id": "TG", "kind": "taper gauge", "name": "Taper gauge", "uom": "in",
                                "uncertainty": "0.001", "due": "2030-01-01"}, now)  # fmt: skip
            plan = publish(session, read(PLAN), now)
            session.flush()
            open_job(session, SOURCE, plan, now)
            self.basis = {"plan": plan.hash, "figures": 1}
            for person in ROLES:
                self.phones[person] = Phone(person, dice)
                self.phones[person].enrol(session, now)
        self.catch_up()

    def head(self) -> tuple[int, str]:
        with self.app.app_context():
            return chain.head(db.session())

    def catch_up(self) -> None:
        """Let every phone see the feed's head."""
        number, last = self.head()
        for phone in self.phones.values():
            phone.seen = {"number": number, "hash": last}

    def record(self, who: str, kind: str, body: Mapping[str, Any], mark: str = "S-1", **place: Any) -> tuple[str, Any]:
        """A signed record and its payload; each a second after the one before."""
        self.clock += timedelta(seconds=1)
        whole = {"job": JOB, "piece": f"{JOB}.{mark}", "basis": self.basis, **place}
        return self.phones[who].record(kind, self.clock, whole, body)

    def reading(self, entered: str = "3/32", who: str = "inspector", **place: Any) -> tuple[str, Any]:
        given = {"step": "fit", "item": "gap", "station": "12", **place}
        return self.record(who, "reading", {"entered": entered, "uom": "in", "gauge": "TG"}, **given)

    def disposition(self, about: str, what: str, who: str = "supervisor", **more: Any) -> tuple[str, Any]:
        named = {"records": [about], "flag": "out of tolerance"}
        return self.record(who, "disposition", {"about": named, "disposition": what, "reason": "as found", **more})

    def post(self, body: Any, **more: Any) -> TestResponse:
        return self.client.post("/api/v1/records", **({"json": body} if not more else {"data": body, **more}))

    def push(self, *texts: Any) -> list[dict[str, Any]]:
        """Push elements; their outcomes, of which there is one for each."""
        answer = self.post({"records": list(texts), "device": "d", "waiting": 0})
        assert answer.status_code == 200, answer.text
        outcomes: list[dict[str, Any]] = answer.get_json(force=True)["outcomes"]
        assert len(outcomes) == len(texts)
        return outcomes

    def invite(self, person: str, life: int = 3600, now: int | None = None) -> str:
        import time

        with self.app.app_context(), writing() as session:
            return staff.invite(session, person, int(time.time()) if now is None else now, life)

    def sign_in(self, person: str) -> FlaskClient:
        """A browser in which a person is signed in."""
        browser = self.app.test_client()
        nonce = browser.post("/api/v1/challenges").get_json()["nonce"]
        answer = browser.post("/api/v1/sessions", json={"proof": proof_of(self.phones[person].key, nonce)})
        assert answer.status_code == 201, answer.text
        return browser

    def flags(self, **query: str) -> list[dict[str, Any]]:
        answer = self.sign_in("supervisor").get("/api/v1/review", query_string=query)
        assert answer.status_code == 200, answer.text
        found: list[dict[str, Any]] = answer.get_json()["flags"]
        return found


def proof_of(key: ECKey, nonce: str) -> str:
    return jws.sign({"purpose": "sign in", "nonce": nonce}, key)


def public(key: ECKey) -> dict[str, str]:
    return {name: str(key.as_dict(private=False)[name]) for name in ("kty", "crv", "x", "y")}
