"""Answers with thousands of values or lines, written as they are."""

from typing import Any

import orjson
from flask import Response


def answered(body: Any) -> Response:
    """Past its schema: going through it line by line would take longer than reading the lines."""
    return Response(orjson.dumps(body), 200, content_type="application/json")
