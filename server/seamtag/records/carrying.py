"""Records carried in a file, where a phone cannot send them: lines of JSON, each a record or a photo.

`{"record": "<compact JWS>"}` or `{"photo": "<SHA-256>", "bytes": "<base64>"}`. A damaged line harms no other.
"""

import base64
import binascii
import json
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from seamtag.core.records import SHA256
from seamtag.database import db
from seamtag.photos.routes import note
from seamtag.photos.store import PhotoError, Vault
from seamtag.records.intake import UNREADABLE, take_in

BATCH = 100


def take_in_file(vault: Vault, file: Path) -> dict[str, int]:
    """Take in a phone's file; how many of what. Photos are kept though no record names them yet."""
    counts: Counter[str] = Counter()
    batch: list[str] = []
    for value in lines_of(file):
        if isinstance(value.get("record"), str):
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
        shown = vault.seal(sha256, content)
    except (binascii.Error, ValueError, PhotoError):
        return False
    note(sha256, len(content), shown)
    return True
