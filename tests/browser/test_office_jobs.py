"""Jobs at the planner's desk: opened from a list by keyboard alone, the board by party, and a change seen before it is
made."""

import re
from pathlib import Path

from playwright.sync_api import Page, Playwright, expect

from seamtag.jobs import lists
from seamtag.plans.reading import read
from tests.browser.place import DESK, Server, browser
from tests.browser.test_main_line import enrol, look
from tests.shop import PLAN, Shop

SMALL = read(PLAN)
PIECES = [
    {"mark": "V", "kind": "vessel", "place": "job cart"},
    {"mark": "PL-1", "kind": "plate", "part_of": ["V"], "figures": {"size": "1/4"}, "place": "top edge"},
    {"mark": "PL-2", "kind": "plate", "part_of": ["V"], "figures": {"size": "1/4"}, "place": "top edge"},
    {"mark": "L-1", "kind": "seam", "part_of": ["V"], "joins": ["PL-1", "PL-2"]},
]
MOST_TABS = 80


def tab_to(page: Page, name: str) -> None:
    """Press Tab until what has the focus is of this name."""
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        found = page.evaluate(
            "(one => one.getAttribute('aria-label') ?? one.labels?.[0]?.innerText ?? one.innerText)"
            "(document.activeElement) ?? ''"
        )
        if re.match(name, found.strip()):
            return
    raise AssertionError(f"{name} is not reached by {MOST_TABS} tabs")


def press(page: Page, name: str) -> None:
    tab_to(page, name)
    page.keyboard.press("Enter")


def typed(page: Page, name: str, text: str) -> None:
    tab_to(page, name)
    page.keyboard.press("ControlOrMeta+A")
    page.keyboard.type(text)


def fitted(shop: Shop) -> None:
    """The fit-up of S-1 measured, signed by the fitter and released; a plate that waits for QC, another scrapped."""
    texts, covers = [], []
    for station in ("12", "3", "6", "9"):
        text, one = shop.reading("3/32", station=station)
        texts.append(text)
        covers.append(one["id"])
    text, one = shop.record("inspector", "visual", {"result": "accept"}, step="fit", item="clean")
    made, maker = shop.record("fitter", "sign-off", {"party": "maker", "covers": []}, step="fit")
    body = {"party": "QC", "covers": [*covers, one["id"]]}
    signed, _ = shop.record("inspector", "sign-off", body, step="fit", under=[maker["id"]])
    plate = {"mark": "P-1", "step": "receipt"}
    heat, _ = shop.record("inspector", "text", {"value": "H 4471"}, item="heat", **plate)
    thick, _ = shop.record("inspector", "reading", {"entered": "1/4", "uom": "in"}, item="thick", **plate)
    thin, found = shop.record("inspector", "reading", {"entered": "0.1", "uom": "in"}, "P-2", step="receipt",
                              item="thick")  # fmt: skip
    about = {"records": [found["id"]], "flag": "out of tolerance"}
    scrap = {"about": about, "disposition": "scrap", "reason": "too thin"}
    scrapped, _ = shop.record("supervisor", "disposition", scrap, "P-2", step="receipt", item="thick")
    shop.push(*texts, text, made, signed, heat, thick, thin, scrapped)


def opens_a_job(page: Page, broken: Path, good: Path) -> None:
    press(page, "New job")
    expect(page.get_by_role("heading", name="A new job")).to_be_visible()
    typed(page, "Job number", "T2")
    typed(page, "Title", "A second vessel")
    typed(page, "gap_nom", "1/8")
    expect(page.get_by_text("= 0.125 in")).to_be_visible()
    page.locator("input[type=file]").set_input_files(broken)
    press(page, "Check it")
    alert = page.get_by_role("alert")
    expect(alert).to_contain_text("broken.xlsx has 2 faults.")
    expect(alert).to_contain_text("sheet Pieces, row 4, column kind: no step is for the kind 'plaet'")
    expect(alert).to_contain_text("sheet Pieces, row 5, column joins: 'PL-9' is no mark of this list")
    expect(page.get_by_role("button", name="Open the job")).to_be_disabled()
    page.locator("input[type=file]").set_input_files(good)
    expect(page.get_by_text("Something was changed since.")).to_be_visible()
    press(page, "Check it")
    expect(page.get_by_text("4 pieces, no faults.")).to_be_visible()
    expect(page.get_by_text("1 piece has no place for the tag: L-1.")).to_be_visible()
    look(page, "new-job")
    press(page, "Open the job")
    expect(page.get_by_role("heading", name="Job T2")).to_be_visible()
    expect(page.get_by_role("heading", name="Pieces: 4")).to_be_visible()


def sees_the_board(page: Page) -> None:
    page.evaluate("location.hash = '/jobs'")
    board = page.get_by_role("table").first
    expect(board.get_by_role("link", name="T1")).to_be_visible()
    expect(board.get_by_role("link", name="T2")).to_be_visible()
    press(page, "Waits for QC: 1")
    expect(board.get_by_role("link", name="T2")).to_have_count(0)
    expect(page.get_by_role("table", name="Waits for a signature")).to_contain_text("P-1")
    look(page, "jobs")
    press(page, "Waits for the customer: 0")
    expect(page.get_by_text("No job waits for the customer.")).to_be_visible()


def changes_a_figure(page: Page) -> None:
    page.evaluate("location.hash = '/job-change/T1'")
    typed(page, "gap_nom", "1/4")
    press(page, "See what it would undo")
    lost = page.get_by_role("table", name="Releases lost")
    expect(lost).to_contain_text(re.compile("S-1.*QC, Inspector.*not valid: plan changed"))
    records = page.get_by_role("table", name="Records that no longer count")
    expect(records.get_by_role("row").nth(1)).to_contain_text("in tolerance → out of tolerance")
    expect(page.get_by_role("table", name="Steps asked again")).to_contain_text("released → begun")
    look(page, "job-change")
    expect(page.get_by_role("button", name="Change job T1")).to_be_disabled()
    typed(page, "Why, and by whose word", "Drawing B of noon")
    press(page, "Change job T1")
    expect(page.get_by_role("listitem").filter(has_text="Drawing B of noon")).to_contain_text("Planner")


def makes_a_scrapped_plate_again(page: Page) -> None:
    """The seam was fitted to the old plate and stays so."""
    expect(page.get_by_role("heading", name="Pieces: 4")).to_be_visible()
    press(page, "Make it again")
    expect(page.get_by_text("The new piece is P-2-R1. Print its tag.")).to_contain_text("already for S-1")
    expect(page.get_by_role("heading", name="Pieces: 5")).to_be_visible()
    expect(page.get_by_role("row").filter(has_text="made again as P-2-R1")).to_have_count(1)
    look(page, "job-page")


def traces_a_heat(page: Page) -> None:
    page.evaluate("location.hash = '/trace'")
    typed(page, "Heat or lot number", "h4471")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="h4471: 1 place")).to_be_visible()
    expect(page.locator(".traced")).to_contain_text(re.compile("P-1 plate.*H 4471.*It went into V vessel"))


def test_the_planners_desk(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    fitted(shop)
    good, broken = tmp_path / "pieces.xlsx", tmp_path / "broken.xlsx"
    good.write_bytes(lists.write(PIECES, SMALL))
    wrong = [*PIECES[:2], {**PIECES[2], "kind": "plaet"}, {**PIECES[3], "joins": ["PL-1", "PL-9"]}]
    broken.write_bytes(lists.write(wrong, SMALL))
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("planner"))
        press(page, "Jobs, stage by stage")
        opens_a_job(page, broken, good)
        sees_the_board(page)
        changes_a_figure(page)
        makes_a_scrapped_plate_again(page)
        traces_a_heat(page)
