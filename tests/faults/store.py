"""What lies on a phone's disk, and what the server's word does to it. The rules are those of the app.

Each method of Store that changes it is one transaction: it is done as a whole or not at all.
"""

import copy
import hashlib
import pickle
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from seamtag.records import jws

START = {"number": 0, "hash": "0" * 64}
SAVED, RECEIVED, NOT_TAKEN_IN, MISSING = "saved", "received", "not taken in", "missing"
"""Missing: somebody else's, which a restored server no longer has; kept, but not counted."""
STAYS = ("shop", "person", "key", "plan", "job")
"""Master data that a restored server's silence does not unmake."""
LEFT_ALONE = 600
"""Seconds for which what the server would not have is not sent again."""


@dataclass(frozen=True)
class Kept:
    """A record as the phone keeps it. role: provisional until the server's stamp is here."""

    id: str
    job: str
    text: str
    payload: dict[str, Any]
    role: str
    state: str = SAVED
    number: int | None = None
    verdict: str = ""
    reason: str = ""
    epoch: str = ""


@dataclass(frozen=True)
class Waiting:
    """refused: why the server would not have it; tried: by the phone's clock, when it was last sent in vain."""

    order: int
    refused: str = ""
    tried: float = 0.0

    def left_alone(self, now: float) -> bool:
        return bool(self.refused) and now - self.tried < LEFT_ALONE


@dataclass
class Store:
    """carried: the jobs that are pulled; None for all that are open. anew: scopes to be pulled anew after a restore."""

    device: str
    person: str
    roles: list[str]
    carried: list[str] | None = None
    seq: int = 0
    prev: str = ""
    epoch: str = ""
    head: dict[str, Any] = field(default_factory=lambda: dict(START))
    cursors: dict[str, int] = field(default_factory=dict)
    anew: set[str] = field(default_factory=set)
    master: dict[str, dict[str, Any]] = field(default_factory=dict)
    records: dict[str, Kept] = field(default_factory=dict)
    outbox: dict[str, Waiting] = field(default_factory=dict)
    photos: dict[str, bytes] = field(default_factory=dict)
    photo_outbox: dict[str, Waiting] = field(default_factory=dict)

    def copied(self) -> "Store":
        return copy.deepcopy(self)

    def reopened(self) -> "Store":
        """As a newer app finds it: nothing but what was written down."""
        found = pickle.loads(pickle.dumps(self))
        assert isinstance(found, Store)
        return found

    def in_order(self) -> list[str]:
        return sorted(self.outbox, key=lambda one: self.outbox[one].order)

    # A record is saved

    def save(self, kept: Kept, photos: Iterable[bytes]) -> None:
        """The record, its key's new head, its outbox row and its photos at one stroke."""
        order = max((one.order for one in self.outbox.values()), default=0) + 1
        self.seq, self.prev = self.seq + 1, jws.decode(kept.text).digest
        self.records[kept.id] = kept
        self.outbox[kept.id] = Waiting(order)
        for content in photos:
            sha256 = sha_of(content)
            self.photos[sha256] = content
            self.photo_outbox[sha256] = Waiting(order)

    # The server's word

    def settle(self, batch: Sequence[str], answer: Mapping[str, Any], now: float) -> None:
        """On each record of a batch; nothing leaves the outbox but by a word on that very record."""
        self.hear(answer, False)
        for one, outcome in zip(batch, answer["outcomes"], strict=True):
            if outcome["id"] != one:
                continue
            if outcome["outcome"] == "unreadable":
                self.leave_alone(one, outcome["reason"], now)
                continue
            state = RECEIVED if outcome["outcome"] == "taken in" else NOT_TAKEN_IN
            self.records[one] = replace(self.records[one], state=state, number=outcome["number"],
                                        verdict=outcome["verdict"], reason=outcome["reason"],
                                        epoch=answer["epoch"])  # fmt: skip
            self.outbox.pop(one, None)

    def leave_alone(self, one: str, reason: str, now: float) -> None:
        if one in self.outbox:
            self.outbox[one] = replace(self.outbox[one], refused=reason, tried=now)

    def photo_sent(self, sha256: str) -> None:
        self.photo_outbox.pop(sha256, None)

    def photo_refused(self, sha256: str, reason: str, now: float) -> None:
        self.photo_outbox[sha256] = replace(self.photo_outbox[sha256], refused=reason, tried=now)

    def hear(self, said: Mapping[str, Any], latest: bool) -> bool:
        """Epoch and head, which every answer tells; whether the server was restored since it was last heard.

        latest: nothing else was under way, so that its head cannot be behind this phone's own for another reason.
        """
        number, own = said["head"]["number"], self.head["number"]
        behind = number < own or (number == own and said["head"]["hash"] != self.head["hash"])
        restored = self.epoch != "" and (self.epoch != said["epoch"] or (latest and behind))
        if restored:
            self.start_over()
        if restored or number >= own:
            self.head = dict(said["head"])
        self.epoch = said["epoch"]
        return restored

    def start_over(self) -> None:
        """What this phone made goes out again, its photos with it, and everything is pulled from the start."""
        self.anew |= set(self.cursors)
        self.cursors.clear()
        gone = [r for r in self.records.values() if r.payload["device"] == self.device
                and r.state in (RECEIVED, NOT_TAKEN_IN)]  # fmt: skip
        gone.sort(key=lambda record: record.payload["seq"])
        first = min((one.order for one in self.outbox.values()), default=1)
        for place, record in enumerate(gone, first - len(gone)):
            self.outbox[record.id] = Waiting(place)
            if record.state == RECEIVED:
                self.records[record.id] = replace(record, state=SAVED, number=None, verdict="", epoch="")
        for place, sha256 in enumerate(self.photos, first - len(self.photos)):
            self.photo_outbox[sha256] = Waiting(place)

    # The feed

    def pulled(self, scope: str, feed: Mapping[str, Any]) -> bool:
        """Write down what came of a scope; whether the server was found to be restored instead."""
        if self.hear(feed, True):
            return True
        for entry in feed["entries"]:
            if entry["kind"] == "record":
                self.keep(entry, feed["epoch"])
            else:
                self.learn(scope, entry, feed["epoch"])
        if feed["entries"]:
            self.cursors[scope] = feed["entries"][-1]["number"]
        if not feed["more"]:
            self.sweep(scope, feed["epoch"])
        return False

    def keep(self, entry: Mapping[str, Any], epoch: str) -> None:
        payload = jws.json_of(entry["body"].split(".")[1])
        self.records[payload["id"]] = Kept(
            payload["id"], payload["job"], entry["body"], payload, entry["stamp"].get("role") or "", RECEIVED,
            entry["number"], entry.get("verdict") or "", "", epoch,
        )  # fmt: skip

    def learn(self, scope: str, entry: Mapping[str, Any], epoch: str) -> None:
        """Master data by what it is about: the newest of a person, a gauge, a job; every basis, pieces and tags."""
        number, kind, body = entry["number"], entry["kind"], entry["body"]
        name = body.get("id") or body.get("hash") or body.get("kid") or str(number)
        key = "shop" if kind == "shop" else f"{kind} {scope} {name}"
        self.master[key] = {"kind": kind, "scope": scope, "number": number, "body": body, "epoch": epoch}

    def sweep(self, scope: str, epoch: str) -> None:
        """The end of a pull from the start, after a restore: what the server no longer has does not count any more."""
        if scope not in self.anew:
            return
        self.anew.discard(scope)
        rows = {key: row for key, row in self.master.items() if row["scope"] == scope}
        if any(row["epoch"] == epoch for row in rows.values()):
            for key, row in rows.items():
                if row["epoch"] != epoch and row["kind"] not in STAYS:
                    del self.master[key]
        for record in list(self.records.values()):
            others = record.payload["device"] != self.device and record.state == RECEIVED and record.epoch != epoch
            if others and scope == f"job:{record.job}":
                self.records[record.id] = replace(record, state=MISSING, number=None, verdict="")

    def bodies(self, kind: str, scope: str = "shop") -> list[dict[str, Any]]:
        found = [one for one in self.master.values() if one["kind"] == kind and one["scope"] == scope]
        return [one["body"] for one in sorted(found, key=lambda one: int(one["number"]))]


def sha_of(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
