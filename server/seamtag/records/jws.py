"""A record as a compact JWS (RFC 7515): ES256 only, the key named by its RFC 7638 thumbprint, nothing else."""

import base64
import hashlib
import json
import re
from dataclasses import dataclass
from typing import Any

from joserfc import jws
from joserfc.errors import JoseError
from joserfc.jwk import ECKey

from seamtag.core.records import MOST_BYTES

REGISTRY = jws.JWSRegistry(algorithms=["ES256"])
REGISTRY.max_payload_length = MOST_BYTES
"""The library's own bound is lower than that of a record: a sign-off may cover thousands of others."""
THUMBPRINT = re.compile(r"[A-Za-z0-9_-]{43}")


class UnreadableError(ValueError):
    """The text is no record that this server can believe. The message says why."""


@dataclass(frozen=True)
class Decoded:
    """A JWS taken apart, its signature not yet checked. digest: SHA-256 of header.payload, in hexadecimal."""

    text: str
    kid: str
    payload: dict[str, Any]
    digest: str


def decode(text: str) -> Decoded:
    """Take a compact JWS apart. Raises UnreadableError where it is not exactly of our form."""
    parts = text.split(".")
    if len(parts) != 3:
        raise UnreadableError("not a compact JWS")
    header, payload = json_of(parts[0]), json_of(parts[1])
    if set(header) != {"alg", "kid"} or header["alg"] != "ES256" or not is_thumbprint(header["kid"]):
        raise UnreadableError("the header is not exactly alg ES256 and kid")
    if len(bytes_of(parts[2])) != 64:
        raise UnreadableError("the signature is not 64 bytes")
    digest = hashlib.sha256(f"{parts[0]}.{parts[1]}".encode()).hexdigest()
    return Decoded(text, header["kid"], payload, digest)


def is_thumbprint(kid: Any) -> bool:
    return isinstance(kid, str) and THUMBPRINT.fullmatch(kid) is not None


def json_of(part: str) -> dict[str, Any]:
    """A part as a JSON object. Raises UnreadableError where it is none, or holds text that is no Unicode."""
    try:
        value = json.loads(bytes_of(part).decode(), parse_constant=no_constant)
        json.dumps(value, ensure_ascii=False).encode()
    except (ValueError, RecursionError) as error:
        raise UnreadableError("a part is not JSON in base64url") from error
    if not isinstance(value, dict):
        raise UnreadableError("a part is not a JSON object")
    return value


def no_constant(word: str) -> None:
    raise UnreadableError(f"{word} is not JSON")


def bytes_of(part: str) -> bytes:
    """Base64url decoded. Raises UnreadableError unless it is canonical: no padding, no stray bits."""
    try:
        raw = base64.urlsafe_b64decode(part + "=" * (-len(part) % 4))
    except ValueError as error:
        raise UnreadableError("a part is not base64url") from error
    if encode(raw) != part:
        raise UnreadableError("a part is not canonical base64url")
    return raw


def encode(raw: bytes) -> str:
    return base64.urlsafe_b64encode(raw).rstrip(b"=").decode()


def verify(decoded: Decoded, jwk: dict[str, Any]) -> None:
    """Raises UnreadableError where the signature is not the key's."""
    try:
        jws.deserialize_compact(decoded.text, ECKey.import_key(jwk), registry=REGISTRY)
    except (JoseError, ValueError) as error:
        raise UnreadableError("the signature does not verify") from error


def thumbprint(jwk: dict[str, Any]) -> str:
    """The RFC 7638 thumbprint of a public P-256 key. Raises UnreadableError where it is none."""
    if set(jwk) != {"kty", "crv", "x", "y"} or jwk.get("kty") != "EC" or jwk.get("crv") != "P-256":
        raise UnreadableError("the key is not a public EC key on P-256 with kty, crv, x and y alone")
    try:
        key = ECKey.import_key(jwk)
        key.public_key  # noqa: B018  reading it checks that the point is on the curve
        return key.thumbprint()
    except (JoseError, ValueError, TypeError) as error:
        raise UnreadableError("the key is not a point on P-256") from error


def sign(payload: dict[str, Any], key: ECKey) -> str:
    """A record of the key, as a phone would make it."""
    return jws.serialize_compact({"alg": "ES256", "kid": key.thumbprint()}, json.dumps(payload), key)
