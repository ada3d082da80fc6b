"""Points, rules and stations of a plan in a line each, as a planner writes them in a workbook or in the plan editor.

Several entries of one text stand one a line; `\\` before a character that would part them keeps it as it is.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from seamtag.core.records import PARTIES
from seamtag.plans.reading import OF

POINT = re.compile(r"(\S+)\s+(\S+)(?:\s+(?!not\s+maker\b)(.+?))?(\s+not\s+maker)?")
BEFORE = re.compile(r"(.+?)\s+of\s+(\w+)(?:\s*:\s*(.*?))?(?:\s+for:\s*(.*))?")
IN_LINES = (("points", "maker sign welder; QC H not maker; AI W"), ("not_before", "plate_cut, receipt of joins"))
"""What a step has in lines, each with an example."""


def point_of(text: str) -> dict[str, Any] | None:
    """`QC H not maker`; None where it is no point."""
    match = POINT.fullmatch(text)
    if not match or match[1] not in PARTIES:
        return None
    trade = {"trade": match[3]} if match[3] else {}
    return {"party": match[1], "point": match[2], **trade, **({"not_maker": True} if match[4] else {})}


def before_of(text: str) -> dict[str, Any] | None:
    """`seam_done of kinds: long seam; girth seam`; None where it is no rule."""
    match = BEFORE.fullmatch(text)
    if not match or match[2] not in OF:
        return None
    steps: Any = "earlier" if match[1] == "earlier" else [code.strip() for code in match[1].split(",")]
    found: dict[str, Any] = {"steps": steps, "of": match[2]}
    if match[3]:
        found["kinds"] = entries(match[3], ";")
    return {**found, "for": entries(match[4], ";")} if match[4] else found


def stations_of(text: str) -> dict[str, Any] | None:
    """`clock 4`, `names left 0; left 90`; None where it is neither."""
    style, _, rest = text.partition(" ")
    rest = rest.strip()
    if style == "clock":
        hours, _, seen = rest.partition(" seen from the ")
        clock: Any = int(hours) if hours.strip().isdigit() and ";" not in hours else entries(hours, ";")
        return {"clock": clock, **({"seen_from": seen.strip()} if seen else {})}
    if style == "numbered" and rest.isdigit():
        return {"numbered": int(rest)}
    if style == "names" and rest:
        return {"names": entries(rest, ";")}
    least, _, word = rest.partition(" ")
    if style == "least" and least.isdigit():
        return {"least": int(least), **({"word": word.strip()} if word else {})}
    return None


def point_text(point: Mapping[str, Any]) -> str:
    words = [point["party"], point["point"], point.get("trade", ""), "not maker" if point.get("not_maker") else ""]
    return " ".join(word for word in words if word)


def before_text(rule: Mapping[str, Any]) -> str:
    steps = rule["steps"] if rule["steps"] == "earlier" else ", ".join(rule["steps"])
    kinds = f": {joined(rule['kinds'], '; ')}" if "kinds" in rule else ""
    only = f" for: {joined(rule['for'], '; ')}" if "for" in rule else ""
    return f"{steps} of {rule['of']}{kinds}{only}"


def stations_text(stations: Mapping[str, Any]) -> str:
    if "clock" in stations:
        seen = f" seen from the {stations['seen_from']}" if stations.get("seen_from") else ""
        return f"clock {joined(stations['clock'], '; ')}{seen}"
    if "numbered" in stations:
        return f"numbered {stations['numbered']}"
    if "names" in stations:
        return f"names {joined(stations['names'], '; ')}"
    return f"least {stations['least']} {stations['word']}"


def joined(texts: Sequence[str], separator: str = "\n") -> str:
    """Entries as one text; what would part them is written with a `\\` before it."""
    part = separator.strip() or "\n"
    return separator.join(re.sub(rf"[\\{part}]", r"\\\g<0>", text) for text in texts)


def entries(text: str, also: str = "") -> list[str]:
    """The entries of one text: parted by line breaks, and by `also`."""
    found, now, kept = [], "", False
    for character in text:
        if kept:
            now, kept = now + character, False
        elif character == "\\":
            kept = True
        elif character == "\n" or character == also:
            found.append(now)
            now = ""
        else:
            now += character
    return [one.strip() for one in [*found, now] if one.strip()]


def in_lines(source: Mapping[str, Any]) -> dict[str, Any]:
    """The source with points, rules and stations as texts, for the plan editor."""
    return {**source, "steps": [step_in_lines(step) for step in source["steps"]]}


def step_in_lines(step: Mapping[str, Any]) -> dict[str, Any]:
    texts = {"points": [point_text(one) for one in step["points"]],
             "not_before": [before_text(one) for one in step.get("not_before", [])]}  # fmt: skip
    items = [{**item, "stations": stations_text(item["stations"])} if "stations" in item else item
             for item in step["items"]]  # fmt: skip
    return {**step, **{key: lines for key, lines in texts.items() if lines}, "items": items}


def out_of_lines(source: Mapping[str, Any], faults: list[str]) -> dict[str, Any]:
    """The source that the plan editor's texts mean; what cannot be read is added to the faults, with its place."""
    steps = source.get("steps")
    listed = steps if isinstance(steps, list) else []
    return {**source, "steps": [step_out_of_lines(s, faults) if isinstance(s, Mapping) else s for s in listed]}


def step_out_of_lines(step: Mapping[str, Any], faults: list[str]) -> dict[str, Any]:
    where = f"step {step.get('code')}"
    found = dict(step)
    for (key, example), read in zip(IN_LINES, (point_of, before_of), strict=True):
        if isinstance(step.get(key), list):
            lines = [read_line(line, read, f"{where}, {key}", example, faults) for line in step[key]]
            found[key] = [line for line in lines if line is not None]
    if isinstance(step.get("items"), list):
        found["items"] = [item_out_of_lines(item, where, faults) for item in step["items"]]
    return found


def item_out_of_lines(item: Any, where: str, faults: list[str]) -> Any:
    if not isinstance(item, Mapping) or not isinstance(item.get("stations"), str):
        return item
    place = f"{where}, item {item.get('code')}, stations"
    return {**item, "stations": read_line(item["stations"], stations_of, place, "clock 4; names left 0", faults)}


def read_line(
    line: Any, read: Callable[[str], dict[str, Any] | None], where: str, example: str, faults: list[str]
) -> Any:
    """What a line means; one that is no text stays as it is."""
    if not isinstance(line, str):
        return line
    found = read(line.strip())
    if found is None:
        faults.append(f"{where}: '{line[:60]}' cannot be read. Write it as in: {example}")
    return found
