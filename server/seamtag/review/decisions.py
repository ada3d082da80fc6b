"""What became of findings: each disposition as it stands now, until a new record has carried it out."""

import time
from collections.abc import Collection, Iterator, Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.flags import DECIDED, SHAKEN_FLAG, Flag
from seamtag.core.judging import Judged
from seamtag.core.progress import PieceProgress, Progress
from seamtag.core.repairs import Repairs
from seamtag.core.standing import ASKS_NEW, FINDINGS, about_finding
from seamtag.people.staff import names_of_people
from seamtag.review.models import Decision
from seamtag.review.places import shown_of
from seamtag.rows import Row, Stamps, bring_up_to_date

TO_DO, WAITS, DONE, NO_EFFECT, VOID = "to do", "waits for agreement", "done", "no effect", "void"
OPEN_STATES = (TO_DO, WAITS)
MOST_LINES = 500
DAY = 86_400


def keep_decisions(
    session: Session, progress: Progress, job: str, pieces: set[str], flags: Collection[Flag], stamps: Stamps
) -> None:
    """Bring the decisions about pieces up to date."""
    places = places_of(flags)
    waiting = {flag.disposition for flag in flags if flag.state == DECIDED and flag.disposition}
    wanted = [row for piece in sorted(pieces) for row in decisions_of(progress, job, piece, places, waiting, stamps)]
    bring_up_to_date(session, Decision, (Decision.job == job, Decision.piece.in_(pieces)), wanted)


Place = tuple[str, str, str]
"""Step, item and station."""


def places_of(flags: Collection[Flag]) -> dict[tuple[str, str], set[Place]]:
    """Where flags stand, by their kind and record: a doubt about a worked-out value names the reading behind it."""
    found: dict[tuple[str, str], set[Place]] = {}
    for flag in flags:
        found.setdefault((flag.kind, flag.record), set()).add((flag.step, flag.item, flag.station))
    return found


def place_decided(own: PieceProgress, record: Judged, named: Judged, flagged: Collection[Place]) -> Place:
    """What a disposition is about: the place of the worked-out value that it names, else where alone its doubt about a
    record stands, else that record's. flagged: where flags of the doubt's kind about that record stand."""
    if own.standing.speaks_of_derived(record):
        return record.place[1:]
    return next(iter(flagged)) if len(flagged) == 1 else named.place[1:]


def decisions_of(
    progress: Progress, job: str, piece: str, places: Mapping[tuple[str, str], Collection[Place]], waiting: set[str],
    stamps: Stamps,
) -> Iterator[Row]:  # fmt: skip
    own = progress.piece(piece)
    cycle = Repairs(own.standing).numbers
    for record in own.records:
        if record.type != "disposition":
            continue
        body, about = record.body, record.body["about"]
        named = next((own.standing.records[one] for one in about["records"] if one in own.standing.records), record)
        flagged = () if about_finding(record) else places.get((about["flag"], named.id), ())
        step, item, station = place_decided(own, record, named, flagged)
        lacking = lacking_of(own, record, (piece, step, item, station))
        number, received = stamps.get(record.id, (0, 0))
        shown = shown_of(progress, Flag(about["flag"], named.id, piece, step, item, station, DECIDED))
        yield {
            "id": record.id, "number": number, "state": state_of(progress, own, record, waiting, lacking), "job": job,
            "piece": piece, "step": step, "item": item, "station": station, "flag": about["flag"], "record": named.id,
            "disposition": body["disposition"], "ncr": body.get("ncr") or "", "reason": body["reason"],
            "extent": body.get("extent") or "", "cycle": cycle.get(record.id, 0),
            "again": list(body.get("again") or []), "lacking": lacking, "by": record.payload["by"],
            "at": record.payload["at"], "received": received, "shown": shown,
        }  # fmt: skip


def lacking_of(own: PieceProgress, record: Judged, place: tuple[str, str, str, str]) -> list[str]:
    given_away = record.body["disposition"] == "use as is" and about_finding(record)
    return own.standing.lacking_agreement(record, place) if given_away else []


def state_of(progress: Progress, own: PieceProgress, record: Judged, waiting: set[str], lacking: list[str]) -> str:
    """void; no effect, where its maker may not decide; to do; waits for agreement; done. Scrap is done once the piece
    was made anew."""
    if record.id in own.standing.voids:
        return VOID
    if record not in own.standing.dispositions:
        return NO_EFFECT
    what = record.body["disposition"]
    if what == "scrap":
        return DONE if progress.job.pieces.get(own.piece, {}).get("remade") else TO_DO
    if what in ASKS_NEW and record.body["about"]["flag"] == SHAKEN_FLAG:
        about = [one for one in record.body["about"]["records"] if one in own.standing.records]
        return TO_DO if any(own.standing.in_force(own.standing.records[one]) for one in about) else DONE
    if record.id not in waiting:
        return DONE
    return TO_DO if what in ASKS_NEW else WAITS if lacking else DONE


def seen(decision: Mapping[str, Any]) -> bool:
    """Whether a decision only says that a doubt was looked at: no finding is accepted by it."""
    return decision["disposition"] == "use as is" and decision["flag"] not in FINDINGS


def listed(
    session: Session, wanted: str = "open", job: str = "", now: int | None = None, most: int | None = MOST_LINES,
    within: tuple[int, int] | None = None,
) -> list[dict[str, Any]]:  # fmt: skip
    """Decisions: those not carried out ('open'), the oldest first, or all of them ('all'), the newest first. age: days
    since. most: so many at most; None for all. within: first and last second of their receipt."""
    query = select(Decision)
    if wanted == "open":
        query = query.where(Decision.state.in_(OPEN_STATES))
    if job:
        query = query.where(Decision.job == job)
    if within:
        query = query.where(Decision.received.between(*within))
    order = Decision.number if wanted == "open" else Decision.number.desc()
    rows = session.scalars(query.order_by(order).limit(most)).all()
    people = names_of_people(session)
    moment = int(time.time()) if now is None else now
    return [decision_line(row, people, moment) for row in rows]


def decision_line(row: Decision, people: Mapping[str, str], now: int) -> dict[str, Any]:
    names = ("id", "state", "job", "station", "flag", "record", "disposition", "ncr", "reason", "extent", "cycle",
             "again", "lacking", "at", "received")  # fmt: skip
    found = {name: getattr(row, name) for name in names}
    shown = {name: row.shown.get(name) for name in ("piece", "step", "item", "value", "uom", "limits")}
    return {**found, **shown, "by": people.get(row.by, row.by), "age": max(0, now - row.received) // DAY}
