from typing import Any

from flask import Response, current_app, request
from flask.views import MethodView
from flask_smorest import Blueprint

from seamtag.core.records import SHA256
from seamtag.database import db
from seamtag.guard.errors import refuse
from seamtag.guard.limits import gate
from seamtag.guard.sessions import asks, settings, signed_in
from seamtag.photos.arriving import arrive
from seamtag.photos.models import Photo
from seamtag.photos.schemas import ReceivedSchema, SizeSchema
from seamtag.photos.store import PhotoError, Vault

blueprint = Blueprint("photos", __name__, url_prefix="/api/v1", description="Photos by their SHA-256")

TOO_LARGE = "The photo is larger than 30 MB. Take it again at a smaller size."


def vault() -> Vault:
    found: Vault = current_app.extensions["vault"]
    return found


@blueprint.route("/photos/<sha256>")
class Photos(MethodView):
    @blueprint.doc(requestBody={"required": True, "content": {"application/octet-stream": {}}})
    @blueprint.response(200, ReceivedSchema)
    @blueprint.alt_response(400, description="The bytes are not those of this SHA-256")
    @blueprint.alt_response(403, description="Nobody is signed in and no record names this photo yet")
    def put(self, sha256: str) -> dict[str, Any]:
        """Send a photo, in any order with its record, as often as need be."""
        if not SHA256.fullmatch(sha256):
            refuse(400, "The address must end in a SHA-256 in hexadecimal.")
        photo = db.session.get(Photo, sha256)
        if photo and photo.stored:
            return {"sha256": sha256, "outcome": "taken in", "shown": photo.shown}
        if not (photo and photo.named) and signed_in() is None:
            gate().check("unreadable")
            gate().count("unreadable")
            refuse(403, "No record that was taken in names this photo. Send the record first, or sign in.")
        content = request.get_data()
        if len(content) > settings().most_photo:
            refuse(413, TOO_LARGE)
        try:
            shown = arrive(vault(), sha256, content)
        except PhotoError as error:
            refuse(400, str(error))
        return {"sha256": sha256, "outcome": "taken in", "shown": shown}

    @blueprint.arguments(SizeSchema, location="query")
    @blueprint.response(200, content_type="image/jpeg")
    @blueprint.alt_response(404, description="Not here, or not to be shown; the message says which")
    @asks()
    def get(self, query: dict[str, str], sha256: str) -> Response:
        """The photo to look at: a copy without metadata. The received bytes stay sealed."""
        if not SHA256.fullmatch(sha256):
            refuse(404, "There is no such photo.")
        try:
            content = vault().shown(sha256, query["size"])
        except PhotoError as error:
            refuse(404, str(error))
        answer = Response(content, mimetype="image/jpeg")
        answer.headers["Cache-Control"] = "private, max-age=86400"
        answer.headers["Content-Disposition"] = f'inline; filename="{sha256[:12]}.jpg"'
        return answer
