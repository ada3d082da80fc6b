from marshmallow import Schema, fields, validate


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


class InvitationSchema(Schema):
    invitation = fields.String(required=True, metadata={"description": "one-time code, shown once"})
