from marshmallow import Schema, fields, validate

MOST_PINS = 2_000
ACROSS = 10_000
"""Pins are placed in ten-thousandths of the picture's width and height."""


class PinSchema(Schema):
    piece = fields.String(required=True, validate=validate.Length(max=200))
    x = fields.Integer(required=True, strict=True, validate=validate.Range(0, ACROSS))
    y = fields.Integer(required=True, strict=True, validate=validate.Range(0, ACROSS))


class PinsSchema(Schema):
    pins = fields.List(fields.Nested(PinSchema), required=True, validate=validate.Length(max=MOST_PINS))


class PictureFileSchema(Schema):
    name = fields.String(required=True)
    content = fields.String(
        required=True,
        validate=validate.Length(max=15_000_000),
        metadata={"description": "the file in base64: PNG or JPEG, or a PDF where the server can read one"},
    )


class NewDrawingSchema(Schema):
    sheet = fields.String(required=True, validate=validate.Length(min=1, max=40))
    revision = fields.String(load_default="", validate=validate.Length(max=40))
    title = fields.String(load_default="", validate=validate.Length(max=200))
    file = fields.Nested(PictureFileSchema, required=True)
    page = fields.Integer(
        load_default=1, validate=validate.Range(1, 10_000), metadata={"description": "of a PDF, from 1"}
    )
    pins = fields.List(
        fields.Nested(PinSchema), load_default=None, validate=validate.Length(max=MOST_PINS),
        metadata={"description": "left out: those that the sheet has already"},
    )  # fmt: skip


class DrawingSchema(Schema):
    id = fields.String(required=True)
    sheet = fields.String(required=True)
    revision = fields.String(required=True)
    title = fields.String(required=True)
    sha256 = fields.String(required=True, metadata={"description": "of its picture, fetched as photos are"})
    media_type = fields.String(required=True)
    width = fields.Integer(required=True)
    height = fields.Integer(required=True)
    pins = fields.List(fields.Nested(PinSchema), required=True)
