"""Photos drawn by hand of nothing but lines and noise: a steel plate, a weld bead, a chalk mark, a gauge."""

import hashlib
import io
import random
from dataclasses import dataclass

from PIL import Image, ImageDraw, ImageFilter, ImageFont

WIDTH, HEIGHT = 960, 720


@dataclass(frozen=True)
class Picture:
    content: bytes

    @property
    def sha256(self) -> str:
        return hashlib.sha256(self.content).hexdigest()

    def body(self, caption: str = "") -> dict[str, object]:
        """The body of a photo record."""
        body: dict[str, object] = {"sha256": self.sha256, "media_type": "image/jpeg", "bytes": len(self.content),
                                   "width": WIDTH, "height": HEIGHT}  # fmt: skip
        return {**body, "caption": caption} if caption else body


def plate(dice: random.Random) -> Image.Image:
    """Rolled steel: grey with a little noise, lighter at one side."""
    wide, high = WIDTH // 8, HEIGHT // 8
    noise = dice.randbytes(wide * high)
    small = Image.frombytes("L", (wide, high), bytes(87 + at % wide // 3 + byte % 19 for at, byte in enumerate(noise)))
    return small.resize((WIDTH, HEIGHT), Image.Resampling.BICUBIC).convert("RGB")


def bead(picture: Image.Image, dice: random.Random) -> None:
    """A weld across the middle, ripple by ripple, with its heat tint."""
    draw = ImageDraw.Draw(picture)
    middle = HEIGHT // 2 + dice.randint(-30, 30)
    draw.rectangle((0, middle - 70, WIDTH, middle + 70), fill=(96, 92, 98))
    draw.rectangle((0, middle - 44, WIDTH, middle + 44), fill=(112, 108, 104))
    for x in range(-20, WIDTH + 20, 13):
        top = middle - 34 + dice.randint(-3, 3)
        draw.arc((x - 30, top, x + 30, middle + 34 + dice.randint(-3, 3)), -70, 70, fill=(164, 160, 154), width=5)


def scene(mark: str, words: str, dice: random.Random, weld: bool = True, ring: bool = False) -> Picture:
    """One photo: plate, weld where there is one, the mark in chalk, a ring round what matters."""
    picture = plate(dice)
    if weld:
        bead(picture, dice)
    picture = picture.filter(ImageFilter.GaussianBlur(1.4))
    draw = ImageDraw.Draw(picture)
    draw.text((60, 60), mark, fill=(236, 232, 220), font=ImageFont.load_default(84))
    draw.text((60, 160), words, fill=(222, 218, 206), font=ImageFont.load_default(38))
    if ring:
        x, y = WIDTH // 2 + dice.randint(-160, 160), HEIGHT // 2
        draw.ellipse((x - 90, y - 90, x + 90, y + 90), outline=(244, 240, 228), width=7)
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=80)
    return Picture(out.getvalue())
