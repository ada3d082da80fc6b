from marshmallow import Schema, fields, validate

from seamtag.fields import A_DAY

ORDER = ("overdue", "due soon", "in date", "no day")


class CertificateSchema(Schema):
    """A gauge as its newest certificate says."""

    id = fields.String(required=True)
    kind = fields.String(required=True)
    name = fields.String(required=True)
    uom = fields.String(required=True)
    uncertainty = fields.String(
        load_default=None, allow_none=True, metadata={"description": "expanded uncertainty U, k = 2, in uom"}
    )
    certificate = fields.String(load_default="")
    calibrated = fields.String(load_default=None, allow_none=True, metadata=A_DAY)
    due = fields.String(load_default=None, allow_none=True, metadata={"description": "the last day it may be used"})


class GaugeSchema(CertificateSchema):
    standing = fields.String(required=True, validate=validate.OneOf(ORDER))
    left = fields.Integer(required=True, allow_none=True, metadata={"description": "days until it is due"})


class SinceSchema(Schema):
    since = fields.String(required=True, metadata=A_DAY)


class TouchedSchema(Schema):
    record = fields.String(required=True)
    job = fields.String(required=True)
    piece = fields.String(required=True)
    mark = fields.String(required=True)
    step = fields.String(required=True)
    item = fields.String(required=True)
    name = fields.String(required=True, metadata={"description": "name of the item, its code where none is known"})
    station = fields.String(required=True)
    entered = fields.String(required=True)
    uom = fields.String(required=True)
    by = fields.String(required=True, metadata={"description": "name of the person"})
    at = fields.String(required=True)
    verdict = fields.String(required=True)
    standing = fields.String(required=True, metadata={"description": "'in force', or why it does not count any more"})


class TouchedReadingsSchema(Schema):
    gauge = fields.Nested(GaugeSchema, required=True)
    count = fields.Integer(required=True)
    readings = fields.List(fields.Nested(TouchedSchema), required=True, metadata={"description": "the newest first"})
