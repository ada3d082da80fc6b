"""Whether a sign-off is valid: by whom, over what, in which order, and whether anything since has shaken it."""

from collections.abc import Container, Mapping, Sequence
from typing import Any

from seamtag.core.inputs import inputs_of
from seamtag.core.items import MET, NOT_ASKED, ON_ITEMS, Bench
from seamtag.core.job import REQUIRED, Job, Step
from seamtag.core.judging import Judged
from seamtag.core.records import in_ink
from seamtag.core.standing import ASKS_NEW, Standing, about_finding

VALID = "valid"
VOIDED = "void"
NOT_HELD = "role not held"
TO_CONFIRM = "role to be confirmed"
CHANGED = "plan changed"
AGAIN = "asked again"
WAITING = "waiting for records"
OUT_OF_ORDER = "out of order"
OWN_WORK = "own work"
NO_PAGE = "no photo of the page"
NO_NOTICE = "no notice was given"
ATTENDANCE = "must be present"
NOT_MET = "step was not met"
SHAKEN = "shaken"

STRICTNESS = ("S", "R", "W", "H", "sign")

Point = Mapping[str, Any]


class Signing:
    """The sign-offs at one step of one piece. records: all of that piece; standing: over all of them.

    arrived: the ids of all records of the job that are here. everywhere: the points set for the whole job.
    """

    def __init__(
        self,
        piece: str,
        step: Step,
        records: list[Judged],
        standing: Standing,
        job: Job,
        arrived: Container[str],
        everywhere: Sequence[Judged] = (),
    ) -> None:
        self.piece, self.step, self.standing, self.job = piece, step, standing, job
        self.records, self.arrived = records, arrived
        self.by_id = {record.id: record for record in records}
        self.here = [r for r in records if r.place[:2] == (piece, step["code"])]
        self.calls = [r for r in self.here if r.type == "call" and r.id not in standing.voids]
        self.set_points = [
            r for r in self.here if r.type == "point" and r.id not in standing.voids and r.role == "held"
        ]
        self.set_points += [r for r in everywhere if r.place[0] != piece and r.place[1] == step["code"]]
        self.points = points_of(step, self.set_points)
        self.inputs = {key for item in step["items"] for key in inputs_of(step, item, job)}
        used = self.inputs | {(step["code"], item["code"]) for item in step["items"]}
        self.steps_used = {step["code"], *(code for code, _ in used)}
        self.on_items = [r for r in records if r.type in ON_ITEMS and r.place[1:3] in used]
        self.reasons: dict[str, str] = {}
        for index, point in enumerate(self.points):
            for signoff in self.of_party(point["party"]):
                self.reasons[signoff.id] = self.reason(signoff, point, index)

    def of_party(self, party: str) -> list[Judged]:
        return sorted((r for r in self.here if r.type == "sign-off" and r.body["party"] == party), key=lambda r: r.id)

    def valid(self, party: str) -> list[Judged]:
        return [r for r in self.of_party(party) if self.reasons.get(r.id) == VALID]

    def calls_to(self, party: str) -> list[Judged]:
        return [call for call in self.calls if call.body["party"] == party]

    def outstanding(self) -> list[Point]:
        """The points that still want a valid sign-off before the step is released, in order."""
        return [p for p in self.points if p["point"] in REQUIRED and not self.valid(p["party"])]

    def holding(self) -> list[Point]:
        """The points at which nothing may go on: holds not released, witness points of which no notice was given."""
        return [p for p in self.outstanding()
                if p["point"] == "H" or (p["point"] == "W" and not self.calls_to(p["party"]))]  # fmt: skip

    def reason(self, signoff: Judged, point: Point, index: int) -> str:
        if signoff.id in self.standing.voids:
            return VOIDED
        if signoff.role != "held":
            return TO_CONFIRM if signoff.role == "changed" else NOT_HELD
        basis = {key: signoff.payload["basis"][key] for key in ("plan", "figures")}
        if not self.job.step_still_asked(self.piece, self.step["code"], basis):
            return CHANGED
        if self.standing.asked_again(signoff):
            return AGAIN
        covers = set(signoff.body["covers"])
        if not covers <= self.by_id.keys():
            return WAITING
        if not self.in_order(signoff, index):
            return OUT_OF_ORDER if all(one in self.arrived for one in under(signoff)) else WAITING
        if in_ink(signoff.body) and (lacks := self.lacking_in_ink(signoff, covers)):
            return lacks
        if (signoff.body.get("attendance") or "present") != "present" and point["point"] != "W":
            return ATTENDANCE
        if point["point"] == "sign":
            return AGAIN if self.sent_back(signoff) else VALID
        return self.reason_of_release(signoff, point, covers)

    def in_order(self, signoff: Judged, index: int) -> bool:
        """Whether the parties before have signed, as this sign-off itself names them, or for a witness were called."""
        known = known_to(signoff)
        for point in self.points[:index]:
            if point["point"] not in REQUIRED:
                continue
            passed = [*self.valid(point["party"]), *(self.calls_to(point["party"]) if point["point"] == "W" else [])]
            if not any(earlier.id in known for earlier in passed):
                return False
        return True

    def reason_of_release(self, signoff: Judged, point: Point, covers: set[str]) -> str:
        if point.get("not_maker") and signoff.payload["by"] in self.makers(known_to(signoff)):
            return OWN_WORK
        if signoff.body.get("attendance") == "not attended after notice" and not self.called(signoff):
            return NO_NOTICE
        if not self.met_over(covers):
            return NOT_MET
        return SHAKEN if self.shaken(signoff, covers) else VALID

    def lacking_in_ink(self, signoff: Judged, covers: set[str]) -> str:
        """What a signature in ink lacks: who made the work may not enter it, and it covers the photo of its page.

        The photo counts as it stands among what is covered: what comes later can shake the sign-off, and not mend it.
        """
        if signoff.payload["by"] in self.makers(known_to(signoff)):
            return OWN_WORK
        standing = self.standing_over(covers)
        pages = (r for r in self.here if r.id in covers and r.type == "photo")
        shown = any(r.body["sha256"] == signoff.body["page"] and standing.in_force(r) for r in pages)
        return "" if shown else NO_PAGE

    def makers(self, known: set[str]) -> set[str]:
        """Who did the work: of a pass the welder named, who need not be who logged it. What was made void counts all
        the same for a sign-off that does not list the void."""
        return {r.body["welder"] if r.type == "weld" else r.payload["by"] for r in self.here
                if not any(void.id in known for void in self.standing.voids.get(r.id, []))
                and (r.type == "weld" or (r.type == "sign-off" and r.body["party"] == "maker"))}  # fmt: skip

    def called(self, signoff: Judged) -> bool:
        return any(call.id == signoff.body.get("call") for call in self.calls_to(signoff.body["party"]))

    def met_over(self, covers: set[str]) -> bool:
        """Whether the step is met by some records alone, with the voids and dispositions that are among them."""
        standing = self.standing_over(covers)
        bench = Bench(self.piece, standing.records.values(), standing, self.job)
        return all(bench.item(self.step, item).state in (MET, NOT_ASKED) for item in self.step["items"])

    def standing_over(self, covers: set[str]) -> Standing:
        return Standing((r for r in self.records if r.id in covers), self.job, self.standing)

    def shaken(self, signoff: Judged, covers: set[str]) -> bool:
        """Whether anything it does not list is adverse.

        What was adverse stays so when it is made void or replaced later: a release never comes back by itself.
        """
        late = [record for record in self.on_items if record.id not in covers]
        if any(not record.good or self.standing.replaces_one_of(record, covers) for record in late):
            return True
        pages = (record for record in self.here if record.type == "photo" and record.id not in covers)
        if any(self.standing.replaces_one_of(page, covers) for page in pages):
            return True
        if any(void.id not in covers for target in covers for void in self.standing.voids.get(target, [])):
            return True
        if any(d.id not in covers and self.undoes(d, covers, under(signoff)) for d in self.decided()):
            return True
        inputs = [{r.id} for r in late if r.type == "reading" and r.place[1:3] in self.inputs]
        return any(not self.met_over(covers | some) for some in [*inputs, set().union(*inputs)] if some)

    def undoes(self, disposition: Judged, covers: set[str], named: list[str]) -> bool:
        """Whether a disposition a release does not list decides about it: about what it covers or, where it asks for
        new records or scraps, about anything on the step's items, or asks again for a step it rests upon."""
        about = set(disposition.body["about"]["records"])
        strict = disposition.body["disposition"] != "use as is"
        if not strict and not about_finding(disposition):
            return False
        if about & covers:
            return True
        if strict and about & {record.id for record in self.on_items}:
            return True
        return disposition.id not in named and bool(self.steps_used & set(disposition.body.get("again") or []))

    def sent_back(self, signoff: Judged) -> bool:
        """Whether rework or repair was asked at this step of which the maker's sign-off does not know."""
        here, code = {r.id for r in self.here}, self.step["code"]
        asked = (d for d in self.decided() if d.body["disposition"] in ASKS_NEW and d.id not in known_to(signoff))
        return any(here & set(d.body["about"]["records"]) or code in (d.body.get("again") or []) for d in asked)

    def decided(self) -> list[Judged]:
        """Dispositions by who may make them, made void or not."""
        return [r for r in self.records if r.type == "disposition" and self.standing.decides(r)]

    def speaks_of(self, disposition: Judged, records: set[str]) -> bool:
        about = set(disposition.body["about"]["records"])
        return bool(about & records or self.steps_used & set(disposition.body.get("again") or []))


def points_of(step: Step, added: list[Judged]) -> list[Point]:
    """The plan's points with those a party added; of two for one party the stricter counts."""
    points: dict[str, Point] = {}
    extra = [{"party": r.body["party"], "point": r.body["point"]} for r in sorted(added, key=lambda r: r.id)]
    for point in [*step["points"], *extra]:
        before = points.get(point["party"])
        if before is None or STRICTNESS.index(point["point"]) > STRICTNESS.index(before["point"]):
            points[point["party"]] = {**(before or {}), **point}
    return list(points.values())


def under(signoff: Judged) -> list[str]:
    return list(signoff.payload.get("under") or [])


def known_to(signoff: Judged) -> set[str]:
    return {*signoff.body["covers"], *under(signoff)}
