from marshmallow import EXCLUDE, Schema, fields, validate


class SizeSchema(Schema):
    class Meta:
        unknown = EXCLUDE

    size = fields.String(load_default="view", validate=validate.OneOf(("large", "view", "thumb")))


class ReceivedSchema(Schema):
    sha256 = fields.String(required=True)
    outcome = fields.String(required=True, metadata={"description": "'taken in'"})
    shown = fields.String(required=True, metadata={"description": "'yes', or why the picture cannot be shown"})
