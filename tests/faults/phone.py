"""A phone as the app is one: what it signs, what it knows, and its turn of push, photos and pull.

The rules are those of the app's store and sync, in Python, so that a test can lose, kill and copy hundreds of phones.
"""

import gzip
import json
import random
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any
from urllib.parse import urlencode

from joserfc.jwk import ECKey

from seamtag.core import VERSION
from seamtag.core.job import Job
from seamtag.core.progress import Progress
from seamtag.core.records import SCHEMA, speaking_roles
from seamtag.records import jws
from tests.faults.store import MISSING, NOT_TAKEN_IN, Kept, Store

OURS = re.compile(r"application/(vnd\.seamtag\+json|json)")
MOST = 100


@dataclass(frozen=True)
class Answer:
    status: int
    media_type: str
    body: bytes
    retry_after: int = 0


Call = Callable[[str, str, bytes | None, Mapping[str, str]], Answer]
"""Method, path below /api/v1, body and headers; raises LostError where no answer comes."""


class LostError(Exception):
    """No answer came."""


class AnswerError(Exception):
    """An answer that is no word of the server, or one that says no. status: 0 where it is none of the server's."""

    def __init__(self, status: int, message: str, retry_after: int = 0) -> None:
        super().__init__(message)
        self.status, self.retry_after = status, retry_after


class Phone:
    """One person's key on one phone. clock: Unix seconds by the phone's own clock. dice: makes its ids."""

    def __init__(self, store: Store, key: ECKey, call: Call, clock: Callable[[], float], dice: random.Random) -> None:
        self.store, self.key, self.send, self.clock, self.dice = store, key, call, clock, dice
        self.signed_in = False
        self.folded: tuple[Any, Progress] | None = None

    # What it signs

    def save(self, kind: str, body: Mapping[str, Any], photos: Iterable[bytes] = (), **place: Any) -> Kept:
        """Sign a record and keep it with its photos; once this is done, it is on disk. place: job, piece, basis..."""
        store = self.store
        now = self.clock()
        payload = {
            "id": self.uuid7(int(now * 1000)), "schema": SCHEMA, "core": VERSION, "type": kind, "found_by": "scanned",
            "by": store.person, "device": store.device, "seq": store.seq + 1, "prev": store.prev,
            "seen": dict(store.head), "at": datetime.fromtimestamp(now, UTC).isoformat(timespec="seconds"),
            **place, "body": dict(body),
        }  # fmt: skip
        text = jws.sign(payload, self.key)
        kept = Kept(payload["id"], payload["job"], text, payload, self.provisional_role(payload))
        store.save(kept, photos)
        return kept

    def uuid7(self, milliseconds: int) -> str:
        value = (milliseconds << 80) | (7 << 76) | (self.dice.getrandbits(12) << 64) | (2 << 62)
        text = f"{value | self.dice.getrandbits(62):032x}"
        return f"{text[:8]}-{text[8:12]}-{text[12:16]}-{text[16:20]}-{text[20:]}"

    def provisional_role(self, payload: Mapping[str, Any]) -> str:
        job = self.job(payload["job"])
        step = job.steps.get(payload.get("step") or "") if job else None
        try:
            wanted = speaking_roles(payload, step)
        except KeyError:
            return ""  # a faulty record, as only a faulty app makes it
        if wanted is None:
            return ""
        return "held" if set(wanted) & set(self.store.roles) else "not held"

    # What it knows

    def job(self, name: str) -> Job | None:
        """A job put together from what was pulled; None before it was."""
        bodies, scope = self.store.bodies, f"job:{name}"
        bases = bodies("basis", scope)
        if not bases:
            return None
        return Job({
            "id": name, "bases": [{"plan": b["plan"], "figures": b["figures"]} for b in bases],
            "plans": {body["hash"]: body["document"] for body in bodies("plan") if body["hash"] in {
                      basis["plan"] for basis in bases}},
            "figure_sets": {str(b["figures"]): {"values": b["values"], "drawings": b["drawings"]} for b in bases},
            "pieces": [piece for body in bodies("pieces", scope) for piece in body["pieces"]],
            "gauges": {g["id"]: {name: g[name] for name in ("uncertainty", "uom", "due")} for g in bodies("gauge")},
        })  # fmt: skip

    def progress(self, name: str) -> Progress | None:
        """By its own set, what it has not sent included; what the server has not, or did not take in, is left out."""
        master = tuple(sorted((key, one["number"], one["epoch"]) for key, one in self.store.master.items()))
        records = [r for r in self.store.records.values() if r.job == name and r.state not in (NOT_TAKEN_IN, MISSING)]
        made_from = (master, tuple((r.id, r.role) for r in records))
        if self.folded is None or self.folded[0] != made_from:
            job = self.job(name)
            if job is None:
                return None
            self.folded = (made_from, Progress(job, [(r.payload, r.role) for r in records]))
        return self.folded[1]

    # Its turn with the server

    def turn(self, most: int = MOST, dice: random.Random | None = None, urgent: bool = False) -> str:
        """Push, photos, pull, as the app's loop does; what kept it from all of it, '' where nothing did.

        dice: sends its batches in any order. urgent: sends what the server would not have before as well.
        """
        try:
            self.push(most, dice, urgent)
            self.send_photos(urgent)
            self.pull_signed_in()
        except LostError:
            return "lost"
        except AnswerError as error:
            return f"{error.status} {error}"
        return ""

    def call(self, method: str, path: str, body: bytes | None = None, **headers: str) -> Any:
        """The server's word. Raises LostError or AnswerError; another media type than ours is no word of it."""
        answer = self.send(method, path, body, headers)
        ours = OURS.match(answer.media_type) is not None
        try:
            value = json.loads(answer.body) if ours else None
        except ValueError:
            value = None
        if not 200 <= answer.status < 300:
            message = value.get("message", "") if isinstance(value, dict) else ""
            raise AnswerError(answer.status if ours else 0, message, answer.retry_after)
        if not isinstance(value, dict):
            raise AnswerError(0, "something else answered")
        return value

    def post(self, path: str, value: Any) -> Any:
        return self.call("POST", path, json.dumps(value).encode(), **{"Content-Type": "application/json"})

    def push(self, most: int = MOST, dice: random.Random | None = None, urgent: bool = False) -> None:
        """In batches; what the server could not believe goes by itself, and seldom."""
        now, outbox = self.clock(), self.store.outbox
        rows = self.store.in_order()
        doubted = [one for one in rows if outbox[one].refused and (urgent or not outbox[one].left_alone(now))]
        batches = [*in_batches(doubted, most), *in_batches([one for one in rows if not outbox[one].refused], most)]
        if dice is not None:
            dice.shuffle(batches)
        left = len(rows)
        for batch in batches:
            left -= len(batch)
            self.send_batch(batch, left)

    def send_batch(self, batch: Sequence[str], left: int) -> None:
        texts = [self.store.records[one].text for one in batch]
        body = gzip.compress(json.dumps({"device": self.store.device, "waiting": left, "records": texts}).encode(), 1)
        headers = {"Content-Type": "application/json", "Content-Encoding": "gzip"}
        try:
            answer = self.call("POST", "/records", body, **headers)
        except AnswerError as error:
            if error.status != 413:
                raise
            self.send_halves(batch, left, str(error))
            return
        outcomes = answer.get("outcomes")
        if not isinstance(outcomes, list) or len(outcomes) != len(batch):
            raise AnswerError(0, "the answer does not fit what was sent")
        self.store.settle(batch, answer, self.clock())

    def send_halves(self, batch: Sequence[str], left: int, reason: str) -> None:
        if len(batch) == 1:
            self.store.leave_alone(batch[0], reason, self.clock())
            return
        middle = (len(batch) + 1) // 2
        self.send_batch(batch[:middle], left + len(batch) - middle)
        self.send_batch(batch[middle:], left)

    def send_photos(self, urgent: bool = False) -> None:
        """Send what waits; one that the server will not have stays, and keeps neither the others nor the pull."""
        store, now = self.store, self.clock()
        for sha256 in sorted(store.photo_outbox, key=lambda one: store.photo_outbox[one].order):
            if store.photo_outbox[sha256].left_alone(now) and not urgent:
                continue
            headers = {"Content-Type": "application/octet-stream"}
            try:
                answer = self.call("PUT", f"/photos/{sha256}", store.photos[sha256], **headers)
            except AnswerError as error:
                if not 400 <= error.status < 500 or error.status == 429:
                    raise
                store.photo_refused(sha256, str(error), now)
                continue
            if answer.get("sha256") == sha256 and answer.get("outcome") == "taken in":
                store.photo_sent(sha256)

    def sign_in(self) -> None:
        """A role given or taken since the key was enrolled holds here as well."""
        nonce = self.post("/challenges", {}).get("nonce")
        if not isinstance(nonce, str):
            raise AnswerError(0, "something else answered")
        person = self.post("/sessions", {"proof": jws.sign({"purpose": "sign in", "nonce": nonce}, self.key)})
        if not isinstance(person.get("roles"), list):
            raise AnswerError(0, "something else answered")
        self.store.roles = person["roles"]
        self.signed_in = True

    def pull_signed_in(self) -> None:
        """Pull; where the session has ended, sign in by the key and pull once more."""
        if not self.signed_in:
            self.sign_in()
        try:
            self.pull()
        except AnswerError as error:
            if error.status != 401:
                raise
            self.sign_in()
            self.pull()

    def pull(self) -> None:
        """The shop and every carried job; after a restore, every job that was ever pulled."""
        self.pull_scope("shop")
        open_jobs = sorted(body["id"] for body in self.store.bodies("job") if body["open"])
        carried = [f"job:{name}" for name in (open_jobs if self.store.carried is None else self.store.carried)]
        anew = sorted(scope for scope in self.store.anew if scope.startswith("job:"))
        for scope in dict.fromkeys([*carried, *anew]):
            self.pull_scope(scope)

    def pull_scope(self, scope: str) -> None:
        store = self.store
        while True:
            query = urlencode({"scope": scope, "after": store.cursors.get(scope, 0), "device": store.device,
                               "waiting": len(store.outbox)})  # fmt: skip
            feed = self.call("GET", f"/feed?{query}")
            if not isinstance(feed.get("entries"), list):
                raise AnswerError(0, "something else answered")
            restored = store.pulled(scope, feed)
            if not restored and not feed["more"]:
                return


def in_batches(rows: Sequence[str], most: int) -> list[Sequence[str]]:
    return [rows[at : at + most] for at in range(0, len(rows), most)]
