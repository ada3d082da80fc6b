import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.conftest import TOP

COMMITTED = TOP / "webapp" / "src" / "api"
GENERATOR = TOP / "webapp" / "node_modules" / ".bin" / "openapi-typescript"


def test_every_route_is_described(app: Flask, client: FlaskClient) -> None:
    described = client.get("/openapi.json").get_json()["paths"]
    missing = []
    for rule in app.url_map.iter_rules():
        if rule.rule == "/openapi.json":
            continue
        path = re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule)
        methods = (rule.methods or set()) - {"HEAD", "OPTIONS"}
        missing += [f"{method} {path}" for method in methods if method.lower() not in described.get(path, {})]
    assert not missing


def test_every_operation_says_what_it_does(client: FlaskClient) -> None:
    for path, operations in client.get("/openapi.json").get_json()["paths"].items():
        for method, operation in operations.items():
            if method != "parameters":
                assert operation.get("summary"), f"{method} {path}"


def test_the_committed_description_is_the_one_that_is_served(client: FlaskClient) -> None:
    committed = json.loads((COMMITTED / "openapi.json").read_text(encoding="utf-8"))
    assert committed == client.get("/openapi.json").get_json(), "remake it as deploy/README.md says"


@pytest.mark.skipif(
    not GENERATOR.exists() or not shutil.which("node"), reason="Node.js or the app's packages are missing"
)
def test_the_committed_types_are_those_of_the_description(tmp_path: Path) -> None:
    made = tmp_path / "schema.d.ts"
    subprocess.run([GENERATOR, COMMITTED / "openapi.json", "-o", made], check=True, capture_output=True, timeout=120)
    committed = (COMMITTED / "schema.d.ts").read_text(encoding="utf-8")
    assert made.read_text(encoding="utf-8") == committed, "remake it as deploy/README.md says"
