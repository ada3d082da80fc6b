"""Photos by their SHA-256: the received bytes sealed, and copies without metadata made when first looked at."""

import hashlib
import io
import threading
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import obstore
from obstore.store import LocalStore, ObjectStore, from_url
from PIL import Image, ImageOps, UnidentifiedImageError
from sqlalchemy import select
from sqlalchemy.orm import Session

from seamtag.core.records import SHA256
from seamtag.database import writing
from seamtag.photos.models import Photo

FORMATS = ("JPEG", "PNG", "WEBP")
SIZES = {"large": 4000, "view": 1600, "thumb": 320}
"""Longest side of the copies that are shown, in pixels; large is for drawings, whose small type has to be read."""

NAMED_BY = {"photo": "sha256", "report": "pages", "sign-off": "page"}
"""Which field of a body names photos, by type of record."""


class PhotoError(ValueError):
    """The bytes are not what they should be. The message says what to do."""


class Vault:
    """Where photo bytes lie: a folder by default, any object store that obstore knows by its URL.

    most_pixels: larger pictures are sealed, but not decoded.
    """

    def __init__(self, place: str, most_pixels: int) -> None:
        self.store: ObjectStore = from_url(place) if "://" in place else local(place)
        self.most_pixels = most_pixels
        self.one_at_a_time = threading.Lock()

    def seal(self, sha256: str, content: bytes) -> str:
        """Keep the bytes. Returns 'yes', or why they cannot be shown. Raises PhotoError where the hash differs."""
        if hashlib.sha256(content).hexdigest() != sha256:
            raise PhotoError("The photo was damaged on its way: its SHA-256 differs. Send it again.")
        obstore.put(self.store, f"original/{sha256}", content)
        return self.readable(content)

    def readable(self, content: bytes) -> str:
        try:
            self.copy(content, SIZES["thumb"])
        except PhotoError as error:
            return str(error)
        return "yes"

    def shown(self, sha256: str, size: str) -> bytes:
        """A JPEG without metadata, longest side as SIZES says. Raises PhotoError where there is none to show."""
        name = f"{size}/{sha256}"
        try:
            return bytes(obstore.get(self.store, name).bytes())
        except FileNotFoundError:
            pass
        copy = self.copy(self.original(sha256), SIZES[size])
        obstore.put(self.store, name, copy)
        return copy

    def original(self, sha256: str) -> bytes:
        try:
            return bytes(obstore.get(self.store, f"original/{sha256}").bytes())
        except FileNotFoundError:
            raise PhotoError("The photo is not here yet.") from None

    def copy(self, content: bytes, longest: int) -> bytes:
        """The picture anew, upright, without EXIF, place, time or comment; one at a time, as large ones fill memory."""
        with self.one_at_a_time:
            return self.decoded(content, longest)

    def decoded(self, content: bytes, longest: int) -> bytes:
        try:
            with Image.open(io.BytesIO(content), formats=FORMATS) as picture:
                if picture.width * picture.height > self.most_pixels:
                    raise PhotoError("The picture has too many pixels to be shown. Take it again at a smaller size.")
                picture.draft("RGB", (longest, longest))
                upright = ImageOps.exif_transpose(picture).convert("RGB")
                upright.thumbnail((longest, longest))
                return as_jpeg(upright)
        except PhotoError:
            raise
        except UnidentifiedImageError:
            raise PhotoError("The file is no picture. Take the photo again.") from None
        except Exception as error:  # a decoder meets damaged bytes with almost any of them
            raise PhotoError("The picture is damaged and cannot be shown. Take the photo again.") from error


def local(place: str) -> LocalStore:
    folder = Path(place)
    folder.mkdir(parents=True, exist_ok=True)
    return LocalStore(folder)


def as_jpeg(picture: Image.Image) -> bytes:
    """Only the pixels are carried over, so nothing the file said beside them is."""
    plain = Image.new("RGB", picture.size)
    plain.paste(picture)
    out = io.BytesIO()
    plain.save(out, "JPEG", quality=85)
    return out.getvalue()


def name_photos(session: Session, payload: Mapping[str, Any]) -> None:
    """Note the photos a record names, so that their bytes are let in."""
    named = payload["body"].get(NAMED_BY.get(payload["type"], "")) or []
    for sha256 in {one for one in ([named] if isinstance(named, str) else named) if SHA256.fullmatch(one)}:
        photo = session.get(Photo, sha256)
        if photo is None:
            photo = Photo(sha256=sha256, named=True, stored=False, bytes=0, shown="", record="")
            session.add(photo)
        photo.named, photo.record = True, photo.record or payload["id"]


def not_here(session: Session, pictures: Iterable[str]) -> set[str]:
    """Those of some pictures, by their SHA-256, that a record names and that have not come."""
    return set(session.scalars(select(Photo.sha256).where(Photo.sha256.in_(list(pictures)), ~Photo.stored)))


def note(sha256: str, size: int, shown: str) -> None:
    """Note that a photo's bytes are sealed, named by a record yet or not. shown: as seal() says it."""
    with writing() as session:
        photo = session.get(Photo, sha256)
        if photo is None:
            photo = Photo(sha256=sha256, named=False, stored=False, bytes=0, shown="")
            session.add(photo)
        photo.stored, photo.bytes, photo.shown = True, size, shown
