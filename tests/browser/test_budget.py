"""How much JavaScript a phone has to load. The limits are this project's own (engineering goals, no source)."""

import gzip
import re
from pathlib import Path

import pytest

from tests.browser.conftest import WEB

BEFORE_CAMERA = 75_000
ALL = 200_000
STATIC = re.compile(r"""(?:^|[;}\s])(?:import|export)\s*(?:[\w*${}\s,]+?\s*from\s*)?["'](\./[^"']+\.js)["']""")


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


@pytest.fixture(scope="module")
def assets() -> Path:
    if not (WEB / "index.html").is_file():
        pytest.fail("the app is not built: npm run build in webapp")
    return WEB / "assets"


def test_javascript_before_the_live_camera(assets: Path) -> None:
    """The page's own scripts and the decoder's; its wasm is apart."""
    page = (WEB / "index.html").read_text()
    first = [WEB / name.lstrip("/") for name in re.findall(r'<script[^>]+src="([^"]+\.js)"', page)]
    decoder = [
        file for file in assets.glob("*.js") if "prepareZXingModule" in file.read_text() or "ponyfill" in file.name
    ]
    files = {part for file in [*first, *decoder] for part in loaded_with(file)}
    total = sum(packed(file) for file in files)
    print(f"\nJavaScript before the camera: {total:,} bytes gzip of {BEFORE_CAMERA:,}, in {len(files)} files")
    assert len(first) == 1
    assert decoder
    assert total <= BEFORE_CAMERA


def test_all_javascript(assets: Path) -> None:
    total = sum(packed(file) for file in assets.glob("*.js"))
    print(f"\nAll JavaScript: {total:,} bytes gzip of {ALL:,}")
    assert total <= ALL
