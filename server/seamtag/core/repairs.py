"""Repair cycles of a piece: R1, R2 and so on."""

from collections.abc import Iterable

from seamtag.core.judging import Judged
from seamtag.core.standing import Standing


def cycles(standing: Standing) -> dict[str, int]:
    """The number of each word 'repair' that stands, by its id.

    Words about what was found side by side share a number; one about what was recorded after a repair has the next. Of
    two words about one finding only one stands, and what number a word claims counts for nothing.
    """
    standing_now = [standing.strictest(one) for one in standing.about]
    repairs = {d.id: d for d in standing_now if d is not None and d.body["disposition"] == "repair"}
    before = {one: earlier(standing, d.body["about"]["records"], repairs.values()) - {one}
              for one, d in repairs.items()}  # fmt: skip
    found = dict.fromkeys(repairs, 1)
    for _ in repairs:  # as many turns as words settle any order, and end where words name each other in a circle
        found = {one: min(1 + max((found[other] for other in before[one]), default=0), len(repairs)) for one in repairs}
    return found


def next_cycle(standing: Standing, record_id: str) -> int:
    """The number that a word 'repair' about a record would have."""
    found = cycles(standing)
    known = [d for d in standing.dispositions if d.id in found]
    return 1 + max((found[one] for one in earlier(standing, [record_id], known)), default=0)


def earlier(standing: Standing, about: Iterable[str], repairs: Iterable[Judged]) -> set[str]:
    """The repairs that records came after: they name them, or are at the place of a record that was to be repaired,
    which they replace, or which is older than they are and void."""
    repairs = list(repairs)
    found = set()
    for record in (standing.records[one] for one in about if one in standing.records):
        gone = {*replaced_by(standing, record), *void_before(standing, record)}
        named = {*(record.payload.get("under") or [])}
        found |= {one.id for one in repairs if one.id in named or gone & {*one.body["about"]["records"]}}
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
