"""The report of a day or a shift: all that the day review knows of it, in sections that paper and workbook both show.

Every word of the report stands in this file, in English.
"""

import time
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from seamtag.core.flags import OPEN, SHAKEN_FLAG
from seamtag.core.limits import shown as shown_limit
from seamtag.core.numbers import WIDE, shown_inches, shown_short, text_of
from seamtag.core.standing import FINDINGS
from seamtag.review import day as review
from seamtag.review import decisions, lists, silence
from seamtag.review.calendar import Day, time_zone
from seamtag.review.lists import BLOCKED, READY, REPORTS
from seamtag.sync import chain
from seamtag.sync.models import Mark

Line = dict[str, Any]
"""Of a section. Times are datetimes of the shop's zone, numbers are int or Decimal, all else is text; None for none."""

TITLE = "Day report"
NO_SHOP = "This shop"
MADE, MADE_BY = "Made {moment} ({zone})", "Made {moment} ({zone}) by {by}"
NOT_ENDED = "This day or shift had not ended when the report was made: what came in later is not in it."
OF_DAY, OF_SHIFT, AS_IT_STOOD = "Of this day", "Of this shift", "As it stood when this was made"
AS_OF = (
    "What is of a day or shift is counted by when it reached the server; a decision of the day may be about a finding "
    "of an earlier one."
)
CAUTIONS = (
    "Limits shown here are those of the shop's plan. The code edition in force, the drawing and the Authorized "
    "Inspector decide. A step shown as released is a record of signatures; it does not make anything safe to "
    "pressurize, fire or enter."
)
HEAD = "Head of the server's chain {number}:{hash}"
TO_VERIFY = (
    "To hold this paper against the server later, run 'seamtag verify --head NUMBER:HASH' with the number and "
    "the hash at the foot of each page: it says whether the chain still holds this very entry, and all before it."
)
LETTERS = "A question mark in a name may stand for a letter that the typeface lacks; the workbook has it as written."
SIGNED, NAME, SIGNATURE, DATE = "Read by the supervisor", "Name", "Signature", "Date"
PAGE, CONTINUED, CONTENTS, NONE = "page {page} of {pages}", "{title}, continued", "In this report", "None."
COUNTS = (("recorded", "records"), ("flagged", "of them flagged"), ("on_the_spot", "fixed on the spot"),
          ("decided", "decided"), ("seen", "doubts seen"), ("released", "steps released"))  # fmt: skip
"""Of the day or shift: name and label."""
STANDING_COUNTS = (("open", "flags open"), ("waiting", "decided, not carried out"))
SAID: Mapping[str, Mapping[str, str]] = {
    "kind": {"run rule broken": "readings drift", "clock far off": "clock of the phone far off"},
    "seen": {"use as is": "seen, stands as it is", "rework": "do it again", "repair": "do it again"},
    "decision": {"no effect": "has no effect", "void": "lined out"},
    "party": {"maker": "the maker", "AI": "the Authorized Inspector", "customer": "the customer"},
}
"""Words of closed sets that people read otherwise than records and code have them; the same on paper as on screens."""
ABOUT = ("Shop", "Day", "Shift", "From", "To", "Made", "Time zone", "Made by", "Head, number", "Head, hash")
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")  # fmt: skip
OVERDUE = "overdue"
FINEST = 64
"""Of a rule's divisions of an inch."""
LONGEST = 10_000
"""Inches beyond which nothing is read on a rule."""


@dataclass(frozen=True)
class Column:
    """A column on paper. main: the field on top of a cell; below: fields under it. share: of the width."""

    head: str
    share: float
    main: str
    below: tuple[str, ...] = ()
    bold: bool = False
    right: bool = False


@dataclass(frozen=True)
class Field:
    """A column of the workbook: the name of a line's field, its head, and its width in characters."""

    name: str
    head: str
    wide: int = 16


@dataclass(frozen=True)
class Kind:
    """What a section is: title of its head and, short, of its sheet; a note under the head; columns and fields. of_day:
    whether it tells of the day or shift, and not of what stood when the report was made."""

    title: str
    sheet: str
    note: str
    columns: tuple[Column, ...]
    fields: tuple[Field, ...]
    of_day: bool = False


@dataclass(frozen=True)
class Section:
    kind: Kind
    lines: Sequence[Line]


@dataclass(frozen=True)
class Report:
    """made: in the shop's zone. head: number and hash of the last entry of the chain that the report can rest on."""

    shop: str
    day: Day
    made: datetime
    by: str
    zone: ZoneInfo
    head: tuple[int, str]
    counts: Mapping[str, int]
    sections: tuple[Section, ...]

    @property
    def name(self) -> str:
        """Of its files, without their ending."""
        return f"report-{self.day.name}" + (f"-shift-{self.day.shift}" if self.day.shift else "")

    @property
    def ended(self) -> bool:
        return self.made.timestamp() > self.day.end

    def when(self) -> str:
        """The day in words, and the shift with its hours."""
        found = date.fromisoformat(self.day.name)
        text = f"{WEEKDAYS[found.weekday()]} {found.day} {MONTHS[found.month - 1]} {found.year}"
        if not self.day.shift:
            return text
        begins, ends = (self.moment(second).strftime("%H:%M") for second in (self.day.start, self.day.end + 1))
        return f"{text}, shift {self.day.shift} of {len(self.day.shifts)}, {begins} to {ends}"

    def of_day(self) -> str:
        return OF_SHIFT if self.day.shift else OF_DAY

    def scope(self, kind: Kind) -> str:
        """What a section tells of, as a word beside its title."""
        return (self.of_day() if kind.of_day else AS_IT_STOOD).lower()

    def made_line(self) -> str:
        return (MADE_BY if self.by else MADE).format(moment=shown(self.made), zone=self.zone.key, by=self.by)

    def head_line(self) -> str:
        return HEAD.format(number=self.head[0], hash=self.head[1])

    def moment(self, second: int) -> datetime:
        return datetime.fromtimestamp(second, self.zone)


def shown(value: Any) -> str:
    """A value of a line as paper shows it."""
    if isinstance(value, datetime):
        return value.strftime("%Y-%m-%d %H:%M")
    if isinstance(value, Decimal):
        return shown_short(value)
    return "" if value is None else str(value)


PIECE = Column("Piece", 2.6, "mark", ("of_job", "piece_name"), bold=True)
STEP = Column("Step and item", 4, "step_named", ("where",))
PLACE = (Field("job", "Job", 12), Field("mark", "Mark", 12), Field("piece_name", "Piece", 28),
         Field("number", "Step", 8), Field("step", "Name of the step", 32))  # fmt: skip
ITEM = (Field("item", "Item", 28), Field("station", "Station", 14))
VALUE = (Field("value", "Value", 12), Field("uom", "Uom", 8), Field("lower", "Lower limit", 12),
         Field("upper", "Upper limit", 12), Field("binds", "Binds by", 10))  # fmt: skip
BY_AT = (Field("by", "By", 22), Field("at", "At", 17))
DECIDED_BY = (Field("by", "Decided by", 22), Field("at", "At", 17))
WORD = (Field("disposition", "Decision", 20), Field("repair", "Repair", 8), Field("reason", "Reason", 40),
        Field("extent", "Extent", 24), Field("ncr", "NCR", 12))  # fmt: skip

FLAGS = Kind(
    "Open flags, the worst first", "Open flags", "",
    (Column("", 0.7, "place", right=True), Column("What is wrong", 4, "kind", ("reason",), bold=True), PIECE, STEP,
     Column("Value and limits", 3.4, "value_said", ("limits_said", "past_said")),
     Column("Recorded by", 2.8, "by", ("at",))),
    (Field("place", "Place", 7), Field("kind", "What is wrong", 24), Field("reason", "Why", 40), *PLACE, *ITEM, *VALUE,
     Field("past", "Past, in tolerances", 12), *BY_AT),
)  # fmt: skip
DECIDED = Kind(
    "Decided", "Decided", "",
    (PIECE, STEP, Column("Found", 3, "flag", ("value_said", "limits_said")),
     Column("Decision", 4.4, "word", ("reason", "extent_said", "state_said"), bold=True),
     Column("NCR", 1.6, "ncr"), Column("Decided by", 2.8, "by", ("at",))),
    (*PLACE, *ITEM, Field("flag", "Found", 22), *VALUE, *WORD, Field("state", "State", 20),
     Field("lacking", "Has still to agree", 24), *DECIDED_BY), True,
)  # fmt: skip
SEEN = Kind(
    "Seen, stands as it is", "Seen",
    "Doubts about how something was found, by whom, or by which way it came: looked at, and left as they are. No "
    "finding is accepted by that.",
    (PIECE, STEP, Column("In doubt", 3.4, "flag", ("value_said", "limits_said")),
     Column("Why it stands", 5, "reason", ("ncr_said", "extent_said", "state_said")),
     Column("Seen by", 2.8, "by", ("at",))),
    (*PLACE, *ITEM, Field("flag", "In doubt", 24), *VALUE, Field("reason", "Why it stands", 40),
     Field("extent", "Extent", 24), Field("ncr", "NCR", 12), Field("state", "State", 14), Field("by", "Seen by", 22),
     Field("at", "At", 17)), True,
)  # fmt: skip
SPOT = Kind(
    "Fixed on the spot, by item", "Fixed on the spot",
    "Found out of tolerance or rejected, reworked, and good before anybody who releases had signed.",
    (Column("Times", 1.1, "count", right=True, bold=True), Column("Item", 4, "item", ("step_named",), bold=True),
     Column("At", 10, "pieces")),
    (Field("count", "Times", 8), Field("number", "Step", 8), Field("step", "Name of the step", 32),
     Field("item", "Item", 28), Field("pieces", "At", 80)), True,
)  # fmt: skip
NCRS = Kind(
    "Open NCRs", "Open NCRs", "",
    (Column("NCR", 2.2, "ncr", bold=True), Column("Days", 1.1, "age", right=True), Column("Since", 3, "since"),
     Column("Of", 5, "pieces"), Column("Decision", 2.6, "word"), Column("Waits for", 3, "waits_for")),
    (Field("ncr", "NCR", 14), Field("age", "Days", 7), Field("since", "Since", 17), Field("pieces", "Of", 48),
     Field("word", "Decision", 20), Field("waits_for", "Waits for", 28)),
)  # fmt: skip
REMAINING = Kind(
    "Decided, not carried out", "Not carried out",
    "To do, or waiting for agreement; of any day, the oldest first.", DECIDED.columns, DECIDED.fields,
)  # fmt: skip
SINCE = Column("Since", 2.4, "since", ("age_said",))
WAITING_SINCE = (Field("since", "Since", 17), Field("age", "Days", 7))
READY_KIND = Kind(
    "Ready for the Authorized Inspector", "Ready for the AI",
    "All is recorded and signed before it: the next signature is the Authorized Inspector's.",
    (PIECE, Column("Step", 7, "step_named"), SINCE), (*PLACE, *WAITING_SINCE),
)  # fmt: skip
BLOCKED_KIND = Kind(
    "Blocked by a signature", "Blocked", "All is recorded there; only the signature lacks.",
    (PIECE, Column("Next step", 4, "step_named"), Column("Waits for", 2.4, "waits_for", bold=True),
     Column("At", 4.6, "behind"), SINCE),
    (*PLACE, Field("waits_for", "Waits for", 14), Field("behind", "At", 60), *WAITING_SINCE),
)  # fmt: skip
REPORTS_KIND = Kind(
    "Outside reports", "Reports", "Asked for and not back, or back while their step is not released.",
    (PIECE, Column("Step", 4, "step_named"), Column("Report", 3.4, "what", ("report_number", "station")),
     Column("State", 2.4, "state", ("result",), bold=True), SINCE, Column("", 1.5, "overdue", bold=True)),
    (*PLACE, Field("what", "Report", 28), Field("station", "Station", 14), Field("report_number", "Number", 14),
     Field("state", "State", 12), Field("result", "Result", 12), *WAITING_SINCE, Field("overdue", "Overdue", 10)),
)  # fmt: skip
SILENT = Kind(
    "Phones not heard from", "Phones not heard from",
    "For two hours or more. What waits on them was said when they were last heard.",
    (Column("Person", 4, "person", ("device",), bold=True), Column("Last heard", 2.6, "last_heard"),
     Column("Waiting", 1.4, "waiting", right=True), Column("Oldest of these", 2.6, "oldest"),
     Column("Holds until", 2.6, "holds_until")),
    (Field("person", "Person", 24), Field("device", "Phone", 38), Field("last_heard", "Last heard", 17),
     Field("waiting", "Records waiting", 9), Field("oldest", "Oldest of these", 17),
     Field("holds_until", "Holds until", 17)),
)  # fmt: skip
MISSING = Kind(
    "Recorded the day before and not on this one", "Not recorded today", "",
    (Column("Person", 6, "person", bold=True), Column("Last record received", 6, "last")),
    (Field("person", "Person", 24), Field("last", "Last record received", 22)), True,
)  # fmt: skip


def report_of(session: Session, day: Day, report_days: int = 3, by: str = "", now: int | None = None) -> Report:
    """All that the review knows of a day or a shift. report_days: after which an outside report is overdue. by: who
    asks for it. now: Unix second; the lists are as they stand, whatever it is."""
    second = int(time.time()) if now is None else now
    zone = time_zone(session)
    of = Lines(zone, second, report_days)
    open_decisions = decisions.listed(session, "open", now=second, most=None)
    of_day = decisions.listed(session, "all", now=second, most=None, within=(day.start, day.end))
    seen = [one for one in of_day if decisions.seen(one)]
    decided = [one for one in of_day if not decisions.seen(one)]
    sections = (
        Section(FLAGS, of.flags(review.flags(session, day, {"state": OPEN}, None))),
        Section(DECIDED, [of.decision(one) for one in decided]),
        Section(SEEN, [of.decision(one) for one in seen]),
        Section(SPOT, [of.spot(one) for one in review.on_the_spot(session, day, None)]),
        Section(NCRS, of.ncrs(open_decisions)),
        Section(REMAINING, [of.decision(one) for one in open_decisions]),
        Section(READY_KIND, [of.waiting(one) for one in lists.lines(session, READY, None)]),
        Section(BLOCKED_KIND, [of.blocked(one) for one in lists.lines(session, BLOCKED, None)]),
        Section(REPORTS_KIND, [of.report(one) for one in lists.lines(session, REPORTS, None)]),
        Section(SILENT, [of.silent(one) for one in silence.silent(session, second)]),
        Section(MISSING, [{**one, "last": of.moment(one["last"])} for one in silence.missing(session, day)]),
    )
    counts = review.counts(session, day)
    counts |= {"decided": len(decided), "seen": len(seen), "waiting": len(open_decisions)}
    shop = session.get(Mark, "shop")
    # The head is read last: no entry that the report shows came after it.
    return Report(shop.value if shop and shop.value else NO_SHOP, day, datetime.fromtimestamp(second, zone), by, zone,
                  chain.head(session), counts, sections)  # fmt: skip


class Lines:
    """Lines of sections out of what the review answers, for one zone and moment."""

    def __init__(self, zone: ZoneInfo, now: int, report_days: int) -> None:
        self.zone, self.now, self.report_days = zone, now, report_days

    def moment(self, second: int) -> datetime | None:
        return datetime.fromtimestamp(second, self.zone) if second else None

    def claimed(self, at: str) -> datetime | str:
        """A time by a phone's own clock; as it stands where it cannot be read."""
        try:
            found = datetime.fromisoformat(at)
            return found.astimezone(self.zone) if found.tzinfo else at
        except (ValueError, OverflowError):
            return at

    def flags(self, found: Iterable[Mapping[str, Any]]) -> list[Line]:
        return [{"place": place, "kind": said("kind", flag["kind"]), "reason": flag["reason"], **self.placed(flag),
                 "past": None if flag["past"] is None else Decimal(str(flag["past"])),
                 "past_said": past_said(flag["margin"], flag["uom"]), "by": flag["by"], "at": self.claimed(flag["at"])}
                for place, flag in enumerate(found, 1)]  # fmt: skip

    def placed(self, one: Mapping[str, Any]) -> Line:
        """Piece, step, item, value and limits of a flag or a decision."""
        limits = one["limits"] or {}
        lower, upper = (number_of(limits.get(side)) for side in ("lower", "upper"))
        value, binds, uom = number_of(one["value"]), one["item"]["binds"], one["uom"] or ""
        limits_shown = limits_said(lower, upper, uom)
        return {
            **place_of(one["job"], one["piece"], one["step"]), "item": one["item"]["name"], "station": one["station"],
            "where": joined(", ", one["item"]["name"], one["station"]), "value": value, "uom": uom,
            "lower": lower, "upper": upper, "binds": binds, "value_said": value_said(value, uom),
            "limits_said": joined(", by ", limits_shown, binds) if limits_shown else "",
        }  # fmt: skip

    def decision(self, one: Mapping[str, Any]) -> Line:
        lacking, state = parties_said(one["lacking"]), said("decision", one["state"])
        plain = decisions.seen(one) and one["state"] == decisions.DONE
        return {
            **self.placed(one), "flag": said("kind", one["flag"]), "word": word_of(one),
            "disposition": disposition_said(one), "repair": one["cycle"] or None, "reason": one["reason"],
            "extent": one["extent"], "ncr": one["ncr"], "ncr_said": f"NCR {one['ncr']}" if one["ncr"] else "",
            "extent_said": f"extent: {one['extent']}" if one["extent"] else "", "state": state, "lacking": lacking,
            "state_said": "" if plain else f"state: {joined(' of ', state, lacking)}", "by": one["by"],
            "at": self.claimed(one["at"]),
        }  # fmt: skip

    def spot(self, one: Mapping[str, Any]) -> Line:
        flags = one["flags"]
        return {"count": one["count"], "item": one["item"], "number": one["number"], "step": flags[0]["step"]["name"],
                "step_named": joined(" ", one["number"], flags[0]["step"]["name"]),
                "pieces": "; ".join(self.spot_place(flag) for flag in flags)}  # fmt: skip

    def spot_place(self, flag: Mapping[str, Any]) -> str:
        value = value_said(number_of(flag["value"]), flag["uom"] or "")
        piece = joined(" ", flag["job"], flag["piece"]["mark"], flag["station"])
        return f"{piece} ({joined(', ', value, flag['by'])})"

    def ncrs(self, found: Iterable[Mapping[str, Any]]) -> list[Line]:
        """Each NCR with a decision that is not carried out, the oldest first."""
        by_number: dict[str, list[Mapping[str, Any]]] = {}
        for one in found:
            if one["ncr"]:
                by_number.setdefault(one["ncr"], []).append(one)
        return [{"ncr": ncr, "age": max(one["age"] for one in own),
                 "since": self.moment(min(one["received"] for one in own)),
                 "pieces": "; ".join(unlike(f"{one['job']} {one['piece']['mark']}" for one in own)),
                 "word": ", ".join(unlike(word_of(one) for one in own)),
                 "waits_for": ", ".join(unlike(waits_for(one) for one in own))}
                for ncr, own in by_number.items()]  # fmt: skip

    def waiting(self, one: Mapping[str, Any]) -> Line:
        """The place of a line of a list, and since when it is on it."""
        days = max(0, self.now - one["since"]) // decisions.DAY
        piece = {"mark": one["mark"], "name": one["kind"], "kind": one["kind"]}
        return {**place_of(one["job"], piece, {"number": one["number"], "name": one["name"]}), "age": days,
                "since": self.moment(one["since"]), "age_said": days_said(days)}  # fmt: skip

    def blocked(self, one: Mapping[str, Any]) -> Line:
        behind = (joined(" ", stop["mark"], stop["number"], stop["name"]) for stop in one["behind"])
        return {**self.waiting(one), "waits_for": parties_said(one["parties"]), "behind": "; ".join(behind)}

    def report(self, one: Mapping[str, Any]) -> Line:
        found = self.waiting(one)
        late = one["state"] != lists.BACK and self.now - one["since"] > self.report_days * decisions.DAY
        return {**found, "what": one["what"], "station": one["station"], "report_number": one["number_of_report"],
                "state": one["state"], "result": one["result"], "overdue": OVERDUE if late else ""}  # fmt: skip

    def silent(self, one: Mapping[str, Any]) -> Line:
        times = {name: self.moment(one[name]) for name in ("last_heard", "oldest", "holds_until")}
        return {"person": one["person"], "device": one["device"], "waiting": one["waiting"], **times}


def place_of(job: str, piece: Mapping[str, Any], step: Mapping[str, Any]) -> Line:
    return {"job": job, "of_job": f"job {job}", "mark": piece["mark"], "piece_name": piece["name"] or piece["kind"],
            "number": step["number"], "step": step["name"],
            "step_named": joined(" ", step["number"], step["name"])}  # fmt: skip


def number_of(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)


def joined(between: str, *texts: str | None) -> str:
    return between.join(text for text in texts if text)


def unlike(texts: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(texts))


def said(of: str, word: str) -> str:
    """A word of a closed set as people read it."""
    return SAID[of].get(word, word)


def parties_said(parties: Iterable[str]) -> str:
    return ", ".join(said("party", one) for one in parties)


def on_mark(value: Decimal, uom: str) -> bool:
    """Whether a value is shown as a rule has it, in whole inches and sixty-fourths."""
    marks = WIDE.multiply(value, Decimal(FINEST))
    return uom == "in" and abs(value) < LONGEST and marks == marks.to_integral_value()


def figure(value: Decimal, uom: str) -> str:
    """A value or margin as the phone shows it: `11/32` on a rule's mark, else the decimal, short."""
    return shown_inches(value, FINEST) if on_mark(value, uom) else shown_short(value)


def limit_figure(limit: Decimal, uom: str) -> str:
    """As figure(), but never rounded again."""
    return shown_inches(limit, FINEST) if on_mark(limit, uom) else text_of(limit)


def value_said(value: Decimal | None, uom: str) -> str:
    return "" if value is None else joined(" ", figure(value, uom), uom)


def limits_said(lower: Decimal | None, upper: Decimal | None, uom: str) -> str:
    """Limits as they are shown: never relaxed by rounding."""
    least = None if lower is None else limit_figure(shown_limit(lower, False), uom)
    most = None if upper is None else limit_figure(shown_limit(upper, True), uom)
    if least is not None and most is not None:
        return f"limits {least} to {most}"
    return f"at least {least}" if least is not None else f"at most {most}" if most is not None else ""


def past_said(margin: str | None, uom: str) -> str:
    found = number_of(margin)
    return f"past by {figure(-found, uom)}" if found is not None and found < 0 else ""


def disposition_said(decision: Mapping[str, Any]) -> str:
    """The decision; about a doubt, that it was seen or is done again."""
    word = str(decision["disposition"])
    return word if decision["flag"] in (*FINDINGS, SHAKEN_FLAG) else said("seen", word)


def word_of(decision: Mapping[str, Any]) -> str:
    """The decision; of a repair with its number, as R1."""
    return joined(" ", disposition_said(decision), f"R{decision['cycle']}" if decision["cycle"] else "")


def waits_for(decision: Mapping[str, Any]) -> str:
    if decision["lacking"]:
        return f"agreement: {parties_said(decision['lacking'])}"
    return said("decision", decision["state"])


def days_said(days: int) -> str:
    return "" if days == 0 else "1 day" if days == 1 else f"{days} days"
