"""Publishing a plan: a numbered revision that never changes, and an entry of the chain."""

from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from seamtag.plans.models import PlanRevision
from seamtag.plans.reading import hash_of
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry


def publish(session: Session, document: dict[str, Any], now: int, by: str = "") -> PlanRevision:
    """Publish a document, inside a writing transaction; the same document again gives the revision it has."""
    found = session.get(PlanRevision, hash_of(document))
    if found:
        return found
    code = document["plan"]
    last = session.scalar(select(func.max(PlanRevision.revision)).where(PlanRevision.code == code)) or 0
    body = {"hash": hash_of(document), "code": code, "revision": last + 1, "document": document}
    chain.announce(session, "plan", chain.SHOP, body, now, by)
    return session.get_one(PlanRevision, body["hash"])


def published(session: Session, code: str, revision: int | None = None) -> PlanRevision | None:
    """A revision of a plan; the last where none is named."""
    query = select(PlanRevision).where(PlanRevision.code == code).order_by(PlanRevision.revision.desc()).limit(1)
    return session.scalar(query if revision is None else query.where(PlanRevision.revision == revision))


@derives("plan")
def derive_plan(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.add(PlanRevision(title=body["document"]["title"], **body))
