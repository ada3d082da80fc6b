"""A plan as a file: YAML, a workbook (XLSX) or the editor's JSON in, the first two out, and one to begin with."""

import json
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

from seamtag.plans import lines, reading, workbook, writing

WORKBOOK = b"PK"


def document_of(content: bytes) -> dict[str, Any]:
    """The document of a plan's file, whichever of the two it is. Raises PlanError with all of its faults."""
    if content.startswith(WORKBOOK):
        return workbook.read(content)
    if content.startswith(b"{"):
        return of_editor(source_in(content))
    return reading.read(content.decode("utf-8", errors="replace"))


def of_editor(source: Mapping[str, Any]) -> dict[str, Any]:
    """The document of a source with lines in it. Raises PlanError with all of its faults."""
    faults: list[str] = []
    reader = reading.Reader(lines.out_of_lines(source, faults))
    reader.faults = faults
    return reader.document()


def source_in(content: bytes) -> dict[str, Any]:
    """The source in a JSON file, as the plan editor sends it. Raises PlanError where it is none."""
    try:
        source = json.loads(content)
    except (ValueError, RecursionError) as error:
        raise reading.PlanError([f"The plan file is not JSON: {str(error)[:80]}."]) from None
    if not isinstance(source, dict):
        raise reading.PlanError(["The plan file is not a plan: it must hold keys such as plan, title, stages, steps."])
    return source


def file_of(document: Mapping[str, Any], name: str) -> bytes:
    """The document as a file: a workbook where the name ends in .xlsx, else YAML."""
    if Path(name).suffix.lower() == ".xlsx":
        return workbook.write(document)
    return writing.as_yaml(document).encode()


def template() -> bytes:
    """A workbook with a small plan as an example, and a hint at the head of each column."""
    return workbook.write(reading.read(files("seamtag.plans").joinpath("template.yaml").read_text(encoding="utf-8")))
