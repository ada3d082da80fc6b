"""Sessions: begun by a key's signature over the server's nonce, kept by a cookie, ended from either side."""

import hashlib
import secrets
import time
from collections.abc import Callable
from functools import wraps
from typing import Any

from flask import Response, current_app, g, request

from seamtag.database import db, writing
from seamtag.guard.errors import refuse
from seamtag.people.models import Challenge, Person, SignIn
from seamtag.settings import Settings

COOKIE = "seamtag"
SECURE_COOKIE = "__Host-seamtag"
"""Over https. A browser takes this name from https alone, so no page without it can set or shadow a session: cookies
are shared between all ports of a host."""


def cookie() -> str:
    return SECURE_COOKIE if request.is_secure else COOKIE


def settings() -> Settings:
    found: Settings = current_app.config["SEAMTAG"]
    return found


def new_challenge() -> str:
    """A nonce of 32 bytes in base64url, good for one sign-in and a few minutes."""
    nonce = secrets.token_urlsafe(32)
    now = int(time.time())
    with writing() as session:
        session.query(Challenge).filter(Challenge.expires < now).delete()
        session.add(Challenge(nonce=nonce, expires=now + settings().challenge_life))
    return nonce


def begin(answer: Response, person: str, kid: str) -> Response:
    """Begin a session and put its cookie on an answer."""
    token = secrets.token_urlsafe(32)
    now = int(time.time())
    with writing() as session:
        session.add(SignIn(digest=digest_of(token), person=person, kid=kid, begun=now, last_used=now))
    answer.set_cookie(
        cookie(), token, max_age=settings().session_longest, httponly=True, secure=request.is_secure, samesite="Strict"
    )
    return answer


def end(answer: Response) -> Response:
    with writing() as session:
        session.query(SignIn).filter(SignIn.digest == digest_of(request.cookies.get(cookie(), ""))).delete()
    answer.delete_cookie(cookie(), httponly=True, secure=request.is_secure, samesite="Strict")
    return answer


def signed_in() -> Person | None:
    """Who is signed in, with which key in `g.kid`; None for nobody or a session that has run out."""
    token = request.cookies.get(cookie())
    found = db.session.get(SignIn, digest_of(token)) if token else None
    now = int(time.time())
    if found is None or found.begun + settings().session_longest < now:
        return None
    if found.last_used + settings().session_idle < now:
        return None
    if found.last_used + 300 < now:
        with writing() as session:
            session.query(SignIn).filter(SignIn.digest == found.digest).update({"last_used": now})
    g.kid = found.kid
    return db.session.get(Person, found.person)


def digest_of(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def asks(*roles: str) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Let a route be used only by somebody signed in, who holds one of the roles where any is named."""

    def decorate(view: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(view)
        def guarded(*args: Any, **kwargs: Any) -> Any:
            person = signed_in()
            if person is None:
                refuse(401, "Nobody is signed in. Unlock the app to sign in.")
            if roles and not set(roles) & set(person.roles):
                refuse(403, f"This is for {' or '.join(roles)}. Ask somebody who is.")
            g.person = person
            return view(*args, **kwargs)

        return guarded

    return decorate
