from marshmallow import Schema, fields, validate

from seamtag.tags.engraving import PLATES
from seamtag.tags.sheets import SHEETS


class TagSchema(Schema):
    code = fields.String(required=True)
    piece = fields.String(required=True, metadata={"description": "id of the piece"})
    mark = fields.String(required=True)
    job = fields.String(required=True)
    retired = fields.Boolean(required=True)


class TagRowSchema(Schema):
    piece = fields.String(required=True, metadata={"description": "id of the piece"})
    mark = fields.String(required=True)
    kind = fields.String(required=True)
    name = fields.String(required=True)
    place = fields.String(required=True, metadata={"description": "where the tag sits"})
    code = fields.String(required=True, metadata={"description": "the code in use; '' where there is none"})
    retired = fields.List(fields.String(), required=True, metadata={"description": "codes that were replaced"})
    remade = fields.String(required=True, metadata={"description": "id of the piece made in its place; '' for none"})
    stages = fields.List(
        fields.String(), required=True, metadata={"description": "numbers of the stages it goes through"}
    )
    state = fields.String(
        required=True,
        metadata={"description": "'' (nobody has put it on), put on, taken off, back on, gone inside, replaced"},
    )
    why = fields.String(required=True, metadata={"description": "of a tag that is off: heat, blast, or ''"})
    at = fields.String(required=True, metadata={"description": "when that was done, by the phone's clock"})
    by = fields.String(required=True, metadata={"description": "id of the person"})


class StageSchema(Schema):
    number = fields.String(required=True)
    name = fields.String(required=True)


class SheetSchema(Schema):
    id = fields.String(required=True)
    page = fields.List(fields.Float(), required=True, metadata={"description": "width and height in millimetres"})
    columns = fields.Integer(required=True)
    rows = fields.Integer(required=True)
    label = fields.List(fields.Float(), required=True, metadata={"description": "width and height in millimetres"})
    left = fields.Float(required=True)
    top = fields.Float(required=True)
    gap = fields.List(fields.Float(), required=True, metadata={"description": "between columns and between rows"})


class PlateSchema(Schema):
    id = fields.String(required=True)
    width = fields.Float(required=True, metadata={"description": "in millimetres"})
    height = fields.Float(required=True)
    hole = fields.Float(required=True, metadata={"description": "its diameter"})


class TagsSchema(Schema):
    job = fields.String(required=True)
    title = fields.String(required=True)
    stages = fields.List(fields.Nested(StageSchema), required=True)
    tags = fields.List(fields.Nested(TagRowSchema), required=True)
    sheets = fields.List(fields.Nested(SheetSchema), required=True)
    plates = fields.List(fields.Nested(PlateSchema), required=True)


class SheetQuerySchema(Schema):
    sheet = fields.String(load_default="a4-3x8", validate=validate.OneOf(list(SHEETS)))
    start = fields.Integer(load_default=1, validate=validate.Range(1), metadata={"description": "first label, from 1"})
    cuts = fields.Boolean(load_default=False, metadata={"description": "marks to cut by, for plain paper"})


class PiecesQuerySchema(Schema):
    pieces = fields.String(
        load_default="all", metadata={"description": "all, new, stage:NUMBER, or codes with commas between"}
    )


class TagsQuerySchema(SheetQuerySchema, PiecesQuerySchema):
    pass


class PlateQuerySchema(Schema):
    plate = fields.String(load_default="60x30", validate=validate.OneOf(list(PLATES)))


class PlatesQuerySchema(PlateQuerySchema, PiecesQuerySchema):
    pass


class ReasonSchema(Schema):
    reason = fields.String(required=True, metadata={"description": "why, as in 'torn off, not found'"})
