from marshmallow import Schema, fields


class TagSchema(Schema):
    code = fields.String(required=True)
    piece = fields.String(required=True, metadata={"description": "id of the piece"})
    mark = fields.String(required=True)
    job = fields.String(required=True)
    retired = fields.Boolean(required=True)
