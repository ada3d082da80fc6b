"""What each record says by itself, under the plan revision and figures it names."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from seamtag.core import numbers, procedures, uoms, verdict
from seamtag.core.job import Basis, Item, Job
from seamtag.core.verdict import Verdict

Payload = Mapping[str, Any]

ACCEPTED = "accepted"
REJECTED = "rejected"
DOES_NOT_APPLY = "does not apply"
COMPLETE = "complete"
INCOMPLETE = "incomplete"

GOOD = (verdict.IN, verdict.RECORDED, ACCEPTED, DOES_NOT_APPLY, COMPLETE)
ADVERSE = (verdict.OUT, verdict.CLOSE, verdict.UNJUDGED, REJECTED)
WORSE = {**verdict.WORSE, ACCEPTED: 0, DOES_NOT_APPLY: 0, COMPLETE: 0, INCOMPLETE: 1, REJECTED: 3}


@dataclass(frozen=True)
class Judged:
    """A record with its word. role: 'held', 'changed' or 'not held', as stamped at intake; '' where none is asked."""

    payload: Payload
    role: str
    verdict: Verdict
    value: Decimal | None = None
    current: bool = True

    @property
    def id(self) -> str:
        return str(self.payload["id"])

    @property
    def type(self) -> str:
        return str(self.payload["type"])

    @property
    def body(self) -> Mapping[str, Any]:
        body: Mapping[str, Any] = self.payload["body"]
        return body

    @property
    def place(self) -> tuple[str, str, str, str]:
        """Piece, step, item and station; '' where the record names none."""
        p = self.payload
        return (p["piece"], p.get("step") or "", p.get("item") or "", p.get("station") or "")

    @property
    def good(self) -> bool:
        return self.verdict.word in GOOD

    @property
    def adverse(self) -> bool:
        return self.verdict.word in ADVERSE


def judged(payload: Payload, role: str, job: Job) -> Judged:
    """The record's word by the revision it names, and whether that revision still asks the same."""
    basis = {"plan": payload["basis"]["plan"], "figures": payload["basis"]["figures"]}
    piece, step, item = payload["piece"], payload.get("step") or "", payload.get("item") or ""
    current = job.still_asked(piece, step, item, basis) if item else True
    asked = job.item(step, item, basis["plan"]) if item else None
    if payload["type"] == "reading":
        return judged_reading(payload, role, job, asked, basis, current)
    return Judged(payload, role, Verdict(*word_of(payload, asked, job)), current=current)


def judged_reading(payload: Payload, role: str, job: Job, asked: Item | None, basis: Basis, current: bool) -> Judged:
    body = payload["body"]
    try:
        typed = numbers.parse(body["entered"], bool(body.get("comma"))).value
    except numbers.NumberError as error:
        return Judged(payload, role, Verdict(verdict.UNJUDGED, reason=str(error)), current=current)
    if asked is None:
        return Judged(payload, role, Verdict(verdict.UNJUDGED, reason="the plan has no such item"), current=current)
    conversion = uoms.conversion(body["uom"], asked.get("uom") or "")
    if conversion is None:
        reason = f"recorded in {body['uom']}, the plan asks {asked.get('uom') or 'no reading'}"
        return Judged(payload, role, Verdict(verdict.UNJUDGED, reason=reason), typed, current)
    limits = job.limits(payload["piece"], payload["step"], payload["item"], basis["plan"], basis["figures"])
    rule, place = asked.get("rule") or "simple", asked.get("place")
    gauge = gauge_of(body, job, asked)
    found = verdict.judge(typed, limits, gauge, rule, Decimal(place) if place else None, conversion)
    lacking = lacking_gauge(body, asked, gauge)
    if lacking and found.word not in (verdict.RECORDED, verdict.UNJUDGED):
        found = Verdict(verdict.UNJUDGED, found.margin, lacking)
    return Judged(payload, role, found, conversion.of(typed).value(), current)


def gauge_of(body: Mapping[str, Any], job: Job, asked: Item | None) -> verdict.Gauge | None:
    """The gauge a reading names, its U on the way to the item's uom; U is not known where there is no such way."""
    gauge = job.gauges.get(body.get("gauge") or "")
    if gauge is None:
        return None
    wanted = (asked or {}).get("uom") or ""
    conversion = uoms.conversion(gauge.get("uom") or wanted, wanted)
    if conversion is None or not gauge.get("uncertainty"):
        return verdict.Gauge(None)
    return verdict.Gauge(Decimal(gauge["uncertainty"]), conversion)


def lacking_gauge(body: Mapping[str, Any], asked: Item, gauge: verdict.Gauge | None) -> str:
    """Why a reading cannot be trusted for want of a gauge, where the plan names one."""
    if gauge is not None or not asked.get("gauge"):
        return ""
    if body.get("gauge"):
        return f"the gauge {body['gauge']} is not known"
    return f"no gauge was named; the plan asks for one: {asked['gauge']}"


def word_of(payload: Payload, asked: Item | None, job: Job) -> tuple[str, None, str]:
    kind, body = payload["type"], payload["body"]
    if kind == "visual":
        return word_of_visual(body["result"], asked)
    if kind == "report":
        if body["state"] == "asked for" or not body.get("result"):
            return (INCOMPLETE, None, "the report is not back")
        return (REJECTED if body["result"] == "reject" else COMPLETE, None, "")
    if kind == "text":
        return (COMPLETE if body["value"].strip() else INCOMPLETE, None, "")
    if kind == "weld":
        return word_of_weld(payload, job)
    return (COMPLETE, None, "")


def word_of_weld(payload: Payload, job: Job) -> tuple[str, None, str]:
    """Incomplete without stamp, procedure and lot; else by the procedure, where the shop keeps procedures."""
    body = payload["body"]
    lacking = [name for name in ("stamp", "procedure", "lot") if not body[name].strip()]
    if lacking:
        return (INCOMPLETE, None, ", ".join(lacking) + " not given")
    if not job.procedures:
        return (COMPLETE, None, "")
    return procedures.word_of_pass(body, job.procedures, payload["at"][:10])


def word_of_visual(result: str, asked: Item | None) -> tuple[str, None, str]:
    if result == "accept":
        return (ACCEPTED, None, "")
    if result == "reject":
        return (REJECTED, None, "")
    if asked is not None and asked.get("may_not_apply"):
        return (DOES_NOT_APPLY, None, "")
    return (verdict.UNJUDGED, None, "the plan does not allow 'does not apply' here")
