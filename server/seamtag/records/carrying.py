"""Records carried in a file, where a phone cannot send them: lines of JSON, each a record or a photo.

`{"record": "<compact JWS>"}` or `{"photo": "<SHA-256>", "bytes": "<base64>"}`. A damaged line harms no other.
`{"key": {"jwk", "person", "device"}}` is a public key of the phone: a server restored from a backup that is older than
the key does not know it, and enrols it again only where the office says so.
"""

import base64
import binascii
import json
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from seamtag.core.records import SHA256
from seamtag.database import db, writing
from seamtag.people.models import Key, Person
from seamtag.people.staff import add_key
from seamtag.photos.arriving import arrive
from seamtag.photos.store import PhotoError, Vault
from seamtag.records import jws
from seamtag.records.intake import UNREADABLE, take_in

BATCH = 100
KEYS = "keys enrolled again"
ADOPTED = "the office, from the phone's file"


def take_in_file(vault: Vault, file: Path, adopt_keys: bool = False) -> dict[str, int]:
    """Take in a phone's file; how many of what. Photos are kept though no record names them yet.

    adopt_keys: enrol the phone's keys that are not known here, on the word of whoever runs this.
    """
    counts: Counter[str] = Counter()
    batch: list[str] = []
    for value in lines_of(file):
        if "key" in value:
            if adopt_keys:
                counts[KEYS] += adopted(value["key"])
        elif isinstance(value.get("record"), str):
            batch.append(value["record"])
        elif "photo" in value:
            counts["photos" if keep(vault, value) else "photos damaged"] += 1
        else:
            counts[UNREADABLE] += 1
        if len(batch) == BATCH:
            counts.update(one.outcome for one in take_in(db.session(), batch))
            batch = []
    counts.update(one.outcome for one in take_in(db.session(), batch))
    return dict(counts)


def adopted(claim: Any) -> bool:
    """Whether a public key was enrolled again: a P-256 key of somebody known here, and not enrolled yet."""
    found = claim if isinstance(claim, dict) else {}
    jwk, person, device = (found.get(name) for name in ("jwk", "person", "device"))
    if not isinstance(jwk, dict) or not isinstance(person, str) or not isinstance(device, str):
        return False
    try:
        kid = jws.thumbprint(jwk)
    except jws.UnreadableError:
        return False
    with writing() as session:
        if session.get(Key, kid) is not None or session.get(Person, person) is None:
            return False
        add_key(session, Key(kid=kid, person=person, device=device[:64], jwk=jwk), int(time.time()), ADOPTED)
    return True


def lines_of(file: Path) -> Iterator[dict[str, Any]]:
    with file.open("rb") as source:
        for raw in source:
            if not raw.strip():
                continue
            try:
                value = json.loads(raw)
            except (ValueError, RecursionError):
                value = {}
            yield value if isinstance(value, dict) else {}


def keep(vault: Vault, value: dict[str, Any]) -> bool:
    sha256, text = value["photo"], value.get("bytes")
    if not isinstance(sha256, str) or not SHA256.fullmatch(sha256) or not isinstance(text, str):
        return False
    try:
        content = base64.b64decode(text, validate=True)
        arrive(vault, sha256, content)
    except (binascii.Error, ValueError, PhotoError):
        return False
    return True
