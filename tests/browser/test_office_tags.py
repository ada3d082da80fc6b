"""The planner's desk: tags printed on a sheet that is part used or marked on steel, a code replaced; by keyboard."""

import zipfile
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Page, Playwright, expect

from seamtag.core.tagcode import link_of
from seamtag.tags.sheets import SHEETS
from tests.browser.place import DESK, Server, browser
from tests.browser.test_main_line import enrol, look
from tests.server.test_tags import code_of
from tests.shop import Shop


@pytest.fixture
def desk(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> Iterator[Page]:
    for mark, deeds in {"P-1": ["put on", "taken off", "back on"], "S-1": ["put on", "taken off"]}.items():
        for what in deeds:
            body = {"code": code_of(shop, mark), "what": what, **({"why": "heat"} if what == "taken off" else {})}
            shop.push(shop.record("fitter", "tagging", body, mark)[0])
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("planner"))
        page.evaluate("location.hash = '/tags/T1'")
        yield page


def saved(page: Page, button: str) -> Path:
    """The file a button makes, pressed by key."""
    with page.expect_download() as started:
        page.get_by_role("button", name=button).press("Enter")
    return Path(started.value.path())


def links_in(pdf: Path) -> list[str]:
    with pypdfium2.PdfDocument(pdf) as document:
        return [one.text for page in document for one in zxingcpp.read_barcodes(page.render(scale=4).to_pil())]


def test_what_is_ticked_is_printed_where_the_sheet_is_still_whole(desk: Page, shop: Shop, server: Server) -> None:
    host = server.url.removeprefix("http://")
    expect(desk.get_by_text("1 tag is not back on its piece.")).to_be_visible()
    expect(desk.get_by_text("Off for heat, 1: S-1")).to_be_visible()
    expect(desk.get_by_label("New: 2")).to_be_checked()
    expect(desk.get_by_text("2 tags, 1 page.")).to_be_visible()
    look(desk, "tags")
    for piece in ("V vessel", "S-1 seam"):
        desk.get_by_role("checkbox", name=piece).press("Space")
    desk.get_by_label("New: 2").press("ArrowDown")
    desk.get_by_label("All of the job: 4").press("ArrowDown")
    desk.get_by_label("Those of a stage: 3").press("ArrowDown")
    expect(desk.get_by_label("Those ticked in the list: 2")).to_be_checked()
    start = desk.get_by_label("First label to print, 1 to 24")
    start.fill("25")
    expect(desk.get_by_role("alert")).to_contain_text("This sheet has labels 1 to 24.")
    expect(desk.get_by_role("button", name="Make the PDF")).to_be_disabled()
    start.fill("24")
    expect(desk.get_by_text("2 tags, 2 pages.")).to_be_visible()
    found = links_in(saved(desk, "Make the PDF"))
    assert sorted(found) == sorted(2 * [link_of(host, code_of(shop, mark)) for mark in ("V", "S-1")])
    with zipfile.ZipFile(saved(desk, "Make the SVGs")) as files:
        assert {name.rsplit("-", 1)[0] for name in files.namelist()} == {"V", "S-1"}


def test_board_and_stickers_are_saved(desk: Page, server: Server) -> None:
    board = zxingcpp.read_barcodes(Image.open(saved(desk, "Board of the job (PNG)")))
    host = server.url.removeprefix("http://")
    assert [one.text for one in board] == [f"HTTPS://{host}/J/T1"]
    assert links_in(saved(desk, "Stickers of all gauges (PDF)")) == [f"HTTPS://{host}/G/TG"]


def test_every_sheet_is_named_by_its_size(desk: Page) -> None:
    options = desk.get_by_label("Print on").locator("option")
    expect(options).to_have_count(len(SHEETS))
    names = options.all_inner_texts()
    assert names[0] == "A4, 3 × 8 of 63.5 × 33.9 mm"
    assert {"one a page, 50 × 25 mm", "one a page, 2 × 1 in", "Letter, 3 × 10 of 66.7 × 25.4 mm"} <= set(names)


def test_a_code_is_replaced_with_a_reason(desk: Page, shop: Shop) -> None:
    old = code_of(shop, "P-1")
    desk.get_by_role("button", name="Replace the code of P-1").press("Enter")
    now = desk.get_by_role("button", name=f"Take {old} out of use")
    expect(now).to_be_disabled()
    desk.get_by_label("Why: lost, stolen, on the wrong piece").fill("torn off, not found")
    look(desk, "tags-replace")
    now.press("Enter")
    expect(desk.get_by_text(f"out of use: {old}")).to_be_visible()
    expect(desk.get_by_label("New: 3")).to_be_visible()
    desk.evaluate("location.hash = '/piece/T1/T1.P-1'")
    expect(desk.get_by_text("not put on yet")).to_be_visible()
    desk.evaluate(f"location.hash = '/tag/{old}'")
    expect(desk.get_by_text(f"The tag {old} was replaced: piece P-1 of job T1 now has the tag")).to_be_visible()


def test_a_steel_tag_is_read_as_a_browser_draws_it(desk: Page, shop: Shop, server: Server, tmp_path: Path) -> None:
    with zipfile.ZipFile(saved(desk, "Make the SVGs")) as files:
        svg = files.read(next(name for name in files.namelist() if name.startswith("V-"))).decode()
    larger = svg.replace("<svg", "<svg style='width: 900px; height: 450px; background: #ccc'", 1)
    desk.set_content(f"<body>{larger}")
    desk.locator("svg").screenshot(path=tmp_path / "plate.png")
    found = zxingcpp.read_barcodes(Image.open(tmp_path / "plate.png").convert("L"))
    assert [one.text for one in found] == [link_of(server.url.removeprefix("http://"), code_of(shop, "V"))] * 2
