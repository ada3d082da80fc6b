"""What the planner should look at before a job is opened, though nothing of it keeps the job from being opened."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from seamtag.core import numbers, uoms

MOST_NAMED = 6
"""Marks that one sentence names."""
FARTHEST = Decimal(20 * 12)
"""Inches between tube sheets beyond which tubes want a support plate. Common practice, no source."""
THICKEST, LONGEST = Decimal(4), Decimal(1200)
"""Inches above which a thickness, and any length of a boiler, is more likely typed in another uom."""
THIN = re.compile(r"^(?!.*diameter).*\b(thickness|wall|root opening|land|fillet leg|throat|clearance)\b", re.IGNORECASE)
TUBE_SHEET, SUPPORT = re.compile(r"tube ?sheet", re.IGNORECASE), re.compile(r"support plate|baffle", re.IGNORECASE)
BETWEEN = re.compile(r"tube length|length of (the )?tubes|shell length|between .*sheets", re.IGNORECASE)
MM_PER_INCH = Decimal("25.4")


def advice_on(source: Mapping[str, Any], document: Mapping[str, Any]) -> list[str]:
    """A sentence each. source: as `opening.faults_of` takes it."""
    pieces, figures = source["pieces"], source.get("figures") or {}
    return [
        *without_place(pieces), *joints_that_join_nothing(pieces, document),
        *far_apart(pieces, figures, document), *unusual(figures, document["figures"]),
        *(f"piece {piece['mark']}: {said}" for piece in pieces
          for said in unusual(piece.get("figures") or {}, document["piece_figures"])),
    ]  # fmt: skip


def without_place(pieces: Iterable[Mapping[str, Any]]) -> Iterator[str]:
    marks = [piece["mark"] for piece in pieces if not piece.get("place")]
    if marks:
        yield f"{counted(marks)} no place for the tag: {named(marks)}. Say where it goes."


def joints_that_join_nothing(pieces: Sequence[Mapping[str, Any]], document: Mapping[str, Any]) -> Iterator[str]:
    joints = joint_kinds(document) | {piece["kind"] for piece in pieces if piece.get("joins")}
    marks = [piece["mark"] for piece in pieces if piece["kind"] in joints and not piece.get("joins")]
    if marks:
        yield f"{counted(marks)} nothing under 'joins', though the kind is a joint: {named(marks)}."


def joint_kinds(document: Mapping[str, Any]) -> set[str]:
    """Kinds of piece whose steps wait for what the piece joins."""
    return {kind for step in document["steps"] for rule in step["not_before"] if rule["of"] == "joins"
            for kind in rule.get("for", step["kinds"])}  # fmt: skip


def far_apart(
    pieces: Sequence[Mapping[str, Any]], figures: Mapping[str, str], document: Mapping[str, Any]
) -> Iterator[str]:
    """Tube sheets far apart, with no support plate among the pieces. Common practice, no source."""
    kinds = [f"{piece['kind']} {piece.get('name', '')}" for piece in pieces]
    if not any(TUBE_SHEET.search(kind) for kind in kinds) or any(SUPPORT.search(kind) for kind in kinds):
        return
    for name, figure in document["figures"].items():
        length = inches(figures.get(name), figure["uom"]) if BETWEEN.search(figure["what"]) else None
        if length is not None and length > FARTHEST:
            typed = shown(figures[name], figure["uom"])
            yield (f"figure {name}: {typed} is more than 20 ft, and no piece is a support plate. Tubes that long are "
                   "held between their sheets (common practice, no source).")  # fmt: skip


def unusual(figures: Mapping[str, str], known: Mapping[str, Mapping[str, str]]) -> Iterator[str]:
    """Figures that are most likely slips: no size at all, or typed in another uom than the plan's."""
    for name, text in figures.items():
        figure = known.get(name)
        value = number_of(text)
        if figure is None or value is None:
            continue
        if value < 0:
            yield f"figure {name}: {shown(text, figure['uom'])} is less than nothing. Is it meant?"
        elif figure["uom"] == "in" and value > (THICKEST if THIN.match(figure["what"]) else LONGEST):
            other = numbers.CONTEXT.divide(value, MM_PER_INCH).quantize(Decimal("0.001"))
            typed = shown(text, "in")
            yield f"figure {name}: {typed} is unusually large for {figure['what']}. In mm it would be {other} in."
        elif figure["uom"] == "mm" and 0 < value < 1 and "/" in text:
            yield f"figure {name}: {text} mm is unusually small for {figure['what']}. Was it typed in inches?"


def shown(text: str, uom: str) -> str:
    """A figure as typed, with its uom where it does not say it itself, as 21' does."""
    return text if text.endswith(("'", '"')) else f"{text} {uom}"


def number_of(text: str | None) -> Decimal | None:
    try:
        return numbers.parse(str(text)).value if text else None
    except numbers.NumberError:
        return None


def inches(text: str | None, uom: str) -> Decimal | None:
    value, conversion = number_of(text), uoms.conversion(uom, "in")
    return None if value is None or conversion is None else conversion.of(value).value()


def counted(marks: Sequence[str]) -> str:
    return "1 piece has" if len(marks) == 1 else f"{len(marks):,} pieces have"


def named(marks: Sequence[str]) -> str:
    more = len(marks) - MOST_NAMED
    return ", ".join(marks[:MOST_NAMED]) + (f" and {more:,} more" if more > 0 else "")
