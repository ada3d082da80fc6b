"""One phone in a process of its own: makes records and photos, and sends them until every one has been received.

Told what to do by a JSON file, named on the command line; says what became of it in another beside it.
"""

import http.client
import io
import json
import random
import sys
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from joserfc.jwk import ECKey
from PIL import Image

from tests.faults.phone import Answer, LostError, Phone
from tests.faults.store import RECEIVED, Store, sha_of

PATIENCE = 8
"""Seconds a call may take."""
READINGS = ("3/32", "3/32", "1/8", "1/4")


class Wire:
    """Calls over real sockets, each on a connection of its own. cookie: the session's, kept as a browser does."""

    def __init__(self, port: int) -> None:
        self.port, self.cookie = port, ""
        self.tries = self.lost = 0

    def __call__(self, method: str, path: str, body: bytes | None, headers: Mapping[str, str]) -> Answer:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        self.tries += 1
        more = {"Cookie": self.cookie} if self.cookie else {}
        try:
            connection.request(method, f"/api/v1{path}", body, {"Connection": "close", **headers, **more})
            found = connection.getresponse()
            content = found.read()
        except (OSError, http.client.HTTPException) as error:
            self.lost += 1
            raise LostError from error
        finally:
            connection.close()
        if found.status >= 500 and (found.status != 503 or not found.headers["Retry-After"]):
            raise AssertionError(f"{method} {path}: {found.status} {content!r}")
        self.cookie = (found.headers["Set-Cookie"] or self.cookie).split(";")[0]
        retry = int(found.headers["Retry-After"] or 0)
        return Answer(found.status, found.headers["Content-Type"] or "", content, retry)


def work(told: Mapping[str, Any]) -> dict[str, Any]:
    """Make what is asked for, some at a time, and send it; what was made and what the server said."""
    dice = random.Random(told["seed"])
    wire = Wire(told["port"])
    store = Store(told["device"], told["person"], told["roles"], carried=[])
    phone = Phone(store, ECKey.import_key(told["key"]), wire, time.time, dice)
    photos = sorted(dice.sample(range(told["records"]), told["photos"]))
    made = 0
    while made < told["records"] or store.outbox or store.photo_outbox:
        for _ in range(min(dice.randint(1, told["most"]), told["records"] - made)):
            make(phone, told, made, dice, made in photos)
            made += 1
        if phone.turn(dice.randint(1, told["most"]), dice, urgent=True):
            time.sleep(dice.random() * 0.2)
        if time.monotonic() > told["until"]:
            break
    received = sorted(one.id for one in store.records.values() if one.state == RECEIVED)
    return {"made": sorted(store.records), "received": received, "photos": {sha: len(one) for sha, one in
            store.photos.items()}, "photos_waiting": len(store.photo_outbox), "tries": wire.tries, "lost": wire.lost,
            "head": store.head}  # fmt: skip


def make(phone: Phone, told: Mapping[str, Any], number: int, dice: random.Random, with_photo: bool) -> None:
    """The next record: a reading, or a photo of the same place."""
    piece = told["pieces"][number * len(told["pieces"]) // told["records"]]
    place = {"job": told["job"], "piece": piece, "step": "fit", "basis": told["basis"], "item": "gap"}
    if with_photo:
        content = picture(dice)
        body = {"sha256": sha_of(content), "media_type": "image/jpeg", "bytes": len(content), "width": 40, "height": 30}
        phone.save("photo", body, (content,), **place)
        return
    body = {"entered": dice.choice(READINGS), "uom": "in", "gauge": "TG"}
    phone.save("reading", body, station=dice.choice("AB"), **place)


def picture(dice: random.Random) -> bytes:
    out = io.BytesIO()
    Image.frombytes("RGB", (40, 30), dice.randbytes(40 * 30 * 3)).save(out, "JPEG")
    return out.getvalue()


def main(file: Path) -> None:
    told = json.loads(file.read_text(encoding="utf-8"))
    answer = file.with_suffix(".said")
    answer.write_text(json.dumps(work(told)), encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
