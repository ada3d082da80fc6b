"""Which items are watched, and by which rules: a rule broken raises a flag before a limit is crossed."""

from collections.abc import Sequence
from typing import Any

from sqlalchemy.orm import Session

from seamtag.sync import chain
from seamtag.sync.deriving import derives
from seamtag.sync.models import Entry
from seamtag.trends.measured import SeriesKey
from seamtag.trends.models import Watched
from seamtag.trends.rules import RULES

DRIFT_RULE = "drift"
WATCHING = (DRIFT_RULE, *RULES)
"""The rules an item can be watched by."""


class WatchError(ValueError):
    """The message says what is wrong."""


def watch(session: Session, key: SeriesKey, rules: Sequence[str], now: int, by: str = "") -> Entry:
    """Watch an item by some rules from now on, by none to let it be, inside a writing transaction; an entry of the
    chain. Raises WatchError for a rule that is none."""
    unknown = [rule for rule in rules if rule not in WATCHING]
    if unknown:
        raise WatchError(f"There is no rule '{unknown[0]}'. The rules are: {', '.join(WATCHING)}.")
    plan, step, item = key
    body = {"plan": plan, "step": step, "item": item, "rules": [rule for rule in WATCHING if rule in rules]}
    return chain.announce(session, "watch", chain.SHOP, body, now, by)


@derives("watch")
def derive_watch(session: Session, entry: Entry, body: dict[str, Any]) -> None:
    session.merge(Watched(**body))


def rules_of(session: Session, key: SeriesKey) -> list[str]:
    found = session.get(Watched, key)
    return list(found.rules) if found else []
