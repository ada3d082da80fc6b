from marshmallow import EXCLUDE, Schema, fields, validate

from seamtag.jobs.schemas import BehindSchema


class DayQuerySchema(Schema):
    class Meta:
        unknown = EXCLUDE

    day = fields.String(load_default="", validate=validate.Regexp(r"(\d{4}-\d\d-\d\d)?$"))
    shift = fields.Integer(load_default=0, metadata={"description": "from 1; 0 for the whole day"})


class ReviewQuerySchema(DayQuerySchema):
    state = fields.String(load_default="")
    job = fields.String(load_default="")
    stage = fields.String(load_default="", metadata={"description": "number of a plan's stage"})
    kind = fields.String(load_default="")
    person = fields.String(load_default="", metadata={"description": "id of who recorded it"})


class ListQuerySchema(Schema):
    class Meta:
        unknown = EXCLUDE

    job = fields.String(load_default="")


class DaySheetQuerySchema(DayQuerySchema):
    paper = fields.String(load_default="a4", validate=validate.OneOf(["a4", "letter"]))


class ReworkSheetQuerySchema(ListQuerySchema):
    paper = fields.String(load_default="a4", validate=validate.OneOf(["a4", "letter"]))


class DecisionQuerySchema(ListQuerySchema):
    which = fields.String(load_default="open", validate=validate.OneOf(["open", "all"]))


class PiecePlaceSchema(Schema):
    id = fields.String(required=True)
    mark = fields.String(required=True)
    kind = fields.String(required=True)
    name = fields.String(required=True)


class StepPlaceSchema(Schema):
    code = fields.String(required=True)
    number = fields.String(required=True)
    name = fields.String(required=True)


class ItemPlaceSchema(Schema):
    code = fields.String(required=True)
    name = fields.String(required=True)
    binds = fields.String(required=True)
    source = fields.String(required=True)


class LimitsSchema(Schema):
    lower = fields.String(required=True, allow_none=True)
    upper = fields.String(required=True, allow_none=True)


class FlagSchema(Schema):
    id = fields.String(required=True)
    kind = fields.String(required=True)
    state = fields.String(required=True)
    job = fields.String(required=True)
    station = fields.String(required=True)
    record = fields.String(required=True)
    disposition = fields.String(required=True)
    reason = fields.String(required=True)
    past = fields.Float(required=True, allow_none=True, metadata={"description": "past the limit, in tolerances"})
    piece = fields.Nested(PiecePlaceSchema, required=True)
    step = fields.Nested(StepPlaceSchema, required=True)
    item = fields.Nested(ItemPlaceSchema, required=True)
    value = fields.String(required=True, allow_none=True)
    margin = fields.String(required=True, allow_none=True)
    uom = fields.String(required=True)
    limits = fields.Nested(LimitsSchema, required=True, allow_none=True)
    by = fields.String(required=True)
    at = fields.String(required=True)
    verdict = fields.String(required=True)
    stage = fields.String(required=True)


class OfDaySchema(Schema):
    open = fields.Integer(required=True)
    decided = fields.Integer(required=True)
    on_the_spot = fields.Integer(required=True)
    closed = fields.Integer(required=True)


class CountsSchema(Schema):
    recorded = fields.Integer(required=True)
    flagged = fields.Integer(required=True)
    open = fields.Integer(required=True)
    decided = fields.Integer(required=True)
    on_the_spot = fields.Integer(required=True)
    released = fields.Integer(required=True)
    of_day = fields.Nested(OfDaySchema, required=True, metadata={"description": "flags of the day's records, by state"})


class SilentSchema(Schema):
    device = fields.String(required=True)
    person = fields.String(required=True)
    last_heard = fields.Integer(required=True)
    waiting = fields.Integer(required=True)
    oldest = fields.Integer(required=True, metadata={"description": "Unix second; 0 where it did not say"})
    holds_until = fields.Integer(required=True, metadata={"description": "Unix second; 0 where it did not say"})


class MissingSchema(Schema):
    person = fields.String(required=True)
    last = fields.Integer(required=True)


class WaitingLineSchema(Schema):
    class Meta:
        unknown = EXCLUDE

    job = fields.String(required=True)
    piece = fields.String(required=True)
    mark = fields.String(required=True)
    kind = fields.String(required=True)
    step = fields.String(required=True)
    number = fields.String(required=True)
    name = fields.String(required=True)
    since = fields.Integer(required=True, metadata={"description": "Unix second since when it is on the list"})
    parties = fields.List(fields.String())
    behind = fields.List(fields.Nested(BehindSchema))
    what = fields.String()
    station = fields.String()
    state = fields.String(metadata={"description": "of a report: asked for, or in"})
    result = fields.String()
    number_of_report = fields.String()
    disposition = fields.String()
    ncr = fields.String()
    flag = fields.String(metadata={"description": "of a decision: the kind of flag it is about"})
    flags = fields.Integer(metadata={"description": "how many flags are open at the step"})


class FirstLinesSchema(Schema):
    count = fields.Integer(required=True)
    lines = fields.List(fields.Nested(WaitingLineSchema), required=True)


class ListsSchema(Schema):
    ready_for_ai = fields.Nested(FirstLinesSchema, required=True)
    blocked = fields.Nested(FirstLinesSchema, required=True)
    reports = fields.Nested(FirstLinesSchema, required=True)
    rework = fields.Nested(FirstLinesSchema, required=True)


class ChoiceSchema(Schema):
    value = fields.String(required=True)
    name = fields.String(required=True)
    count = fields.Integer(required=True)


class FiltersSchema(Schema):
    job = fields.List(fields.Nested(ChoiceSchema), required=True)
    stage = fields.List(fields.Nested(ChoiceSchema), required=True)
    kind = fields.List(fields.Nested(ChoiceSchema), required=True)
    person = fields.List(fields.Nested(ChoiceSchema), required=True)
    left = fields.Integer(required=True, metadata={"description": "flags that the filters let through"})


class ReviewSchema(Schema):
    """The answer is written without a pass through these fields, for speed; a test holds it to them."""

    day = fields.String(required=True)
    shift = fields.Integer(required=True)
    shifts = fields.List(fields.String(), required=True)
    start = fields.Integer(required=True)
    end = fields.Integer(required=True)
    report_days = fields.Integer(required=True, metadata={"description": "after which a report is overdue"})
    counts = fields.Nested(CountsSchema, required=True)
    lists = fields.Nested(ListsSchema, required=True)
    silent = fields.List(fields.Nested(SilentSchema), required=True)
    missing = fields.List(fields.Nested(MissingSchema), required=True)
    filters = fields.Nested(FiltersSchema, required=True)
    flags = fields.List(fields.Nested(FlagSchema), required=True)


class SpotSchema(Schema):
    number = fields.String(required=True)
    item = fields.String(required=True)
    count = fields.Integer(required=True)
    flags = fields.List(fields.Nested(FlagSchema), required=True)


class DecisionSchema(Schema):
    id = fields.String(required=True)
    state = fields.String(required=True)
    job = fields.String(required=True)
    piece = fields.Nested(PiecePlaceSchema, required=True)
    step = fields.Nested(StepPlaceSchema, required=True)
    item = fields.Nested(ItemPlaceSchema, required=True)
    station = fields.String(required=True)
    flag = fields.String(required=True, metadata={"description": "the kind of flag it was made about"})
    record = fields.String(required=True)
    value = fields.String(required=True, allow_none=True)
    uom = fields.String(required=True, allow_none=True)
    limits = fields.Nested(LimitsSchema, required=True, allow_none=True)
    disposition = fields.String(required=True)
    ncr = fields.String(required=True)
    reason = fields.String(required=True)
    extent = fields.String(required=True)
    cycle = fields.Integer(required=True)
    again = fields.List(fields.String(), required=True)
    lacking = fields.List(fields.String(), required=True)
    by = fields.String(required=True)
    at = fields.String(required=True)
    received = fields.Integer(required=True)
    age = fields.Integer(required=True, metadata={"description": "days"})


class HeadNumberSchema(Schema):
    number = fields.Integer(required=True)


class HistorySchema(Schema):
    id = fields.String(required=True)
    type = fields.String(required=True)
    at = fields.String(required=True)
    station = fields.String(required=True)
    says = fields.String(required=True)
    by = fields.String(required=True)
    verdict = fields.String(required=True)
    standing = fields.String(required=True)
    why = fields.String(required=True)
    flag = fields.String(required=True, metadata={"description": "of a disposition, the kind of flag it is about"})
    note = fields.String(required=True)


class OtherSchema(HistorySchema):
    item = fields.String(required=True)


class MaterialSchema(Schema):
    name = fields.String(required=True)
    value = fields.String(required=True)
    station = fields.String(required=True)


class PhotoMarkSchema(Schema):
    shape = fields.String(required=True)
    x1 = fields.Integer(required=True, metadata={"description": "in ten-thousandths of the width, as x2"})
    y1 = fields.Integer(required=True, metadata={"description": "in ten-thousandths of the height, as y2"})
    x2 = fields.Integer(required=True)
    y2 = fields.Integer(required=True)


class PhotoLineSchema(Schema):
    sha256 = fields.String(required=True)
    here = fields.Boolean(required=True)
    shown = fields.String(required=True)
    width = fields.Integer(required=True)
    height = fields.Integer(required=True)
    marks = fields.List(fields.Nested(PhotoMarkSchema), required=True)


class TrendSchema(Schema):
    id = fields.String(required=True)
    value = fields.Float(required=True)
    lower = fields.Float(required=True, allow_none=True)
    upper = fields.Float(required=True, allow_none=True)
    verdict = fields.String(required=True)
    mark = fields.String(required=True)
    job = fields.String(required=True)


class BasisSchema(Schema):
    plan = fields.String(required=True)
    figures = fields.Integer(required=True)


class GaugeLineSchema(Schema):
    name = fields.String(required=True)
    due = fields.String(required=True, allow_none=True)
    uncertainty = fields.String(required=True, allow_none=True)


class OpenedFlagSchema(FlagSchema):
    history = fields.List(fields.Nested(HistorySchema), required=True)
    others = fields.List(fields.Nested(OtherSchema), required=True)
    photos = fields.List(fields.Nested(PhotoLineSchema), required=True)
    trend = fields.List(fields.Nested(TrendSchema), required=True)
    agree = fields.List(fields.String(), required=True)
    steps = fields.List(fields.Nested(StepPlaceSchema), required=True)
    cycle = fields.Integer(required=True, metadata={"description": "the number that a repair would have"})
    basis = fields.Nested(BasisSchema, required=True, allow_none=True)
    gauge = fields.Nested(GaugeLineSchema, required=True, allow_none=True)
    material = fields.List(fields.Nested(MaterialSchema), required=True)
    procedures = fields.List(fields.String(), required=True)
    alike = fields.List(fields.String(), required=True, metadata={"description": "ids of flags one word may settle"})
