"""What each item of a step still lacks, from the records in force at one piece."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from seamtag.core import formula, verdict
from seamtag.core.inputs import at, direct_inputs, inputs_of
from seamtag.core.job import Item, Job, Step
from seamtag.core.judging import Judged, gauge_of
from seamtag.core.numbers import CONTEXT
from seamtag.core.standing import Standing

Key = tuple[str, str]
"""An item, by the codes of its step and its own."""

MET, OPEN, STARTED, FLAGGED, NOT_ASKED = "met", "open", "started", "flagged", "not asked"

BAD = (verdict.OUT, verdict.CLOSE, verdict.UNJUDGED)

RECORDED_AS = {"visual": "visual", "measure": "reading", "photo": "photo", "weld": "weld", "report": "report",
               "text": "text"}  # fmt: skip
ON_ITEMS = frozenset(RECORDED_AS.values())
"""Types of record that meet an item; others may name one and only speak about it."""


@dataclass(frozen=True)
class ItemState:
    """state; ids in force by station; stations still asked; whether a photo is; derived values by station."""

    state: str
    in_force: Mapping[str, list[str]] = field(default_factory=dict)
    missing: list[str] = field(default_factory=list)
    photo_missing: bool = False
    derived: Mapping[str, tuple[Decimal | None, verdict.Verdict]] = field(default_factory=dict)


class Bench:
    """The records of one piece laid out by item, under one standing."""

    def __init__(self, piece: str, records: Iterable[Judged], standing: Standing, job: Job) -> None:
        self.piece, self.standing, self.job = piece, standing, job
        self.in_force: dict[tuple[str, str, str], list[Judged]] = {}
        for record in records:
            _, step, item, _ = record.place
            if item and standing.in_force(record):
                self.in_force.setdefault((step, item, record.type), []).append(record)

    def item(self, step: Step, item: Item) -> ItemState:
        if not self.asked(item):
            return ItemState(NOT_ASKED)
        if item["kind"] == "derived":
            return self.derived(step, item)
        records = self.in_force.get((step["code"], item["code"], RECORDED_AS[item["kind"]]), [])
        by_station: dict[str, list[str]] = {}
        for record in sorted(records, key=lambda r: r.id):
            by_station.setdefault(record.place[3], []).append(record.id)
        missing = missing_stations(item, by_station)
        bad = [record for record in records if not self.standing.accepted(record)]
        photo_missing = self.photo_missing(step, item, records)
        if any(record.adverse or self.standing.strictest(record.id) for record in bad):
            return ItemState(FLAGGED, by_station, missing, photo_missing)
        if missing or bad or photo_missing:
            return ItemState(STARTED if records else OPEN, by_station, missing, photo_missing)
        return ItemState(MET, by_station)

    def asked(self, item: Item) -> bool:
        """By the item's 'only if'; a figure that is missing leaves it asked."""
        if not item.get("only_if"):
            return True
        try:
            return formula.holds(item["only_if"]["tree"], self.job.names(self.piece, self.job.basis))
        except formula.FormulaError:
            return True

    def photo_missing(self, step: Step, item: Item, records: list[Judged]) -> bool:
        wanted = item.get("photo") or "never"
        asked = wanted == "always" or (wanted == "out" and any(record.adverse for record in records))
        return asked and not self.in_force.get((step["code"], item["code"], "photo"))

    def derived(self, step: Step, item: Item) -> ItemState:
        values = {station: self.derived_at(step, item, station) for station in self.derived_stations(step, item)}
        words = [found.word for _, found in values.values() if found.word != OPEN]
        missing = [station for station, (_, found) in values.items() if found.word == OPEN]
        if not all(self.accepted(step, item, station, found) for station, (_, found) in values.items()):
            return ItemState(FLAGGED, missing=missing, derived=values)
        if missing or not values:
            return ItemState(STARTED if words else OPEN, missing=missing, derived=values)
        return ItemState(MET, derived=values)

    def accepted(self, step: Step, item: Item, station: str, found: verdict.Verdict) -> bool:
        """Whether a value worked out is good (or not there yet), or covered by a 'use as is' that has effect."""
        if found.word not in BAD:
            return True
        place = (self.piece, step["code"], item["code"], station)
        decided = self.standing.strictest_of_derived(place, self.newest_input(step, item, station), found.word)
        return decided is not None and decided.body["disposition"] == "use as is"

    def newest_input(self, step: Step, item: Item, station: str) -> str:
        """The id of the newest reading in force that a derived item was worked out from; '' where there is none."""
        return max((r.id for key in inputs_of(step, item, self.job) for r in
                    self.in_force.get((*key, "reading"), []) if at(r.place[3], station)), default="")  # fmt: skip

    def derived_stations(self, step: Step, item: Item) -> list[str]:
        stations = item.get("stations") or {}
        if stations.get("names"):
            return list(stations["names"])
        if stations.get("least") is None:
            return [""]
        used = {record.place[3] for key in inputs_of(step, item, self.job) for record in
                self.in_force.get((key[0], key[1], "reading"), [])}  # fmt: skip
        return sorted(used)

    def derived_at(self, step: Step, item: Item, station: str) -> tuple[Decimal | None, verdict.Verdict]:
        def readings(step_code: str, item_code: str) -> list[Decimal]:
            return self.readings((step_code or step["code"], item_code), station)

        try:
            value = self.work_out(item, readings)
        except formula.MissingValueError:
            return (None, verdict.Verdict(OPEN))
        except formula.FormulaError as error:
            return (None, verdict.Verdict(verdict.UNJUDGED, reason=str(error)))
        basis = self.job.basis
        found = self.job.limits(self.piece, step["code"], item["code"], basis["plan"], basis["figures"])
        rule, place = item.get("rule") or "simple", item.get("place")
        gauge = verdict.Gauge(self.uncertainty_at(step, item, station)) if rule == "guarded" else None
        return (value, verdict.judge(value, found, gauge, rule, Decimal(place) if place else None))

    def work_out(self, item: Item, readings: Callable[[str, str], list[Decimal]]) -> Decimal:
        return formula.work_out(item["formula"]["tree"], self.job.names(self.piece, self.job.basis, readings))

    def uncertainty_at(self, step: Step, item: Item, station: str) -> Decimal | None:
        """U of a value worked out: the root of the sum of squares of half of what the value changes by when each
        reading in turn is moved by its own U up and down, as of readings that have nothing to do with one another.
        Readings of one station agree, and move together by the largest U among them.

        None where the U of a reading is not known, or the value cannot be worked out nearby.
        Source: JCGM 100:2008 (GUM) 5.1.3, note 2, from memory.
        """
        squares = Decimal(0)
        try:
            keys = list(dict.fromkeys(direct_inputs(step["code"], item, self.job)))
            inputs = {key: self.readings(key, station) for key in keys}
            for key in keys:
                for places, uncertainty in self.uncertainties(key, station):
                    if uncertainty is None:
                        return None
                    half = self.half_change(step, item, inputs, key, places, uncertainty)
                    squares = CONTEXT.add(squares, CONTEXT.multiply(half, half))
        except formula.FormulaError:
            return None
        return CONTEXT.sqrt(squares)

    def half_change(
        self, step: Step, item: Item, inputs: Mapping[Key, list[Decimal]], key: Key, places: list[int], by: Decimal
    ) -> Decimal:
        """Half of what a value worked out changes by when some readings are moved together up and down."""

        def moved(distance: Decimal) -> Decimal:
            own = list(inputs[key])
            for place in places:
                own[place] = CONTEXT.add(own[place], distance)
            changed = {**inputs, key: own}
            return self.work_out(item, lambda of, code: changed.get((of or step["code"], code), []))

        return CONTEXT.divide(CONTEXT.subtract(moved(by), moved(-by)), Decimal(2))

    def readings(self, key: Key, station: str) -> list[Decimal]:
        """The values of an item at a station and at those that begin with it and a blank.

        Raises FormulaError where readings at one and the same station disagree.
        """
        step, item = self.job.steps.get(key[0]), self.job.item(*key)
        if step is not None and item is not None and item["kind"] == "derived":
            value, _ = self.derived_at(step, item, station)
            return [] if value is None else [value]
        found: dict[str, Decimal] = {}
        here = self.read_at(key, station)
        if any(found.setdefault(record.place[3], value) != value for record, value in here):
            raise formula.FormulaError(f"readings of {key[1]} disagree")
        return [value for _, value in here]

    def uncertainties(self, key: Key, station: str) -> list[tuple[list[int], Decimal | None]]:
        """Of each station the places of its readings among all of them, and U in the item's uom; None where one is
        not known."""
        step, item = self.job.steps.get(key[0]), self.job.item(*key)
        if step is not None and item is not None and item["kind"] == "derived":
            return [([0], self.uncertainty_at(step, item, station))] if self.readings(key, station) else []
        places: dict[str, list[int]] = {}
        found: dict[str, list[Decimal | None]] = {}
        for place, (record, _) in enumerate(self.read_at(key, station)):
            gauge = gauge_of(record.body, self.job, item)
            quotient = gauge.quotient() if gauge else None
            places.setdefault(record.place[3], []).append(place)
            found.setdefault(record.place[3], []).append(None if quotient is None else quotient.value())
        return [(places[name], largest(known)) for name, known in found.items()]

    def read_at(self, key: Key, station: str) -> list[tuple[Judged, Decimal]]:
        """The readings in force that have a value, at a station and at those that begin with it and a blank."""
        records = sorted(self.in_force.get((*key, "reading"), []), key=lambda r: r.id)
        return [(r, r.value) for r in records if r.value is not None and at(r.place[3], station)]


def largest(known: list[Decimal | None]) -> Decimal | None:
    numbers = [one for one in known if one is not None]
    return max(numbers) if len(numbers) == len(known) else None


def missing_stations(item: Item, by_station: Mapping[str, Any]) -> list[str]:
    """The stations asked for that have no record; for an open list, how many more are asked."""
    stations = item.get("stations") or {}
    if stations.get("names"):
        return [name for name in stations["names"] if name not in by_station]
    least = stations.get("least")
    if least is None:
        return [] if by_station else [""]
    return [f"{least - len(by_station)} more"] if len(by_station) < least else []
