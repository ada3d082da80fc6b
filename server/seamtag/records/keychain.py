"""Whether each record follows the last one of its key: gaps and forks are shown, and never stop anything.

A phone restored from a backup goes on from an older record, so that two records follow the same one: a fork. A record
whose predecessor is not here leaves a gap, until it comes.
"""

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from seamtag.records.models import Record, Refusal

FOLLOWS, GAP, FORK = "", "gap", "fork"


def link_of(session: Session, record: Record) -> str:
    """How a record follows its key's chain, as far as that is here."""
    twin = select(Record.id).where(Record.kid == record.kid, Record.seq == record.seq, Record.prev == record.prev,
                                   Record.digest != record.digest)  # fmt: skip
    if session.scalar(twin.limit(1)) is not None:
        return FORK
    if record.seq == 1 and record.prev == "":
        return FOLLOWS
    before = select(Record.id).where(Record.digest == record.prev, Record.kid == record.kid,
                                     Record.seq == record.seq - 1)  # fmt: skip
    refused = select(Refusal.digest).where(Refusal.digest == record.prev, Refusal.kid == record.kid)
    return FOLLOWS if session.scalar(before) or session.scalar(refused) else GAP


def relink(session: Session, kid: str, seq: int, prev: str, digest: str) -> set[tuple[str, str]]:
    """Look again at a record just stored or refused, at its twins, and at what follows it.

    Returns job and piece of each whose link has changed.
    """
    session.flush()
    near = or_((Record.seq == seq) & (Record.prev == prev), (Record.seq == seq + 1) & (Record.prev == digest))
    changed = set()
    for record in session.scalars(select(Record).where(Record.kid == kid, near)).all():
        link = link_of(session, record)
        if link != record.link:
            record.link = link
            changed.add((record.job, record.piece))
    session.flush()
    return changed
