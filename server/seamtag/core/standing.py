"""Which records are in force: voids, replacements and dispositions over a set of records, in any order."""

from collections.abc import Iterable

from seamtag.core.inputs import at, inputs_of
from seamtag.core.job import Job
from seamtag.core.judging import ADVERSE, WORSE, Judged
from seamtag.core.records import DISPOSITIONS

IN_FORCE, VOID, REPLACED, CHANGED, ASKED_AGAIN = "in force", "void", "replaced", "plan changed", "asked again"

ASKS_NEW = ("rework", "repair")
DISAGREE = "readings disagree"
FINDINGS = (*ADVERSE, DISAGREE)
"""Kinds of flag about what was found; all others are doubts about how it was found, by whom or by which way it came."""


class Standing:
    """The standing of each record of a set. The set may be all that is known, or only what a sign-off covers.

    whole: the standing over all that is known, where the set is a part of it.
    """

    def __init__(self, records: Iterable[Judged], job: Job, whole: "Standing | None" = None) -> None:
        self.job = job
        self.records = {record.id: record for record in records}
        self.known = whole.records if whole else self.records
        self.voids: dict[str, list[Judged]] = {}
        for void in self.records.values():
            if void.type == "void" and self.may_void(void):
                self.voids.setdefault(void.body["record"], []).append(void)
        self.known_voids = whole.voids if whole else self.voids
        self.agreements = [r for r in self.effective("agreement") if r.role == "held"]
        self.dispositions = [r for r in self.effective("disposition") if self.decides(r)]
        self.about: dict[str, list[Judged]] = {}
        for disposition in self.dispositions:
            for record_id in disposition.body["about"]["records"]:
                if disposition.body["disposition"] != "use as is" or not self.speaks_of_derived(disposition):
                    self.about.setdefault(record_id, []).append(disposition)
        self.replaced_by: dict[str, list[Judged]] = {}
        for record in self.records.values():
            if record.id not in self.voids and self.may_replace(record):
                self.replaced_by.setdefault(record.payload["replaces"], []).append(record)

    def effective(self, kind: str) -> list[Judged]:
        return [r for r in self.records.values() if r.type == kind and r.id not in self.voids]

    def decides(self, disposition: Judged) -> bool:
        """Whether a disposition has effect: by who holds the role, and not about a finding of their own where the plan
        says that this has none."""
        return disposition.role == "held" and not self.of_own_finding(disposition)

    def of_own_finding(self, disposition: Judged) -> bool:
        """Whether who recorded what a disposition is about made it, or welded at its step, against the plan revision it
        names or the one in force: by naming an older one nobody gets round the rule."""
        named = self.job.data["plans"].get(disposition.payload["basis"]["plan"], self.job.plan)
        if not (named.get("not_recorder") or self.job.plan.get("not_recorder")):
            return False
        about = [self.known[one] for one in disposition.body["about"]["records"] if one in self.known]
        about += self.worked_from(disposition)
        steps = {r.place[:2] for r in about}
        welders = {r.body["welder"] for r in self.known.values() if r.type == "weld" and r.place[:2] in steps}
        return disposition.payload["by"] in {r.payload["by"] for r in about} | welders

    def worked_from(self, disposition: Judged) -> list[Judged]:
        """The readings that a value worked out rests upon, where a disposition is about one."""
        piece, step, item, station = disposition.place
        asked = self.job.item(step, item)
        if asked is None or not self.speaks_of_derived(disposition):
            return []
        keys = {(piece, *key) for key in inputs_of(self.job.steps[step], asked, self.job)}
        return [r for r in self.known.values() if r.type == "reading" and r.place[:3] in keys
                and at(r.place[3], station) and r.id not in self.known_voids]  # fmt: skip

    def may_void(self, void: Judged) -> bool:
        """Its maker or a supervisor makes a record void; a void itself is final."""
        target = self.records.get(void.body["record"])
        if target is None or target.type == "void":
            return False
        return void.payload["by"] == target.payload["by"] or void.role == "held"

    def may_replace(self, record: Judged) -> bool:
        """The same person replaces, or anybody whom a disposition asks; both at the same place of the same piece."""
        target = self.records.get(record.payload.get("replaces") or "")
        if target is None or target.type != record.type or target.place != record.place:
            return False
        asked = any(d.body["disposition"] in ASKS_NEW for d in self.about.get(target.id, []))
        return record.payload["by"] == target.payload["by"] or asked

    def replaces_one_of(self, record: Judged, others: set[str]) -> bool:
        return record.payload.get("replaces") in others and self.may_replace(record)

    def of(self, record: Judged) -> str:
        if record.id in self.voids:
            return VOID
        if record.id in self.replaced_by:
            return REPLACED
        if not record.current:
            return CHANGED
        return ASKED_AGAIN if self.asked_again(record) else IN_FORCE

    def in_force(self, record: Judged) -> bool:
        return self.of(record) == IN_FORCE

    def asked_again(self, record: Judged) -> bool:
        """Whether a rework or repair names the record's step and the record does not say that it came after it."""
        piece, step, _, _ = record.place
        under = record.payload.get("under") or []
        return any(step in (d.body.get("again") or []) and d.payload["piece"] == piece and d.id not in under
                   for d in self.dispositions if d.body["disposition"] in ASKS_NEW)  # fmt: skip

    def speaking(self, record_id: str, doubt: str = "") -> list[Judged]:
        """The dispositions about a record or, where a kind of doubt is named, about that alone. A 'use as is' about a
        doubt says nothing of the record's verdict; what asks for a new record or scraps does."""
        about = self.about.get(record_id, [])
        if doubt:
            return [d for d in about if d.body["about"]["flag"] == doubt]
        return [d for d in about if d.body["disposition"] != "use as is" or d.body["about"]["flag"] in ADVERSE]

    def strictest(self, record_id: str, doubt: str = "") -> Judged | None:
        """The disposition that stands about a record, or a kind of doubt about it: the strictest of those that have
        effect."""
        found = [d for d in self.speaking(record_id, doubt) if self.has_effect(d, record_id)]
        return max(found, key=strictness, default=None)

    def has_effect(self, disposition: Judged, record_id: str) -> bool:
        if disposition.body["disposition"] != "use as is" or not about_finding(disposition):
            return True
        record = self.records.get(record_id)
        if record is None:
            return False
        return not lapsed(disposition, record.verdict.word) and not self.lacking_agreement(disposition, record.place)

    def lacking_agreement(self, disposition: Judged, place: tuple[str, str, str, str]) -> list[str]:
        """The parties that must still agree to a 'use as is', by what the limit of the item at the place binds by."""
        _, step, item, _ = place
        asked = self.job.item(step, item) or {}
        needed = self.job.plan.get("agree", {}).get(asked.get("binds") or "shop", [])
        given = {a.body["party"] for a in self.agreements if a.body["disposition"] == disposition.id}
        return [party for party in needed if party not in given]

    def accepted(self, record: Judged) -> bool:
        """Good by itself and not disposed otherwise, or covered by a 'use as is' that has effect."""
        disposition = self.strictest(record.id)
        if disposition is None:
            return record.good
        return bool(disposition.body["disposition"] == "use as is")

    def speaks_of_derived(self, disposition: Judged) -> bool:
        """Whether a disposition is about a value worked out: its own step and item name a derived item."""
        _, step, item, _ = disposition.place
        return bool(item) and (self.job.item(step, item) or {}).get("kind") == "derived"

    def about_derived(self, place: tuple[str, str, str, str], newest: str) -> list[Judged]:
        """The dispositions about a value worked out; they name the newest reading it was worked out from. As of a
        record, a 'use as is' about a doubt says nothing of the value."""
        return [d for d in self.dispositions if d.place == place and newest in d.body["about"]["records"]
                and (d.body["disposition"] != "use as is" or about_finding(d))]  # fmt: skip

    def strictest_of_derived(self, place: tuple[str, str, str, str], newest: str, word: str) -> Judged | None:
        """The disposition that stands about a value worked out, as strictest() is about a record."""
        found = [d for d in self.about_derived(place, newest) if d.body["disposition"] != "use as is"
                 or not (lapsed(d, word) or self.lacking_agreement(d, place))]  # fmt: skip
        return max(found, key=strictness, default=None)


def strictness(disposition: Judged) -> tuple[int, str]:
    return (DISPOSITIONS.index(disposition.body["disposition"]), disposition.id)


def about_finding(disposition: Judged) -> bool:
    """Whether a disposition is about a finding, and not about a doubt: of one that is seen no limit is given away, so
    nobody has to agree and no release is touched."""
    return disposition.body["about"]["flag"] in FINDINGS


def lapsed(disposition: Judged, word: str) -> bool:
    """Whether the verdict has become worse than the one the disposition was made upon."""
    seen = disposition.body["about"].get("verdict")
    return seen is not None and WORSE[word] > WORSE.get(seen, 0)
