"""Seamtag: the inspection record of a shop that welds boilers and pressure vessels."""

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from seamtag.settings import Settings, from_environment

__version__ = "0.1.0"


def create_app(settings: Settings | None = None) -> Flask:
    """The application. settings: from the environment where None."""
    from seamtag import web
    from seamtag.database import db
    from seamtag.guard import errors, headers, limits
    from seamtag.photos.store import Vault

    chosen = settings or from_environment()
    app = Flask(__name__, static_folder=None)
    app.config.update(
        SEAMTAG=chosen,
        SQLALCHEMY_DATABASE_URI=chosen.database,
        MAX_CONTENT_LENGTH=max(chosen.most_push, chosen.most_photo),
        API_TITLE="Seamtag",
        API_VERSION="v1",
        OPENAPI_VERSION="3.1.0",
        OPENAPI_URL_PREFIX="/",
        OPENAPI_JSON_PATH="openapi.json",
    )
    db.init_app(app)
    app.extensions["vault"] = Vault(chosen.photos, chosen.most_pixels)
    rates = {"unreadable": chosen.unreadable_rate, "attempt": chosen.attempt_rate, "challenge": chosen.challenge_rate}
    limits.set_up(app, rates)
    if chosen.proxies:
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=chosen.proxies, x_proto=chosen.proxies)  # type: ignore[method-assign]
    headers.guard(app)
    errors.handle_unexpected(app)
    web.register(app)
    return app
