from marshmallow import Schema, fields

from seamtag.fields import A_DAY


class ThicknessSchema(Schema):
    from_ = fields.String(data_key="from", attribute="from", required=True)
    to = fields.String(required=True)


def number(of: str) -> fields.String:
    return fields.String(load_default=None, allow_none=True, metadata={"description": of})


def ends(of: str) -> fields.List[str]:
    described = {"description": f"the lowest and the highest, {of}"}
    return fields.List(fields.String(), load_default=None, allow_none=True, metadata=described)


class ProcedureSchema(Schema):
    """A welding procedure, as the shop's own written procedure says; what it does not say is null."""

    id = fields.String(required=True)
    revision = fields.String(load_default="")
    name = fields.String(required=True)
    process = fields.String(required=True)
    positions = fields.List(fields.String(), required=True, metadata={"description": "of F, H, V, O"})
    thickness = fields.Nested(ThicknessSchema, load_default=None, allow_none=True, metadata={"description": "inches"})
    preheat_min = number("degF")
    interpass_max = number("degF")
    volts = ends("V")
    amps = ends("A")
    travel = ends("in/min")
    heat_input_max = number("kJ/in")
    fillers = fields.List(fields.String(), load_default=list)
    note = fields.String(load_default="")
    source = fields.String(load_default="")
    withdrawn = fields.String(load_default=None, allow_none=True, metadata=A_DAY)
