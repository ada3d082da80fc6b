"""Tags of stainless steel, to be marked by a laser: an SVG a piece, of plain paths alone.

No text and no fonts are left in it: modules are one path, letters are another, both filled; the edge of the plate and
its hole are thin red lines, the usual sign for what is cut.
"""

import functools
import io
import zipfile
from collections.abc import Iterable
from dataclasses import dataclass

from fontTools.misc.transform import Transform
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.pens.transformPen import TransformPen
from fontTools.ttLib import TTFont

from seamtag.core.tagcode import link_of
from seamtag.tags.layout import Layout, Line, Words, face_file, laid_out, length, modules, outlines


@dataclass(frozen=True)
class Plate:
    """In millimetres. hole: its diameter; it lies in the middle of the upper edge."""

    id: str
    width: float
    height: float
    hole: float
    round: float

    @property
    def above(self) -> float:
        """What the hole and the steel around it take."""
        return self.hole * 1.5


PLATES = {plate.id: plate for plate in (
    Plate("60x30", 60.0, 30.0, 3.5, 2.0),
    Plate("80x40", 80.0, 40.0, 4.5, 3.0),
)}  # fmt: skip


def plate_svg(host: str, words: Words, plate: Plate) -> str:
    """One plate, in its true size."""
    matrix = modules(link_of(host, words.code))
    made = laid_out(plate.width, plate.height, len(matrix), words, plate.above)
    dark = "".join(loop_path(loop, corner, made.module) for corner in made.symbols for loop in outlines(matrix))
    size = f'width="{plain(plate.width)}mm" height="{plain(plate.height)}mm"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {plain(plate.width)} {plain(plate.height)}">\n'
        f'<g id="cut" fill="none" stroke="#f00" stroke-width="0.1"><path d="{edge(plate)}"/>'
        f'<path d="{hole(plate)}"/></g>\n'
        f'<path id="symbols" fill="#000" d="{dark}"/>\n'
        f'<path id="letters" fill="#000" d="{letters(made)}"/>\n'
        "</svg>\n"
    )


def plates_zip(host: str, tags: Iterable[Words], plate: Plate) -> bytes:
    """A file for each plate, named by its mark and code."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as files:
        for words in tags:
            files.writestr(file_name(words), plate_svg(host, words, plate))
    return out.getvalue()


def file_name(words: Words) -> str:
    mark = "".join(one if one.isalnum() or one in "-." else "_" for one in words.mark)
    return f"{mark}-{words.code}.svg"


def plain(number: float) -> str:
    """To a micrometre, without needless figures."""
    return f"{number:.3f}".rstrip("0").rstrip(".")


def loop_path(loop: list[tuple[int, int]], corner: tuple[float, float], module: float) -> str:
    points = (f"{plain(corner[0] + x * module)} {plain(corner[1] + y * module)}" for x, y in loop)
    return f"M{'L'.join(points)}Z"


def edge(plate: Plate) -> str:
    """The plate's outline with rounded corners."""
    r, across, down = plain(plate.round), plain(plate.width - 2 * plate.round), plain(plate.height - 2 * plate.round)
    return (f"M{r} 0h{across}a{r} {r} 0 0 1 {r} {r}v{down}a{r} {r} 0 0 1 -{r} {r}h-{across}"
            f"a{r} {r} 0 0 1 -{r} -{r}v-{down}a{r} {r} 0 0 1 {r} -{r}Z")  # fmt: skip


def hole(plate: Plate) -> str:
    radius = plain(plate.hole / 2)
    start = f"{plain((plate.width - plate.hole) / 2)} {plain(plate.hole)}"
    return f"M{start}a{radius} {radius} 0 1 0 {plain(plate.hole)} 0a{radius} {radius} 0 1 0 -{plain(plate.hole)} 0Z"


def letters(made: Layout) -> str:
    return "".join(line_path(line) for line in made.lines)


def line_path(line: Line) -> str:
    """The outlines of a line's letters, set around its middle."""
    font = opened(line.face)
    scale = line.size / font["head"].unitsPerEm
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    across = line.middle - length(line.text, line.face) * line.size / 2
    paths = []
    for letter in line.text:
        glyph = glyphs[names.get(ord(letter), ".notdef")]
        pen = SVGPathPen(glyphs, ntos=plain)
        glyph.draw(TransformPen(pen, Transform(scale, 0, 0, -scale, across, line.baseline)))
        paths.append(pen.getCommands())
        across += glyph.width * scale
    return "".join(paths)


@functools.cache
def opened(face: str) -> TTFont:
    return TTFont(face_file(face))
