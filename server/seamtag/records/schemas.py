from marshmallow import Schema, fields


class HeadSchema(Schema):
    number = fields.Integer(required=True)
    hash = fields.String(required=True)


class OutcomeSchema(Schema):
    id = fields.String(required=True, metadata={"description": "the record's id; '' where it could not be read"})
    outcome = fields.String(
        required=True, metadata={"enum": ["taken in", "not taken in", "unreadable"], "description": "the server's word"}
    )
    reason = fields.String(required=True)
    number = fields.Integer(required=True, allow_none=True, metadata={"description": "its number in the chain"})
    verdict = fields.String(required=True, metadata={"description": "the server's verdict; '' where not taken in"})


COVERED = {"description": "entries up to this number are in a verified backup; 0 where there is none"}


class PushAnswerSchema(Schema):
    epoch = fields.String(required=True)
    head = fields.Nested(HeadSchema, required=True)
    covered = fields.Integer(required=True, metadata=COVERED)
    outcomes = fields.List(fields.Nested(OutcomeSchema), required=True)


class PushSchema(Schema):
    """Only for the description: a push is read by hand, so that one bad element never fails its neighbours."""

    device = fields.String(metadata={"description": "the phone's id"})
    waiting = fields.Integer(metadata={"description": "how many records wait on the phone after these"})
    records = fields.List(fields.String(metadata={"description": "compact JWS"}), required=True)


class RefusalSchema(Schema):
    digest = fields.String(required=True, metadata={"description": "SHA-256 of header.payload"})
    id = fields.String(required=True)
    reason = fields.String(required=True)
    received = fields.Integer(required=True, metadata={"description": "Unix seconds"})
    device = fields.String(required=True)
    person = fields.String(required=True)
    type = fields.String(required=True)
    job = fields.String(required=True)
    piece = fields.String(required=True)
