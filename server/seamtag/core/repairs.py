"""Repair cycles of a piece: R1, R2 and so on.

A word 'repair' counts where it stands about one of the findings it names, and where it was carried out: a record says
that it came after it. What was carried out counts though the word was made void or another was said since; and a
finding that is made void takes back no word about it. Words about what was found side by side share a number; one about
what was recorded after a repair has the next. What number a word claims counts for nothing.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from seamtag.core.judging import Judged
from seamtag.core.standing import Standing

REPAIR = "repair"
AFTER_REPAIR = "after repair"


class Repairs:
    """The repairs asked for of one piece. numbers: the cycle of each word that counts, by its id."""

    def __init__(self, standing: Standing) -> None:
        self.standing = standing
        self.void_at: dict[tuple[str, str, str, str], list[str]] = defaultdict(list)
        for gone in standing.voids:
            self.void_at[standing.records[gone].place].append(gone)
        words = self.words()
        self.asking: dict[str, set[str]] = defaultdict(set)
        for one in words:
            for record_id in one.body["about"]["records"]:
                self.asking[record_id].add(one.id)
        self.numbers = numbered({one.id: self.before(one.body["about"]["records"]) - {one.id} for one in words})

    def words(self) -> list[Judged]:
        standing = self.standing
        valid = [one for one in standing.records.values() if one.id not in standing.voids]
        named = {name for one in valid for name in one.payload.get("under") or []}
        mended = {one.payload.get("replaces") for one in valid if one.payload.get("why") == AFTER_REPAIR}
        found = []
        for one in standing.records.values():
            if one.type != "disposition" or one.body["disposition"] != REPAIR or not standing.decides(one):
                continue
            about = {*one.body["about"]["records"]}
            carried_out = one.id in named or bool(about & mended)
            if carried_out or (one.id not in standing.voids and any(map(self.stands, about))):
                found.append(one)
        return found

    def stands(self, record_id: str) -> bool:
        word = self.standing.strictest(record_id)
        return word is not None and word.body["disposition"] == REPAIR

    def next(self, record_id: str) -> int:
        """The number that a word about a record would have."""
        return following(self.numbers, self.before([record_id]) - self.asking.get(record_id, set()))

    def before(self, about: Iterable[str]) -> set[str]:
        """What records came after: what they name, and the repairs of records of the same place that they replace, or
        that are older than they are and void."""
        found: set[str] = set()
        for record in (self.standing.records[one] for one in {*about} if one in self.standing.records):
            found.update(record.payload.get("under") or [])
            gone = [one for one in self.void_at.get(record.place, []) if one < record.id]
            for old in [*self.replaced_by(record), *gone]:
                found.update(self.asking.get(old, ()))
        return found

    def replaced_by(self, record: Judged) -> set[str]:
        """The ids of all that a record replaces, one after the other."""
        found: set[str] = set()
        while (old := record.payload.get("replaces")) and old not in found:
            if record.id not in [one.id for one in self.standing.replaced_by.get(old, [])]:
                break
            found.add(old)
            record = self.standing.records[old]
        return found


def numbered(before: Mapping[str, set[str]]) -> dict[str, int]:
    """One more than the highest before it. One turn is enough where ids follow time; a circle ends as well."""
    found = dict.fromkeys(sorted(before), 1)
    for _ in before:
        settled = dict(found)
        for one in found:
            found[one] = min(following(found, before[one]), len(before))
        if found == settled:
            break
    return found


def following(numbers: Mapping[str, int], before: Iterable[str]) -> int:
    return 1 + max((numbers.get(one, 0) for one in before), default=0)
