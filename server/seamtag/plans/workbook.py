"""A plan as a workbook: a sheet each for the plan, its stages, figures, tables, steps, items and who must agree.

`read` gives the same source that a plan's YAML gives, with the place of each row beside it, so that every fault names
sheet, row and column. How points, rules and stations are written in a cell, `lines.py` says.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from seamtag.plans.lines import (
    before_of,
    before_text,
    entries,
    joined,
    point_of,
    point_text,
    stations_of,
    stations_text,
)
from seamtag.plans.reading import BINDS, PlanError, Reader
from seamtag.plans.writing import source_of
from seamtag.spreadsheet import Column, Row, SheetError, Table, read_workbook, write_workbook

ABOUT = Table("Plan", (
    Column("what", "plan, title, notice or not recorder", True, 12),
    Column("says", "plan: a short name without blanks. title: as on the first page. notice: what everybody who uses "
           "the plan must know, such as the code edition it follows. not recorder: yes where nobody may decide "
           "about a finding of their own, no where they may.", True, 90),
))  # fmt: skip
STAGES = Table("Stages", (
    Column("number", "As text: '1, '2", True, 10), Column("name", "Shell, Tube sheets, Pressure test", True, 40),
))  # fmt: skip
FIGURES = Table("Figures", (
    Column("of", "job: typed once for the job. piece: differs from piece to piece.", True, 10),
    Column("name", "As limits use it: t_shell, D_furn. Letters, digits and _.", True, 18),
    Column("uom", "in, mm, psi, degF, count, %", True, 10),
    Column("what", "In words: shell plate thickness", True, 60),
))  # fmt: skip
TABLES = Table("Tables", (
    Column("table", "The name by which a limit looks it up: table('reinforcement', t_shell)", True, 18),
    Column("from", "The row holds from this value on. Give 'from' or 'after'.", wide=12),
    Column("after", "The row holds above this value.", wide=12),
    Column("value", "A number or a formula; 'none' where the table ends.", True, 16),
    Column("uom", "Of the value; once a table is enough.", wide=10),
    Column("x uom", "Of from and after; once a table is enough.", wide=10),
    Column("what", "What it gives; once a table is enough.", wide=40),
    Column("source", "Where it is printed, and whether you have read it there; once a table is enough.", wide=40),
))  # fmt: skip
AGREE = Table("Agree", (
    Column("binds", "code, drawing or shop: what the limit binds by", True, 12),
    Column("parties", "Who must agree that something past such a limit is used as it is: engineering, AI, customer. "
           "One a line; empty where nobody must.", True, 30),
))  # fmt: skip
STEPS = Table("Steps", (
    Column("code", "A short word without blanks: girth_fit", True, 18),
    Column("number", "As text: '2.3", True, 10),
    Column("stage", "The number of a stage", True, 8),
    Column("name", "Girth seam fit-up", True, 36),
    Column("kinds", "Kinds of piece it is done on, one a line: long seam, girth seam", True, 24),
    Column("points", "Who signs, in order, one a line: 'maker sign welder', 'QC H not maker', 'AI W'. A maker signs; "
           "others hold (H), witness (W), review (R) or are told by a sample (S).", True, 26),
    Column("reach", "piece, or job where it is signed once for all pieces", wide=8),
    Column("not before", "What must be released before, one a line: 'long_fit of piece', 'plate_cut, receipt of "
           "joins', 'earlier of job', 'seam_done of kinds: long seam; girth seam', and 'for: KIND; KIND' where it "
           "holds for some kinds only.", wide=36),
    Column("note", "Shown above the items", wide=30),
    Column("cautions", "What can hurt at this step, one a line", wide=50),
))  # fmt: skip
ITEMS = Table("Items", (
    Column("step", "The code of its step; items stand in their order", True, 18),
    Column("code", "A short word without blanks: gap", True, 12),
    Column("name", "As the inspector reads it: Root opening", True, 36),
    Column("kind", "visual, measure, derived, photo, weld, report or text", True, 10),
    Column("uom", "in, mm, degF, psi; of a measure or a derived item", wide=8),
    Column("stations", "Where it is measured: 'clock 4', 'clock 12; 3; 6; 9 seen from the front', 'numbered 3', "
           "'names left 0; left 90', 'least 10 hole'", wide=26),
    Column("where", "In words, for whoever measures", wide=26),
    Column("lower", "A number or a formula of figures: gap_nom - 1/32", wide=22),
    Column("upper", "A number or a formula of figures: min(t_shell/4, 1/8)", wide=22),
    Column("nominal", "Instead of lower and upper, with tolerance or plus and minus beside it", wide=14),
    Column("tolerance", "To both sides of the nominal", wide=12),
    Column("plus", "Above the nominal", wide=12),
    Column("minus", "Below the nominal", wide=12),
    Column("formula", "Of a derived item, by other items: spread(dia)", wide=26),
    Column("only if", "Asked only where this holds: d_open > 12", wide=18),
    Column("binds", "code, drawing or shop (shop where empty)", wide=10),
    Column("rule", "simple, or guarded: the gauge's uncertainty is kept off both limits", wide=10),
    Column("gauge", "The kind of gauge it is read by: hi-lo gauge", wide=20),
    Column("photo", "always, out (when out of tolerance), never", wide=8),
    Column("place", "What a worked-out value is rounded to: 0.001", wide=8),
    Column("thickness", "Of a weld: the thickness of weld metal, for the welder's qualification", wide=14),
    Column("fillet", "yes where a weld is a fillet", wide=8),
    Column("may not apply", "yes where a visual may be answered 'does not apply'", wide=12),
    Column("source", "Where the limit is from, and whether you have read it there", wide=36),
    Column("note", "Shown beside the item", wide=26),
))  # fmt: skip
SHEETS = (ABOUT, STAGES, FIGURES, TABLES, AGREE, STEPS, ITEMS)
SAME = ("code", "name", "kind", "uom", "where", "lower", "upper", "nominal", "tolerance", "plus", "minus", "formula",
        "binds", "rule", "gauge", "photo", "place", "thickness", "source", "note")  # fmt: skip
YES = {"yes": True, "no": False, "": False}
ABOUT_PLAN = ("plan", "title", "notice", "not recorder")


class Placed(dict[str, Any]):
    """A row of the source that knows where it stands in the workbook."""

    def __init__(self, row: Row, values: Mapping[str, Any]) -> None:
        super().__init__(values)
        self.place = row.place


def read(content: bytes) -> dict[str, Any]:
    """The document of a plan's workbook. Raises PlanError with all of its faults."""
    faults: list[str] = []
    try:
        rows = read_workbook(content, SHEETS, faults)
    except SheetError as error:
        raise PlanError(error.faults) from None
    source = Source(rows, faults).whole()
    reader = Reader(source)
    try:
        document = reader.document()
    except PlanError as error:
        places = places_of(source)
        raise PlanError([*faults, *(placed(fault, places) for fault in error.faults)]) from None
    if faults:
        raise PlanError(faults)
    return document


def places_of(source: Mapping[str, Any]) -> dict[str, str]:
    """Where each thing stands in the workbook, by the words with which the reader begins a fault about it."""
    found: dict[str, str] = {}
    for key in ("figures", "piece_figures"):
        for name, figure in source[key].items():
            found.setdefault(f"figure {name}", figure.place)
            found.setdefault(f"{key}: '{name}'", figure.place)
    for name, table in source["tables"].items():
        found[f"table {name}"] = table.place
        found |= {f"table {name}, row {number}": row.place for number, row in enumerate(table["rows"], 1)}
    for step in source["steps"]:
        found.setdefault(f"step {step['code']}", step.place)
        for item in step["items"]:
            found.setdefault(f"step {step['code']}, item {item['code']}", item.place)
    return found


def placed(fault: str, places: Mapping[str, str]) -> str:
    """A fault with its place in the workbook before it, by the longest beginning that is known."""
    begins = [words for words in places if fault.startswith(words) and not fault[len(words) : len(words) + 1].isalnum()]
    return f"{places[max(begins, key=len)]}: {fault}" if begins else fault


class Source:
    """The source of a plan out of the rows of its sheets; gathers faults on the way."""

    def __init__(self, rows: Mapping[str, Sequence[Row]], faults: list[str]) -> None:
        self.rows, self.faults = rows, faults

    def of(self, table: Table) -> Sequence[Row]:
        return self.rows.get(table.name, [])

    def whole(self) -> dict[str, Any]:
        figures = {of: self.figures(of) for of in ("job", "piece")}
        return {
            **self.about(),
            "stages": [Placed(row, {"number": row["number"], "name": row["name"]}) for row in self.of(STAGES)],
            "figures": figures["job"], "piece_figures": figures["piece"], "tables": self.tables(),
            "agree": self.agree(), "steps": self.steps(),
        }  # fmt: skip

    def about(self) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for row in self.of(ABOUT):
            if row["what"] not in ABOUT_PLAN:
                self.faults.append(f"{row.at('what')}: '{row['what']}' is not one of {', '.join(ABOUT_PLAN)}")
            elif row["what"] in found:
                self.faults.append(f"{row.at('what')}: '{row['what']}' stands twice")
            elif row["what"] == "not recorder" and row["says"].lower() not in YES:
                self.faults.append(f"{row.at('says')}: '{row['says']}' is not yes or no")
            else:
                found[row["what"]] = row["says"]
        found["not_recorder"] = YES[found.pop("not recorder", "").lower()]
        return found

    def figures(self, of: str) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for row in self.of(FIGURES):
            if of == "job" and row["of"] not in ("job", "piece"):
                self.faults.append(f"{row.at('of')}: '{row['of']}' is not one of job, piece")
            if row["of"] != of:
                continue
            if row["name"] in found:
                self.faults.append(f"{row.at('name')}: '{row['name']}' stands twice")
            found[row["name"]] = Placed(row, {"uom": row["uom"], "what": row["what"]})
        return found

    def tables(self) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for row in self.of(TABLES):
            if not row["table"]:
                self.faults.append(f"{row.at('table')}: the table's name is missing")
                continue
            table = found.setdefault(row["table"], Placed(row, {"rows": []}))
            for key, column in (("what", "what"), ("source", "source"), ("uom", "uom"), ("x_uom", "x uom")):
                if row[column] and table.setdefault(key, row[column]) != row[column]:
                    self.faults.append(f"{row.at(column)}: is not the same as in the first row of this table")
            edges = {key: row[key] for key in ("from", "after") if row[key]}
            if len(edges) > 1:
                self.faults.append(f"{row.place}: give 'from' or 'after', not both")
            value = {"value": row["value"]} if row["value"] else {}
            table["rows"].append(Placed(row, {**edges, **value}))
        return found

    def agree(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for row in self.of(AGREE):
            if row["binds"] in found:
                self.faults.append(f"{row.at('binds')}: '{row['binds']}' stands twice")
            elif row["binds"] not in BINDS:
                self.faults.append(f"{row.at('binds')}: '{row['binds']}' is not one of {', '.join(BINDS)}")
            else:
                found[row["binds"]] = entries(row["parties"])
        return found

    def steps(self) -> list[Placed]:
        found: list[Placed] = []
        for row in self.of(STEPS):
            if not row["code"]:
                self.faults.append(f"{row.at('code')}: the code is missing")
                continue
            values: dict[str, Any] = {key: row[key] for key in ("code", "number", "stage", "name", "note", "reach")}
            values["kinds"] = entries(row["kinds"], ";")
            values["points"] = self.each(row, "points", point_of)
            values["not_before"] = self.each(row, "not before", before_of)
            values["cautions"] = entries(row["cautions"])
            found.append(Placed(row, {key: value for key, value in values.items() if value}))
        items: dict[str, list[Placed]] = {step["code"]: [] for step in found}
        for row in self.of(ITEMS):
            if not row["code"]:
                self.faults.append(f"{row.at('code')}: the code is missing")
            elif row["step"] not in items:
                self.faults.append(f"{row.at('step')}: there is no step '{row['step']}' in sheet {STEPS.name}")
            else:
                items[row["step"]].append(self.item(row))
        for step in found:
            step["items"] = items[step["code"]]
        return found

    def each(self, row: Row, column: str, read_one: Callable[[str], Mapping[str, Any] | None]) -> list[Any]:
        found = []
        for text in entries(row[column]):
            one = read_one(text)
            if one is None:
                hint = next(c.hint for c in STEPS.columns if c.name == column)
                self.faults.append(f"{row.at(column)}: '{text[:60]}' cannot be read. {hint}")
            else:
                found.append(one)
        return found

    def item(self, row: Row) -> Placed:
        values: dict[str, Any] = {key: row[key] for key in SAME if row[key]}
        if row["only if"]:
            values["only_if"] = row["only if"]
        for key, column in (("fillet", "fillet"), ("may_not_apply", "may not apply")):
            if row[column].lower() not in YES:
                self.faults.append(f"{row.at(column)}: '{row[column]}' is not yes or no")
            elif YES[row[column].lower()]:
                values[key] = True
        if row["stations"]:
            values["stations"] = self.stations(row)
        return Placed(row, values)

    def stations(self, row: Row) -> dict[str, Any] | None:
        found = stations_of(row["stations"])
        if found is None:
            hint = next(column.hint for column in ITEMS.columns if column.name == "stations")
            self.faults.append(f"{row.at('stations')}: '{row['stations'][:60]}' cannot be read. {hint}")
        return found


def write(document: Mapping[str, Any]) -> bytes:
    """The workbook of a plan's document, from which `read` makes the same document."""
    return write_source(source_of(document))


def write_source(source: Mapping[str, Any]) -> bytes:
    figures = [{"of": of, "name": name, **figure} for of, key in (("job", "figures"), ("piece", "piece_figures"))
               for name, figure in source.get(key, {}).items()]  # fmt: skip
    about = [{"what": key, "says": source[key]} for key in ("plan", "title", "notice")]
    return write_workbook([
        (ABOUT, [*about, {"what": "not recorder", "says": "yes" if source.get("not_recorder") else "no"}]),
        (STAGES, source["stages"]),
        (FIGURES, figures),
        (TABLES, [row for name, table in source.get("tables", {}).items() for row in table_rows(name, table)]),
        (AGREE, [{"binds": binds, "parties": joined(parties)} for binds, parties in source["agree"].items()]),
        (STEPS, [step_row(step) for step in source["steps"]]),
        (ITEMS, [item_row(step["code"], item) for step in source["steps"] for item in step["items"]]),
    ])  # fmt: skip


def table_rows(name: str, table: Mapping[str, Any]) -> Iterable[dict[str, str]]:
    about = {"what": table.get("what", ""), "source": table.get("source", ""), "uom": table.get("uom", ""),
             "x uom": table.get("x_uom", "")}  # fmt: skip
    for row in table["rows"]:
        yield {"table": name, **{key: str(row[key]) for key in ("from", "after", "value") if key in row}, **about}
        about = {}


def step_row(step: Mapping[str, Any]) -> dict[str, str]:
    row = {key: step.get(key, "") for key in ("code", "number", "stage", "name", "note", "reach")}
    row["kinds"] = joined(step["kinds"], ";")
    row["points"] = joined([point_text(point) for point in step["points"]])
    row["not before"] = joined([before_text(rule) for rule in step.get("not_before", [])])
    row["cautions"] = joined(step.get("cautions", []))
    return row


def item_row(step: str, item: Mapping[str, Any]) -> dict[str, str]:
    row = {"step": step, **{key: str(item[key]) for key in SAME if key in item}}
    row["only if"] = item.get("only_if", "")
    row |= {column: "yes" for column, key in (("fillet", "fillet"), ("may not apply", "may_not_apply")) if key in item}
    return {**row, "stations": stations_text(item["stations"])} if "stations" in item else row
