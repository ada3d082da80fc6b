from marshmallow import Schema, fields, validate

MOST_ROWS = 20_000
TEXT = validate.Length(max=2_000)


def texts() -> fields.Dict:
    return fields.Dict(keys=fields.String(validate=TEXT), values=fields.String(validate=TEXT), load_default=dict)


class PlanNameSchema(Schema):
    hash = fields.String(required=True)
    code = fields.String(required=True)
    revision = fields.Integer(required=True)


class JobSchema(Schema):
    id = fields.String(required=True)
    title = fields.String(required=True)
    open = fields.Boolean(required=True)
    plan = fields.Nested(PlanNameSchema, required=True, allow_none=True)
    pieces = fields.Integer(required=True)


class FigureSchema(Schema):
    """A figure a plan asks for, and what is typed for it in a job."""

    name = fields.String(required=True)
    what = fields.String(required=True)
    uom = fields.String(required=True)
    typed = fields.String(required=True)


class ListedPieceSchema(Schema):
    """A piece as a list has it."""

    mark = fields.String(required=True)
    kind = fields.String(required=True)
    name = fields.String(required=True)
    part_of = fields.List(fields.String(), required=True, metadata={"description": "marks"})
    joins = fields.List(fields.String(), required=True, metadata={"description": "marks"})
    figures = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    sheet = fields.String(required=True)
    place = fields.String(required=True)


class PieceSchema(ListedPieceSchema):
    id = fields.String(required=True)
    remade = fields.String(required=True, metadata={"description": "mark of the piece made in its place"})


class JobPageSchema(JobSchema):
    figures = fields.List(fields.Nested(FigureSchema), required=True)
    drawings = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    piece_figures = fields.List(fields.Nested(FigureSchema), required=True)
    kinds = fields.List(fields.String(), required=True)
    changes = fields.List(fields.Dict(), required=True, metadata={"description": "its bases, the newest first"})


class ListFileSchema(Schema):
    name = fields.String(required=True)
    content = fields.String(
        required=True,
        validate=validate.Length(max=15_000_000),
        metadata={"description": "the file in base64: a workbook (XLSX) or CSV in UTF-8"},
    )


class ListSchema(Schema):
    """Pieces as a file, or as rows typed by the list's columns."""

    file = fields.Nested(ListFileSchema, load_default=None, allow_none=True)
    rows = fields.List(
        fields.Dict(keys=fields.String(validate=TEXT), values=fields.String(validate=TEXT)),
        load_default=list, validate=validate.Length(max=MOST_ROWS),
        metadata={"description": "a row a piece, by the columns of a list of pieces"},
    )  # fmt: skip


class NewJobSchema(ListSchema):
    job = fields.String(required=True, validate=TEXT)
    title = fields.String(load_default="", validate=TEXT)
    plan = fields.String(required=True, metadata={"description": "hash of a plan's revision"})
    figures = texts()
    drawings = texts()


class CheckedJobSchema(Schema):
    faults = fields.List(fields.String(), required=True)
    advice = fields.List(fields.String(), required=True, metadata={"description": "to look at; stops nothing"})
    pieces = fields.List(fields.Nested(ListedPieceSchema), required=True)


class ChangeSchema(Schema):
    """What of a job's basis changes; what is left out stays."""

    plan = fields.String(load_default="")
    figures = texts()
    drawings = texts()


class MadeChangeSchema(ChangeSchema):
    reason = fields.String(required=True, validate=[validate.Length(min=1, max=2_000)])


class PlaceSchema(Schema):
    piece = fields.String(required=True)
    mark = fields.String(required=True)
    kind = fields.String(required=True)
    step = fields.String(required=True)
    number = fields.String(required=True)
    name = fields.String(required=True)


class ChangedVerdictSchema(PlaceSchema):
    record = fields.String(required=True, metadata={"description": "'' for a value worked out"})
    item = fields.String(required=True)
    station = fields.String(required=True)
    says = fields.String(required=True)
    before = fields.String(required=True)
    after = fields.String(required=True)


class LostReleaseSchema(PlaceSchema):
    record = fields.String(required=True)
    party = fields.String(required=True)
    by = fields.String(required=True)
    at = fields.String(required=True)
    reason = fields.String(required=True)


class AskedAgainSchema(PlaceSchema):
    before = fields.String(required=True)
    after = fields.String(required=True)


class PreviewSchema(Schema):
    verdicts = fields.List(fields.Nested(ChangedVerdictSchema), required=True)
    releases = fields.List(fields.Nested(LostReleaseSchema), required=True)
    again = fields.List(fields.Nested(AskedAgainSchema), required=True)


class RemadeSchema(Schema):
    piece = fields.Nested(PieceSchema, required=True)
    moved = fields.List(fields.String(), required=True, metadata={"description": "marks of joints that join it now"})
    left = fields.List(fields.String(), required=True, metadata={"description": "marks of joints left as they were"})


class BoardStageSchema(Schema):
    """asked: pieces of which the stage asks something; the others are how many of these stand where."""

    number = fields.String(required=True)
    name = fields.String(required=True)
    asked = fields.Integer(required=True)
    released = fields.Integer(required=True)
    complete = fields.Integer(required=True)
    flagged = fields.Integer(required=True)
    blocked = fields.Integer(required=True)
    open = fields.Integer(required=True)


class WaitSchema(PlaceSchema):
    job = fields.String(required=True)
    party = fields.String(required=True)
    since = fields.String(required=True)


class BehindSchema(PlaceSchema):
    job = fields.String(required=True)
    party = fields.String(required=True)


class StoppedSchema(PlaceSchema):
    job = fields.String(required=True)
    parties = fields.List(fields.String(), required=True)
    behind = fields.List(fields.Nested(BehindSchema), required=True)


class ReportWaitSchema(PlaceSchema):
    job = fields.String(required=True)
    what = fields.String(required=True)
    number_of_report = fields.String(required=True)
    firm = fields.String(required=True)
    since = fields.String(required=True)
    overdue = fields.Boolean(required=True)


def counts() -> fields.Dict:
    return fields.Dict(keys=fields.String(), values=fields.Integer(), required=True)


class BoardJobSchema(Schema):
    job = fields.String(required=True)
    title = fields.String(required=True)
    plan = fields.Nested(PlanNameSchema, required=True)
    pieces = fields.Integer(required=True)
    stages = fields.List(fields.Nested(BoardStageSchema), required=True)
    waits = fields.List(fields.Nested(WaitSchema), required=True)
    waiting_for = counts()
    blocked = fields.List(fields.Nested(StoppedSchema), required=True)
    blocked_by = counts()
    blocked_count = fields.Integer(required=True)
    reports = fields.List(fields.Nested(ReportWaitSchema), required=True)
    reports_asked = fields.Integer(required=True)
    reports_in = fields.Integer(required=True)
    reports_overdue = fields.Integer(required=True)


class BoardSchema(Schema):
    jobs = fields.List(fields.Nested(BoardJobSchema), required=True)
    report_days = fields.Integer(required=True, metadata={"description": "after so many a report is overdue"})


class HeatSchema(Schema):
    heat = fields.String(required=True, validate=validate.Length(min=1, max=200))


class TracedPieceSchema(Schema):
    piece = fields.String(required=True)
    mark = fields.String(required=True)
    kind = fields.String(required=True)
    name = fields.String(required=True)
    remade = fields.Boolean(required=True)


class IntoSchema(TracedPieceSchema):
    how = fields.String(required=True, metadata={"description": "'part of', 'joined by' or 'welded with'"})


class NumberSchema(TracedPieceSchema):
    """A record that names a heat or lot number."""

    job = fields.String(required=True)
    record = fields.String(required=True)
    what = fields.String(required=True)
    type = fields.String(required=True)
    number = fields.String(required=True)
    by = fields.String(required=True)
    at = fields.String(required=True)
    standing = fields.String(required=True)
    count = fields.Integer(required=True, metadata={"description": "records that say the same; this is the newest"})


class UseSchema(NumberSchema):
    into = fields.List(fields.Nested(IntoSchema), required=True)


class MadeOfSchema(NumberSchema):
    how = fields.String(required=True, metadata={"description": "'itself', 'part', 'joined', 'joint' or 'filler'"})
