"""The list of a job's pieces as a workbook or CSV: in with the place of every fault, and out again without loss."""

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from seamtag.core import formula, numbers
from seamtag.jobs.opening import JobError
from seamtag.spreadsheet import Column, Row, SheetError, Table, read_list, write_workbook

SHEET = "Pieces"
COLUMNS = (
    Column("mark", "As struck or painted on the piece: S-14", True, 12),
    Column("kind", "One of the kinds that the plan's steps name: long seam", True, 24),
    Column("name", "In words: long seam of course 1", wide=34),
    Column("part of", "Marks of what it is a part of, with commas between: CR-1", wide=18),
    Column("joins", "Marks of what a joint joins, with commas between: PL-1, PL-2", wide=18),
    Column("sheet", "The drawing sheet", wide=10),
    Column("place", "Where the tag goes", wide=30),
)
SEPARATOR = ","


def table_for(document: Mapping[str, Any]) -> Table:
    """The columns of a list for a plan: those of every list, and one a figure that differs from piece to piece."""
    figures = [Column(name, f"{figure['what']}, {figure['uom']}", wide=12)
               for name, figure in document["piece_figures"].items()]  # fmt: skip
    return Table(SHEET, (*COLUMNS, *figures))


def read(content: bytes, name: str, document: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The rows of a list of pieces, as `opening.add_pieces` takes them. name: of the file, for what is said about it.

    Raises JobError with every fault, each with its row and column.
    """
    pieces, faults = read_whole(content, name, document)
    if faults:
        raise JobError(faults)
    return pieces


def read_whole(
    content: bytes, name: str, document: Mapping[str, Any], there: Container[str] = ()
) -> tuple[list[dict[str, Any]], list[str]]:
    """The pieces of a list as far as they can be read, and every fault. there: marks that the job has already."""
    faults: list[str] = []
    try:
        rows = read_list(content, name, table_for(document), faults)
    except SheetError as error:
        return [], error.faults
    pieces, wrong = pieces_of_rows(rows, document, there)
    faults += wrong
    if not rows and not faults:
        faults.append("The list has no piece: below the names of the columns comes a row for each.")
    return pieces, faults


def typed(cells: Iterable[Mapping[str, str]]) -> list[Row]:
    """Rows that were typed on a screen, by the same columns; empty ones are passed over."""
    rows = [{name: text.strip() for name, text in row.items()} for row in cells]
    return [Row(f"row {number}", row) for number, row in enumerate(rows, 1) if any(row.values())]


def pieces_of_rows(
    rows: Sequence[Row], document: Mapping[str, Any], there: Container[str] = ()
) -> tuple[list[dict[str, Any]], list[str]]:
    pieces = [piece_of(row, document) for row in rows]
    return pieces, list(faults_of(rows, pieces, document, there))


def piece_of(row: Row, document: Mapping[str, Any]) -> dict[str, Any]:
    figures = {name: row[name] for name in document["piece_figures"] if row[name]}
    return {
        "mark": row["mark"], "kind": row["kind"], "name": row["name"], "part_of": marks_of(row["part of"]),
        "joins": marks_of(row["joins"]), "figures": figures, "sheet": row["sheet"], "place": row["place"],
    }  # fmt: skip


def marks_of(text: str) -> list[str]:
    return [mark.strip() for mark in text.replace("\n", SEPARATOR).split(SEPARATOR) if mark.strip()]


def faults_of(
    rows: Sequence[Row], pieces: Sequence[Mapping[str, Any]], document: Mapping[str, Any], there: Container[str] = ()
) -> Iterator[str]:
    known = kinds_of(document)
    needed = {kind: figures_needed(document, kind) for kind in known}
    wholes = {mark for piece in pieces for mark in piece["part_of"]}
    first: dict[str, Row] = {}
    for row in rows:
        first.setdefault(row["mark"], row)
    for row, piece in zip(rows, pieces, strict=True):
        mark, kind = piece["mark"], piece["kind"]
        if not mark:
            yield f"{row.at('mark')}: the mark is missing"
        elif SEPARATOR in mark:
            yield f"{row.at('mark')}: '{mark}' has a comma in it, which parts marks from each other"
        elif first[mark] is not row:
            yield f"{row.at('mark')}: '{mark}' stands in row {first[mark].place.rpartition(' ')[2]} already"
        elif mark in there:
            yield f"{row.at('mark')}: the job has a piece '{mark}' already"
        if not kind:
            yield f"{row.at('kind')}: the kind is missing"
        elif kind not in known and mark not in wholes:
            near = get_close_matches(kind, known, 1, 0.6)
            looks = f"; is '{near[0]}' meant?" if near else f". The plan has {', '.join(known)}"
            yield f"{row.at('kind')}: no step is for the kind '{kind}', and nothing is a part of this piece{looks}"
        for key, column in (("part_of", "part of"), ("joins", "joins")):
            for other in piece[key]:
                if other not in first and other not in there:
                    yield f"{row.at(column)}: '{other}' is no mark of this list"
                elif other == mark:
                    yield f"{row.at(column)}: names the piece itself"
        yield from faults_of_figures(row, piece, needed.get(kind, set()))


def faults_of_figures(row: Row, piece: Mapping[str, Any], needed: Iterable[str]) -> Iterator[str]:
    for name, typed in piece["figures"].items():
        try:
            numbers.parse(typed)
        except numbers.NumberError as error:
            yield f"{row.at(name)}: {error}"
    for name in sorted({*needed} - {*piece["figures"]}):
        yield f"{row.at(name)}: is missing; a limit of its steps asks for it"


def kinds_of(document: Mapping[str, Any]) -> list[str]:
    return list(dict.fromkeys(kind for step in document["steps"] for kind in step["kinds"]))


def figures_needed(document: Mapping[str, Any], kind: str) -> set[str]:
    """The figures of a piece that formulas in the steps of a kind look up."""
    trees = [item[part]["tree"] for step in document["steps"] if kind in step["kinds"] for item in step["items"]
             for part in ("lower", "upper", "only_if", "formula", "thickness") if part in item]  # fmt: skip
    named = {part[1] for tree in trees for part in formula.walk(tree) if part[0] == "name"}
    return named & {*document["piece_figures"]}


def write(pieces: Iterable[Mapping[str, Any]], document: Mapping[str, Any]) -> bytes:
    """A workbook with the list, from which `read` makes the same pieces. pieces: with marks in part_of and joins."""
    rows = [
        {**{key: piece.get(key, "") for key in ("mark", "kind", "name", "sheet", "place")},
         "part of": ", ".join(piece.get("part_of") or []), "joins": ", ".join(piece.get("joins") or []),
         **(piece.get("figures") or {})}
        for piece in pieces
    ]  # fmt: skip
    return write_workbook([(table_for(document), rows)])
