"""Each screen can be read, reached and pressed: WCAG 2.2 AA by axe-core, contrast 7 : 1 and large targets on the floor.

Sources: W3C, WCAG 2.2: 1.4.3 and 1.4.6 (contrast), 1.4.10 (reflow at 320 px), 2.5.8 and 2.5.5 (targets); axe-core, a
general library of accessibility checks. 64 px and 96 px for gloved hands: this project's own, after MIL-STD-1472E
5.4.3.1.3.3 (19 mm keys with mittens), read second-hand.
"""

import re
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, Playwright, expect

from tests.browser import place
from tests.browser.place import Server, browser
from tests.browser.screens import AXE, DESK, FLOOR, LARGE, SMALL, let_in, show
from tests.browser.test_main_line import look

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
TARGET, KEY = 64, 96
AXE_RUN = """async ([tags, more]) => {
  const rules = Object.fromEntries(more.map((rule) => [rule, { enabled: true }]));
  const found = await axe.run(document, { runOnly: { type: "tag", values: tags }, rules });
  return found.violations.flatMap(({ id, nodes }) => nodes.map((node) =>
    `${id}: ${node.html.slice(0, 120)} ${[...node.any, ...node.all].map(({ message }) => message.slice(0, 200))}`));
}"""
SMALL_TARGETS = """([least, key]) => {
  const all = "a[href], button, input:not(.hidden-input), select, textarea, summary, label:has(.hidden-input)";
  return [...document.querySelectorAll(all)].flatMap((one) => {
    const { width, height } = (one.type === "checkbox" ? one.closest("label") : one).getBoundingClientRect();
    const hidden = getComputedStyle(one).visibility === "hidden";
    if (width === 0 || hidden || one.closest("details:not([open]) > :not(summary)")) return [];
    // Pins lie where the drawing has their pieces; the list below it leads to the same at full size.
    if (one.closest(".map-view")) return [];
    const wide = one.closest(".keypad") ? key : least;
    const enough = height >= (one.closest(".keypad") ? 56 : least) - 0.5 && width >= wide - 0.5;
    return enough ? [] : [`${one.outerHTML.slice(0, 90)} ${Math.round(width)} x ${Math.round(height)}`];
  });
}"""


def violations(page: Page, strict: bool) -> list[str]:
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.read_text() + ";0")
    found: list[str] = page.evaluate(AXE_RUN, [WCAG, ["color-contrast-enhanced"] if strict else []])
    return found


def too_small(page: Page) -> list[str]:
    found: list[str] = page.evaluate(SMALL_TARGETS, [TARGET, KEY])
    return found


def test_the_floor_screens(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    """In Spanish on the smaller phone, in English on the larger; in daylight and dark."""
    faults: dict[str, Any] = {}
    with browser(playwright, tmp_path / "phone") as context:
        page = let_in(context, demo, "inspector", "es")
        for language, size, scheme in (("es", SMALL, "light"), ("en", LARGE, "dark")):
            page.set_viewport_size(size)  # type: ignore[arg-type]
            page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
            if language == "en":
                page.evaluate("location.hash = '/settings'")
                page.locator("button[lang=en]").click()
            for screen in FLOOR:
                show(page, screen)
                look(page, f"all/{screen.name}-{language}-{scheme}")
                found = violations(page, strict=True) + too_small(page)
                if found:
                    faults[f"{screen.name} {language}"] = found
    assert not faults


def test_the_desk(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    """Also by keyboard alone: the focus can be seen, and goes down the page."""
    with browser(playwright, tmp_path / "desk", size=place.DESK) as context:
        page = let_in(context, demo, "supervisor")
        for screen in DESK:
            show(page, screen)
            assert violations(page, strict=False) == []
            assert focus_goes_down(page)


def focus_goes_down(page: Page) -> list[str]:
    """What the tab key reaches, one after the other; each seen to have an outline and to come after the last."""
    page.evaluate("document.activeElement?.blur()")
    reached: list[str] = []
    for _ in range(12):
        page.keyboard.press("Tab")
        state = page.evaluate(
            """() => {
              const now = document.activeElement;
              const after = !window.before || !document.contains(window.before) ||
                Boolean(window.before.compareDocumentPosition(now) & Node.DOCUMENT_POSITION_FOLLOWING);
              window.before = now;
              const { outlineStyle, outlineWidth } = getComputedStyle(now);
              const seen = outlineStyle !== "none" && outlineWidth !== "0px";
              return { name: now.outerHTML.slice(0, 80), after, seen };
            }"""
        )
        if state["name"].startswith("<body"):
            break
        assert state["seen"], f"no outline: {state['name']}"
        assert state["after"], f"out of order: {state['name']}"
        reached.append(state["name"])
    return reached


def test_zoom_to_400_per_cent(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    """1280 x 1024 at 400 % leaves 320 x 256: all can be scrolled to, nothing lies over the rest."""
    with browser(playwright, tmp_path / "zoom") as context:
        page = let_in(context, demo, "inspector")
        page.set_viewport_size({"width": 320, "height": 256})
        for screen in FLOOR:
            show(page, screen)
            assert covered(page) == [], screen.name


def covered(page: Page) -> list[str]:
    """What cannot be brought into view and pressed, since something lies over it."""
    found: list[str] = page.evaluate(
        """() => [..."a[href], button, input:not(.hidden-input), textarea, select".split(", ")]
          .flatMap((one) => [...document.querySelectorAll(`main ${one}`)])
          .filter((one) => {
            const closed = one.closest("details:not([open]) > :not(summary)");
            if (closed || one.getBoundingClientRect().width === 0) return false;
            one.scrollIntoView({ block: "center" });
            const { left, top, width, height } = one.getBoundingClientRect();
            const middle = Math.min(Math.max(top + height / 2, 1), innerHeight - 1);
            const at = document.elementFromPoint(left + width / 2, middle);
            return !(at && (one.contains(at) || at.contains(one) || one.closest("label")?.contains(at)));
          }).map((one) => one.outerHTML.slice(0, 100))"""
    )
    return found


def test_settings_change_the_look_and_stay(demo: Server, playwright: Playwright, tmp_path: Path) -> None:
    with browser(playwright, tmp_path / "settings") as context:
        page = let_in(context, demo, "inspector")
        page.evaluate("location.hash = '/settings'")
        for name in ("Large keys", "For the sun", "Left hand"):
            page.get_by_label(re.compile(name)).check()
        page.evaluate("location.hash = '/item/2207/2207.TS-R/sheet_machined/hole'")
        keys = page.locator(".keypad button")
        expect(keys.first).to_be_visible()
        box = keys.nth(4).bounding_box()
        assert box
        assert box["width"] >= KEY
        assert box["height"] >= 80
        save, point = (
            page.locator(".keypad .do").bounding_box(),
            keys.nth(-3).bounding_box(),
        )
        assert save
        assert point
        assert save["x"] < point["x"], "left hand: Save lies on the left"
        assert violations(page, strict=True) == []
        look(page, "measure-gloves")
        page.reload()
        assert page.evaluate(
            "['gloves', 'outdoor', 'left'].every((name) => document.documentElement.hasAttribute(`data-${name}`))"
        )
        assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(255, 255, 255)"
