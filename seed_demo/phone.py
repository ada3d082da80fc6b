"""A phone of the demonstration: one person's key, and records made and signed as the app makes them."""

import random
import secrets
from bisect import bisect_right
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from joserfc.jwk import ECKey
from sqlalchemy.orm import Session

from seamtag.core import VERSION
from seamtag.core.records import SCHEMA
from seamtag.people.models import Key
from seamtag.people.staff import add_key
from seamtag.records import jws


class Phone:
    """Signs records for one person; each names the key's record before it, as the chain of a key asks."""

    def __init__(self, person: str, dice: random.Random) -> None:
        self.person, self.dice = person, dice
        self.key = ECKey.generate_key("P-256", private=True)
        self.device = f"demo-{person}"
        self.seq, self.prev = 0, ""
        self.seen = {"number": 0, "hash": "0" * 64}
        self.heads: list[tuple[int, dict[str, Any]]] = []

    def enrol(self, session: Session, now: int) -> None:
        jwk = {name: str(self.key.as_dict(private=False)[name]) for name in ("kty", "crv", "x", "y")}
        add_key(session, Key(kid=self.key.thumbprint(), person=self.person, device=self.device, jwk=jwk), now)

    def seen_at(self, at: datetime) -> dict[str, Any]:
        """The newest head that was there at a moment; what was last set where none is kept."""
        place = bisect_right(self.heads, int(at.timestamp()), key=lambda head: head[0])
        return self.heads[max(0, place - 1)][1] if self.heads else self.seen

    def record(self, kind: str, at: datetime, place: Mapping[str, Any], body: Mapping[str, Any]) -> tuple[str, Any]:
        """A signed record and its payload. place: job, piece, basis and what else stands beside the body."""
        self.seq += 1
        payload = {
            "id": uuid7(int(at.timestamp() * 1000), self.dice), "schema": SCHEMA, "core": VERSION, "type": kind,
            "found_by": "scanned", "by": self.person, "device": self.device, "seq": self.seq, "prev": self.prev,
            "seen": self.seen_at(at), "at": at.isoformat(timespec="seconds"), **place, "body": dict(body),
        }  # fmt: skip
        text = jws.sign(payload, self.key)
        self.prev = jws.decode(text).digest
        return text, payload


def uuid7(milliseconds: int, dice: random.Random) -> str:
    """A UUIDv7 (RFC 9562) of a moment."""
    value = (milliseconds << 80) | (7 << 76) | (dice.getrandbits(12) << 64) | (2 << 62) | secrets.randbits(62)
    text = f"{value:032x}"
    return f"{text[:8]}-{text[8:12]}-{text[12:16]}-{text[16:20]}-{text[20:]}"
