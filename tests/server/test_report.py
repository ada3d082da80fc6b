"""The report of a day on paper and as a workbook, the rework list, and the commands that a timer calls."""

import io
import re
import time
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from unittest.mock import patch
from zoneinfo import ZoneInfo

import click
import openpyxl
import pypdf
import pypdfium2
import pytest
import zxingcpp
from click.testing import CliRunner, Result
from flask import Flask

from seamtag.cli import main
from seamtag.cli import opened as really_opened
from seamtag.core.tagcode import link_of
from seamtag.database import db, writing
from seamtag.review import report as words
from seamtag.review.calendar import day_of
from seamtag.review.commands import begins_of, wanted_day, written
from seamtag.review.models import FlagRow
from seamtag.review.paper import length, printable, wrapped
from seamtag.review.report import Report, report_of
from seamtag.review.report_pdf import report_pdf
from seamtag.review.report_xlsx import report_xlsx
from seamtag.sync.models import Entry, Mark
from seamtag.sync.shop import name_shop
from seamtag.sync.verifying import verify
from seamtag.tags.layout import BOLD, PLAIN
from seamtag.tags.models import Tag
from tests.conftest import close
from tests.shop import Shop

BOTH = pytest.mark.both_databases
OF_FLAG = [column.name for column in FlagRow.__table__.columns]
PATHS = ("report.pdf", "report.xlsx", "rework.pdf")


def text_of(pdf: bytes) -> str:
    """The words of a PDF, parted by single blanks."""
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages).split())


def found(shop: Shop, day: str = "", shift: int = 0) -> Report:
    with shop.app.app_context():
        return report_of(db.session(), day_of(db.session(), day, shift))


def get(shop: Shop, name: str, who: str = "supervisor", **query: str) -> Any:
    return shop.sign_in(who).get(f"/api/v1/review/{name}", query_string=query)


def run(shop: Shop, *given: str) -> Result:
    settings = shop.app.config["SEAMTAG"]
    environment = {"SEAMTAG_DATABASE": settings.database, "SEAMTAG_PHOTOS": settings.photos}
    made: list[Flask] = []

    def kept() -> Flask:
        made.append(really_opened())
        return made[-1]

    with patch("seamtag.cli.opened", kept):
        result = CliRunner(env=environment).invoke(main, list(given))
    for app in made:
        close(app)
    return result


def some_work(shop: Shop) -> list[dict[str, Any]]:
    """Two readings out of tolerance, one of them to be repaired and one accepted if engineering agrees."""
    pushed = [
        shop.reading(entered, station=station) for entered, station in (("1/4", "12"), ("1/2", "3"), ("3/8", "6"))
    ]
    shop.push(*[text for text, _ in pushed])
    shop.catch_up()
    more = {"ncr": "26-7", "extent": "from 11 to 1", "cycle": 1, "again": ["fit"]}
    shop.push(shop.disposition(pushed[0][1]["id"], "repair", **more)[0])
    shop.push(shop.disposition(pushed[2][1]["id"], "use as is", ncr="26-8")[0])
    return [payload for _, payload in pushed]


def many_flags(shop: Shop, many: int, name: str = "Root opening", reason: str = "") -> None:
    with shop.app.app_context(), writing() as session:
        row = session.query(FlagRow).first()
        values = {column: getattr(row, column) for column in OF_FLAG}
        for number in range(many):
            shown = {**values["shown"], "piece": {**values["shown"]["piece"], "mark": f"M-{number:04}"},
                     "item": {**values["shown"]["item"], "name": name}}  # fmt: skip
            session.add(FlagRow(**{**values, "id": f"many-{number}", "shown": shown, "reason": reason}))


@BOTH
def test_the_paper_holds_every_section_and_the_head_of_the_chain(shop: Shop) -> None:
    some_work(shop)
    number, digest = shop.head()
    text = text_of(get(shop, "report.pdf").data)
    for section in found(shop).sections:
        assert section.kind.title in text
    assert text.count(f"{number}:{digest}") == len(re.findall(r"page \d+ of \d+", text)) >= 2
    assert "Supervisor" in text
    assert "S-1" in text
    assert "1/2 in" in text
    assert "limits 1/16 to 5/32, by drawing" in text
    assert "past by 11/32" in text
    assert "repair R1" in text
    assert "has to agree" not in text
    assert "the Authorized Inspector decide" in text.replace(
        "Authorized Inspector decide", "Authorized Inspector decide"
    )


def test_the_head_on_paper_is_one_that_verify_takes(shop: Shop) -> None:
    some_work(shop)
    number, digest = re.search(r"chain (\d+):([0-9a-f]{64})", text_of(get(shop, "report.pdf").data)).groups()  # type: ignore[union-attr]
    with shop.app.app_context():
        assert list(verify(db.session(), shop.app.extensions["vault"], {int(number): digest})) == []
        assert list(verify(db.session(), shop.app.extensions["vault"], {int(number): "0" * 64}))


@BOTH
def test_sections_hold_what_the_review_tells(shop: Shop) -> None:
    some_work(shop)
    lines = {section.kind.sheet: section.lines for section in found(shop).sections}
    assert [line["value_said"] for line in lines["Open flags"]] == ["1/2 in"]
    assert {line["word"] for line in lines["Decided"]} == {"repair R1", "use as is"}
    assert {line["by"] for line in lines["Decided"]} == {"Supervisor"}
    assert [(line["ncr"], line["age"], line["waits_for"]) for line in lines["Open NCRs"]] == [
        ("26-7", 0, "to do"), ("26-8", 0, "agreement: engineering"),
    ]  # fmt: skip
    assert [line["state_said"] for line in lines["Not carried out"]] == [
        "state: to do", "state: waits for agreement of engineering",
    ]  # fmt: skip
    assert lines["Reports"] == lines["Ready for the AI"] == []


def said(shop: Shop, what: str, about: str, kind: str) -> str:
    """A word about a record and a kind of flag, not yet sent."""
    body = {"about": {"records": [about], "flag": kind}, "disposition": what, "reason": "as found"}
    return shop.record("supervisor", "disposition", body)[0]


def some_doubts(shop: Shop) -> None:
    """Beside some_work(): of one reading it was seen that the gauge ran out, of another that is done again."""
    left, middle, _ = (payload["id"] for payload in some_work(shop))
    shop.push(said(shop, "use as is", left, "gauge ran out"), said(shop, "rework", middle, "clock far off"))


@BOTH
def test_a_doubt_that_was_seen_is_no_accepted_finding(shop: Shop) -> None:
    some_doubts(shop)
    report = found(shop)
    lines = {section.kind.sheet: section.lines for section in report.sections}
    words_of = {(line["flag"], line["word"]) for line in lines["Decided"]}
    assert words_of == {("out of tolerance", "repair R1"), ("out of tolerance", "use as is"),
                        ("clock of the phone far off", "do it again")}  # fmt: skip
    assert [(line["flag"], line["word"], line["state_said"]) for line in lines["Seen"]] == [
        ("gauge ran out", "seen, stands as it is", "")
    ]
    assert [(line["flag"], line["disposition"]) for line in lines["Decided"] if line["flag"] != "out of tolerance"] == [
        ("clock of the phone far off", "do it again")
    ]
    text = text_of(report_pdf(report))
    assert text.count("use as is") == 3  # in Decided, in Open NCRs, and as not carried out
    assert "No finding is accepted by that." in text
    assert "DO IT AGAIN: 1.2 Fit-up" in text_of(get(shop, "rework.pdf").data)


@BOTH
def test_counts_are_those_of_the_sections_and_say_what_they_are_of(shop: Shop) -> None:
    some_doubts(shop)
    report = found(shop)
    many = {section.kind.sheet: len(section.lines) for section in report.sections}
    assert {name: report.counts[name] for name in ("open", "decided", "seen", "waiting")} == {
        "open": many["Open flags"], "decided": many["Decided"], "seen": many["Seen"],
        "waiting": many["Not carried out"],
    }  # fmt: skip
    assert (many["Decided"], many["Seen"]) == (3, 1)
    text = text_of(report_pdf(report))
    of_day = sum(section.kind.of_day for section in report.sections)
    assert text.count("of this day") == of_day
    assert text.count("as it stood when this was made") == len(report.sections) - of_day
    assert [section.kind.sheet for section in found(shop, "2020-02-29").sections if section.lines] == [
        sheet for sheet, number in many.items() if number and sheet not in ("Decided", "Seen", "Fixed on the spot")
    ]


@BOTH
def test_what_was_fixed_on_the_spot_is_told_by_item(shop: Shop) -> None:
    text, payload = shop.reading("1/4")
    shop.push(text, shop.reading("3/32", replaces=payload["id"], why="after rework")[0])
    (line,) = next(section.lines for section in found(shop).sections if section.kind is words.SPOT)
    assert (line["count"], line["item"]) == (1, "Root opening")
    assert "T1 S-1 12 (1/4 in, Inspector)" in line["pieces"]


def test_the_workbook_holds_numbers_and_times_as_such(shop: Shop) -> None:
    some_work(shop)
    answer = get(shop, "report.xlsx")
    assert answer.headers["Content-Disposition"] == f"attachment; filename={found(shop).name}.xlsx"
    workbook = openpyxl.load_workbook(io.BytesIO(answer.data))
    assert workbook.sheetnames == [words.TITLE, *(section.kind.sheet for section in found(shop).sections)]
    sheet = workbook["Open flags"]
    head = [cell.value for cell in sheet[1]]
    line = dict(zip(head, sheet[2], strict=True))
    assert (line["Value"].value, line["Lower limit"].value, line["Upper limit"].value) == (0.5, 0.0625, 0.15625)
    assert {line[name].number_format for name in ("Value", "Lower limit", "Upper limit")} == {"# ??/??"}
    assert isinstance(line["At"].value, datetime)
    assert line["At"].is_date
    assert sheet.freeze_panes == "A2"
    about = {row[0].value: row[1].value for row in workbook[words.TITLE].iter_rows()}
    assert (about["Head, number"], about["Head, hash"]) == shop.head()
    assert about["flags open"] == 1


@pytest.mark.parametrize("start", ["=1+1", "+49", "-1", "@SUM(A1)", "\t=2", "\x07=3"])
def test_a_text_that_begins_like_a_formula_stays_a_text(shop: Shop, start: str) -> None:
    shop.push(shop.reading("1/4")[0])
    many_flags(shop, 1, name=f"{start} opening")
    sheet = openpyxl.load_workbook(io.BytesIO(report_xlsx(found(shop))))["Open flags"]
    items = {cell.data_type: cell.value for cell in sheet["I"][1:] if cell.value != "Root opening"}
    assert items == {"s": f"{start} opening".replace("\x07", " ")}


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_day_without_anything_is_a_report_too(shop: Shop, paper: str) -> None:
    report = found(shop, "2020-02-29")
    pdf = report_pdf(report, paper)
    assert "Saturday 29 February 2020" in text_of(pdf)
    assert text_of(pdf).count(words.NONE) == len(report.sections)
    assert openpyxl.load_workbook(io.BytesIO(report_xlsx(report)))["Decided"]["A2"].value == words.NONE
    wide = float(pypdf.PdfReader(io.BytesIO(pdf)).pages[0].mediabox.width)
    assert wide == pytest.approx({"a4": 595.3, "letter": 612.0}[paper], abs=0.1)


def test_400_flags_go_over_pages_with_their_heads(shop: Shop) -> None:
    shop.push(shop.reading("1/4")[0])
    many_flags(shop, 400)
    report = found(shop)
    pdf = report_pdf(report)
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]
    assert {one for page in pages for one in re.findall(r"M-\d{4}", page)} == {f"M-{n:04}" for n in range(400)}
    of_flags = [page for page in pages if re.search(r"M-\d{4}", page)]
    assert len(of_flags) > 15
    assert all("What is wrong" in page for page in of_flags)
    assert all(f"page {number} of {len(pages)}" in page for number, page in enumerate(pages, 1))
    assert openpyxl.load_workbook(io.BytesIO(report_xlsx(report)))["Open flags"].max_row == 402


@pytest.mark.parametrize("name", [
    "W" * 200, "José Ñúñez-Güell " * 12, "Łukasz Wąsik — œuvre ß", "x/" * 100, "a " * 100, "漢字" * 50,
])  # fmt: skip
def test_nothing_is_cut_off_or_runs_over_the_margin(shop: Shop, name: str) -> None:
    shop.push(shop.reading("1/4")[0])
    many_flags(shop, 3, name, reason=name * 20)
    pdf = report_pdf(found(shop))
    written_out = "".join(text_of(pdf).split())
    assert written_out.count("".join(printable(name, PLAIN).split())[:12]) >= 3 * 20
    with pypdfium2.PdfDocument(pdf) as document:
        for page in document:
            picture = page.render(scale=1).to_pil().convert("L").point(lambda shade: 255 if shade < 200 else 0)
            left, top, right, low = picture.getbbox()
            assert left >= 40
            assert top >= 25
            assert right <= 595 - 40
            assert low <= 842 - 25


def test_a_row_longer_than_a_page_goes_on_whole(shop: Shop) -> None:
    shop.push(shop.reading("1/4")[0])
    reason = " ".join(f"word{number:04}" for number in range(700))
    many_flags(shop, 2, reason=reason)
    with pypdfium2.PdfDocument(report_pdf(found(shop))) as document:
        text = "".join(page.get_textpage().get_text_bounded(40, 40, 555, 820) for page in document)
    for number in range(700):
        assert text.count(f"word{number:04}") == 2


def test_lines_fit_their_width() -> None:
    for text in ("a-very-long-word-that-is-parted-behind-its-hyphens", "Ä" * 99, "one two three", ""):
        lines = wrapped(text, 50, 8, BOLD)
        assert "".join(lines).replace(" ", "") == text.replace(" ", "")
        assert all(length(line, BOLD) * 8 <= 50 for line in lines)
    assert printable("Đặng Wąsik 漢\u200b", PLAIN) == "Dang Wasik ?"


@BOTH
def test_the_rework_list_says_what_to_do_and_shows_the_tag(shop: Shop) -> None:
    some_work(shop)
    answer = get(shop, "rework.pdf", job="T1")
    assert answer.headers["Content-Disposition"] == "attachment; filename=rework-T1.pdf"
    text = text_of(answer.data)
    for said in ("S-1", "REPAIR R1: 1.2 Fit-up, Root opening, 12", "1/4 in", "from 11 to 1", "26-7", "Supervisor",
                 "1.2 Fit-up", "hot work", "has to agree: engineering", "A tick here is no record"):  # fmt: skip
        assert said in text, said
    with shop.app.app_context():
        code = db.session.query(Tag.code).filter(Tag.piece == "T1.S-1").scalar()
    with pypdfium2.PdfDocument(answer.data) as document:
        (symbol,) = zxingcpp.read_barcodes(document[0].render(scale=3).to_pil())
    assert symbol.text == link_of("tags.example", code)


def test_a_rework_list_without_anything_says_so(shop: Shop) -> None:
    answer = get(shop, "rework.pdf")
    assert answer.headers["Content-Disposition"] == "attachment; filename=rework.pdf"
    assert "Nothing is to be reworked" in text_of(answer.data)


OF_THE_DAY = ("review", *(f"review/{name}" for name in PATHS), "review/lists/rework", "review/on-the-spot", "decisions",
              "flags/none")  # fmt: skip


@pytest.mark.parametrize("name", OF_THE_DAY)
def test_how_a_day_went_is_not_for_makers(shop: Shop, name: str) -> None:
    path = f"/api/v1/{name}"
    assert shop.client.get(path).status_code == 401
    assert shop.sign_in("fitter").get(path).status_code == 403
    for who in ("supervisor", "inspector", "planner", "visitor"):
        assert shop.sign_in(who).get(path).status_code == (404 if name == "flags/none" else 200)


@pytest.mark.parametrize(("name", "query", "status"), [
    ("report.pdf", {"day": "2026-13-01"}, 422), ("report.xlsx", {"day": "yesterday"}, 422),
    ("report.pdf", {"shift": "2"}, 422), ("report.pdf", {"paper": "a3"}, 422), ("rework.pdf", {"job": "T9"}, 404),
])  # fmt: skip
def test_what_is_not_there_is_refused(shop: Shop, name: str, query: dict[str, str], status: int) -> None:
    assert get(shop, name, **query).status_code == status


@BOTH
def test_a_timer_writes_both_files_into_a_folder(shop: Shop, tmp_path: Path) -> None:
    some_work(shop)
    folder = tmp_path / "reports"
    folder.mkdir()
    result = run(shop, "report", "--day", found(shop).day.name, "--paper", "letter", str(folder))
    assert result.exit_code == 0, result.output
    names = [f"{found(shop).name}.pdf", f"{found(shop).name}.xlsx"]
    assert result.output.split() == [str(folder / name) for name in names]
    assert sorted(path.name for path in folder.iterdir()) == names
    assert "Open flags" in text_of((folder / names[0]).read_bytes())


@pytest.mark.parametrize(("words_given", "says"), [
    (("--day", "2026-02-30"), "There is no day '2026-02-30'"), (("--shift", "1"), "The shop has no shifts"),
])  # fmt: skip
def test_a_day_or_shift_that_is_none_ends_with_1(
    shop: Shop, tmp_path: Path, words_given: tuple[str, ...], says: str
) -> None:
    result = run(shop, "report", *words_given, str(tmp_path))
    assert result.exit_code == 1
    assert says in result.output
    assert not list(tmp_path.glob("report*"))


def test_a_missing_folder_and_a_full_disk_say_so_in_one_line(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    result = run(shop, "report", str(tmp_path / "nowhere"))
    assert (result.exit_code, result.output.count("\n")) == (1, 1)
    assert "There is no folder" in result.output

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    folder = tmp_path / "reports"
    folder.mkdir()
    monkeypatch.setattr("os.fsync", full)
    result = run(shop, "report", str(folder))
    assert (result.exit_code, result.output.count("\n")) == (1, 1)
    assert "cannot be written into" in result.output
    assert "No space left on device" in result.output
    assert list(folder.iterdir()) == []


def test_files_are_written_whole_or_not_at_all(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_text("of yesterday")
    (tmp_path / "b.xlsx").mkdir()
    with pytest.raises(OSError):
        written(tmp_path, {"b.xlsx": b"new", "a.pdf": b"new"})
    assert (tmp_path / "a.pdf").read_text() == "of yesterday"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.pdf", "b.xlsx"]


def with_shifts(shop: Shop, *shifts: str) -> None:
    with shop.app.app_context(), writing() as session:
        name_shop(session, "Example Works", "America/New_York", int(time.time()), shifts=shifts)


@pytest.mark.parametrize(("hour", "shift", "day"), [
    ("06:05", 0, "2026-11-24"), ("07:59", 3, "2026-11-24"), ("08:00", 0, "2026-11-25"), ("22:05", 2, "2026-11-25"),
    ("03:00", 0, "2026-11-24"),
])  # fmt: skip
def test_without_a_day_it_is_the_one_that_has_just_ended(shop: Shop, hour: str, shift: int, day: str) -> None:
    with_shifts(shop, "06:00", "14:00", "22:00")
    now = datetime.fromisoformat(f"2026-11-25T{hour}").replace(tzinfo=ZoneInfo("America/New_York"))
    with shop.app.app_context():
        asked = wanted_day(db.session(), "", shift, now)
        assert (asked.name, asked.shift) == (day, shift)
        with pytest.raises(click.ClickException, match="Shifts are 1 to 3"):
            wanted_day(db.session(), "", 4, now)


def test_a_report_of_a_shift_names_it_with_its_hours(shop: Shop) -> None:
    with_shifts(shop, "06:00", "14:00", "22:00")
    report = found(shop, "2026-11-24", 3)
    assert report.name == "report-2026-11-24-shift-3"
    text = text_of(report_pdf(report))
    assert "Example Works" in text
    assert "Tuesday 24 November 2026, shift 3 of 3, 22:00 to 06:00" in text


@BOTH
def test_shifts_are_set_by_an_entry_of_the_chain_and_the_rest_stays(shop: Shop) -> None:
    assert "no name yet" in run(shop, "shop", "--shifts", "06:00,18:00").output
    assert run(shop, "shop", "--name", "Example Works", "--time-zone", "America/New_York").exit_code == 0
    before, _ = shop.head()
    result = run(shop, "shop", "--shifts", "06:00, 14:00,22:00")
    assert result.exit_code == 0
    assert "Example Works, America/New_York" in result.output
    assert shop.head()[0] == before + 1
    with shop.app.app_context():
        assert db.session.get_one(Mark, "shifts").value == '["06:00", "14:00", "22:00"]'
        assert db.session.query(Entry).order_by(Entry.number.desc()).first().kind == "shop"  # type: ignore[union-attr]
    assert "Shifts from 06:00, 14:00, 22:00" in run(shop, "shop").output
    assert shop.head()[0] == before + 1
    assert "No shifts" in run(shop, "shop", "--shifts", "").output


@pytest.mark.parametrize("text", ["6:00", "24:00", "06:00,", "06:00,06:00", "06:00,22:00,14:00", "06:00;14:00"])
def test_shifts_that_are_none_are_refused(text: str) -> None:
    with pytest.raises(click.ClickException):
        begins_of(text)
    assert begins_of("22:00,06:00,14:00") == ["22:00", "06:00", "14:00"]


@pytest.mark.parametrize(
    "given", [("--name", " "), ("--name", "x" * 201), ("--time-zone", "America"), ("--shifts", "x")]
)
def test_a_shop_that_cannot_be_is_refused(shop: Shop, given: tuple[str, str]) -> None:
    before = shop.head()
    assert run(shop, "shop", *given).exit_code == 1
    assert shop.head() == before


@BOTH
def test_who_recorded_the_day_before_and_phones_that_are_silent_are_told(shop: Shop) -> None:
    shop.push(shop.reading("3/32")[0])
    tomorrow = (datetime.fromisoformat(found(shop).day.name) + timedelta(days=1)).date().isoformat()
    with shop.app.app_context():
        session = db.session()
        later = int(time.time()) + 3 * 3600
        report = report_of(session, day_of(session, tomorrow), now=later)
    lines = {section.kind.sheet: section.lines for section in report.sections}
    assert [line["person"] for line in lines["Not recorded today"]] == ["Inspector"]
    assert report.made.timestamp() == later
