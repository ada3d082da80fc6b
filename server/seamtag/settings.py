"""Settings, each with its default; an environment variable SEAMTAG_<NAME> overrides it."""

import os
from dataclasses import dataclass, fields
from pathlib import Path


@dataclass(frozen=True)
class Settings:
    """database: SQLAlchemy URL. photos: folder or object-store URL. web: the built app. host: what tags link to.

    certificates: folder of the authority that `seamtag serve --lan` makes; beside SQLite's file where it is empty.
    Sizes in bytes, times in seconds. proxies: how many trusted
    proxies stand in front and set X-Forwarded-For and -Proto. report_days: how many days an outside report may take
    before the board calls it overdue.
    """

    database: str = "sqlite:///seamtag.db"
    photos: str = "photos"
    web: str = str(Path(__file__).resolve().parents[2] / "webapp" / "dist")
    host: str = "127.0.0.1:8000"
    certificates: str = ""
    most_push: int = 16_000_000
    most_photo: int = 30_000_000
    most_pixels: int = 80_000_000
    session_idle: int = 12 * 3600
    session_longest: int = 7 * 24 * 3600
    challenge_life: int = 300
    invitation_life: int = 14 * 24 * 3600
    unreadable_rate: str = "120/minute"
    attempt_rate: str = "20/minute"
    challenge_rate: str = "240/minute"
    proxies: int = 0
    report_days: int = 3


def from_environment() -> Settings:
    """Settings with what the environment overrides. Raises SystemExit where a number is none."""
    given = {}
    for field in fields(Settings):
        text = os.environ.get(f"SEAMTAG_{field.name.upper()}")
        if text is None:
            continue
        if field.type in (int, "int"):
            if not text.isdigit():
                raise SystemExit(f"SEAMTAG_{field.name.upper()} is '{text}'; it must be a whole number")
            given[field.name] = int(text)
        else:
            given[field.name] = text  # type: ignore[assignment]
    return Settings(**given)  # type: ignore[arg-type]
