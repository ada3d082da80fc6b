"""Views of printed labels as a phone's camera sees them on the floor, made from a seed."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

from seamtag.core.tagcode import SYMBOLS, code_of, link_of
from seamtag.tags.label import label

HOST = "tags.example"
FRAME = (720, 1280)
"""Width and height of a picture from a phone held upright."""
STEEL = 118.0
Picture = NDArray[np.float64]
Grey = NDArray[np.uint8]


@dataclass(frozen=True)
class Pose:
    """How a label lies before the camera and what the light, the lens and the shop did to it.

    wide: of the frame's width that a flat label takes. turn, lean, swing: degrees, in the picture's plane, about its
    level axis, about its upright axis. bend: degrees of a pipe that the label is wrapped around, 0 where it is flat.
    moved, defocus: pixels. noise: of 255. shade: what light is left in the dark part. covered: part of the label.
    """

    wide: float = 0.75
    turn: float = 0.0
    lean: float = 0.0
    swing: float = 0.0
    bend: float = 0.0
    moved: float = 0.0
    defocus: float = 0.6
    noise: float = 3.0
    shade: float = 1.0
    covered: float = 0.0


@dataclass(frozen=True)
class View:
    kind: str
    link: str
    pose: Pose
    picture: Grey


def pose_of(kind: str, dice: np.random.Generator) -> Pose:
    """A pose of a kind; each has its own fault beside a small turn, and 'all at once' has a little of each."""
    between = dice.uniform
    plain = Pose(wide=between(0.6, 0.9), turn=between(-8, 8))
    match kind:
        case "turned":
            return replace(plain, turn=between(-45, 45))
        case "tilted":
            return replace(plain, lean=between(-50, 50), swing=between(-50, 50))
        case "moved":
            return replace(plain, moved=between(3, 9))
        case "out of focus":
            return replace(plain, defocus=between(1.2, 2.6))
        case "noisy":
            return replace(plain, noise=between(15, 45))
        case "shaded":
            return replace(plain, shade=between(0.1, 0.4))
        case "curved":
            return replace(plain, bend=between(20, 100))
        case "covered":
            return replace(plain, covered=between(0.03, 0.15))
        case "all at once":
            return Pose(
                wide=between(0.65, 0.9), turn=between(-30, 30), lean=between(-25, 25), swing=between(-25, 25),
                bend=between(0, 60), moved=between(0, 3), defocus=between(0.6, 1.3), noise=between(3, 15),
                shade=between(0.3, 0.8), covered=between(0, 0.05),
            )  # fmt: skip
    return plain


KINDS = (
    "straight", "turned", "tilted", "moved", "out of focus", "noisy", "shaded", "curved", "covered", "all at once",
)  # fmt: skip


def views(many: int, seed: int = 26) -> Iterator[View]:
    """So many views, the kinds in turn."""
    dice = np.random.default_rng(seed)
    for number in range(many):
        code = None
        while code is None:
            code = code_of(int(dice.integers(32**SYMBOLS)))
        kind = KINDS[number % len(KINDS)]
        pose = pose_of(kind, dice)
        mark = f"S-{number + 1}"
        printed = label(HOST, code, mark, "26-104", "circumferential seam")
        yield View(kind, link_of(HOST, code), pose, seen(printed, pose, dice))


def seen(printed: Image.Image, pose: Pose, dice: np.random.Generator) -> Grey:
    """The picture that a camera takes of a printed label."""
    paper = np.asarray(printed, dtype=np.float64) * 0.86 + 18
    paper = blotted(paper, pose.covered, dice)
    # A print has no steps between its pixels, and a camera sums what falls on one of its own.
    shrunk = pose.wide * FRAME[0] / printed.width
    paper = ndimage.gaussian_filter(paper, max(0.0, 0.35 / shrunk))
    picture = projected(paper, pose)
    picture *= shading(pose.shade, dice)
    picture = ndimage.gaussian_filter(picture, pose.defocus)
    if pose.moved > 1:
        picture = ndimage.convolve(picture, streak(pose.moved, dice.uniform(0, math.pi)))
    picture += dice.normal(0, pose.noise, picture.shape)
    return np.clip(picture, 0, 255).astype(np.uint8)


def blotted(paper: Picture, part: float, dice: np.random.Generator) -> Picture:
    """Paint, weld spatter or grease over a part of the label: one blot, light or dark, anywhere on it."""
    if part == 0:
        return paper
    height, width = paper.shape
    stretch = dice.uniform(0.7, 1.4)
    radius = math.sqrt(part * width * height / math.pi)
    across, down = dice.uniform(0, width), dice.uniform(0, height)
    y, x = np.mgrid[0:height, 0:width]
    blot = ((x - across) / stretch) ** 2 + ((y - down) * stretch) ** 2 < radius**2
    return np.where(blot, dice.choice([40.0, 205.0]), paper)


def projected(paper: Picture, pose: Pose) -> Picture:
    """The label on steel, by the ray from each pixel to a plane or to a pipe."""
    width, height = FRAME
    far, focus = 2.2, 2.2 * pose.wide * width
    y, x = np.mgrid[0:height, 0:width]
    rays = np.stack([x - (width - 1) / 2, y - (height - 1) / 2, np.full(x.shape, focus)]).reshape(3, -1)
    back = turned(pose).T
    rays = back @ rays
    start = back @ np.array([0.0, 0.0, -far])
    if pose.bend:
        across, down, hit = on_pipe(start, rays, 1 / math.radians(pose.bend))
    else:
        along = -start[2] / rays[2]
        across, down, hit = start[0] + along * rays[0], start[1] + along * rays[1], along > 0
    long = paper.shape[1]
    column, row = (across + 0.5) * long, down * long + paper.shape[0] / 2
    found = ndimage.map_coordinates(paper, [row, column], order=1, mode="constant", cval=STEEL, prefilter=False)
    return np.where(hit, found, STEEL).reshape(height, width)


def on_pipe(start: Picture, rays: Picture, radius: float) -> tuple[Picture, Picture, NDArray[np.bool_]]:
    """Where rays meet a pipe that stands upright and touches the label's plane, unrolled."""
    ahead = start[2] - radius
    a = rays[0] ** 2 + rays[2] ** 2
    b = start[0] * rays[0] + ahead * rays[2]
    rest = b**2 - a * (start[0] ** 2 + ahead**2 - radius**2)
    along = (-b - np.sqrt(np.maximum(rest, 0))) / a
    x, z = start[0] + along * rays[0], start[2] + along * rays[2]
    return radius * np.arctan2(x, radius - z), start[1] + along * rays[1], rest > 0


def turned(pose: Pose) -> Picture:
    turn, lean, swing = (math.radians(one) for one in (pose.turn, pose.lean, pose.swing))
    (ct, st), (cl, sl), (cs, ss) = ((math.cos(one), math.sin(one)) for one in (turn, lean, swing))
    in_plane = np.array([[ct, -st, 0], [st, ct, 0], [0, 0, 1]])
    level = np.array([[1, 0, 0], [0, cl, -sl], [0, sl, cl]])
    upright = np.array([[cs, 0, ss], [0, 1, 0], [-ss, 0, cs]])
    found: Picture = in_plane @ level @ upright
    return found


def shading(left: float, dice: np.random.Generator) -> Picture:
    """Light that falls off over the picture, and one edge of a shadow across the label."""
    width, height = FRAME
    y, x = np.mgrid[0:height, 0:width]
    angle, off = dice.uniform(0, 2 * math.pi), dice.uniform(-0.2, 0.2) * width
    distance = (x - width / 2) * math.cos(angle) + (y - height / 2) * math.sin(angle) - off
    lit: Picture = left + (1 - left) / (1 + np.exp(-distance / dice.uniform(4, 30)))
    return lit


def streak(length: float, angle: float) -> Picture:
    """The path of a hand that moved while the shutter was open."""
    side = 2 * math.ceil(length / 2) + 1
    middle = side // 2
    kernel = np.zeros((side, side))
    for step in np.linspace(-length / 2, length / 2, 8 * side):
        kernel[round(middle + step * math.sin(angle)), round(middle + step * math.cos(angle))] += 1
    return kernel / kernel.sum()
