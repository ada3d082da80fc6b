"""Whether a sign-off is valid: by whom, over what, in which order, and whether anything since has shaken it."""

from collections.abc import Mapping
from typing import Any

from seamtag.core.items import MET, NOT_ASKED, Bench, inputs_of
from seamtag.core.job import REQUIRED, Job, Step
from seamtag.core.judging import Judged
from seamtag.core.standing import ASKS_NEW, Standing

VALID = "valid"
VOIDED = "void"
NOT_HELD = "role not held"
TO_CONFIRM = "role to be confirmed"
CHANGED = "plan changed"
AGAIN = "asked again"
WAITING = "waiting for records"
OUT_OF_ORDER = "out of order"
OWN_WORK = "own work"
NO_NOTICE = "no notice was given"
ATTENDANCE = "must be present"
NOT_MET = "step was not met"
SHAKEN = "shaken"

STRICTNESS = ("S", "R", "W", "H", "sign")

Point = Mapping[str, Any]


class Signing:
    """The sign-offs at one step of one piece. records: all of that piece; standing: over all of them."""

    def __init__(self, piece: str, step: Step, records: list[Judged], standing: Standing, job: Job) -> None:
        self.piece, self.step, self.standing, self.job = piece, step, standing, job
        self.records = records
        self.by_id = {record.id: record for record in records}
        self.here = [r for r in records if r.place[:2] == (piece, step["code"])]
        self.calls = [r for r in self.here if r.type == "call" and r.id not in standing.voids]
        self.points = points_of(step, [r for r in self.here if r.type == "point" and r.id not in standing.voids])
        used = {(step["code"], item["code"]) for item in step["items"]}
        used.update(key for item in step["items"] for key in inputs_of(step, item))
        self.on_items = [r for r in records if (r.place[1], r.place[2]) in used]
        self.reasons: dict[str, str] = {}
        for index, point in enumerate(self.points):
            for signoff in self.of_party(point["party"]):
                self.reasons[signoff.id] = self.reason(signoff, point, index)

    def of_party(self, party: str) -> list[Judged]:
        return sorted((r for r in self.here if r.type == "sign-off" and r.body["party"] == party), key=lambda r: r.id)

    def valid(self, party: str) -> list[Judged]:
        return [r for r in self.of_party(party) if self.reasons.get(r.id) == VALID]

    def notified(self, party: str) -> bool:
        return any(call.body["party"] == party for call in self.calls)

    def outstanding(self) -> list[Point]:
        """The points that still want a valid sign-off before the step is released, in order."""
        return [p for p in self.points if p["point"] in REQUIRED and not self.valid(p["party"])]

    def holding(self) -> list[Point]:
        """The points at which nothing may go on: holds not released, witness points of which no notice was given."""
        return [p for p in self.outstanding()
                if p["point"] == "H" or (p["point"] == "W" and not self.notified(p["party"]))]  # fmt: skip

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
            return OUT_OF_ORDER
        if point["point"] == "sign":
            return AGAIN if self.sent_back(signoff) else VALID
        return self.reason_of_release(signoff, point, covers)

    def in_order(self, signoff: Judged, index: int) -> bool:
        """Whether the parties before have signed, as this sign-off itself names them."""
        known = known_to(signoff)
        for point in self.points[:index]:
            if point["point"] not in REQUIRED:
                continue
            signed = any(earlier.id in known for earlier in self.valid(point["party"]))
            if not signed and not (point["point"] == "W" and self.notified(point["party"])):
                return False
        return True

    def reason_of_release(self, signoff: Judged, point: Point, covers: set[str]) -> str:
        if point.get("not_maker") and signoff.payload["by"] in self.makers():
            return OWN_WORK
        attendance = signoff.body.get("attendance") or "present"
        if attendance != "present" and point["point"] != "W":
            return ATTENDANCE
        if attendance == "not attended after notice" and not self.called(signoff):
            return NO_NOTICE
        if not self.met_over(covers):
            return NOT_MET
        return SHAKEN if self.shaken(signoff, covers) else VALID

    def makers(self) -> set[str]:
        return {r.payload["by"] for r in self.here
                if r.id not in self.standing.voids
                and (r.type == "weld" or (r.type == "sign-off" and r.body["party"] == "maker"))}  # fmt: skip

    def called(self, signoff: Judged) -> bool:
        return any(c.id == signoff.body.get("call") and c.body["party"] == signoff.body["party"] for c in self.calls)

    def met_over(self, covers: set[str]) -> bool:
        """Whether the step is met by the listed records alone, with the voids and dispositions that are listed."""
        listed = [r for r in self.records if r.id in covers]
        bench = Bench(self.piece, listed, Standing(listed, self.job), self.job)
        return all(bench.item(self.step, item).state in (MET, NOT_ASKED) for item in self.step["items"])

    def shaken(self, signoff: Judged, covers: set[str]) -> bool:
        """Whether anything it does not list is adverse.

        What was adverse stays so when it is made void or replaced later: a release never comes back by itself.
        """
        known = known_to(signoff)
        for record in self.on_items:
            if record.id in covers:
                continue
            if record.adverse:
                return True
            if record.payload.get("replaces") in covers and self.standing.may_replace(record):
                return True
        if any(target in covers and void.id not in covers for target, void in self.standing.voids.items()):
            return True
        return any(d.id not in known and self.speaks_of(d, covers) for d in self.decided())

    def sent_back(self, signoff: Judged) -> bool:
        """Whether rework or repair was asked at this step of which the maker's sign-off does not know."""
        here = {r.id for r in self.here}
        known = known_to(signoff)
        return any(d.id not in known and d.body["disposition"] in ASKS_NEW and self.speaks_of(d, here)
                   for d in self.decided())  # fmt: skip

    def decided(self) -> list[Judged]:
        """Dispositions by who may make them, made void or not."""
        return [r for r in self.records if r.type == "disposition" and r.role == "held"]

    def speaks_of(self, disposition: Judged, records: set[str]) -> bool:
        about = set(disposition.body["about"]["records"])
        return bool(about & records) or self.step["code"] in (disposition.body.get("again") or [])


def points_of(step: Step, added: list[Judged]) -> list[Point]:
    """The plan's points with those a party added for this piece; of two for one party the stricter counts."""
    points: dict[str, Point] = {}
    extra = [{"party": r.body["party"], "point": r.body["point"]} for r in sorted(added, key=lambda r: r.id)
             if r.role == "held"]  # fmt: skip
    for point in [*step["points"], *extra]:
        before = points.get(point["party"])
        if before is None or STRICTNESS.index(point["point"]) > STRICTNESS.index(before["point"]):
            points[point["party"]] = {**(before or {}), **point}
    return list(points.values())


def known_to(signoff: Judged) -> set[str]:
    return {*signoff.body["covers"], *(signoff.payload.get("under") or [])}
