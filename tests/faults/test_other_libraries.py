"""Records out of the database verify with JOSE libraries that Seamtag does not use; one of theirs is taken in."""

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from jwcrypto.jwk import JWK
from jwcrypto.jws import JWS, InvalidJWSSignature
from sqlalchemy import select

from seamtag.database import db, writing
from seamtag.people.models import Key
from seamtag.people.staff import add_key
from seamtag.records import jws
from seamtag.sync.models import Entry
from tests.shop import JOB, Shop

TOP = Path(__file__).resolve().parents[2]
PARTS = ("kty", "crv", "x", "y")

VERIFY = """
import { calculateJwkThumbprint, compactVerify, importJWK } from "jose";
import { readFileSync } from "node:fs";
const found = [];
for (const { text, jwk } of JSON.parse(readFileSync(0, "utf8"))) {
  const key = await importJWK(jwk, "ES256");
  const kid = await calculateJwkThumbprint(jwk);
  try {
    const { payload, protectedHeader } = await compactVerify(text, key, { algorithms: ["ES256"] });
    found.push({ payload: JSON.parse(new TextDecoder().decode(payload)), header: protectedHeader, kid });
  } catch (error) {
    found.push({ code: error.code, kid });
  }
}
console.log(JSON.stringify(found));
"""


@pytest.fixture
def kept(shop: Shop) -> list[dict[str, Any]]:
    """Each record of a few in the database, with the public key that the chain names for it."""
    texts = [shop.reading(station=station)[0] for station in ("12", "3")]
    texts += [shop.record("fitter", "note", {"text": "Kehlnaht 6 mm, ⌀ 12 – schön"})[0]]
    shop.push(*texts)
    with shop.app.app_context():
        keys = {body["kid"]: body["jwk"] for body in map(json.loads, entries("key"))}
        return [{"text": text, "jwk": keys[jws.decode(text).kid]} for text in entries("record")]


def entries(kind: str) -> list[str]:
    return list(db.session.scalars(select(Entry.body).where(Entry.kind == kind).order_by(Entry.number)))


def forged(text: str) -> str:
    """The same record with another payload under the old signature."""
    header, payload, signature = text.split(".")
    value = jws.json_of(payload)
    return f"{header}.{jws.encode(json.dumps({**value, 'by': 'nobody'}).encode())}.{signature}"


def test_with_jwcrypto(kept: list[dict[str, Any]]) -> None:
    assert len(kept) == 3
    for one in kept:
        key = JWK(**one["jwk"])
        assert key.thumbprint() == jws.decode(one["text"]).kid
        token = JWS()
        token.allowed_algs = ["ES256"]
        token.deserialize(one["text"], key)
        assert json.loads(token.payload) == jws.decode(one["text"]).payload
        with pytest.raises(InvalidJWSSignature):
            JWS().deserialize(forged(one["text"]), key)


def test_a_record_signed_by_jwcrypto_is_taken_in(shop: Shop) -> None:
    key = JWK.generate(kty="EC", crv="P-256")
    public = {part: key.export_public(as_dict=True)[part] for part in PARTS}
    with shop.app.app_context(), writing() as session:
        add_key(session, Key(kid=key.thumbprint(), person="inspector", device="other", jwk=public), 1)
    payload = {**shop.reading()[1], "device": "other", "seq": 1, "prev": ""}
    token = JWS(json.dumps(payload).encode())
    header = json.dumps({"alg": "ES256", "kid": key.thumbprint()})
    token.add_signature(key, None, header, None)
    outcome = shop.push(token.serialize(compact=True))[0]
    assert (outcome["outcome"], outcome["id"], payload["job"]) == ("taken in", payload["id"], JOB)


def node() -> str:
    found = shutil.which("node") or str(TOP / ".venv" / "node" / "node")
    if not Path(found).exists():
        pytest.skip("no Node.js here; tests/run installs it")
    return found


def test_with_jose(kept: list[dict[str, Any]]) -> None:
    if not (TOP / "webapp" / "node_modules" / "jose").is_dir():
        pytest.fail("the app's packages are not installed: npm ci in webapp")
    asked = [*kept, {**kept[0], "text": forged(kept[0]["text"])}]
    done = subprocess.run([node(), "--input-type=module", "-e", VERIFY], cwd=TOP / "webapp", input=json.dumps(asked),
                          capture_output=True, text=True, check=True, encoding="utf-8", timeout=60)  # fmt: skip
    said = json.loads(done.stdout)
    for one, found in zip(kept, said, strict=False):
        decoded = jws.decode(one["text"])
        assert found == {"payload": decoded.payload, "header": {"alg": "ES256", "kid": decoded.kid}, "kid": decoded.kid}
    assert said[-1]["code"] == "ERR_JWS_SIGNATURE_VERIFICATION_FAILED"
