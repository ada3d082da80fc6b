"""The planner's desk: a workbook brought in, its faults, a limit changed, the next revision published; by keyboard."""

import io
import re
from pathlib import Path

import openpyxl
from playwright.sync_api import Playwright, expect

from seamtag.plans.files import template
from tests.browser.place import DESK, Server, browser
from tests.browser.test_main_line import enrol, look
from tests.server.test_workbook import cell_at
from tests.shop import Shop


def broken(file: Path) -> Path:
    """The template with two faults in it."""
    book = openpyxl.load_workbook(io.BytesIO(template()))
    cell_at(book["Items"], "upper", 6).value = "min(t_shel/4, 1/8)"
    cell_at(book["Items"], "binds", 5).value = "paper"
    book.save(file)
    return file


def test_from_a_workbook_to_the_next_revision(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    good = tmp_path / "plan.xlsx"
    good.write_bytes(template())
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("planner"))
        page.evaluate("location.hash = '/plans'")
        page.locator("input[type=file]").set_input_files(broken(tmp_path / "broken.xlsx"))
        expect(page.get_by_role("alert")).to_contain_text("broken.xlsx has 2 faults.")
        expect(page.get_by_role("alert")).to_contain_text("sheet Items, row 5: step fit, item gap, binds: 'paper'")
        expect(page.get_by_role("alert")).to_contain_text("sheet Items, row 6: step fit, item offset, upper: 't_shel'")
        look(page, "plans-faults")
        page.locator("input[type=file]").set_input_files(good)
        expect(page.get_by_text("4 steps, 14 items, no faults.")).to_be_visible()
        page.get_by_role("button", name="Publish it").focus()
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", name="Example: a seam from plate to test")).to_be_visible()
        page.get_by_role("button", name="2.1 Seam fit-up").focus()
        page.keyboard.press("Enter")
        page.get_by_role("button", name="Offset").focus()
        page.keyboard.press("Enter")
        limit = page.get_by_label("Upper limit")
        limit.fill("1/16")
        expect(page.get_by_role("status").filter(has_text="at most 1/16 = 0.0625 in")).to_be_visible()
        limit.fill("1/")
        expect(page.get_by_role("status").filter(has_text="is not a formula")).to_be_visible()
        expect(page.get_by_role("button", name="Publish as the next revision")).to_be_disabled()
        limit.fill("3/64")
        expect(page.get_by_role("status").filter(has_text="at most 3/64 = 0.046875 in")).to_be_visible()
        look(page, "plan-editor")
        page.get_by_role("button", name="2.2 Seam welded").press("Enter")
        page.get_by_label("Who signs, one a line").fill("maker sign welder\nthe inspector")
        page.keyboard.press("Tab")
        expect(page.get_by_role("alert")).to_contain_text("step weld, points: 'the inspector' cannot be read.")
        page.get_by_label("Who signs, one a line").fill("maker sign welder\nQC H not maker\nAI H")
        page.keyboard.press("Tab")
        expect(page.get_by_role("alert")).to_have_count(0)
        page.get_by_label(re.compile("^Nobody decides about a finding")).press("Space")
        expect(page.get_by_text("3 changes, not published")).to_be_visible()
        page.get_by_role("button", name="Publish as the next revision").press("Enter")
        expect(page.get_by_text("Revision 2")).to_be_visible()
        page.evaluate("location.hash = '/plans'")
        page.get_by_role("link", name="compare with the one before").press("Enter")
        row = page.get_by_role("row", name=re.compile("fit.offset"))
        expect(row).to_contain_text("upper")
        expect(row).to_contain_text("min(t_shell/4, 1/8)")
        expect(row).to_contain_text("3/64")
        expect(page.get_by_role("row", name="weld points")).to_contain_text("AI H")
        expect(page.get_by_role("row", name=re.compile("the plan itself not_recorder"))).to_contain_text("true")
        look(page, "plan-compare")
