"""How often: unreadable pushes, invitations and sign-ins are counted by address, and slowed down."""

import time

from flask import Flask, current_app, request
from limits import RateLimitItem, parse
from limits.storage import MemoryStorage
from limits.strategies import MovingWindowRateLimiter
from werkzeug.exceptions import TooManyRequests


class Gate:
    """One moving window an address and purpose, in memory."""

    def __init__(self, rates: dict[str, str]) -> None:
        self.limiter = MovingWindowRateLimiter(MemoryStorage())
        self.rates: dict[str, RateLimitItem] = {purpose: parse(rate) for purpose, rate in rates.items()}

    def count(self, purpose: str, cost: int = 1) -> None:
        """Count, up to what the window still holds: a large push must not go uncounted."""
        rate = self.rates[purpose]
        left = self.limiter.get_window_stats(rate, purpose, address()).remaining
        if left:
            self.limiter.hit(rate, purpose, address(), cost=min(cost, left))

    def check(self, purpose: str) -> None:
        """Raises TooManyRequests with Retry-After while the window is full."""
        rate = self.rates[purpose]
        if self.limiter.test(rate, purpose, address()):
            return
        reset = self.limiter.get_window_stats(rate, purpose, address()).reset_time
        wait = max(1, int(reset - time.time()) + 1)
        raise TooManyRequests("Too many tries from here. Wait a moment and try again.", retry_after=wait)


def address() -> str:
    return request.remote_addr or "unknown"


def set_up(app: Flask, rates: dict[str, str]) -> None:
    app.extensions["gate"] = Gate(rates)


def gate() -> Gate:
    found: Gate = current_app.extensions["gate"]
    return found
