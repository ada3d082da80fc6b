"""Adding a gauge or a new certificate of one; an entry of the chain."""

from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from seamtag.gauges.models import Gauge
from seamtag.sync import chain

FIELDS = ("id", "kind", "name", "uom", "uncertainty", "certificate", "calibrated", "due")


def put(session: Session, values: Mapping[str, Any], now: int, by: str = "") -> Gauge:
    """Add or renew a gauge, inside a writing transaction. values: by FIELDS; dates as ISO text."""
    body = {name: None if values.get(name) is None else str(values[name]) for name in FIELDS}
    body["certificate"] = body["certificate"] or ""
    gauge = session.merge(Gauge(**body))
    chain.announce(session, "gauge", chain.SHOP, body, now, by)
    return gauge
