"""What a verdict costs on the phone's core, in Chromium with its CPU slowed four times.

Run as `python -m tests.bench.phone_verdicts`, once `tests/run` has set things up. Goal: under 1 ms a verdict.
"""

import subprocess
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.browser.place import FLAGS, chromium

WEBAPP = Path(__file__).parents[2] / "webapp"
SLOWED = 4
MANY = 200
BATCH = 100
"""Verdicts timed together: the browser's clock is too coarse for one."""
BUILD = """
import { build } from "vite";
const [entry, out] = process.argv.slice(2);
const lib = { entry, name: "core", formats: ["iife"], fileName: () => "core.js" };
await build({ configFile: false, logLevel: "error", build: { lib, outDir: out, emptyOutDir: false } });
"""
MEASURE = """([many, batch]) => {
  const { numbers, uoms, verdict } = core;
  const typed = Array.from({ length: 16 }, (_, marks) => `${marks}/64`.replace("0/64", "0"));
  const limits = { lower: new numbers.Decimal("0.0625"), upper: new numbers.Decimal("0.15625"), reason: "" };
  const gauge = new verdict.Gauge(new numbers.Decimal("0.005"));
  const mm = uoms.conversion("mm", "in");
  const works = {
    "simple rule, from the text typed": (n) => verdict.judge(numbers.parse(typed[n % 16]).value, limits),
    "guarded rule, with U": (n) => verdict.judge(numbers.parse(typed[n % 16]).value, limits, gauge, "guarded"),
    "with U, converted from mm": (n) =>
      verdict.judge(numbers.parse(typed[n % 16]).value, limits, gauge, "simple", null, mm),
  };
  const found = {};
  for (const [name, work] of Object.entries(works)) {
    const times = [];
    for (let n = 0; n < many; n += 1) {
      const start = performance.now();
      for (let again = 0; again < batch; again += 1) work(n + again);
      times.push((performance.now() - start) / batch);
    }
    times.sort((a, b) => a - b);
    found[name] = [times[many / 2], times[Math.floor(many * 0.99)], times[many - 1]];
  }
  return found;
}"""


def bundle(folder: Path) -> str:
    core = WEBAPP / "src" / "core"
    entry = folder / "entry.ts"
    entry.write_text("".join(f'export * as {name} from "{core / name}";\n' for name in ("numbers", "uoms", "verdict")))
    script = WEBAPP / "bench-build.mjs"
    script.write_text(BUILD)
    try:
        subprocess.run(["node", str(script), str(entry), str(folder)], check=True, cwd=WEBAPP)
    finally:
        script.unlink()
    return (folder / "core.js").read_text()


def main() -> None:
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        script = bundle(Path(name))
        browser = playwright.chromium.launch(executable_path=chromium(), args=[*FLAGS])
        page = browser.new_page()
        page.add_script_tag(content=script)
        session = page.context.new_cdp_session(page)
        session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        for what, (middle, late, worst) in page.evaluate(MEASURE, [MANY, BATCH]).items():
            print(f"{what:36} median {middle:.4f} ms, 99 % {late:.4f} ms, worst {worst:.3f} ms")
        browser.close()


if __name__ == "__main__":
    main()
