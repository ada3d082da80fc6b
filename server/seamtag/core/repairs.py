"""Repair cycles of a piece: R1, R2 and so on."""

from collections.abc import Collection, Iterable, Mapping

from seamtag.core.judging import Judged
from seamtag.core.standing import Standing

REPAIR = "repair"


def cycles(standing: Standing) -> dict[str, int]:
    """The number of each word 'repair' that stands, by its id.

    Words about what was found side by side share a number; one about what was recorded after a repair has the next. Of
    two words about one finding only one stands, and what number a word claims counts for nothing.
    """
    repairs = {one.id: one for one in map(standing.strictest, standing.about)
               if one is not None and one.body["disposition"] == REPAIR}  # fmt: skip
    asking = by_finding(repairs.values())
    before = {one: earlier(standing, d.body["about"]["records"], asking) - {one} for one, d in repairs.items()}
    found = dict.fromkeys(sorted(repairs), 1)
    for _ in repairs:  # one turn is enough where ids follow time; words that name each other in a circle end as well
        settled = dict(found)
        for one in found:
            found[one] = min(following(found, before[one]), len(repairs))
        if found == settled:
            break
    return found


def next_cycle(standing: Standing, record_id: str) -> int:
    """The number that a word 'repair' about a record would have."""
    found = cycles(standing)
    asking = by_finding(one for one in standing.dispositions if one.id in found)
    return following(found, earlier(standing, [record_id], asking))


def following(found: Mapping[str, int], before: Iterable[str]) -> int:
    return 1 + max((found.get(one, 0) for one in before), default=0)


def by_finding(repairs: Iterable[Judged]) -> dict[str, set[str]]:
    """The ids of the repairs asked for, by the record that each is about."""
    found: dict[str, set[str]] = {}
    for one in repairs:
        for record_id in one.body["about"]["records"]:
            found.setdefault(record_id, set()).add(one.id)
    return found


def earlier(standing: Standing, about: Iterable[str], asking: Mapping[str, Collection[str]]) -> set[str]:
    """What records came after: what they name, and the repairs of records of the same place that they replace, or that
    are older than they are and void."""
    found: set[str] = set()
    for record in (standing.records[one] for one in about if one in standing.records):
        found.update(record.payload.get("under") or [])
        for old in replaced_by(standing, record) | void_before(standing, record):
            found.update(asking.get(old, ()))
    return found


def replaced_by(standing: Standing, record: Judged) -> set[str]:
    """The ids of all that a record replaces, one after the other."""
    found: set[str] = set()
    while (old := record.payload.get("replaces")) and old not in found:
        if record.id not in [one.id for one in standing.replaced_by.get(old, [])]:
            break
        found.add(old)
        record = standing.records[old]
    return found


def void_before(standing: Standing, record: Judged) -> set[str]:
    return {one for one in standing.voids if one < record.id and standing.records[one].place == record.place}
