"""Whether the steps of a plan can be reached at all: nothing waits for itself, and no weld comes before its fit-up."""

from collections.abc import Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from typing import Any

from seamtag.core.job import Before, Job

Node = tuple[str, str]
"""A kind of piece, or a piece, and the code of a step."""

FITTER = "fitter"


def faults(document: Mapping[str, Any]) -> list[str]:
    """What is wrong with the order of a plan's steps, whichever pieces a job has.

    Rules that follow what a piece joins or its parts are left to `faults_of_job`: only the pieces tell.
    """
    graph = waits_by_kind(document)
    found = list(ahead_of_fit_up(document))
    circle = circle_in(graph)
    if not circle:
        return found
    shown = " -> ".join(f"{step} of {kind}" for kind, step in circle)
    found.append(f"step {circle[0][1]}, not_before: waits for itself: {shown}")
    inside = {step for _, step in circle}
    behind = sorted({step for kind, step in graph if leads_to((kind, step), set(circle), graph)} - inside)
    found += [f"step {step}: is never reached, since it waits for {circle[0][1]}" for step in behind]
    return found


def faults_of_job(job: Job) -> list[str]:
    """Whether a piece of a job waits for itself, by what it joins and what its parts are."""
    circle = [node for node in circle_in(waits_by_piece(job)) if node[0] and node[1] in job.steps]
    if not circle:
        return []
    if len(circle) == 1 or circle[0] != circle[-1]:
        circle.append(circle[0])
    shown = " -> ".join(f"{job.pieces[piece]['mark']} {step}" for piece, step in circle)
    return [f"piece {job.pieces[circle[0][0]]['mark']}, step {circle[0][1]}: waits for itself: {shown}"]


def ahead_of_fit_up(document: Mapping[str, Any]) -> Iterator[str]:
    """Kinds of piece that are welded in a step above the one in which a fitter signs for them."""
    for place, step in enumerate(document["steps"]):
        if not any(item["kind"] == "weld" for item in step["items"]):
            continue
        for later in document["steps"][place + 1 :]:
            if any(point.get("trade") == FITTER for point in later["points"]):
                for kind in sorted({*step["kinds"]} & {*later["kinds"]}):
                    yield (f"step {step['code']}, kinds: '{kind}' is welded here, ahead of its own fit-up in step "
                           f"{later['code']}")  # fmt: skip


def waits_by_kind(document: Mapping[str, Any]) -> dict[Node, set[Node]]:
    steps = document["steps"]
    kinds = {step["code"]: step["kinds"] for step in steps}
    stages = {stage["number"]: place for place, stage in enumerate(document["stages"])}
    graph: dict[Node, set[Node]] = {}
    for place, step in enumerate(steps):
        before = [s for s in steps if stages[s["stage"]] < stages[step["stage"]]]
        for kind in step["kinds"]:
            waits = {(kind, s["code"]) for s in steps[:place] if kind in s["kinds"]}
            waits |= {(k, s["code"]) for s in before if s["reach"] == "job" for k in s["kinds"]}
            for rule in step["not_before"]:
                if kind in rule.get("for", [kind]):
                    codes = [s["code"] for s in before] if rule["steps"] == "earlier" else rule["steps"]
                    waits |= {(k, code) for code in codes for k in kinds_of(rule, kind, kinds[code])}
            graph[kind, step["code"]] = waits
    return graph


def kinds_of(rule: Mapping[str, Any], own: str, asked: Iterable[str]) -> list[str]:
    """The kinds whose step a rule waits for; none where that depends on the pieces."""
    meant = {"piece": [own], "job": list(asked), "kinds": rule.get("kinds", [])}.get(rule["of"], [])
    return [kind for kind in asked if kind in meant]


def waits_by_piece(job: Job) -> dict[Node, set[Node]]:
    """What the step of each piece waits for, the same as `Job.before` says.

    What all pieces with a step wait for stands in the graph once, as a node without a piece: each for itself, a job of
    thousands of pieces would be millions of lines.
    """
    graph: dict[Node, set[Node]] = {}
    for piece, one in job.pieces.items():
        steps = job.steps_of(piece)
        for place, step in enumerate(steps):
            code = step["code"]
            waits = {(piece, earlier["code"]) for earlier in steps[:place]}
            if ("", code) not in graph:
                graph["", code] = nodes(job.holds_of_whole_job(step))
            waits.add(("", code))
            for number, rule in enumerate(step.get("not_before", [])):
                if one["kind"] not in rule.get("for", [one["kind"]]):
                    continue
                name = ("" if asks_the_same(rule, code) else piece, f"{code} {number}")
                if name not in graph:
                    graph[name] = nodes(job.asked_by(rule, piece, step))
                waits.add(name)
            graph[piece, code] = waits
    return graph


def asks_the_same(rule: Mapping[str, Any], code: str) -> bool:
    """Whether a rule asks the same of all pieces: none that follows pieces, or leaves the piece itself out."""
    return rule["of"] in ("job", "kinds") and (rule["steps"] == "earlier" or code not in rule["steps"])


def nodes(befores: Iterable[Before]) -> set[Node]:
    return {(before.piece, before.step) for before in befores}


def circle_in(graph: Mapping[Node, set[Node]]) -> list[Node]:
    """One circle, its first node again at its end; empty where there is none."""
    for node, waits in graph.items():
        if node in waits:
            return [node, node]
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        circle: list[Node] = list(reversed(error.args[1]))
        return circle
    return []


def leads_to(start: Node, targets: set[Node], graph: Mapping[Node, set[Node]]) -> bool:
    seen, waiting = {start}, [start]
    while waiting:
        for node in graph.get(waiting.pop(), set()):
            if node in targets:
                return True
            if node not in seen:
                seen.add(node)
                waiting.append(node)
    return False
