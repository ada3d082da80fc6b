"""What a supervisor must see, worked out from a job's progress."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from seamtag.core import qualifications, verdict
from seamtag.core.items import BAD, MET, NOT_ASKED, ON_ITEMS
from seamtag.core.job import Item, Job
from seamtag.core.judging import ADVERSE, Judged, gauge_of
from seamtag.core.numbers import CONTEXT
from seamtag.core.procedures import MOST_NAME
from seamtag.core.progress import COMPLETE, RELEASED, Blocked, PieceProgress, Progress
from seamtag.core.records import in_ink
from seamtag.core.signing import (
    ATTENDANCE,
    CHANGED,
    NO_NOTICE,
    NO_PAGE,
    NOT_HELD,
    NOT_MET,
    OUT_OF_ORDER,
    OWN_WORK,
    SHAKEN,
    TO_CONFIRM,
    under,
)
from seamtag.core.standing import ASKS_NEW, DISAGREE, lapsed

PAST_HOLD = "went past an open hold"
NO_NOTICE_FLAG = "witness without notice"
AFTER_RELEASE = "entry after release"
SHAKEN_FLAG = "sign-off shaken"
ROLE = "role in doubt"
SIGNED_IN_INK = "signed in ink"
NOT_QUALIFIED = "maker not qualified"
NO_PHOTO = "photo missing"
GAUGE_RAN_OUT = "gauge ran out"
GAUGE_COARSE = "gauge too coarse"
DIFFER = "phone and server differ"
UNKNOWN_PLACE = "not in the plan"

ORDER = (PAST_HOLD, NO_NOTICE_FLAG, SHAKEN_FLAG, verdict.OUT, "rejected", verdict.CLOSE, verdict.UNJUDGED, ROLE,
         SIGNED_IN_INK, NOT_QUALIFIED, DISAGREE, GAUGE_RAN_OUT, GAUGE_COARSE, NO_PHOTO, AFTER_RELEASE, DIFFER,
         UNKNOWN_PLACE)  # fmt: skip

OF_WORDS = ("disposition", "agreement", "void", "note")
"""Types that say something of a piece; about one that is in no plan they raise no flag of their own, or there would be
no end of words."""

OWN_FINDING = "disposes of own finding"

NOT_RELEASING = (SHAKEN, NOT_MET, OWN_WORK, NO_PAGE, OUT_OF_ORDER, NO_NOTICE, ATTENDANCE, CHANGED)
"""Why a sign-off by who may sign releases nothing, where nothing else tells the supervisor."""

OPEN, DECIDED, CLOSED, ON_THE_SPOT = "open", "decided", "closed", "fixed on the spot"


@dataclass(frozen=True)
class Flag:
    """One thing to see. state: open; decided, where a disposition waits to be carried out; closed; fixed on the spot.

    past: how far past the limit in units of the tolerance (one-sided: of the gauge's U, else of the limit).
    """

    kind: str
    record: str
    piece: str
    step: str
    item: str
    station: str
    state: str
    reason: str = ""
    past: Decimal | None = None
    disposition: str = ""


def flags_of(progress: Progress, piece: str) -> list[Flag]:
    """The flags at one piece, open and closed, in a fixed order."""
    own = progress.piece(piece)
    found = [flag for record in own.records for flag in flags_of_record(progress, own, record)]
    found += flags_of_steps(progress, own)
    return sorted(found, key=lambda f: (ORDER.index(f.kind), f.record, f.piece, f.step, f.item, f.station))


def flags_of_record(progress: Progress, own: PieceProgress, record: Judged) -> Iterator[Flag]:
    job = progress.job
    piece, step, item, station = record.place

    def flag(kind: str, reason: str = "", past: Decimal | None = None) -> Flag:
        state, disposition = state_of(own, record, kind)
        return Flag(kind, record.id, piece, step, item, station, state, reason, past, disposition)

    known = piece in job.pieces and (not step or job.has_step(piece, step))
    said_of_it = record.type in OF_WORDS and not step
    if (not known and not said_of_it) or (item and record.current and job.item(step, item) is None):
        yield flag(UNKNOWN_PLACE)
    if record.adverse:
        yield flag(record.verdict.word, record.verdict.reason, how_far_past(progress, record))
    if record.role in ("changed", "not held") and not voids_own(own, record):
        yield flag(ROLE, TO_CONFIRM if record.role == "changed" else NOT_HELD)
    if record.type == "disposition" and record.role == "held" and own.standing.of_own_finding(record):
        yield flag(ROLE, OWN_FINDING)
    if record.type == "sign-off" and in_ink(record.body):
        yield flag(SIGNED_IN_INK)
    missed = (progress.past_hold(record) if known else None) or []
    past = NO_NOTICE_FLAG if missed and without_notice(progress, record, missed) else PAST_HOLD
    if missed:
        yield flag(past, ", ".join(f"{job.pieces[b.piece]['mark']} {job.steps[b.step]['number']}" for b in missed))
    if record.type == "reading":
        yield from (flag(kind, reason) for kind, reason in doubts_of_reading(progress, record))
    lacks = lacking_qualification(progress, record)
    if lacks:
        yield flag(NOT_QUALIFIED, lacks)
    reason = own.signings[step].reasons.get(record.id) if step in own.signings else None
    kind = NO_NOTICE_FLAG if reason == NO_NOTICE else SHAKEN_FLAG
    if reason in NOT_RELEASING and not (missed and past == kind):
        state, disposition = state_of_signoff(own, record, kind)
        yield Flag(kind, record.id, piece, step, item, station, state, reason, disposition=disposition)


def without_notice(progress: Progress, record: Judged, missed: list[Blocked]) -> bool:
    """Whether all that a record went past are witness points of which it names no notice."""
    named = (progress.records.get(one) for one in under(record))
    called = {(*r.place[:2], r.body["party"]) for r in named if r is not None and r.type == "call"}
    passed = {(b.piece, b.step, party) for b in missed for party in b.parties}
    return not passed & called and all(
        point["point"] == "W" for b in missed for point in progress.piece(b.piece).signings[b.step].points
        if point["party"] in b.parties
    )  # fmt: skip


def state_of(own: PieceProgress, record: Judged, kind: str) -> tuple[str, str]:
    """The state of a flag about a record, and the disposition that stands about it.

    What is no verdict but a doubt is closed by a word about this very kind.
    """
    standing = own.standing
    if record.id in standing.voids:
        return (CLOSED, "")
    doubt = "" if kind in ADVERSE else kind
    decided, about = standing.strictest(record.id, doubt), standing.speaking(record.id, doubt)
    if kind == SIGNED_IN_INK:
        return (CLOSED, max(d.id for d in about)) if about else (OPEN, "")
    replaced = standing.replaced_by.get(record.id, [])
    done = decided is not None and decided.body["disposition"] in ASKS_NEW
    if replaced and (done or kind not in (PAST_HOLD, NO_NOTICE_FLAG)):
        if decided or doubt:
            return (CLOSED, decided.id if decided else "")
        return (state_of_mended(own, record, replaced), "")
    return state_of_decided(decided, about, record.verdict.word)


def state_of_signoff(own: PieceProgress, signoff: Judged, kind: str) -> tuple[str, str]:
    """Of a sign-off that releases nothing: closed once another of its party does; that a witness had no notice, by a
    word about it as well."""
    decided = own.standing.strictest(signoff.id, kind)
    valid = own.signings[signoff.place[1]].valid(signoff.body["party"])
    seen = decided is not None and kind == NO_NOTICE_FLAG
    return (CLOSED if valid or seen else OPEN, decided.id if decided else "")


def state_of_decided(decided: Judged | None, about: list[Judged], word: str) -> tuple[str, str]:
    """By the disposition that stands, else by one that waits for an agreement; one that has lapsed is none."""
    if decided:
        return (CLOSED if decided.body["disposition"] in ("use as is", "scrap") else DECIDED, decided.id)
    waiting = [d.id for d in about if not lapsed(d, word)]
    return (DECIDED, max(waiting)) if waiting else (OPEN, "")


def state_of_mended(own: PieceProgress, record: Judged, replaced: list[Judged]) -> str:
    """Of a finding replaced without a disposition. What was reworked or repaired and is good now needs a word all the
    same, unless it was rework before anybody signed, 'fixed on the spot'."""
    mended = [r for r in replaced if r.good and r.payload.get("why") in ("after rework", "after repair")]
    if not mended:
        return CLOSED
    if any(r.payload["why"] == "after rework" and not signed_before(own, r) for r in mended):
        return ON_THE_SPOT
    return OPEN


def signed_before(own: PieceProgress, replacement: Judged) -> bool:
    """Whether somebody who releases has signed at the step without knowing of the replacement."""
    signing = own.signings.get(replacement.place[1])
    if signing is None:
        return False
    return any(replacement.id not in signoff.body["covers"] for point in signing.points if point["point"] != "sign"
               for signoff in signing.of_party(point["party"]))  # fmt: skip


def voids_own(own: PieceProgress, record: Judged) -> bool:
    """Whether a record makes void one of its own maker's, which anybody may, or one that is not here yet."""
    target = own.standing.records.get(record.body["record"]) if record.type == "void" else None
    return record.type == "void" and (target is None or target.payload["by"] == record.payload["by"])


def how_far_past(progress: Progress, record: Judged) -> Decimal | None:
    margin = record.verdict.margin
    if margin is None:
        return None
    basis = record.payload["basis"]
    piece, step, item, _ = record.place
    limits = progress.job.limits(piece, step, item, basis["plan"], basis["figures"])
    unit = limits.tolerance
    if unit is None:
        gauge = gauge_of(record.body, progress.job, item_of(progress, record))
        uncertainty = gauge.quotient() if gauge else None
        unit = uncertainty.value() if uncertainty else None
    if unit is None:
        unit = abs(limits.upper if limits.upper is not None else limits.lower or Decimal(0))
    return CONTEXT.divide(-margin, unit) if unit else -margin


def doubts_of_reading(progress: Progress, record: Judged) -> Iterator[tuple[str, str]]:
    """What is wrong with the gauge, and whether the phone said otherwise."""
    gauge = progress.job.gauges.get(record.body.get("gauge") or "")
    if gauge is not None:
        day = record.payload["at"][:10]
        if gauge.get("due") and day > gauge["due"]:
            yield GAUGE_RAN_OUT, f"calibrated until {gauge['due']}"
        basis = record.payload["basis"]
        piece, step, item, _ = record.place
        limits = progress.job.limits(piece, step, item, basis["plan"], basis["figures"])
        coarse = verdict.too_coarse(limits, gauge_of(record.body, progress.job, item_of(progress, record)))
        if coarse:
            yield GAUGE_COARSE, coarse
    foretold = record.body.get("verdict")
    if foretold and foretold != record.verdict.word:
        yield DIFFER, f"the phone said {foretold}"


def lacking_qualification(progress: Progress, record: Judged) -> str:
    """What the welder named lacks for a pass, with his name; '' where he is qualified or the shop keeps none at all."""
    job = progress.job
    if record.type != "weld" or not job.qualifications:
        return ""
    body, (piece, step, item, _) = record.body, record.place
    welder = body["welder"]
    process = job.procedures.get(body["procedure"].strip(), {}).get("process", "")
    lacks = qualifications.lacking(
        job.qualifications.get(welder, []), process, record.payload["at"][:10], progress.days_welded(welder, process),
        job.thickness(piece, step, item, record.payload["basis"]), body.get("position") or "",
        bool((item_of(progress, record) or {}).get("fillet")),
    )  # fmt: skip
    return f"{welder[:MOST_NAME]}: {lacks}" if lacks else ""


def rests_on_welds(job: Job, record: Judged) -> bool:
    """Whether a weld's maker, by paper alone, was not qualified any more on its day: other welds decide about that."""
    process = job.procedures.get(record.body["procedure"].strip(), {}).get("process", "")
    held = [one for one in job.qualifications.get(record.body["welder"], []) if one["process"] == process]
    return qualifications.lapsed_by_paper(held, record.payload["at"][:10])


def item_of(progress: Progress, record: Judged) -> Item | None:
    """The item as the revision asks it that the record names."""
    _, step, item, _ = record.place
    return progress.job.item(step, item, record.payload["basis"]["plan"])


def flags_of_steps(progress: Progress, own: PieceProgress) -> Iterator[Flag]:
    for code, state in own.steps.items():
        step = progress.job.steps[code]
        for item in step["items"]:
            found = state.items[item["code"]]
            for station, (_, word) in found.derived.items():
                if word.word in BAD:
                    kind = DISAGREE if word.reason.startswith("readings of") else word.word
                    place, newest = (
                        (own.piece, code, item["code"], station),
                        own.bench.newest_input(step, item, station),
                    )
                    decided = own.standing.strictest_of_derived(place, newest, word.word)
                    about = own.standing.about_derived(place, newest)
                    decision = state_of_decided(decided, about, word.word)
                    yield Flag(kind, newest, *place, decision[0], word.reason, disposition=decision[1])
            only_photo = found.photo_missing and not found.missing and found.state not in (MET, NOT_ASKED)
            if only_photo and found.in_force:
                newest = max(one for ids in found.in_force.values() for one in ids)
                decision = state_of(own, own.standing.records[newest], NO_PHOTO)
                yield Flag(NO_PHOTO, newest, own.piece, code, item["code"], "", decision[0], disposition=decision[1])
        if state.state in (RELEASED, COMPLETE):
            yield from entries_after_release(own, code)


def entries_after_release(own: PieceProgress, code: str) -> Iterator[Flag]:
    """Records that no valid release of the step lists; they change nothing, and are shown."""
    signing = own.signings[code]
    listed: set[str] = set()
    for point in signing.points:
        if point["point"] in ("H", "W", "R"):
            for signoff in signing.valid(point["party"]):
                listed |= set(signoff.body["covers"])
    released = any(signing.valid(point["party"]) for point in signing.points if point["point"] in ("H", "W", "R"))
    for record in signing.here if released else []:
        unlisted = record.type in ON_ITEMS and record.place[2] and record.id not in listed
        if unlisted and not record.adverse and own.standing.in_force(record):
            piece, step, item, station = record.place
            state, disposition = state_of(own, record, AFTER_RELEASE)
            yield Flag(AFTER_RELEASE, record.id, piece, step, item, station, state, disposition=disposition)
