"""Tags printed from the office: their size, what each symbol leads to, plates of steel, and codes that are replaced."""

import io
import re
import xml.etree.ElementTree as ET
import zipfile
from collections.abc import Iterator
from typing import Any

import pypdf
import pypdfium2
import pytest
import zxingcpp
from PIL import Image, ImageDraw

from seamtag.core.tagcode import code_of, is_code, link_of
from seamtag.database import db
from seamtag.sync.models import Entry
from seamtag.sync.verifying import verify
from seamtag.tags import layout
from seamtag.tags.codes import drawn
from seamtag.tags.engraving import PLATES, plate_svg
from seamtag.tags.layout import QUIET, Words, laid_out, modules, outlines
from seamtag.tags.sheets import SHEETS, Sheet, gauges_pdf, tags_pdf
from seamtag.tags.stickers import gauge_link
from tests.bench.codes import Drawer
from tests.bench.damage import rates
from tests.shop import Shop

HOST = "tags.example:8443"
MM = 72 / 25.4
DPI = 203
SVG = "{http://www.w3.org/2000/svg}"
LAYOUTS = [*((name, sheet.label, 0.0) for name, sheet in SHEETS.items()),
           *((name, (plate.width, plate.height), plate.above) for name, plate in PLATES.items())]  # fmt: skip


def some_words(many: int) -> list[Words]:
    codes = (code for number in range(7, 10**9, 7_654_321) if (code := code_of(number)))
    kinds = ("plate", "circumferential seam", "longitudinal seam of the lower shell course")
    return [Words(next(codes), f"S-{n + 1}" if n % 3 else f"HDR-{n}-LN-22-R1", "26-104", kinds[n % 3])
            for n in range(many)]  # fmt: skip


def rendered(pdf: bytes, dpi: float = DPI) -> Iterator[Image.Image]:
    with pypdfium2.PdfDocument(pdf) as document:
        for page in document:
            yield page.render(scale=dpi / 72).to_pil().convert("L")


def read(picture: Image.Image) -> list[str]:
    return [found.text for found in zxingcpp.read_barcodes(picture)]


def cut_out(page: Image.Image, sheet: Sheet, place: int, half: int) -> Image.Image:
    """One half of one label of a rendered page."""
    a = DPI / 25.4
    x, y = sheet.corner(place)
    wide, high = sheet.label
    left = x + half * wide / 2
    return page.crop((round(left * a), round(y * a), round((left + wide / 2) * a), round((y + high) * a)))


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=list(SHEETS))
def test_pages_have_the_size_they_say_and_hold_their_fonts(sheet: Sheet) -> None:
    reader = pypdf.PdfReader(io.BytesIO(tags_pdf(HOST, some_words(sheet.many + 1), sheet)))
    assert len(reader.pages) == 2
    for page in reader.pages:
        for side, wanted in zip((page.mediabox.width, page.mediabox.height), sheet.page, strict=True):
            assert float(side) / MM == pytest.approx(wanted, abs=0.2)
        fonts: Any = page["/Resources"]["/Font"]  # type: ignore[index]
        assert fonts
        for font in fonts.values():
            assert "/FontFile2" in font["/FontDescriptor"], font["/BaseFont"]
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"  # type: ignore[index]


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=list(SHEETS))
def test_every_symbol_of_a_page_is_read_as_its_own_piece(sheet: Sheet) -> None:
    words = some_words(sheet.many)
    (page,) = rendered(tags_pdf(HOST, words, sheet, cuts=sheet.many > 1))
    for place, one in enumerate(words):
        for half in (0, 1):
            assert read(cut_out(page, sheet, place, half)) == [link_of(HOST, one.code)], (one.mark, half)


def test_a_part_used_sheet_begins_where_it_is_said() -> None:
    sheet, words = SHEETS["a4-3x8"], some_words(24)
    first, second = rendered(tags_pdf(HOST, words, sheet, start=5))
    assert not any(read(cut_out(first, sheet, place, 0)) for place in range(4))
    assert read(cut_out(first, sheet, 4, 0)) == [link_of(HOST, words[0].code)]
    assert read(cut_out(second, sheet, 3, 1)) == [link_of(HOST, words[23].code)]
    assert not read(cut_out(second, sheet, 4, 0))


@pytest.mark.parametrize(("name", "size", "above"), LAYOUTS, ids=[name for name, _, _ in LAYOUTS])
def test_nothing_stands_in_a_quiet_zone_or_off_the_label(name: str, size: tuple[float, float], above: float) -> None:
    for words in some_words(3):
        across = len(modules(link_of(HOST, words.code)))
        made = laid_out(*size, across, words, above)
        side, quiet = across * made.module, QUIET * made.module
        (left, top), (right, _) = made.symbols
        assert left >= quiet
        assert top >= quiet
        assert right + side + quiet <= size[0] + 1e-6
        assert top + side + quiet <= size[1] + 1e-6
        for line in made.lines:
            half = layout.length(line.text, line.face) * line.size / 2
            assert line.middle - half >= left + side + quiet - 1e-6, line
            assert line.middle + half <= right - quiet + 1e-6, line
            assert above < line.baseline - line.size * 0.7, line
            assert line.baseline + line.size * 0.24 <= size[1], line


@pytest.mark.parametrize(("name", "size", "above"), LAYOUTS, ids=[name for name, _, _ in LAYOUTS])
def test_no_square_blot_of_a_tenth_reaches_both_symbols(name: str, size: tuple[float, float], above: float) -> None:
    (words,) = some_words(1)
    across = len(modules(link_of(HOST, words.code)))
    made = laid_out(*size, across, words, above)
    apart = made.symbols[1][0] - made.symbols[0][0] - across * made.module
    assert apart >= (0.1 * size[0] * size[1]) ** 0.5


def test_a_label_with_a_blot_of_a_tenth_of_it_is_read() -> None:
    found = rates((0.10,), 12, "a4-3x8")
    assert found[0.10, "two symbols"] >= 0.95
    assert found[0.10, "one, same area"] < found[0.10, "two symbols"]


def test_modules_are_whole_dots_of_a_label_printer() -> None:
    for sheet in SHEETS.values():
        module = laid_out(*sheet.label, 29, some_words(1)[0]).module
        assert module / layout.DOT == round(module / layout.DOT)
        assert module >= 0.375


def test_outlines_are_the_modules() -> None:
    matrix = modules(link_of(HOST, "7K3N9QX"))
    found = Image.new("1", (len(matrix) * 4, len(matrix) * 4), 0)
    for loop in outlines(matrix):
        one = Image.new("1", found.size, 0)
        ImageDraw.Draw(one).polygon([(x * 4 - 0.5, y * 4 - 0.5) for x, y in loop], fill=1)
        found = Image.frombytes(
            "1", found.size, bytes(a ^ b for a, b in zip(found.tobytes(), one.tobytes(), strict=True))
        )
    for y, row in enumerate(matrix):
        for x, dark in enumerate(row):
            assert bool(found.getpixel((x * 4 + 2, y * 4 + 2))) == dark


@pytest.mark.parametrize("plate", PLATES.values(), ids=list(PLATES))
def test_a_plate_is_plain_paths_of_its_size(plate: Any) -> None:
    root = ET.fromstring(plate_svg(HOST, some_words(1)[0], plate))
    assert {one.tag.removeprefix(SVG) for one in root.iter()} == {"svg", "g", "path"}
    assert (root.get("width"), root.get("height")) == (f"{plate.width:g}mm", f"{plate.height:g}mm")
    assert root.get("viewBox") == f"0 0 {plate.width:g} {plate.height:g}"
    ids = {one.get("id"): one for one in root.iter() if one.get("id")}
    assert set(ids) == {"cut", "symbols", "letters"}
    assert all(len(ids[name].get("d", "")) > 500 for name in ("symbols", "letters"))


@pytest.mark.parametrize("plate", PLATES.values(), ids=list(PLATES))
def test_the_symbols_of_a_plate_are_read(plate: Any) -> None:
    for words in some_words(3):
        root = ET.fromstring(plate_svg(HOST, words, plate))
        path = next(one for one in root.iter() if one.get("id") == "symbols").get("d", "")
        assert read(drawn_path(path, plate.width, plate.height)) == [link_of(HOST, words.code)] * 2


def drawn_path(path: str, width: float, height: float, scale: int = 16) -> Image.Image:
    """A path of straight loops, filled even and odd."""
    found = Image.new("1", (round(width * scale), round(height * scale)), 0)
    for loop in re.findall(r"M([^Z]*)Z", path):
        points = [tuple(float(part) * scale - 0.5 for part in point.split()) for point in loop.split("L")]
        one = Image.new("1", found.size, 0)
        ImageDraw.Draw(one).polygon(points, fill=1)
        found = Image.frombytes(
            "1", found.size, bytes(a ^ b for a, b in zip(found.tobytes(), one.tobytes(), strict=True))
        )
    return found.convert("L").point(lambda shade: 255 - shade)


def test_stickers_of_gauges_are_read() -> None:
    gauges = [("HL-07", "Hi-lo gauge 07"), ("TG 12", "Taper gauge, 1/64 to 1/2 in, with a long name")]
    for name in ("a4-3x8", "letter-3x10", "2x1in"):
        sheet = SHEETS[name]
        found = [text for page in rendered(gauges_pdf(HOST, gauges, sheet)) for text in read(page)]
        assert sorted(found) == sorted(gauge_link(HOST, gauge) for gauge, _ in gauges)


def test_100000_codes_drawn_as_jobs_do_are_all_different() -> None:
    drawer = Drawer()
    for _ in range(200):
        drawer.draw(500)
    assert len(drawer.used) == 100_000
    assert (drawer.twice, drawer.wrong) == (0, 0)


def test_a_code_in_use_is_not_drawn_again(monkeypatch: pytest.MonkeyPatch) -> None:
    numbers = iter([5, 5, 6, 6, 7, 7, 8, 9, 10, 11, 12, 13])
    monkeypatch.setattr("seamtag.tags.codes.secrets.randbelow", lambda _: next(numbers))
    used = {str(code_of(5)), str(code_of(7))}
    found = drawn(3, lambda codes: used.intersection(codes))
    assert len(set(found)) == 3
    assert not used & set(found)


# The routes, in a shop of four pieces.


def tags(shop: Shop) -> dict[str, dict[str, Any]]:
    answer = shop.sign_in("planner").get("/api/v1/jobs/T1/tags")
    assert answer.status_code == 200, answer.text
    return {row["mark"]: row for row in answer.get_json()["tags"]}


def put(shop: Shop, mark: str, what: str, **more: str) -> str:
    record, payload = shop.record("fitter", "tagging", {"code": tags(shop)[mark]["code"], "what": what, **more}, mark)
    shop.push(record)
    return str(payload["id"])


def links_in(pdf: bytes) -> set[str]:
    return {text for page in rendered(pdf) for text in read(page)}


def printed(shop: Shop, pieces: str, **more: str) -> set[str]:
    query = {"sheet": "2x1in", "pieces": pieces, **more}
    answer = shop.sign_in("planner").get("/api/v1/jobs/T1/tags.pdf", query_string=query)
    assert answer.status_code == 200, answer.text
    assert answer.mimetype == "application/pdf"
    marks = {link_of("tags.example", row["code"]): mark for mark, row in tags(shop).items()}
    return {marks[link] for link in links_in(answer.data)}


def test_the_list_says_where_each_tag_is(shop: Shop) -> None:
    put(shop, "S-1", "put on")
    put(shop, "S-1", "taken off", why="heat")
    put(shop, "P-1", "put on")
    rows = tags(shop)
    assert {mark: (row["state"], row["why"]) for mark, row in rows.items()} == {
        "V": ("", ""), "P-1": ("put on", ""), "P-2": ("", ""), "S-1": ("taken off", "heat"),
    }  # fmt: skip
    assert (rows["S-1"]["by"], rows["S-1"]["stages"]) == ("fitter", ["1", "2"])
    put(shop, "S-1", "back on")
    assert tags(shop)["S-1"]["state"] == "back on"


def test_a_void_takes_back_what_was_done_with_a_tag(shop: Shop) -> None:
    put(shop, "S-1", "put on")
    off = put(shop, "S-1", "taken off", why="blast")
    shop.push(shop.record("fitter", "void", {"record": off, "reason": "wrong piece"}, "S-1")[0])
    assert tags(shop)["S-1"]["state"] == "put on"


def test_what_is_printed_is_what_was_chosen(shop: Shop) -> None:
    assert printed(shop, "all") == {"V", "P-1", "P-2", "S-1"}
    assert printed(shop, "stage:2") == {"S-1"}
    codes = [tags(shop)[mark]["code"] for mark in ("P-1", "V")]
    assert printed(shop, ",".join(codes)) == {"P-1", "V"}
    put(shop, "P-1", "put on")
    assert printed(shop, "new") == {"V", "P-2", "S-1"}


@pytest.mark.parametrize(("query", "status", "says"), [
    ({"pieces": "stage:9"}, 422, "nothing to print"),
    ({"pieces": ""}, 422, "nothing to print"),
    ({"pieces": "2222222"}, 422, "is no code in use"),
    ({"sheet": "a4-3x8", "start": "25"}, 422, "The sheet has 24 labels"),
    ({"sheet": "none"}, 422, "fields"),
    ({"start": "0"}, 422, "fields"),
])  # fmt: skip
def test_what_cannot_be_printed_is_refused_with_why(shop: Shop, query: dict[str, str], status: int, says: str) -> None:
    answer = shop.sign_in("planner").get("/api/v1/jobs/T1/tags.pdf", query_string=query)
    assert answer.status_code == status
    assert says in answer.get_json()["message"]


@pytest.mark.parametrize("path", ["tags", "tags.pdf", "tags.zip", "board.png"])
def test_only_the_office_prints_and_only_jobs_there_are(shop: Shop, path: str) -> None:
    assert shop.sign_in("inspector").get(f"/api/v1/jobs/T1/{path}").status_code == 403
    assert shop.sign_in("supervisor").get(f"/api/v1/jobs/T9/{path}").status_code == 404
    assert shop.sign_in("supervisor").get(f"/api/v1/jobs/T1/{path}").status_code == 200


def test_plates_come_as_one_file_a_piece(shop: Shop) -> None:
    browser = shop.sign_in("planner")
    answer = browser.get("/api/v1/jobs/T1/tags.zip", query_string={"plate": "80x40"})
    with zipfile.ZipFile(io.BytesIO(answer.data)) as files:
        names = {f"{mark}-{row['code']}.svg" for mark, row in tags(shop).items()}
        assert set(files.namelist()) == names
        assert all(b'width="80mm"' in files.read(name) for name in names)
    code = tags(shop)["S-1"]["code"]
    one = browser.get(f"/api/v1/tags/{code}/plate.svg")
    assert (one.mimetype, b'width="60mm"' in one.data) == ("image/svg+xml", True)


def test_stickers_and_board_are_given_out(shop: Shop) -> None:
    browser = shop.sign_in("planner")
    assert links_in(browser.get("/api/v1/stickers.pdf?sheet=2x1in").data) == {gauge_link("tags.example", "TG")}
    board = browser.get("/api/v1/jobs/T1/board.png")
    assert read(Image.open(io.BytesIO(board.data))) == ["HTTPS://TAGS.EXAMPLE/J/T1"]


def test_a_replaced_code_is_retired_and_its_piece_has_a_new_one(shop: Shop) -> None:
    put(shop, "S-1", "put on")
    old = tags(shop)["S-1"]["code"]
    before, _ = shop.head()
    browser = shop.sign_in("supervisor")
    answer = browser.post(f"/api/v1/tags/{old}/replace", json={"reason": "torn off, not found"})
    assert answer.status_code == 201, answer.text
    new = answer.get_json()["code"]
    assert is_code(new)
    assert new != old
    assert shop.head()[0] == before + 1
    row = tags(shop)["S-1"]
    assert (row["code"], row["retired"], row["state"]) == (new, [old], "")
    assert browser.get(f"/api/v1/tags/{old}").get_json()["retired"] is True
    assert browser.get(f"/api/v1/tags/{new}").get_json()["piece"] == "T1.S-1"
    again = browser.post(f"/api/v1/tags/{old}/replace", json={"reason": "once more"})
    assert again.status_code == 409
    assert "out of use already" in again.get_json()["message"]


def test_a_replacement_stands_in_the_chain_with_its_reason(shop: Shop) -> None:
    old = tags(shop)["S-1"]["code"]
    shop.sign_in("planner").post(f"/api/v1/tags/{old}/replace", json={"reason": "burnt"})
    with shop.app.app_context():
        body = db.session.query(Entry).filter(Entry.kind == "tags").order_by(Entry.number.desc()).first().body
        assert f'"retired":{{"{old}":"burnt"}}' in body
        assert not list(verify(db.session(), shop.app.extensions["vault"]))


def test_a_replacement_asks_for_a_reason_and_a_role(shop: Shop) -> None:
    code = tags(shop)["S-1"]["code"]
    assert shop.sign_in("planner").post(f"/api/v1/tags/{code}/replace", json={"reason": " "}).status_code == 422
    assert shop.sign_in("fitter").post(f"/api/v1/tags/{code}/replace", json={"reason": "x"}).status_code == 403
    assert tags(shop)["S-1"]["code"] == code
