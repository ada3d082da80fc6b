"""Adding a gauge or a new certificate of one; an entry of the chain."""

import re
from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from seamtag.gauges.models import Gauge
from seamtag.records.rejudging import jobs_with, rejudge_now
from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry

PLAIN = re.compile(r"[0-9]{1,10}(\.[0-9]{1,10})?|\.[0-9]{1,10}")
FIELDS = ("id", "kind", "name", "uom", "uncertainty", "certificate", "calibrated", "due")


class GaugeError(ValueError):
    """A certificate that cannot be read. The message says what is wrong with it."""


def put(session: Session, values: Mapping[str, Any], now: int, by: str = "") -> Gauge:
    """Add or renew a gauge, inside a writing transaction. values: by FIELDS; dates as ISO text.

    Raises GaugeError where the uncertainty is no plain decimal of 0 or more.
    """
    uncertainty = values.get("uncertainty")
    if uncertainty is not None and not PLAIN.fullmatch(str(uncertainty)):
        raise GaugeError(f"Gauge {values.get('id')}: uncertainty '{uncertainty}' is no plain decimal such as 0.005.")
    body = {name: None if values.get(name) is None else str(values[name]) for name in FIELDS}
    body["certificate"] = body["certificate"] or ""
    chain.announce(session, "gauge", chain.SHOP, body, now, by)
    for job in jobs_with(session, "reading"):
        rejudge_now(session, job)
    return session.get_one(Gauge, body["id"])


@derives("gauge")
def derive_gauge(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.merge(Gauge(**body))
