from typing import Any

from marshmallow import EXCLUDE, Schema, ValidationError, fields, validate

from seamtag.trends.rules import RULES, USUAL_RULES, USUAL_WEIGHT

WHY = "in words; '' where nothing lacks"


class ItemPlaceSchema(Schema):
    plan = fields.String(required=True)
    step = fields.String(required=True)
    item = fields.String(required=True)
    step_number = fields.String(required=True)
    step_name = fields.String(required=True)
    name = fields.String(required=True)


class MeasuredItemSchema(ItemPlaceSchema):
    uom = fields.String(required=True)
    count = fields.Integer(required=True)
    last = fields.Integer(required=True, metadata={"description": "Unix second at which the newest came in"})


class ListedItemSchema(MeasuredItemSchema):
    recent = fields.Integer(required=True, metadata={"description": "how many of the newest values are looked at"})
    out = fields.Integer(required=True, metadata={"description": "of these in force, how many are out of tolerance"})


class OrderSchema(Schema):
    class Meta:
        unknown = EXCLUDE

    order = fields.String(load_default="newest", validate=validate.OneOf(["newest", "step"]))


def are_rules(text: str) -> None:
    """Ids of run rules with commas between."""
    for one in split(text):
        if one not in RULES:
            raise ValidationError(f"There is no run rule '{one[:40]}'. There are: {', '.join(RULES)}.")


def split(text: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.strip() for one in text.split(",") if one.strip()))


class TrendQuerySchema(Schema):
    class Meta:
        unknown = EXCLUDE

    plan = fields.String(
        load_default="", metadata={"description": "'' for the plan in which a value of the item came in last"}
    )
    step = fields.String(required=True)
    item = fields.String(required=True)
    job = fields.String(load_default="")
    gauge = fields.String(load_default="")
    maker = fields.String(load_default="", metadata={"description": "id of who recorded it"})
    procedure = fields.String(load_default="")
    kind = fields.String(load_default="", metadata={"description": "kind of the piece"})
    rules = fields.String(
        load_default=",".join(USUAL_RULES),
        validate=are_rules,
        metadata={"description": f"with commas between; of: {', '.join(RULES)}"},
    )
    weight = fields.Float(
        load_default=USUAL_WEIGHT,
        allow_nan=False,
        validate=validate.Range(0, 1, min_inclusive=False),
        metadata={"description": "of a new value in the moving average"},
    )
    show = fields.String(
        load_default="left",
        validate=validate.OneOf(["left", "found"]),
        metadata={"description": "left: what is in force; found: all but what was lined out"},
    )
    baseline = fields.String(
        load_default="first",
        validate=validate.OneOf(["first", "all"]),
        metadata={"description": "which values tell where it sits and how far it spreads: the first 100, or all"},
    )


def column(kind: type[fields.Field[Any]] = fields.String, none: bool = False) -> fields.List[Any]:
    return fields.List(kind(allow_none=none), required=True)


class TrendPointsSchema(Schema):
    """Columns as long as each other, in the order in which the values were made."""

    job = column()
    piece = column()
    mark = column()
    station = column()
    at = column()
    by = fields.List(fields.String(), required=True, metadata={"description": "empty where names are left out"})
    gauge = column()
    value = column(fields.Float)
    lower = column(fields.Float, none=True)
    upper = column(fields.Float, none=True)
    verdict = column()
    position = fields.List(
        fields.Float(),
        metadata={"description": "only where limits differ. Between two limits: -1 at the lower, 1 at the upper; "
                                 "beside one limit: the distance from it in the uom"},
    )  # fmt: skip


class TrendChoiceSchema(Schema):
    value = fields.String(required=True)
    count = fields.Integer(required=True)


class TrendFiltersSchema(Schema):
    job = fields.List(fields.Nested(TrendChoiceSchema), required=True)
    gauge = fields.List(fields.Nested(TrendChoiceSchema), required=True)
    maker = fields.List(fields.Nested(TrendChoiceSchema))
    procedure = fields.List(fields.Nested(TrendChoiceSchema), required=True)
    kind = fields.List(fields.Nested(TrendChoiceSchema), required=True)


class TrendSummarySchema(Schema):
    n = fields.Integer(required=True)
    mean = fields.Float(required=True)
    sd = fields.Float(required=True, allow_none=True)
    least = fields.Float(required=True)
    most = fields.Float(required=True)


class ControlLimitsSchema(Schema):
    centre = fields.Float(required=True)
    mr_bar = fields.Float(required=True)
    sigma = fields.Float(required=True, metadata={"description": "from the mean moving range"})
    lower = fields.Float(required=True)
    upper = fields.Float(required=True)
    mr_upper = fields.Float(required=True)
    baseline = fields.Integer(required=True, metadata={"description": "how many of the first values these are from"})


class AverageSchema(Schema):
    weight = fields.Float(required=True)
    values = column(fields.Float)
    lower = fields.List(
        fields.Float(),
        required=True,
        metadata={"description": "limits of the average at the first points; the last one holds for all that follow"},
    )
    upper = fields.List(fields.Float(), required=True)


class IntervalSchema(Schema):
    low = fields.Float(required=True)
    high = fields.Float(required=True)


class IndexSchema(Schema):
    value = fields.Float(required=True)
    interval = fields.Nested(IntervalSchema, required=True, metadata={"description": "of 95 %"})


class CapabilitySchema(Schema):
    sides = fields.String(required=True, metadata={"description": "both, lower or upper; '' where there is none"})
    cp = fields.Nested(IndexSchema, required=True, allow_none=True)
    cpk = fields.Nested(IndexSchema, required=True, allow_none=True)
    why = fields.String(required=True, metadata={"description": f"why there is none, {WHY}"})


class ShareSchema(Schema):
    n = fields.Integer(required=True)
    flagged = fields.Integer(required=True)
    share = fields.Float(required=True)
    low = fields.Float(required=True, metadata={"description": "end of the 95 % interval after Wilson"})
    high = fields.Float(required=True)
    small = fields.Boolean(required=True, metadata={"description": "fewer than 30 values"})


class TrendGroupSchema(ShareSchema):
    name = fields.String(required=True)
    mean = fields.Float(required=True, allow_none=True)
    sd = fields.Float(required=True, allow_none=True)


class TrendGroupsSchema(Schema):
    gauge = fields.List(fields.Nested(TrendGroupSchema), required=True)
    maker = fields.List(fields.Nested(TrendGroupSchema), metadata={"description": "lacks where names are left out"})
    procedure = fields.List(fields.Nested(TrendGroupSchema), required=True)
    kind = fields.List(fields.Nested(TrendGroupSchema), required=True)


class ItemTrendSchema(MeasuredItemSchema):
    looked_at = fields.Integer(required=True, metadata={"description": "newest values that the filters work within"})
    most = fields.Integer(required=True)
    older = fields.Boolean(required=True, metadata={"description": "whether there are older values beyond these"})
    show = fields.String(required=True)
    names_left_out = fields.Boolean(
        required=True, metadata={"description": "makers are compared only for supervisor, planner and engineer"}
    )
    people = fields.Dict(keys=fields.String(), values=fields.String(), required=True)
    filters = fields.Nested(TrendFiltersSchema, required=True)
    scale = fields.String(
        required=True,
        metadata={"description": "what the statistics are of: value, position, or none where they cannot be compared"},
    )
    unit = fields.String(required=True, metadata={"description": "of the statistics: uom, or half tolerance"})
    lower = fields.Float(required=True, allow_none=True, metadata={"description": "on the scale, where all are alike"})
    upper = fields.Float(required=True, allow_none=True)
    points = fields.Nested(TrendPointsSchema, required=True)
    summary = fields.Nested(TrendSummarySchema, required=True, allow_none=True)
    control = fields.Nested(ControlLimitsSchema, required=True, allow_none=True)
    ewma = fields.Nested(AverageSchema, required=True, allow_none=True)
    signals = fields.Dict(
        keys=fields.String(),
        values=fields.List(fields.Integer()),
        required=True,
        metadata={"description": "places of points, from 0, by run rule"},
    )
    correlation = fields.Float(
        required=True, allow_none=True, metadata={"description": "of each value with the one before it"}
    )
    watched = fields.List(
        fields.String(), required=True, metadata={"description": "the rules by which a flag is raised"}
    )
    why = fields.String(required=True, metadata={"description": f"why there are no control limits, {WHY}"})
    capability = fields.Nested(CapabilitySchema, required=True)
    verdicts = fields.Dict(keys=fields.String(), values=fields.Integer(), required=True)
    groups = fields.Nested(TrendGroupsSchema, required=True)


class DaysSchema(Schema):
    class Meta:
        unknown = EXCLUDE

    days = fields.Integer(load_default=7, validate=validate.Range(1, 3650))


class ProportionSchema(ItemPlaceSchema, ShareSchema):
    person = fields.String(required=True, metadata={"description": "'' where names are left out"})
    person_name = fields.String(required=True)


class ProportionsSchema(Schema):
    days = fields.Integer(required=True)
    since = fields.Integer(required=True, metadata={"description": "Unix second"})
    names_left_out = fields.Boolean(required=True)
    lines = fields.List(fields.Nested(ProportionSchema), required=True)
    left_off = fields.Integer(required=True)


class StagesQuerySchema(Schema):
    class Meta:
        unknown = EXCLUDE

    plan = fields.String(required=True)
    item = fields.String(load_default="", metadata={"description": "'' for every dimension, without values"})
    step = fields.String(load_default="")


class MeasuredStageSchema(Schema):
    step = fields.String(required=True)
    step_number = fields.String(required=True)
    step_name = fields.String(required=True)
    item = fields.String(required=True)
    name = fields.String(required=True)
    uom = fields.String(required=True)


class StageValueSchema(Schema):
    value = fields.Float(required=True)
    lower = fields.Float(required=True, allow_none=True)
    upper = fields.Float(required=True, allow_none=True)
    verdict = fields.String(required=True)
    record = fields.String(required=True)
    at = fields.String(required=True)


class StageRowSchema(Schema):
    job = fields.String(required=True)
    piece = fields.String(required=True)
    mark = fields.String(required=True)
    station = fields.String(required=True)
    values = fields.List(fields.Nested(StageValueSchema, allow_none=True), required=True)
    changes = fields.List(
        fields.Float(allow_none=True), required=True, metadata={"description": "from the value before, by stage"}
    )


class MeasuredDimensionSchema(Schema):
    stages = fields.List(
        fields.Nested(MeasuredStageSchema), required=True, metadata={"description": "in the plan's order"}
    )
    rows = fields.List(fields.Nested(StageRowSchema), required=True)
    single = fields.Integer(required=True, metadata={"description": "pieces and stations measured at one step only"})
    left_off = fields.Integer(required=True)


class StagesSchema(Schema):
    plan = fields.String(required=True)
    item = fields.String(required=True)
    step = fields.String(required=True)
    most = fields.Integer(required=True)
    dimensions = fields.List(fields.Nested(MeasuredDimensionSchema), required=True)


class StudyRowSchema(Schema):
    part = fields.String(required=True)
    operator = fields.String(required=True)
    value = fields.String(required=True, metadata={"description": "as typed: .875 or 7/8"})


class WatchSchema(Schema):
    plan = fields.String(load_default="", metadata={"description": "left out: the newest that measures it"})
    step = fields.String(required=True)
    item = fields.String(required=True)
    rules = fields.List(fields.String(), required=True, metadata={"description": "drift, and ids of run rules"})


class StudyQuerySchema(Schema):
    rows = fields.List(fields.Nested(StudyRowSchema), load_default=list)
    content = fields.String(
        load_default="",
        metadata={"description": "in place of rows: a workbook or CSV text in base64, columns part, operator, value"},
    )
    name = fields.String(load_default="", metadata={"description": "of the file"})
    comma = fields.Boolean(load_default=False, metadata={"description": "whether decimals stand after a comma"})
    tolerance = fields.String(load_default="", metadata={"description": "upper limit less lower, as typed"})


class StudyLineSchema(Schema):
    source = fields.String(required=True)
    squares = fields.Float(required=True)
    degrees = fields.Integer(required=True)
    mean = fields.Float(required=True)
    f = fields.Float(required=True, allow_none=True)
    p = fields.Float(required=True, allow_none=True)


class StudyComponentSchema(Schema):
    source = fields.String(required=True)
    variance = fields.Float(required=True)
    sd = fields.Float(required=True)
    contribution = fields.Float(required=True, metadata={"description": "percent of the total variance"})
    study = fields.Float(required=True, metadata={"description": "percent of the total standard deviation"})
    tolerance = fields.Float(
        required=True, allow_none=True, metadata={"description": "six standard deviations, percent of the tolerance"}
    )


class StudySchema(Schema):
    parts = fields.Integer(required=True)
    operators = fields.Integer(required=True)
    trials = fields.Integer(required=True)
    tolerance = fields.Float(required=True, allow_none=True)
    pooled = fields.Boolean(required=True, metadata={"description": "whether interaction counts as repeatability"})
    with_interaction = fields.List(fields.Nested(StudyLineSchema), required=True)
    without_interaction = fields.List(fields.Nested(StudyLineSchema), required=True)
    components = fields.List(fields.Nested(StudyComponentSchema), required=True)
    categories = fields.Integer(required=True, allow_none=True, metadata={"description": "parts told apart"})
    means = fields.List(fields.String(), required=True, metadata={"description": "what it means, in words"})
