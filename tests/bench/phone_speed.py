"""How quick the phone is with its CPU slowed four times and no server: as it is after the demonstration, and full.

Run as `python -m tests.bench.phone_speed`, once `tests/run` has set things up. Goals (this project's own): app start to
a live camera under 1.5 s, scan to checklist under 300 ms, last key to verdict under 50 ms, a photo of 12 million pixels
saved under 1.5 s with the screen answering meanwhile; and none of it a third slower with 2,000 pieces and 50,000
records on the phone. The PIN is apart: its 600,000 rounds are meant to take their time.
"""

import sqlite3
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, expect, sync_playwright

from tests.browser.conftest import TOP
from tests.browser.place import Server, big_photo, browser, free_port
from tests.browser.screens import let_in
from tests.browser.test_main_line import PIN, worker_ready

SLOWED = 4
TIMES = 7
COPIES = 17
"""Of every job of the demonstration, which make more than 2,000 pieces and 50,000 records."""

COPY = """async ([copies]) => {
  const open = indexedDB.open("seamtag");
  const db = await new Promise((done) => { open.onsuccess = () => done(open.result); });
  const all = (store) => new Promise((done) => {
    const asked = db.transaction(store).objectStore(store).getAll();
    asked.onsuccess = () => done(asked.result);
  });
  const [master, records] = [await all("master"), await all("records")];
  const jobs = master.filter(({ kind }) => kind === "job").map(({ body }) => body.id);
  const uuid = /[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}/g;
  const copied = (row, job, copy) => {
    const own = { ...row, text: undefined };
    const text = JSON.stringify(own)
      .replaceAll(`"${job}"`, `"${job}-${copy}"`).replaceAll(`"${job}.`, `"${job}-${copy}.`)
      .replaceAll(`job:${job}`, `job:${job}-${copy}`)
      .replaceAll(uuid, (id) => id.slice(0, -3) + copy.toString(16).padStart(3, "0"));
    return { ...JSON.parse(text), ...(row.text ? { text: row.text } : {}) };
  };
  for (let copy = 1; copy < copies; copy += 1) {
    const tx = db.transaction(["master", "records"], "readwrite");
    for (const job of jobs) {
      const its = ({ kind, scope, body }) => scope === `job:${job}` || (kind === "job" && body.id === job);
      for (const row of master.filter(its)) {
        const made = copied(row, job, copy);
        if (row.kind === "job") made.key = `${row.key} ${copy}`;
        if (row.kind === "tags") made.body.tags = Object.fromEntries(
          Object.entries(made.body.tags).map(([code, piece]) => [`${code}${copy}`, piece]));
        tx.objectStore("master").put(made);
      }
      for (const row of records.filter((one) => one.job === job)) tx.objectStore("records").put(copied(row, job, copy));
    }
    await new Promise((done) => { tx.oncomplete = done; });
  }
  const [now, pieces] = [await all("records"), (await all("master")).filter(({ kind }) => kind === "pieces")];
  db.close();
  return [now.length, pieces.reduce((sum, { body }) => sum + body.pieces.length, 0)];
}"""

# Milliseconds from an action to what a selector finds, and the longest time in which the screen stood still.
UNTIL = """([act, selector]) => new Promise((done) => {
  const begun = performance.now();
  let [last, still] = [begun, 0];
  const look = () => {
    const now = performance.now();
    still = Math.max(still, now - last);
    last = now;
    if (document.querySelector(selector)) done([now - begun, still]);
    else requestAnimationFrame(look);
  };
  new Function(act)();
  requestAnimationFrame(look);
})"""
PRESS = """
const key = [...document.querySelectorAll(".keypad button")].find((one) => one.textContent === "1");
key.dispatchEvent(new PointerEvent("pointerdown", { button: 0, bubbles: true }));
"""


PHOTO = """() => {
  const before = document.querySelectorAll(".thumbs img").length;
  window.saved = new Promise((done) => {
    document.querySelector("input[type=file]").addEventListener("change", () => {
      const begun = performance.now();
      let [last, still] = [begun, 0];
      const look = () => {
        const now = performance.now();
        still = Math.max(still, now - last);
        last = now;
        if (document.querySelectorAll(".thumbs img").length > before) done([now - begun, still]);
        else requestAnimationFrame(look);
      };
      look();
    }, { capture: true });
  });
}"""


def until(page: Page, act: str, selector: str) -> tuple[float, float]:
    found: tuple[float, float] = page.evaluate(UNTIL, [act, selector])
    return found


def slowed(page: Page) -> None:
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})


def start(page: Page, url: str) -> dict[str, float]:
    """A cold start of the app, from the service worker alone, to a live camera; the PIN apart."""
    page.goto("about:blank")
    page.goto(f"{url}/", wait_until="commit")
    page.get_by_label("PIN", exact=True).wait_for()
    shown = page.evaluate("performance.now()")
    page.get_by_label("PIN", exact=True).fill(PIN)
    unlock = "document.querySelector('form button[type=submit]').click()"
    pin, _ = until(page, unlock, ".button.main:not([type=submit])")
    scan = "document.querySelector('button.button.main').click()"
    camera = page.evaluate(
        """act => new Promise((done) => {
          const begun = performance.now();
          new Function(act)();
          const look = () => document.querySelector(".finder video")?.readyState >= 2
            ? done(performance.now() - begun) : requestAnimationFrame(look);
          look();
        })""",
        scan,
    )
    return {"start to name and PIN": shown, "PIN to my work": pin, "tap to live camera": camera,
            "start to live camera": shown + camera}  # fmt: skip


def work(page: Page, codes: list[str], photo: Path, plates: list[str]) -> dict[str, list[float]]:
    found: dict[str, list[float]] = {"scan to checklist": [], "last key to verdict": []}
    for code in codes:
        page.evaluate("location.hash = '/scan'")
        page.wait_for_timeout(300)
        found["scan to checklist"].append(until(page, f"location.hash = '/tag/{code}'", "ol.list a")[0])
    page.evaluate("location.hash = '/item/2207/2207.TS-R/sheet_machined/t_meas'")
    page.locator(".keypad").wait_for()
    for _ in range(TIMES):
        found["last key to verdict"].append(until(page, PRESS, ".verdict")[0])
        page.get_by_role("button", name="rub out").click()
        expect(page.locator(".verdict")).to_have_count(0)
    photos = [save_photo(page, plate, photo) for plate in plates]
    found["photo of 12 million pixels saved"] = [whole for whole, _ in photos]
    found["longest stand-still meanwhile"] = [still for _, still in photos]
    return found


def save_photo(page: Page, plate: str, photo: Path) -> tuple[float, float]:
    """Milliseconds until a photo chosen is on the screen as saved, and the longest that the screen stood still."""
    page.evaluate(f"location.hash = '/item/2207/2207.{plate}/plate_receipt/heat'")
    page.locator("input[type=file]").first.wait_for(state="attached")
    page.wait_for_timeout(1500)
    page.evaluate(PHOTO)
    page.locator("input[type=file]").first.set_input_files(photo)
    found: tuple[float, float] = page.evaluate("window.saved")
    return found


def tags_of(folder: Path, pieces: tuple[str, ...]) -> list[str]:
    with sqlite3.connect(folder / "seamtag.db") as database:
        rows = dict(database.execute("SELECT piece, code FROM tag").fetchall())
    return [rows[piece] for piece in pieces]


def measured(page: Page, url: str, codes: list[str], photo: Path, plates: list[str]) -> dict[str, list[float]]:
    starts = [start(page, url) for _ in range(TIMES)]
    found = {name: [one[name] for one in starts] for name in starts[0]}
    return {**found, **work(page, codes, photo, plates)}


def main() -> None:
    pieces = ("2207.TS-R", "2207.G-1", "2205.F-2", "2203.TF-2F", "2211.G-1", "2207.L-1", "2205.W-1")
    results: list[dict[str, list[float]]] = []
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(name)
        server = Server(folder, free_port())
        fill = [sys.executable, "-m", "seed_demo.fill", "--folder", name]
        subprocess.run(fill, env=server.env, cwd=TOP, check=True, stdout=subprocess.DEVNULL)
        server.start()
        photo = big_photo(folder / "big.jpg")
        codes = tags_of(folder, pieces)
        try:
            with browser(playwright, folder / "phone") as context:
                page = let_in(context, server, "inspector")
                worker_ready(page)
                page.wait_for_timeout(3000)
                server.kill()
                slowed(page)
                results.append(measured(page, server.url, codes, photo, ["PL-5", "PL-6", "PL-7"]))
                records, many = page.evaluate(COPY, [COPIES])
                print(f"full: {many:,} pieces, {records:,} records")
                results.append(measured(page, server.url, codes, photo, ["PL-1", "PL-2", "PL-3"]))
        finally:
            server.kill()
    bare, full = results
    print(f"{'milliseconds, median (worst)':36} {'as it is':>16} {'full':>16}  ratio")
    for what, times in bare.items():
        before, after = statistics.median(times), statistics.median(full[what])
        shown = [f"{middle:.0f} ({max(every):.0f})" for middle, every in ((before, times), (after, full[what]))]
        print(f"{what:36} {shown[0]:>16} {shown[1]:>16}  {after / before:.2f}")


if __name__ == "__main__":
    main()
