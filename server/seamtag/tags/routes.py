from typing import Any

from flask import Response
from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.core.tagcode import forgiven
from seamtag.database import db
from seamtag.guard.errors import refuse
from seamtag.guard.sessions import asks, settings
from seamtag.jobs.models import Piece
from seamtag.tags.label import as_png, label
from seamtag.tags.models import Tag
from seamtag.tags.schemas import TagSchema

blueprint = Blueprint("tags", __name__, url_prefix="/api/v1", description="QR tags")


def tagged(code: str) -> tuple[Tag, Piece]:
    """The tag and its piece. Aborts with 404 and a message that says what to do."""
    meant = forgiven(code)
    if meant is None:
        refuse(404, f"'{code[:20]}' is no code of a tag: a symbol was misread. Look again, or pick the mark.")
    tag = db.session.get(Tag, meant)
    piece = db.session.get(Piece, tag.piece) if tag else None
    if tag is None or piece is None:
        refuse(404, f"No tag of this shop has the code {meant}. Pick the mark from the job's list.")
    return tag, piece


@blueprint.route("/tags/<code>")
class OneTag(MethodView):
    @blueprint.response(200, TagSchema)
    @asks()
    def get(self, code: str) -> dict[str, Any]:
        """The piece a code belongs to."""
        tag, piece = tagged(code)
        return {"code": tag.code, "piece": piece.id, "mark": piece.mark, "job": piece.job, "retired": tag.retired}


@blueprint.route("/tags/<code>/label.png")
class Label(MethodView):
    @blueprint.response(200, content_type="image/png")
    @asks()
    def get(self, code: str) -> Response:
        """The label to print: the symbol twice, the code between."""
        tag, piece = tagged(code)
        picture = label(settings().host, tag.code, piece.mark, piece.job, piece.kind)
        return Response(as_png(picture), mimetype="image/png")
