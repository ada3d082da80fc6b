from marshmallow import EXCLUDE, Schema, fields, validate


class ReviewQuerySchema(Schema):
    class Meta:
        unknown = EXCLUDE

    day = fields.String(load_default="", validate=validate.Regexp(r"(\d{4}-\d\d-\d\d)?$"))
    state = fields.String(load_default="")
    job = fields.String(load_default="")
    kind = fields.String(load_default="")


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


class CountsSchema(Schema):
    recorded = fields.Integer(required=True)
    flagged = fields.Integer(required=True)
    open = fields.Integer(required=True)
    decided = fields.Integer(required=True)
    on_the_spot = fields.Integer(required=True)


class SilentSchema(Schema):
    device = fields.String(required=True)
    person = fields.String(required=True)
    last_heard = fields.Integer(required=True)
    waiting = fields.Integer(required=True)


class ListLineSchema(Schema):
    job = fields.String(required=True)
    piece = fields.String(required=True)
    mark = fields.String(required=True)
    kind = fields.String(required=True)
    step = fields.String(required=True)
    number = fields.String(required=True)
    name = fields.String(required=True)
    parties = fields.List(fields.String())
    behind = fields.List(fields.String())
    what = fields.String()
    number_of_report = fields.String()
    flag = fields.String()


class ListsSchema(Schema):
    ready_for_ai = fields.List(fields.Nested(ListLineSchema), required=True)
    blocked = fields.List(fields.Nested(ListLineSchema), required=True)
    reports = fields.List(fields.Nested(ListLineSchema), required=True)
    rework = fields.List(fields.Nested(ListLineSchema), required=True)


class ReviewSchema(Schema):
    day = fields.String(required=True)
    counts = fields.Nested(CountsSchema, required=True)
    lists = fields.Nested(ListsSchema, required=True)
    silent = fields.List(fields.Nested(SilentSchema), required=True)
    flags = fields.List(fields.Nested(FlagSchema), required=True)


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
    note = fields.String(required=True)


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
    verdict = fields.String(required=True)


class BasisSchema(Schema):
    plan = fields.String(required=True)
    figures = fields.Integer(required=True)


class GaugeLineSchema(Schema):
    name = fields.String(required=True)
    due = fields.String(required=True, allow_none=True)
    uncertainty = fields.String(required=True, allow_none=True)


class OpenedFlagSchema(FlagSchema):
    history = fields.List(fields.Nested(HistorySchema), required=True)
    photos = fields.List(fields.Nested(PhotoLineSchema), required=True)
    trend = fields.List(fields.Nested(TrendSchema), required=True)
    agree = fields.List(fields.String(), required=True)
    steps = fields.List(fields.Nested(StepPlaceSchema))
    repairs = fields.Integer()
    basis = fields.Nested(BasisSchema, required=True, allow_none=True)
    gauge = fields.Nested(GaugeLineSchema, required=True, allow_none=True)
