"""The one shape of an error: {"status", "error", "message"}, and `fields` where a form was filled in wrongly."""

from typing import Any, NoReturn

from flask import Flask, Response, jsonify
from flask_smorest import Api
from flask_smorest import abort as smorest_abort
from marshmallow import Schema, fields
from sqlalchemy.exc import DataError, OperationalError
from werkzeug.exceptions import HTTPException


class ErrorSchema(Schema):
    status = fields.Integer(required=True, metadata={"description": "HTTP status"})
    error = fields.String(required=True, metadata={"description": "name of the status"})
    message = fields.String(required=True, metadata={"description": "what is wrong, with what, and what to do"})
    fields_ = fields.Dict(data_key="fields", metadata={"description": "by field, where a form was filled in wrongly"})


def refuse(status: int, message: str) -> NoReturn:
    """End the request with an error of the one shape."""
    smorest_abort(status, message=message)
    raise AssertionError


class SeamtagApi(Api):
    """flask-smorest with our own shape of an error."""

    ERROR_SCHEMA = ErrorSchema

    def handle_http_exception(self, error: HTTPException) -> tuple[Response, int, dict[str, str]]:
        data: dict[str, Any] = getattr(error, "data", None) or {}
        status = error.code or 500
        message = data.get("message") or error.description or error.name
        body: dict[str, Any] = {"status": status, "error": error.name, "message": message}
        wrong = data.get("errors") or data.get("messages")
        if wrong:
            body["fields"] = wrong
            body["message"] = "Some fields are not right. See `fields` for each."
        headers = dict(data.get("headers") or {})
        retry_after = getattr(error, "retry_after", None)
        if retry_after:
            headers["Retry-After"] = str(retry_after)
        return jsonify(body), status, headers


def handle_unexpected(app: Flask) -> None:
    """A busy database is 503 with Retry-After; anything unforeseen is logged and answered without detail."""

    @app.errorhandler(OperationalError)
    def busy(error: OperationalError) -> tuple[Response, int, dict[str, str]]:
        app.logger.warning("database not available: %s", error.orig)
        body = {"status": 503, "error": "Service Unavailable", "message": "The server is busy. Try again in a moment."}
        return jsonify(body), 503, {"Retry-After": "5"}

    @app.errorhandler(DataError)
    @app.errorhandler(RecursionError)
    @app.errorhandler(UnicodeEncodeError)
    def unusable(error: Exception) -> tuple[Response, int]:
        message = "The request holds text or nesting that cannot be read. Send plain text."
        return jsonify({"status": 400, "error": "Bad Request", "message": message}), 400

    @app.errorhandler(Exception)
    def unforeseen(error: Exception) -> tuple[Response, int, dict[str, str]] | tuple[Response, int] | HTTPException:
        if isinstance(error, HTTPException):
            return error
        if isinstance(error, ValueError) and "integer string conversion" in str(error):
            return unusable(error)
        app.logger.exception("unforeseen")
        message = "Something went wrong on the server. Nothing was lost on the phone. Try again later."
        return jsonify({"status": 503, "error": "Service Unavailable", "message": message}), 503, {"Retry-After": "30"}
