"""Trying a plan's limits before it is published: figures and readings in, limits and verdicts out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from difflib import get_close_matches
from typing import Any

from seamtag.core import limits, numbers, verdict
from seamtag.core.inputs import inputs_of
from seamtag.core.items import OPEN, Bench
from seamtag.core.job import Item, Job, Step
from seamtag.core.judging import Judged, judged
from seamtag.core.limits import Limits
from seamtag.core.standing import Standing
from seamtag.core.uoms import UOMS

PIECE = "piece"
PLAN = "plan"
GAUGE = "gauge of "
ANY_GAUGE = "some gauge"
"""Named where no uncertainty was given: a gauge whose U nobody knows."""


class TryError(ValueError):
    """A figure or reading that cannot be tried. The message says what is wrong with it."""


@dataclass(frozen=True)
class Reading:
    """As given on the command line: item, or step.item; station after an @; uom '' for the item's own."""

    item: str
    station: str
    entered: str
    uom: str = ""


@dataclass(frozen=True)
class Answer:
    """One item: its limits, and by station what was typed or worked out, with its verdict."""

    step: str
    item: Item
    limits: Limits
    values: list[tuple[str, str, Decimal | None, verdict.Verdict]] = field(default_factory=list)

    @property
    def place(self) -> str:
        return f"{self.step}.{self.item['code']}"


def reading_of(text: str) -> Reading:
    """`offset=5/32`, `girth_fit.offset@3=4 mm`. Raises TryError where it is neither."""
    name, equals, value = text.partition("=")
    item, _, station = name.strip().partition("@")
    if not equals or not item or not value.strip():
        raise TryError(f"'{text}' is no reading. Write item=value, such as offset=5/32, or step.item@station=value.")
    entered, _, uom = value.strip().rpartition(" ")
    if entered and uom in UOMS:
        return Reading(item, station, entered.strip(), uom)
    return Reading(item, station, value.strip())


def figure_of(text: str) -> tuple[str, str]:
    """`t=5/8`. Raises TryError where it is no name with a number."""
    name, equals, value = text.partition("=")
    if not equals:
        raise TryError(f"'{text}' is no figure. Write name=value, such as t=5/8.")
    try:
        numbers.parse(value)
    except numbers.NumberError as error:
        raise TryError(f"figure {name}: {error}") from None
    return name.strip(), value.strip()


class Trial:
    """One plan's document with figures, as if of one piece that every step is asked of."""

    def __init__(
        self, document: Mapping[str, Any], figures: Mapping[str, str], uncertainties: Mapping[str, str] | None = None
    ) -> None:
        known = {*document["figures"], *document["piece_figures"]}
        for name in figures:
            if name not in known:
                raise TryError(f"there is no figure '{name}' in the plan{near(name, known)}")
        self.steps: Sequence[Step] = [{**step, "kinds": [PIECE]} for step in document["steps"]]
        places = [self.place_of(name) for name in uncertainties or {}]
        gauges = {GAUGE + ".".join(place): {"uncertainty": plain(value), "due": None}
                  for place, value in zip(places, (uncertainties or {}).values(), strict=True)}  # fmt: skip
        gauges[ANY_GAUGE] = {"uncertainty": None, "due": None}
        self.job = Job({
            "id": "trial", "bases": [{"plan": PLAN, "figures": 1}], "plans": {PLAN: {**document, "steps": self.steps}},
            "figure_sets": {"1": {"values": dict(figures)}}, "gauges": gauges,
            "pieces": [{"id": PIECE, "mark": PIECE, "kind": PIECE, "figures": {}}],
        })  # fmt: skip

    def place_of(self, name: str) -> tuple[str, str]:
        """Step and item of a name. Raises TryError where there is none, or more than one."""
        step, dot, code = name.rpartition(".")
        places = [(s["code"], i["code"]) for s in self.steps for i in s["items"]]
        found = [place for place in places if place[1] == code and (not dot or place[0] == step)]
        if not found:
            names = {code for _, code in places} | {".".join(place) for place in places}
            raise TryError(f"there is no item '{name}' in the plan{near(name, names)}")
        if len(found) > 1:
            raise TryError(f"'{name}' is an item of several steps. Write {' or '.join('.'.join(p) for p in found)}.")
        return found[0]

    def answers(self, readings: Sequence[Reading]) -> list[Answer]:
        """What the readings give and what is worked out from them; every item with limits where nothing is read."""
        records = [self.judged(number, reading) for number, reading in enumerate(readings)]
        bench = Bench(PIECE, records, Standing(records, self.job), self.job)
        read = {record.place[1:3] for record in records}
        return list(self.answers_of(bench, records, read))

    def answers_of(self, bench: Bench, records: Sequence[Judged], read: set[tuple[str, str]]) -> Iterator[Answer]:
        for step in self.steps:
            for item in step["items"]:
                key = (step["code"], item["code"])
                found = self.job.limits(PIECE, *key, PLAN, 1)
                here = [r for r in records if r.place[1:3] == key]
                if here:
                    values = [(r.place[3], f"{r.body['entered']} {r.body['uom']}", r.value, r.verdict) for r in here]
                    yield Answer(step["code"], item, found, values)
                elif item["kind"] == "derived" and read & {*inputs_of(step, item, self.job)}:
                    derived = bench.derived(step, item).derived
                    yield Answer(step["code"], item, found, [(s, "worked out", v, w) for s, (v, w) in derived.items()])
                elif not read and ("lower" in item or "upper" in item):
                    yield Answer(step["code"], item, found)

    def judged(self, number: int, reading: Reading) -> Judged:
        step, code = self.place_of(reading.item)
        item = self.job.item(step, code) or {}
        if item["kind"] != "measure":
            raise TryError(f"'{reading.item}' is a {item['kind']} item; only a measure item takes a reading")
        gauge = GAUGE + f"{step}.{code}"
        body = {"entered": reading.entered, "uom": reading.uom or item["uom"]}
        if gauge in self.job.gauges:
            body["gauge"] = gauge
        elif item.get("gauge"):
            body["gauge"] = ANY_GAUGE
        payload = {
            "id": f"{number:06d}", "type": "reading", "piece": PIECE, "step": step, "item": code,
            "station": reading.station, "by": "trial", "basis": {"plan": PLAN, "figures": 1}, "body": body,
        }  # fmt: skip
        return judged(payload, "held", self.job)


def plain(value: str) -> str:
    try:
        return numbers.text_of(numbers.parse(value).value)
    except numbers.NumberError as error:
        raise TryError(f"uncertainty: {error}") from None


def near(name: str, names: set[str]) -> str:
    found = get_close_matches(name, sorted(names), 1)
    return f"; did you mean {found[0]}?" if found else ""


def as_text(answer: Answer) -> str:
    """An answer as a planner reads it, a few lines."""
    item = answer.item
    lines = [f"{answer.place}  {item['name']}"]
    lines += [f"  {side}: {item[side]['text']}" for side in ("lower", "upper", "formula") if side in item]
    lines.append(f"  limit: {limit_text(answer.limits, item.get('uom', ''))}")
    lines.append(f"  binds by {item['binds']}" + (f", {item['source']}" if item["source"] else ""))
    lines += [f"  {value_text(item, *value)}" for value in answer.values]
    return "\n".join(lines)


def limit_text(found: Limits, uom: str) -> str:
    """In the item's uom, on the rule where it lies on a mark, and in the other system, rounded inward."""
    if found.reason:
        return found.reason
    other = limits.in_counterpart(found, uom)
    return bounds_text(found, uom) + (f" ({bounds_text(*other)})" if other and (found.lower or found.upper) else "")


def bounds_text(found: Limits, uom: str) -> str:
    lower = None if found.lower is None else shown(limits.shown(found.lower, upper=False), uom)
    upper = None if found.upper is None else shown(limits.shown(found.upper, upper=True), uom)
    if lower is not None and upper is not None:
        return f"{lower} to {upper} {uom}"
    if lower is None and upper is None:
        return "none, only recorded"
    return f"at most {upper} {uom}" if upper is not None else f"at least {lower} {uom}"


def shown(value: Decimal, uom: str) -> str:
    """`5/32 = 0.15625` where an inch value lies on a rule's mark, else the decimal."""
    text = numbers.shown_short(value)
    marked = numbers.shown_inches(value) if uom == "in" and Decimal(text) == value else text
    return text if marked == text else f"{marked} = {text}"


def value_text(item: Item, station: str, typed: str, value: Decimal | None, found: verdict.Verdict) -> str:
    text = f"{station}: {typed}" if station else typed
    if value is not None and not typed.startswith(f"{numbers.text_of(value)} "):
        text += f" = {numbers.shown_short(value)} {item['uom']}"
    text += f": {'not all read yet' if found.word == OPEN else found.word}"
    if found.margin is not None:
        side = "past the limit" if found.margin < 0 else "inside the limit"
        text += f", {shown(abs(found.margin), item['uom'])} {item['uom']} {side}"
    if found.probability is not None:
        text += f", conforms with a probability of about {verdict.shown_probability(found.probability)}"
    return text + (f" ({found.reason})" if found.reason else "")


def as_data(answer: Answer) -> dict[str, Any]:
    """An answer as JSON; numbers are texts, exact."""

    def number(value: Decimal | None) -> str | None:
        return None if value is None else numbers.text_of(value)

    return {
        "step": answer.step, "item": answer.item["code"], "name": answer.item["name"],
        "uom": answer.item.get("uom", ""), "binds": answer.item["binds"], "source": answer.item["source"],
        "lower": number(answer.limits.lower), "upper": number(answer.limits.upper), "reason": answer.limits.reason,
        "values": [
            {"station": station, "typed": typed, "value": number(value), "verdict": found.word,
             "margin": number(found.margin), "reason": found.reason, "probability": found.probability}
            for station, typed, value, found in answer.values
        ],
    }  # fmt: skip
