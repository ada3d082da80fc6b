"""A study of a gauge, from rows that were typed, pasted or read from a workbook; and what it means in plain words."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

from seamtag.core.numbers import NumberError, parse
from seamtag.spreadsheet import Column, SheetError, Table, read_list
from seamtag.trends.gauge_study import Analysis, Component, Reading, Row, Study, gauge_study

MOST_ROWS = 2_000
MOST_FAULTS = 20
MOST_NAME = 100
ENOUGH = 5
"""Categories told apart from which on a gauge is held to serve for watching a process; common practice."""
GOOD, LEAST = 10.0, 30.0
"""Percent of the tolerance: below the first a gauge is held good, above the second too coarse; common practice."""
UNLIKELY = 0.05
WORKBOOK = b"PK"
"""The first bytes of a workbook: it is a ZIP archive."""
TABLE = Table("", (Column("part", needed=True), Column("operator", needed=True), Column("value", needed=True)))
COMPONENTS = ("gauge", "repeatability", "reproducibility", "operator", "interaction", "part", "total")
SOURCES = ("part", "operator", "interaction", "repeatability", "total")


class StudyError(ValueError):
    """faults: every fault of the rows, a sentence each, with its row."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__(" · ".join(faults))
        self.faults = faults


def read_rows(content: bytes, name: str, comma: bool) -> list[dict[str, str]]:
    """Rows of a workbook or of pasted text, with columns part, operator and value. Raises StudyError.

    comma: whether decimals stand after a comma; numbers of a workbook are written so as well.
    """
    faults: list[str] = []
    try:
        rows = read_list(content, name, TABLE, faults)
    except SheetError as error:
        faults += error.faults
        rows = []
    if faults:
        raise StudyError(faults)
    found = [{**{column.name: row[column.name] for column in TABLE.columns}, "place": row.place} for row in rows]
    if comma and content[:2] == WORKBOOK:
        for one in found:
            one["value"] = one["value"].replace(".", ",")
    return found


def readings_of(rows: Sequence[Mapping[str, Any]], comma: bool) -> list[Reading]:
    """Raises StudyError with a fault for each row that is none. comma: whether decimals stand after a comma."""
    faults = []
    if len(rows) > MOST_ROWS:
        raise StudyError([f"There are {len(rows):,} rows. A study takes at most {MOST_ROWS:,}."])
    found: list[Reading] = []
    for number, row in enumerate(rows, 1):
        place = row.get("place") or f"row {number}"
        part, operator = (str(row[name]).strip()[:MOST_NAME] for name in ("part", "operator"))
        faults += [f"{place}: the {name} is missing." for name, text in (("part", part), ("operator", operator))
                   if not text]  # fmt: skip
        try:
            found.append((part, operator, number_of(str(row["value"]), comma)))
        except NumberError as error:
            faults.append(f"{place}, value: {error}")
    if faults:
        raise StudyError(faults)
    return found


def number_of(text: str, comma: bool) -> float:
    """Raises NumberError."""
    value = float(parse(text, comma).value)
    if not math.isfinite(value):
        raise NumberError(f"'{text[:40]}' is too large. Type the reading again.")
    return value


def studied(readings: Sequence[Reading], tolerance: float | None) -> dict[str, Any]:
    """The study as an answer. Raises StudyError where the readings make none."""
    try:
        study = gauge_study(readings, tolerance)
    except ValueError as error:
        raise StudyError([str(error)[:1000]]) from None
    parts, operators = ({reading[place] for reading in readings} for place in (0, 1))
    return {
        "parts": len(parts), "operators": len(operators),
        "trials": len(readings) // (len(parts) * len(operators)), "tolerance": tolerance, "pooled": study.pooled,
        "with_interaction": lines_of(study.with_interaction),
        "without_interaction": lines_of(study.without_interaction),
        "components": [component_of(name, getattr(study, name)) for name in COMPONENTS],
        "categories": study.categories, "means": meaning(study),
    }  # fmt: skip


def lines_of(analysis: Analysis) -> list[dict[str, Any]]:
    rows: list[tuple[str, Row | None]] = [(name, getattr(analysis, name)) for name in SOURCES]
    return [{"source": name, **asdict(row)} for name, row in rows if row]


def component_of(name: str, component: Component) -> dict[str, Any]:
    return {"source": name, "sd": math.sqrt(component.variance), **asdict(component)}


def meaning(study: Study) -> list[str]:
    """What the study means: words of a closed set, the weightiest first."""
    found = []
    if study.categories is None or study.categories >= ENOUGH:
        found.append("tells the parts apart")
    else:
        found.append("tells the parts apart in few classes" if study.categories > 1 else "cannot tell the parts apart")
    share = study.gauge.tolerance
    if share is not None:
        small, large = share < GOOD, share > LEAST
        found.append("takes little of the tolerance" if small else
                     "takes too much of the tolerance" if large else "takes part of the tolerance")  # fmt: skip
    if study.reproducibility.variance > study.repeatability.variance:
        found.append("more of it comes from the operators")
    else:
        found.append("more of it comes from the gauge itself")
    analysis = study.without_interaction if study.pooled else study.with_interaction
    if analysis.operator.p is not None and analysis.operator.p < UNLIKELY:
        found.append("the operators read differently")
    beside = study.with_interaction.interaction
    if beside is not None and beside.p is not None and beside.p < UNLIKELY:
        found.append("the operators differ from part to part")
    return found
