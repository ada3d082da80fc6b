"""A real server process, and Chromium with its profile on disk and a generated camera picture."""

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from PIL import Image, ImageFilter
from playwright.sync_api import BrowserContext, Playwright

FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--no-first-run", "--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream",
]  # fmt: skip
PHONE = {"width": 360, "height": 740}
DESK = {"width": 1280, "height": 900}


def chromium() -> str | None:
    return shutil.which("chromium") or shutil.which("chromium-browser")


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
        return port


class Server:
    """`seamtag serve` on a folder; can be killed and started again."""

    def __init__(self, folder: Path, port: int, web: Path | None = None) -> None:
        self.folder, self.port = folder, port
        self.env = {
            **os.environ,
            "SEAMTAG_DATABASE": f"sqlite:///{folder}/seamtag.db",
            "SEAMTAG_PHOTOS": str(folder / "photos"),
            "SEAMTAG_HOST": f"127.0.0.1:{port}",
            **({"SEAMTAG_WEB": str(web)} if web else {}),
        }
        self.process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        command = [str(Path(sys.executable).with_name("seamtag")), "serve", "--port", str(self.port)]
        with (self.folder / "server.log").open("ab") as log:
            self.process = subprocess.Popen(command, env=self.env, stdout=log, stderr=log, start_new_session=True)
        for _ in range(150):
            try:
                with urllib.request.urlopen(f"{self.url}/healthz", timeout=1):
                    return
            except OSError:
                time.sleep(0.1)
        raise AssertionError((self.folder / "server.log").read_text())

    def kill(self) -> None:
        """SIGKILL to the server and its workers."""
        if self.process:
            os.killpg(self.process.pid, 9)
            self.process.wait()
            self.process = None


@contextmanager
def browser(
    playwright: Playwright, profile: Path, video: Path | None = None, size: dict[str, int] | None = None
) -> Iterator[BrowserContext]:
    """Chromium with an on-disk profile; video: what its camera shows; size: of a desk, a phone's where None."""
    camera = [f"--use-file-for-fake-video-capture={video}"] if video else []
    context = playwright.chromium.launch_persistent_context(
        str(profile), executable_path=chromium(), args=[*FLAGS, *camera], viewport=size or PHONE,
        has_touch=size is None, device_scale_factor=2 if size is None else 1,
    )  # fmt: skip
    context.set_default_timeout(15_000)
    try:
        yield context
    finally:
        context.close()


def camera_video(label: Image.Image, file: Path, turn: float = 11, blur: float = 1.1) -> Path:
    """What a camera sees of a label: turned, blurred, on grey steel; as the y4m that Chromium plays."""
    width, height = 1280, 720
    seen = label.convert("L")
    seen = seen.resize((1000, int(1000 * seen.height / seen.width)))
    frame = Image.new("L", (width, height), 120)
    turned = seen.rotate(turn, expand=True, fillcolor=120, resample=Image.Resampling.BICUBIC)
    frame.paste(turned, ((width - turned.width) // 2, (height - turned.height) // 2))
    frame = frame.filter(ImageFilter.GaussianBlur(blur))
    grey = bytes([128]) * (width * height // 2)
    with file.open("wb") as out:
        out.write(f"YUV4MPEG2 W{width} H{height} F10:1 Ip A1:1 C420jpeg\n".encode())
        for _ in range(4):
            out.write(b"FRAME\n" + frame.tobytes() + grey)
    return file


def big_photo(file: Path) -> Path:
    """A JPEG of 12 million pixels with EXIF: lying on its side, with a place and a comment."""
    picture = Image.linear_gradient("L").resize((4000, 3000)).convert("RGB")
    exif = Image.Exif()
    exif[0x0112] = 6
    exif[0x010F] = "Invented Camera"
    gps = exif.get_ifd(0x8825)
    gps[1], gps[2] = "N", (40.0, 26.0, 46.0)
    picture.save(file, "JPEG", quality=85, exif=exif, comment=b"made by hand")
    return file
