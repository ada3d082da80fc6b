"""Whether a welder is qualified for a pass he is named as the maker of.

A qualification is {"id", "person", "process", "test": a key of welding.POSITIONS, "coupon": inches of weld metal,
"layers", "coupon_od": inches or null, "tested", "continued": days, the latter the last proof on paper that he welded by
this process, or null}.

What is asked is a function of the job's master data and of the set of the weld records of this job, sorted by the days
they were made on: neither the order in which records arrive nor the other jobs of the shop have a part in it, so a
phone that carries this job alone and the server say the same. Welds of other jobs count once they are proved on paper.
What the outside diameter of pipe asks is not looked at, since no item of a plan says it.
"""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from seamtag.core.numbers import text_of
from seamtag.core.procedures import MOST_NAME
from seamtag.core.welding import FHVO, POSITIONS, has_lapsed, is_day, lapses_on, most_thickness

Qualification = Mapping[str, Any]


def last_proof(papers: Iterable[str], welds: Iterable[str], on: str) -> str:
    """The last day, up to a day asked, that keeps a welder's qualification for a process alive; '' before any test.

    papers: ISO dates of tests and of proofs on paper, each of which counts by itself. welds: those of welds by this
    process, which count only while he was qualified: to weld on after the lapse renews nothing.
    """
    last = ""
    days = sorted([(day, 0) for day in papers] + [(day, 1) for day in welds if is_day(day)])
    for day, welded in days:
        if day <= on and (not welded or (last and not has_lapsed(last, day))):
            last = day
    return last


def proofs_of(qualifications: Iterable[Qualification]) -> list[str]:
    """The dates on paper: every test, and the last proof of each qualification."""
    return [day for one in qualifications for day in (one["tested"], one.get("continued")) if day]


def lapsed_by_paper(of_process: Iterable[Qualification], day: str) -> bool:
    """Whether the welder of a day had been tested for a process before, and by its papers alone has lapsed."""
    last = last_proof(proofs_of(of_process), (), day) if is_day(day) else ""
    return bool(last) and has_lapsed(last, day)


def most_of(qualification: Qualification) -> Decimal | None:
    """Greatest thickness of weld metal in inches; None where there is no maximum."""
    return most_thickness(Decimal(qualification["coupon"]), qualification["layers"])


def positions_of(qualification: Qualification, fillet: bool) -> tuple[str, ...]:
    groove, of_fillets = POSITIONS[qualification["test"]]
    return of_fillets if fillet else groove


def lacking(
    held: Iterable[Qualification], process: str, day: str, welds: Iterable[str], thickness: Decimal | None,
    position: str, fillet: bool,
) -> str:  # fmt: skip
    """What a welder lacks for a pass made on a day, in words; '' where he is qualified.

    held: his qualifications. process: of the procedure; '' where that is not known, and then only whether he has any.
    welds: days on which he welded by this process. thickness: in inches, None where the plan does not say it.
    position: F, H, V or O; '' where the record does not say it.
    """
    mine = list(held)
    if not mine:
        return "no qualification is kept"
    of_process = [one for one in mine if one["process"] == process]
    if not process or not is_day(day):
        return ""
    if not of_process:
        return f"none for {process[:MOST_NAME]}"
    tested = [one for one in of_process if one["tested"] <= day]
    last = last_proof(proofs_of(of_process), welds, day)
    if not tested:
        return f"none for {process} before {min(one['tested'] for one in of_process)}"
    if has_lapsed(last, day):
        return f"{process} lapsed on {lapses_on(last)}; last proof {last}"
    thick = [one for one in tested if thickness is None or (most := most_of(one)) is None or thickness <= most]
    if not thick and thickness is not None:
        most = max(m for one in tested if (m := most_of(one)) is not None)
        return f"{process} to {text_of(most)} in; the item is {text_of(thickness)} in"
    qualified = [one for one in FHVO if any(one in positions_of(q, fillet) for q in thick)]
    if position and position not in qualified:
        return f"{process} in {', '.join(qualified)}; welded in {position}"
    return ""
