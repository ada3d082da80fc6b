"""How many views of a label are read: by the app's own decoder, by zxing-cpp, and by OpenCV, on the same pictures.

Run as `python -m tests.bench.scanning [VIEWS]`, once `tests/run` has set things up. It prints the part that was read by
kind of view, and what a picture takes the app's decoder in Chromium with its CPU slowed four times. OpenCV takes part
where opencv-python-headless is installed.
"""

import base64
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import zxingcpp
from playwright.sync_api import Page, Playwright, sync_playwright

from tests.bench.views import FRAME, KINDS, Grey, View, views
from tests.browser.place import FLAGS, chromium

WEBAPP = Path(__file__).parents[2] / "webapp"
MANY = 300
SLOWED = 4
BUILD = """
import { build } from "vite";
const [entry, out] = process.argv.slice(2);
const lib = { entry, name: "scan", formats: ["iife"], fileName: () => "scan.js" };
await build({ configFile: false, logLevel: "error", build: { lib, outDir: out, emptyOutDir: false } });
"""
READ = """async ([width, height, grey, sharpen]) => {
  const answer = await fetch(`data:application/octet-stream;base64,${grey}`);
  const bytes = new Uint8Array(await answer.arrayBuffer());
  const picture = new ImageData(width, height);
  const pixels = new Uint32Array(picture.data.buffer);
  for (let place = 0; place < bytes.length; place += 1) pixels[place] = bytes[place] * 0x010101 + 0xff000000;
  const decode = await scan.decoder();
  const start = performance.now();
  const found = await decode(picture, sharpen);
  return [found.map(({ text }) => text), performance.now() - start];
}"""

Reader = Callable[[Grey], list[str]]


def bundle(folder: Path) -> str:
    """The app's own decoder as a script, its wasm inside it."""
    script = WEBAPP / "bench-scan.mjs"
    script.write_text(BUILD)
    entry = WEBAPP / "src" / "scan" / "decoder.ts"
    try:
        subprocess.run(["node", str(script), str(entry), str(folder)], check=True, cwd=WEBAPP)
    finally:
        script.unlink()
    return (folder / "scan.js").read_text()


@contextmanager
def app_page(playwright: Playwright) -> Iterator[Page]:
    """A page that has the app's decoder."""
    with tempfile.TemporaryDirectory() as name:
        script = bundle(Path(name))
        browser = playwright.chromium.launch(executable_path=chromium(), args=[*FLAGS])
        page = browser.new_page()
        page.add_script_tag(content=script)
        yield page
        browser.close()


def read_by_app(page: Page, picture: Grey, sharpen: bool = False) -> tuple[list[str], float]:
    """The texts that the app reads in one look, and the milliseconds it took."""
    texts, milliseconds = page.evaluate(READ, [*FRAME, base64.b64encode(picture.tobytes()).decode(), sharpen])
    return texts, milliseconds


def read_by_zxing_cpp(picture: Grey) -> list[str]:
    return [found.text for found in zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)]


def opencv() -> Reader | None:
    """OpenCV's reader; None where it is not installed."""
    try:
        import cv2
    except ImportError:
        return None
    detector = cv2.QRCodeDetector()

    def read(picture: Grey) -> list[str]:
        try:
            return [text for text in detector.detectAndDecodeMulti(picture)[1] if text]
        except cv2.error:
            return []

    return read


class Count:
    """Views read, by reader and kind; wrong: texts that no view held."""

    def __init__(self) -> None:
        self.read: dict[tuple[str, str], int] = {}
        self.seen: dict[str, int] = {}
        self.wrong: list[tuple[str, str]] = []

    def note(self, reader: str, view: View, texts: list[str]) -> None:
        self.read[reader, view.kind] = self.read.get((reader, view.kind), 0) + (view.link in texts)
        self.wrong += [(reader, text) for text in texts if text != view.link]

    def all_of(self, reader: str) -> int:
        return sum(count for (name, _), count in self.read.items() if name == reader)


def run(many: int, readers: dict[str, Reader]) -> Count:
    count = Count()
    for view in views(many):
        count.seen[view.kind] = count.seen.get(view.kind, 0) + 1
        for name, read in readers.items():
            count.note(name, view, read(view.picture))
    return count


def table(count: Count, readers: list[str]) -> Iterator[str]:
    yield f"{'read of':18}" + "".join(f"{name:>14}" for name in readers) + f"{'views':>8}"
    for kind in KINDS:
        parts = (count.read.get((name, kind), 0) / count.seen[kind] for name in readers)
        yield f"{kind:18}" + "".join(f"{part:14.0%}" for part in parts) + f"{count.seen[kind]:8}"
    many = sum(count.seen.values())
    yield f"{'all':18}" + "".join(f"{count.all_of(name) / many:14.1%}" for name in readers) + f"{many:8}"


class App:
    """The app's decoder in two looks, as the finder takes them: the picture as it is, then sharpened."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.found: list[str] = []
        self.times: dict[bool, list[float]] = {False: [], True: []}

    def look(self, picture: Grey, sharpen: bool) -> list[str]:
        texts, milliseconds = read_by_app(self.page, picture, sharpen)
        self.times[sharpen].append(milliseconds)
        return texts

    def first(self, picture: Grey) -> list[str]:
        self.found = self.look(picture, sharpen=False)
        return self.found

    def then_sharpened(self, picture: Grey) -> list[str]:
        """What the first look found, else a second."""
        return self.found or self.look(picture, sharpen=True)

    def costs(self) -> Iterator[str]:
        for sharpen, times in self.times.items():
            times.sort()
            name = "sharpened" if sharpen else "as it is"
            if times:
                middle, late = times[len(times) // 2], times[len(times) * 95 // 100]
                yield f"a look {name}, slowed {SLOWED} times: median {middle:.0f} ms, 95 % {late:.0f} ms"


def main(many: int) -> None:
    with sync_playwright() as playwright, app_page(playwright) as page:
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        app = App(page)
        readers: dict[str, Reader] = {
            "app, one look": app.first,
            "app, two": app.then_sharpened,
            "zxing-cpp": read_by_zxing_cpp,
        }
        found = opencv()
        if found:
            readers["OpenCV"] = found
        else:
            print("OpenCV is left out: opencv-python-headless is not installed.")
        count = run(many, readers)
    print("\n".join((*table(count, list(readers)), *app.costs())))
    for reader, text in count.wrong:
        print(f"read wrong by {reader}: {text}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else MANY)
