"""What goes out with every answer, and what must come in with every change."""

from flask import Flask, Response, request

from seamtag.guard.errors import refuse

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "style-src 'self'",
        "font-src 'self'",
        "img-src 'self' blob: data:",
        "media-src 'self' blob:",
        "connect-src 'self'",
        "worker-src 'self'",
        "manifest-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
        "object-src 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), geolocation=(), microphone=()",
}
"""No Strict-Transport-Security: it holds for every port of a host, so a phone that has seen it could not open the page
without https that hands over the authority's certificate, and that page is its only way back after the authority was
made anew. A proxy with a public certificate may add it."""
SAFE = ("GET", "HEAD", "OPTIONS")


def guard(app: Flask) -> None:
    """Set the headers on every answer; refuse changes that another site asks a browser to make."""

    @app.after_request
    def add_headers(answer: Response) -> Response:
        for name, value in HEADERS.items():
            answer.headers.setdefault(name, value)
        if request.path.startswith("/api/"):
            answer.headers.setdefault("Cache-Control", "no-store")
        return answer

    @app.before_request
    def same_site() -> None:
        if request.method in SAFE:
            return
        site = request.headers.get("Sec-Fetch-Site")
        origin = request.headers.get("Origin")
        foreign = site not in (None, "same-origin", "none")
        if site is None and origin is not None:
            foreign = origin.split("://", 1)[-1] != request.host
        if foreign:
            refuse(403, "This request comes from another site. Open Seamtag itself and try again.")
