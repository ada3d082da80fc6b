"""What phones of each released version have signed is taken in for good: the files in released/ are never made anew."""

import json
from pathlib import Path
from typing import Any

import pytest

from seamtag.core.records import BODIES
from seamtag.database import db, writing
from seamtag.people.models import Key
from seamtag.people.staff import add_key
from seamtag.records import jws
from seamtag.sync.verifying import verify
from tests.shop import Shop

pytestmark = pytest.mark.both_databases
RELEASED = sorted((Path(__file__).parent / "released").glob("*.json"))


@pytest.mark.parametrize("file", RELEASED, ids=lambda file: file.stem)
def test_records_of_a_released_version_are_taken_in(shop: Shop, file: Path) -> None:
    given: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    kid = jws.thumbprint(given["jwk"])
    with shop.app.app_context(), writing() as session:
        add_key(session, Key(kid=kid, person=given["person"], device=given["device"], jwk=given["jwk"]), 1)
    outcomes = shop.push(*given["records"])
    assert {(one["outcome"], one["reason"]) for one in outcomes} == {("taken in", "")}
    kinds = {jws.decode(text).payload["type"] for text in given["records"]}
    assert kinds <= BODIES.keys()
    with shop.app.app_context():
        missing = [one for one in verify(db.session(), shop.app.extensions["vault"]) if one.kind != "photo"]
    assert missing == []


def test_every_type_of_record_was_released() -> None:
    kinds = {jws.decode(text).payload["type"] for file in RELEASED for text in json.loads(file.read_text())["records"]}
    assert kinds == BODIES.keys()
