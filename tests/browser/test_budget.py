"""How much JavaScript a phone has to load. The limits are this project's own (engineering goals, no source)."""

import gzip
import json
import re
from pathlib import Path

import pytest

from tests.browser.conftest import WEB

BEFORE_CAMERA = 75_000
CARRIED = 200_000
DESK = "assets/desk/"
STATIC = re.compile(r"""(?:^|[;}\s])(?:import|export)\s*(?:[\w*${}\s,]+?\s*from\s*)?["'](\.{1,2}/[^"']+\.js)["']""")
LATER = re.compile(r"""import\(\s*["'`](\.{1,2}/[^"'`]+\.js)["'`]\s*\)""")
MANIFEST = re.compile(r"\[(?:\{[^{}]*\burl\b[^{}]*\},?)+\]")


def packed(file: Path) -> int:
    return len(gzip.compress(file.read_bytes(), 9, mtime=0))


def loaded_with(file: Path, seen: set[Path] | None = None) -> set[Path]:
    """A file of JavaScript and all it imports at once, not what it fetches later."""
    seen = set() if seen is None else seen
    if file not in seen:
        seen.add(file)
        for name in STATIC.findall(file.read_text()):
            loaded_with((file.parent / name).resolve(), seen)
    return seen


def reached(file: Path, seen: set[Path] | None = None) -> set[Path]:
    """A file and all it imports, at once or later, but through a screen of the desk."""
    seen = set() if seen is None else seen
    if file not in seen and DESK not in file.as_posix():
        seen.add(file)
        text = file.read_text()
        for name in (*STATIC.findall(text), *LATER.findall(text)):
            reached((file.parent / name).resolve(), seen)
    return seen


def carried() -> set[str]:
    """What the service worker takes along, by its own list."""
    (found,) = MANIFEST.findall((WEB / "sw.js").read_text())
    entries = json.loads(re.sub(r"([{,])(\w+):", r'\1"\2":', found).replace("`", '"'))
    return {entry["url"] for entry in entries}


@pytest.fixture(scope="module")
def assets() -> Path:
    if not (WEB / "index.html").is_file():
        pytest.fail("the app is not built: npm run build in webapp")
    return WEB / "assets"


@pytest.fixture(scope="module")
def page(assets: Path) -> Path:
    """The page's own script."""
    text = (WEB / "index.html").read_text()
    (first,) = (WEB / name.lstrip("/") for name in re.findall(r'<script[^>]+src="([^"]+\.js)"', text))
    return first


def test_javascript_before_the_live_camera(assets: Path, page: Path) -> None:
    """The page's own scripts and the decoder's; its wasm is apart."""
    decoder = [
        file for file in assets.glob("*.js") if "prepareZXingModule" in file.read_text() or "ponyfill" in file.name
    ]
    files = {part for file in [page, *decoder] for part in loaded_with(file)}
    total = sum(packed(file) for file in files)
    print(f"\nJavaScript before the camera: {total:,} bytes gzip of {BEFORE_CAMERA:,}, in {len(files)} files")
    assert decoder
    assert total <= BEFORE_CAMERA


def test_javascript_that_is_carried_for_work_without_a_network(assets: Path) -> None:
    """Screens of the desk work with the server alone: no phone carries them, and they do not count."""
    names = sorted(name for name in carried() if name.endswith(".js"))
    total = sum(packed(WEB / name) for name in names)
    print(f"\nJavaScript carried: {total:,} bytes gzip of {CARRIED:,}, in {len(names)} files")
    assert len(names) > 20
    assert not [name for name in names if name.startswith(DESK)]
    assert total <= CARRIED


def test_all_that_the_floor_may_open_is_carried(page: Path) -> None:
    """Followed from the page through whatever it imports, at once or later."""
    floor = {file.relative_to(WEB).as_posix() for file in reached(page)}
    assert {name.split("/")[-1].split("-")[0] for name in floor} >= {"step", "item", "unsent", "settings", "piece"}
    assert floor - carried() == set()
    styles = {file.relative_to(WEB).as_posix() for file in (WEB / "assets").glob("*.css")}
    assert styles - carried() == set()


def test_the_chart_is_only_in_a_screen_of_the_desk(assets: Path) -> None:
    with_chart = [
        file.relative_to(WEB).as_posix() for file in assets.rglob("*.js") if "u-cursor-pt" in file.read_text()
    ]
    assert with_chart
    assert all(name.startswith(DESK) for name in with_chart)
