"""Routes put together: the interface of the domains, the app's own files, and the health check."""

from importlib import import_module
from pathlib import Path

from flask import Flask, Response, send_from_directory
from flask.views import MethodView
from flask_smorest import Blueprint
from marshmallow import Schema, fields
from sqlalchemy import text
from werkzeug.security import safe_join

from seamtag.database import db
from seamtag.guard.errors import SeamtagApi, refuse
from seamtag.guard.sessions import settings

DOMAINS = ("people", "records", "photos", "sync", "tags", "plans", "jobs", "drawings", "review", "trends", "gauges",
           "procedures")  # fmt: skip
MOST_NAME = 200
"""Characters of a file's name; a file system refuses longer ones in its own way."""

pages = Blueprint("app", __name__, description="The app's own pages and files")


class HealthSchema(Schema):
    status = fields.String(required=True, metadata={"description": "'ready'"})


@pages.route("/healthz")
class Health(MethodView):
    @pages.response(200, HealthSchema)
    def get(self) -> dict[str, str]:
        """Whether the server is ready: its database answers."""
        db.session.execute(text("SELECT 1"))
        return {"status": "ready"}


def page() -> Response:
    folder = Path(settings().web)
    if not (folder / "index.html").is_file():
        refuse(404, "The app is not built yet. Run `npm run build` in webapp, or deploy/demo.")
    answer = send_from_directory(folder, "index.html")
    answer.headers["Cache-Control"] = "no-cache"
    return answer


@pages.route("/")
class Start(MethodView):
    @pages.response(200, content_type="text/html")
    def get(self) -> Response:
        """The app."""
        return page()


@pages.route("/t/<code>")
@pages.route("/T/<code>")
class TagLink(MethodView):
    @pages.response(200, content_type="text/html")
    def get(self, code: str) -> Response:
        """What a tag's link opens: the app, which reads the code from the address."""
        return page()


@pages.route("/G/<path:gauge>")
class GaugeLink(MethodView):
    @pages.response(200, content_type="text/html")
    def get(self, gauge: str) -> Response:
        """What the sticker of a gauge opens: the app, which says which gauge it is."""
        return page()


@pages.route("/J/<path:job>")
class BoardLink(MethodView):
    @pages.response(200, content_type="text/html")
    def get(self, job: str) -> Response:
        """What the board of a job opens: the app, which lists its marks."""
        return page()


@pages.route("/<path:name>")
class File(MethodView):
    @pages.response(200, content_type="application/octet-stream")
    @pages.alt_response(404, description="There is no such file")
    def get(self, name: str) -> Response:
        """One of the app's files; a missing one is 404, never the app's page."""
        folder = Path(settings().web)
        found = safe_join(str(folder), name) if len(name.encode()) <= MOST_NAME else None
        if name.startswith("api/") or found is None or not Path(found).is_file():
            refuse(404, f"There is nothing at /{name[:80]}.")
        answer = send_from_directory(folder, name)
        kept = name.startswith("assets/")
        answer.headers["Cache-Control"] = "public, max-age=31536000, immutable" if kept else "no-cache"
        return answer


def register(app: Flask) -> None:
    api = SeamtagApi(app)
    for domain in DOMAINS:
        api.register_blueprint(import_module(f"seamtag.{domain}.routes").blueprint)
    api.register_blueprint(import_module("seamtag.review.report_routes").blueprint)
    api.register_blueprint(pages)
