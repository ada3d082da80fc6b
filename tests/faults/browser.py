"""The app in Chromium with its profile on disk, killed while it records, again and again.

Readings are typed on the app's own keypad. What the screen has called saved must be on the phone after the next start,
and on the server once, when all has been sent.
"""

import hashlib
import os
import random
import re
import signal
import subprocess
import tempfile
import time
from collections import Counter
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Error, Page, Playwright, expect, sync_playwright
from sqlalchemy import select

from seamtag.core.records import SHA256
from seamtag.database import db
from seamtag.photos.models import Photo
from seamtag.records import jws
from seamtag.records.models import Record
from seamtag.sync.models import Entry
from seamtag.sync.verifying import verify
from tests.browser.place import FLAGS, Server, chromium, free_port
from tests.conftest import app_in, close, made_ready
from tests.faults.client import picture
from tests.faults.table import Row
from tests.shop import JOB, Shop

PIN = "602417"
PLACE = f"/#/item/{JOB}/{JOB}.P-1/receipt/thick"
"""A thickness without stations: too thin, so that the screen stays and is typed on again."""

DRIVE = """
async (first) => {
  const until = async (find) => {
    for (;;) {
      const found = find();
      if (found) return found;
      await new Promise((done) => setTimeout(done, 2));
    }
  };
  const key = (label) => document.querySelector(`.keypad button[aria-label="${label}"]`);
  const words = (text) =>
    [...document.querySelectorAll(".notice, .onward .verdict")].some((one) => one.textContent.includes(text));
  for (let number = first; ; number += 1) {
    const text = `.0${number}`;
    for (let place = 0; place < text.length; place += 1) {
      (await until(() => key(text[place] === "." ? "point" : text[place]))).click();
      await until(() => document.querySelector(".reading").textContent.startsWith(text.slice(0, place + 1)));
    }
    const ready = await until(() => {
      const save = document.querySelector(".keypad .do");
      if (!save.disabled) return save;
      document.querySelectorAll(".why button")[1]?.click();
      return null;
    });
    ready.click();
    await until(() => words(`${text} in`) && words("saved on this phone"));
    said(text);
    document.querySelectorAll(".onward .way")[1]?.click();
  }
}
"""
"""Types one reading after the other, as fast as the app lets it, and says what the screen has called saved."""

ON_DISK = """
() => new Promise((done, failed) => {
  const opening = indexedDB.open("seamtag");
  opening.onerror = () => failed(opening.error);
  opening.onsuccess = () => {
    const reading = opening.result.transaction("records").objectStore("records").getAll();
    reading.onsuccess = () => {
      opening.result.close();
      done(reading.result.map(({ payload }) => payload.body.entered ?? payload.body.sha256 ?? ""));
    };
  };
})
"""


@dataclass(frozen=True)
class Size:
    """longest: seconds that it records before it is killed, at most."""

    kills: int
    longest: float


FULL = Size(30, 4.0)
SHORT = Size(2, 1.5)


class Chromium:
    """A browser process of our own on a profile; it can be killed and started again."""

    def __init__(self, playwright: Playwright, profile: Path) -> None:
        self.playwright, self.profile = playwright, profile
        self.process: subprocess.Popen[bytes] | None = None
        self.browser: Browser | None = None

    def start(self) -> Page:
        port = self.profile / "DevToolsActivePort"
        port.unlink(missing_ok=True)
        flags = [*FLAGS, "--headless=new", "--remote-debugging-port=0", "--disable-breakpad", "--window-size=400,900"]
        command = [chromium() or "chromium", *flags, f"--user-data-dir={self.profile}", "about:blank"]
        self.process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                        start_new_session=True)  # fmt: skip
        for _ in range(300):
            if port.exists() and "\n" in port.read_text():
                break
            time.sleep(0.1)
        address = f"http://127.0.0.1:{port.read_text().splitlines()[0]}"
        self.browser = self.playwright.chromium.connect_over_cdp(address)
        page = self.browser.contexts[0].pages[0]
        page.set_default_timeout(30_000)
        return page

    def kill(self) -> None:
        """SIGKILL to all of its processes at once."""
        if self.process:
            with suppress(ProcessLookupError):
                os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait()
            self.process = None
        if self.browser:
            with suppress(Error):
                self.browser.close()
            self.browser = None


class Round:
    """One phone, killed again and again, beside a server that lives. web: the built app, the usual one where None."""

    def __init__(self, size: Size, seed: int = 1, web: Path | None = None) -> None:
        self.size, self.dice = size, random.Random(seed)
        self.place = tempfile.TemporaryDirectory(prefix="seamtag-browser-", ignore_cleanup_errors=True)
        self.folder = Path(self.place.name)
        self.app = app_in(self.folder)
        made_ready(self.app)
        self.shop = Shop(self.app)
        close(self.app)
        self.server = Server(self.folder, free_port(), web)
        self.saved: set[str] = set()
        self.missed: set[str] = set()
        self.on_disk: set[str] = set()
        self.last, self.kills, self.photos = 1000, 0, 0

    def run(self) -> Row:
        begun = time.monotonic()
        with sync_playwright() as playwright:
            phone = Chromium(playwright, self.folder / "profile")
            try:
                self.server.start()
                page = phone.start()
                self.enrol(page)
                for _ in range(self.size.kills):
                    self.record_for_a_while(page)
                    phone.kill()
                    self.kills += 1
                    page = phone.start()
                    self.unlock(page)
                    self.look_on_disk(page)
                self.send_all(page)
            finally:
                phone.kill()
                self.server.kill()
        try:
            return self.row(begun)
        finally:
            close(self.app)
            self.place.cleanup()

    def enrol(self, page: Page) -> None:
        page.goto(self.server.url)
        page.get_by_label("Invitation").fill(self.shop.invite("inspector"))
        page.get_by_label("PIN", exact=True).fill(PIN)
        page.get_by_label("PIN once more").fill(PIN)
        page.get_by_role("button", name="Enrol this phone").click()
        expect(page.get_by_role("link", name=re.compile(f"^{JOB}"))).to_be_visible(timeout=30_000)
        page.goto(self.server.url + PLACE)

    def unlock(self, page: Page) -> None:
        page.goto(self.server.url + PLACE)
        page.get_by_label("PIN").fill(PIN)
        page.get_by_role("button", name="Unlock").click()
        expect(page.locator(".keypad")).to_be_visible(timeout=30_000)

    def look_on_disk(self, page: Page) -> None:
        """What the screen had called saved is here after a kill, and nothing is here twice."""
        on_disk = Counter(page.evaluate(ON_DISK))
        self.missed |= self.saved - set(on_disk)
        self.missed |= {one for one, count in on_disk.items() if count > 1}
        self.missed |= {f"photo {number}" for number in range(photos_among(on_disk), self.photos)}

    def record_for_a_while(self, page: Page) -> None:
        """For a random time, and it is still at it at the end."""
        expect(page.locator(".keypad")).to_be_visible(timeout=30_000)
        self.photo(page)
        page.expose_function("said", self.hear)
        self.last += 1000
        page.evaluate(f"(first) => void ({DRIVE})(first)", self.last)
        page.wait_for_timeout(1000 * self.dice.uniform(0.2, 1) * self.size.longest)

    def photo(self, page: Page) -> None:
        """A photo is saved once the screen shows it."""
        content = picture(self.dice)
        before = photos_among(page.evaluate(ON_DISK))
        page.locator("input[type=file]").first.set_input_files(
            {"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": content}
        )
        shown = page.get_by_role("img", name=re.compile("^Thickness"))
        expect(shown).to_have_count(before + 1, timeout=30_000)
        self.photos += 1

    def hear(self, text: str) -> None:
        self.saved.add(text)

    def send_all(self, page: Page) -> None:
        expect(page.get_by_text("all sent").first).to_be_visible(timeout=90_000)
        self.on_disk = set(page.evaluate(ON_DISK))

    def row(self, begun: float) -> Row:
        with self.app.app_context():
            bodies = db.session.scalars(select(Entry.body).where(Entry.kind == "record"))
            payloads = [jws.json_of(body.split(".")[1]) for body in bodies]
            links = Counter(db.session.scalars(select(Record.link)))
            photos = set(db.session.scalars(select(Photo.sha256).where(Photo.stored)))
            found = list(verify(db.session(), self.app.extensions["vault"]))
            damaged = sum(not self.is_whole(sha256) for sha256 in photos)
        says = Counter(str(p["body"].get("entered") or p["body"].get("sha256") or "") for p in payloads)
        named = {p["body"]["sha256"] for p in payloads if p["type"] == "photo"}
        lost = len((self.saved | self.on_disk) - set(says)) + len(self.missed) + len(named - photos) + damaged
        doubled = sum(count - 1 for count in says.values())
        fault = "; ".join(f"{one.kind} {one.where} {one.says}" for one in found[:3])
        if len(photos) < self.photos:
            fault = f"{self.photos} photos were shown, {len(photos)} are here; {fault}"
        return Row("browser", "SQLite", len(payloads), len(photos), self.kills, len(self.saved), lost, doubled,
                   links["gap"], links["fork"], time.monotonic() - begun, fault)  # fmt: skip

    def is_whole(self, sha256: str) -> bool:
        vault: Any = self.app.extensions["vault"]
        return bool(hashlib.sha256(vault.original(sha256)).hexdigest() == sha256)


def photos_among(says: Iterable[str]) -> int:
    return sum(SHA256.fullmatch(one) is not None for one in says)
