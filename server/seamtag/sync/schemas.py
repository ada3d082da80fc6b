from marshmallow import EXCLUDE, Schema, fields, validate

from seamtag.records.schemas import COVERED, HeadSchema


class FeedQuerySchema(Schema):
    class Meta:
        unknown = EXCLUDE

    scope = fields.String(required=True, metadata={"description": "'shop' or 'job:ID'"})
    after = fields.Integer(
        load_default=0, validate=validate.Range(min=0, max=2**53), metadata={"description": "cursor"}
    )
    most = fields.Integer(load_default=500, validate=validate.Range(min=1, max=1000))
    device = fields.String(load_default="", validate=validate.Length(max=64))
    waiting = fields.Integer(load_default=0, validate=validate.Range(min=0, max=2**31 - 1))
    oldest = fields.Integer(load_default=0, metadata={"description": "seconds that the oldest unsent record waits"})
    holds = fields.Integer(load_default=0, metadata={"description": "seconds the phone can hold out; 0: not known"})


class FeedEntrySchema(Schema):
    number = fields.Integer(required=True)
    kind = fields.String(required=True)
    body = fields.Raw(required=True, metadata={"description": "a record's compact JWS, or an object of master data"})
    stamp = fields.Dict(required=True)
    verdict = fields.String(metadata={"description": "of a record: the server's verdict"})


class FeedSchema(Schema):
    epoch = fields.String(required=True)
    head = fields.Nested(HeadSchema, required=True)
    entries = fields.List(fields.Nested(FeedEntrySchema), required=True)
    covered = fields.Integer(required=True, metadata=COVERED)
    more = fields.Boolean(required=True)
