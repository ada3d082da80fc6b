"""Rows that are derived from entries of the chain: written when an entry is added, and anew when a chain is replayed.

Each domain says what its kinds of entry write (`@derives`). So a server restored from its chain has the same rows, and
`seamtag verify` can tell whether a row was changed behind the chain's back.
"""

import json
from collections.abc import Callable
from importlib import import_module
from typing import Any

from sqlalchemy.orm import Session

from seamtag.sync.models import Entry

Derive = Callable[[Session, Entry, dict[str, Any]], None]

HANDLERS: dict[str, Derive] = {}
HOMES = ("people.staff", "people.shutting", "gauges.shelf", "procedures.book", "people.qualifications",
         "plans.publishing", "jobs.opening", "drawings.shelf",
         "sync.shop", "sync.restoring", "trends.watching")  # fmt: skip
"""Modules that derive rows of master data; those of records are the intake's."""


def derives(kind: str) -> Callable[[Derive], Derive]:
    """Marks the function that writes what an entry of a kind stands for. It gets the entry and its body."""

    def mark(function: Derive) -> Derive:
        HANDLERS[kind] = function
        return function

    return mark


def derive(session: Session, entry: Entry) -> None:
    """Write the rows of an entry of master data, inside a writing transaction."""
    for home in HOMES:
        import_module(f"seamtag.{home}")
    HANDLERS[entry.kind](session, entry, json.loads(entry.body))
    session.flush()
