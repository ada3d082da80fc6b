"""What a value that is worked out rests upon."""

from seamtag.core import formula
from seamtag.core.job import Item, Job, Step, reached


def inputs_of(step: Step, item: Item, job: Job) -> list[tuple[str, str]]:
    """The items, by step and code, that a derived item is worked out from, through other derived items as well."""
    return reached((step["code"], item["code"]), lambda key: direct_inputs(key[0], job.item(*key), job))


def direct_inputs(step_code: str, item: Item | None, job: Job) -> list[tuple[str, str]]:
    if item is None or item["kind"] != "derived":
        return []
    found = []
    for tree in formula.walk(item["formula"]["tree"]):
        if tree[0] == "item":
            found.append((tree[1], tree[2]))
        elif tree[0] == "name" and job.item(step_code, tree[1]) is not None:
            found.append((step_code, tree[1]))
    return found


def at(station: str, wanted: str) -> bool:
    """Whether a reading at a station counts for the value at another; all do where that has none."""
    return wanted == "" or station == wanted or station.startswith(wanted + " ")
