"""What the Python core answers to a case, in the form in which webapp/src/core/answers.ts does."""

from collections.abc import Callable
from dataclasses import asdict
from decimal import Decimal
from typing import Any

from seamtag.core import formula, limits, numbers, uoms, verdict
from seamtag.core.flags import flags_of
from seamtag.core.job import Job
from seamtag.core.limits import Limits
from seamtag.core.progress import Progress

Case = dict[str, Any]


def text(value: Decimal | None) -> str | None:
    return None if value is None else numbers.text_of(value)


def number(given: str | None) -> Decimal | None:
    return None if given is None else Decimal(given)


def way(written: str, wanted: str) -> uoms.Conversion:
    found = uoms.conversion(written, wanted)
    assert found is not None
    return found


def said(found: verdict.Verdict) -> Case:
    return {
        "word": found.word, "margin": text(found.margin), "why": found.reason, "probability": found.probability,
    }  # fmt: skip


def flags_at(progress: Progress, piece: str) -> list[Case]:
    return [{**asdict(flag), "past": text(flag.past)} for flag in flags_of(progress, piece)]


def typed(case: Case) -> Case:
    try:
        found = numbers.parse(case["text"], case["comma"])
    except numbers.NumberError as error:
        return {"error": str(error)}
    return {
        "value": text(found.value), "doubt": found.doubt, "inches": numbers.shown_inches(found.value),
        "fraction": numbers.nearest_fraction(found.value, 16),
    }  # fmt: skip


def worked_out(case: Case) -> Case:
    figures = {name: Decimal(value) for name, value in case["figures"].items()}
    readings = {key: [Decimal(value) for value in values] for key, values in case["readings"].items()}
    names = formula.Names(figures, lambda step, item: readings.get(f"{step}.{item}", []), case["tables"])
    try:
        if case["holds"]:
            return {"holds": formula.holds(case["tree"], names)}
        return {"value": text(formula.work_out(case["tree"], names))}
    except formula.FormulaError as error:
        return {"error": str(error), "missing": isinstance(error, formula.MissingValueError)}


def judged_alone(case: Case) -> Case:
    found = Limits(number(case["lower"]), number(case["upper"]), case["reason"])
    written, wanted = case["conversion"]
    gauge = None
    if case["uncertainty"] == "unknown":
        gauge = verdict.Gauge(None)
    elif case["uncertainty"] is not None:
        gauge = verdict.Gauge(Decimal(case["uncertainty"]), way(case["gauge_uom"], wanted))
    place = number(case["place"])
    judgement = verdict.judge(Decimal(case["value"]), found, gauge, case["rule"], place, way(written, wanted))
    return {**said(judgement), "coarse": verdict.too_coarse(found, gauge)}


def converted(case: Case) -> Case | None:
    found = uoms.conversion(case["from"], case["to"])
    value = Decimal(case["value"])
    if found is None:
        return None
    return {"value": text(found.of(value).value()), "interval": text(found.of_interval(value).value())}


def shown(case: Case) -> Case:
    lower, upper = both = number(case["lower"]), number(case["upper"])
    other = limits.in_counterpart(Limits(lower, upper), case["from"])
    place, to = Decimal(case["place"]), way(case["from"], case["to"])

    def of_both(show: Callable[[Decimal, bool], str | None]) -> list[str | None]:
        return [None if limit is None else show(limit, upper) for limit, upper in zip(both, (False, True), strict=True)]

    return {
        "inward": of_both(lambda limit, upper: text(limits.shown_inward(limit, upper, place, to))),
        "own": of_both(lambda limit, upper: text(limits.shown(limit, upper))),
        "short": of_both(lambda limit, upper: numbers.shown_short(limit)),
        "counterpart": other and [text(other[0].lower), text(other[0].upper), other[1]],
    }


def reading(case: Case) -> Case:
    job = Job(case["job"])
    payload, role = case["record"]
    progress = Progress(job, [(payload, role)])
    record, basis = progress.records[payload["id"]], payload["basis"]
    found = job.limits(payload["piece"], payload["step"], payload["item"], basis["plan"], basis["figures"])
    return {
        **said(record.verdict), "value": text(record.value), "current": record.current,
        "limits": [text(found.lower), text(found.upper), found.reason], "flags": flags_at(progress, payload["piece"]),
    }  # fmt: skip


def derived(case: Case) -> Case:
    progress = Progress(Job(case["job"]), [(payload, role) for payload, role in case["records"]])
    items = {
        f"{step}.{code}": {
            "state": found.state, "missing": list(found.missing),
            "derived": [[at, text(value), said(judgement)] for at, (value, judgement) in found.derived.items()],
        }
        for step, state in progress.piece(case["piece"]).steps.items() for code, found in state.items.items()
    }  # fmt: skip
    records = {payload["id"]: said(progress.records[payload["id"]].verdict) for payload, _ in case["records"]}
    return {"items": items, "records": records, "flags": flags_at(progress, case["piece"])}


VERBS: dict[str, Callable[[Case], Case | None]] = {
    "number": typed, "formula": worked_out, "judge": judged_alone, "uom": converted, "shown": shown,
    "reading": reading, "derived": derived,
}  # fmt: skip


def answer(case: Case) -> Case | None:
    """An error that is not foreseen is an answer too, and one that never agrees."""
    try:
        return VERBS[case["verb"]](case)
    except Exception as error:
        return {"crash": repr(error)}
