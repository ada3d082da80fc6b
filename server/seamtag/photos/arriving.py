"""A photo's bytes as they come in: sealed, noted, and told to whoever missed them."""

import time

from seamtag.database import db
from seamtag.photos.store import Vault, note
from seamtag.review.overdue import picture_came


def arrive(vault: Vault, sha256: str, content: bytes) -> str:
    """Keep a photo's bytes. Returns 'yes', or why they cannot be shown. Raises PhotoError where the hash differs."""
    shown = vault.seal(sha256, content)
    note(sha256, len(content), shown)
    picture_came(db.session(), sha256, int(time.time()))
    return shown
