"""What was drawn over a photo: a layer of marks beside it. The photo itself stays as it was taken."""

from collections.abc import Container, Iterable, Mapping
from typing import Any

from seamtag.core.judging import Judged
from seamtag.core.records import MARK, are_marks


def layer_of(records: Iterable[Judged], voids: Container[str], sha256: str) -> list[dict[str, Any]]:
    """The marks over a photo: of each person the newest layer, in the order of the records' ids.

    records: of one piece; voids: the ids of those made void. A layer of a form this schema does not know is left out.
    """
    newest: dict[str, Judged] = {}
    for record in sorted(records, key=lambda one: one.id):
        if record.type != "photo" or record.id in voids or record.body.get("marks") is None:
            continue
        if record.body["sha256"] == sha256 and are_marks(record.body["marks"]):
            newest[record.payload["by"]] = record
    layers = sorted(newest.values(), key=lambda one: one.id)
    return [as_mark(mark) for record in layers for mark in record.body["marks"]]


def as_mark(mark: Mapping[str, Any]) -> dict[str, Any]:
    """A mark with its own fields alone."""
    return {name: mark[name] for name in MARK}
