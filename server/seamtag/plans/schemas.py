from marshmallow import Schema, fields, validate


class PlanRevisionSchema(Schema):
    hash = fields.String(required=True, metadata={"description": "SHA-256 of the document"})
    code = fields.String(required=True)
    revision = fields.Integer(required=True)
    title = fields.String(required=True)
    jobs = fields.List(fields.String(), required=True, metadata={"description": "jobs judged by it now"})


class PlanFileSchema(Schema):
    name = fields.String(required=True)
    content = fields.String(
        required=True,
        validate=validate.Length(max=15_000_000),
        metadata={"description": "the file in base64: a workbook (XLSX), YAML, or JSON with the keys of the YAML"},
    )
    figures = fields.Dict(
        keys=fields.String(), values=fields.String(), load_default=dict,
        metadata={"description": "figures to work the limits out for, as typed"},
    )  # fmt: skip


class PublishSchema(Schema):
    name = fields.String(required=True)
    content = fields.String(required=True, validate=validate.Length(max=15_000_000))


class ShownLimitSchema(Schema):
    step = fields.String(required=True)
    item = fields.String(required=True)
    shown = fields.String(required=True, metadata={"description": "in both notations, or why it is not known"})


class CheckedSchema(Schema):
    title = fields.String(required=True)
    steps = fields.Integer(required=True)
    items = fields.Integer(required=True)
    faults = fields.List(fields.String(), required=True, metadata={"description": "every fault, with its place"})
    limits = fields.List(fields.Nested(ShownLimitSchema), required=True)
    source = fields.Dict(required=True, metadata={"description": "what the file says, by the keys of a plan's YAML"})


class WrittenSchema(Schema):
    """The plan's document, and the source that makes it."""

    hash = fields.String(required=True)
    code = fields.String(required=True)
    revision = fields.Integer(required=True)
    title = fields.String(required=True)
    source = fields.Dict(required=True)


class FormSchema(Schema):
    form = fields.String(load_default="xlsx", validate=validate.OneOf(["xlsx", "yaml"]))
