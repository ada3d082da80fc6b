from marshmallow import Schema, fields, validate

from seamtag.fields import A_DAY


class ProofSchema(Schema):
    proof = fields.String(
        required=True,
        validate=validate.Length(max=8000),
        metadata={"description": "compact JWS (ES256) by the key itself; its payload is described at the route"},
    )


class PersonSchema(Schema):
    id = fields.String(required=True)
    name = fields.String(required=True)
    roles = fields.List(fields.String(), required=True)
    stamp = fields.String(required=True)


class EnrolledSchema(Schema):
    person = fields.Nested(PersonSchema, required=True)
    kid = fields.String(required=True, metadata={"description": "RFC 7638 thumbprint of the key"})


class ChallengeSchema(Schema):
    nonce = fields.String(required=True)


class WantedSchema(Schema):
    person = fields.String(required=True, metadata={"description": "id of the person to invite"})


class ShutOutSchema(Schema):
    since = fields.AwareDateTime(
        required=True, format="iso", metadata={"description": "since when what the phone made is in doubt, with offset"}
    )
    reason = fields.String(required=True, validate=validate.Length(1, 500))


class ShutSchema(Schema):
    device = fields.String(required=True)
    kids = fields.List(fields.String(), required=True, metadata={"description": "thumbprints of its keys"})


class SymbolSchema(Schema):
    """A QR symbol to draw: the side in modules with the quiet zone, and the path of what is dark."""

    side = fields.Integer(required=True)
    path = fields.String(required=True)


class InvitationSchema(Schema):
    invitation = fields.String(required=True, metadata={"description": "one-time code, shown once"})
    address = fields.String(required=True, metadata={"description": "where the phone goes with it"})
    symbol = fields.Nested(SymbolSchema, required=True, metadata={"description": "the address, to be scanned"})
    expires = fields.Integer(required=True, metadata={"description": "Unix second until which it can be used"})


class EngagedSchema(PersonSchema):
    commission = fields.String(
        load_default="", metadata={"description": "of an authorized inspector: number of the commission"}
    )
    stands_in_for = fields.String(
        load_default="", metadata={"description": "id of the authorized inspector whose place is taken in absence"}
    )


class PhoneSchema(Schema):
    device = fields.String(required=True)
    kid = fields.String(required=True, metadata={"description": "thumbprint of its key"})
    shut = fields.Boolean(required=True, metadata={"description": "what it sends is not taken in"})
    last_heard = fields.Integer(required=True, allow_none=True, metadata={"description": "Unix second"})
    waiting = fields.Integer(required=True, metadata={"description": "records it said had yet to go"})


class ListedPersonSchema(EngagedSchema):
    phones = fields.List(fields.Nested(PhoneSchema), required=True)


class QualificationSchema(Schema):
    """A welder's test by one process; lengths in inches."""

    id = fields.String(required=True)
    person = fields.String(required=True, metadata={"description": "id"})
    process = fields.String(required=True)
    test = fields.String(required=True)
    coupon = fields.String(required=True, metadata={"description": "thickness"})
    layers = fields.Integer(required=True)
    coupon_od = fields.String(load_default=None, allow_none=True)
    tested = fields.String(required=True, metadata=A_DAY)
    certificate = fields.String(load_default="")
    continued = fields.String(load_default=None, allow_none=True, metadata=A_DAY)


class HeldSchema(QualificationSchema):
    name = fields.String(required=True)


class ContinuitySchema(Schema):
    person = fields.String(required=True)
    name = fields.String(required=True)
    stamp = fields.String(required=True)
    process = fields.String(required=True)
    last = fields.String(required=True, metadata={"description": "day of the last proof"})
    lapses = fields.String(required=True, metadata=A_DAY)
    lapsed = fields.Boolean(required=True)
    left = fields.Integer(required=True, metadata={"description": "days until it lapses"})


class QualificationsSchema(Schema):
    held = fields.List(fields.Nested(HeldSchema), required=True)
    lapses = fields.List(fields.Nested(ContinuitySchema), required=True)
