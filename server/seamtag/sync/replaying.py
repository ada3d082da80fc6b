"""A whole server from its chain: every derived row written anew from the entries, in an empty database."""

from collections.abc import Iterable
from typing import NamedTuple

from sqlalchemy.orm import Session

from seamtag.jobs.floor import core_job
from seamtag.records import jws
from seamtag.records.intake import derive_record
from seamtag.records.keychain import relink
from seamtag.sync.deriving import derive
from seamtag.sync.models import Entry


class Line(NamedTuple):
    """An entry as it stands in the chain or in a backup."""

    number: int
    hash: str
    kind: str
    scope: str
    body: str
    stamp: str


def replay(session: Session, lines: Iterable[Line]) -> int:
    """Write entries and what is derived from them, inside a transaction of an empty database; the last number.

    Verdicts are those at the time of each entry; judge anew afterwards. Raises UnreadableError where a record's entry
    is none.
    """
    number = 0
    for line in lines:
        entry = Entry(**line._asdict())
        session.add(entry)
        session.flush()
        if entry.kind == "record":
            decoded = jws.decode(entry.body)
            row = derive_record(session, entry, decoded, core_job(session, str(decoded.payload["job"])))
            relink(session, row.kid, row.seq, row.prev, row.digest)
        else:
            derive(session, entry)
        number = entry.number
    return number
