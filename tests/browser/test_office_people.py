"""People, welding procedures and gauges at the desk, by keyboard alone: a gauge added and its touched readings listed,
a procedure withdrawn, somebody engaged and invited; and each screen can be read and reached."""

import re
from pathlib import Path

from playwright.sync_api import Page, Playwright, expect

from seamtag.database import writing
from seamtag.people import qualifications
from seamtag.procedures import book
from tests.browser.place import DESK, Server, browser
from tests.browser.test_access import violations
from tests.browser.test_main_line import enrol, look
from tests.browser.test_office_jobs import press, tab_to, typed
from tests.server.test_office_people import QUALIFICATION, W12
from tests.shop import Shop


def day(page: Page, name: str, figures: str) -> None:
    """Type a day into a field of one: month, day, year, as its parts stand here."""
    tab_to(page, name)
    page.keyboard.type(figures)


def chosen(page: Page, name: str, first_letters: str) -> None:
    tab_to(page, name)
    page.keyboard.type(first_letters)


def reached(page: Page, name: str) -> None:
    assert violations(page, strict=False) == []
    look(page, name)


def adds_a_gauge(page: Page) -> None:
    press(page, "Office")
    expect(page.get_by_role("heading", name="Office")).to_be_visible()
    reached(page, "office")
    press(page, "Gauges")
    expect(page.get_by_text("No gauge is overdue. None is due within 30 days.")).to_be_visible()
    press(page, "Add a gauge")
    expect(page.get_by_label("Number on the gauge")).to_be_focused()
    page.keyboard.type("TG-9")
    for name, text in (("Kind", "taper gauge"), ("Name", "Taper gauge 9"), ("Expanded uncertainty", "a bit")):
        typed(page, name, text)
    typed(page, "Number of the certificate", "C 9")
    day(page, "Calibrated on", "11022024")
    day(page, "Last day of use", "11022025")
    press(page, "Keep it")
    expect(page.get_by_role("alert")).to_contain_text("gauge TG-9, uncertainty: ")
    page.get_by_label("Number on the gauge").focus()
    typed(page, "Expanded uncertainty", ".005")
    reached(page, "gauge-new")
    press(page, "Keep it")
    expect(page.get_by_text("TG-9 is kept.")).to_be_visible()
    expect(page.get_by_text("1 gauge is overdue.")).to_be_visible()
    expect(page.get_by_role("row").nth(1)).to_contain_text(re.compile("TG-9.*0.005 in.*C 9.*overdue"))
    reached(page, "gauges")


def sees_what_a_gauge_touched(page: Page) -> None:
    press(page, "Dropped or off: TG$")
    day(page, "In doubt since", "11202026")
    press(page, "List the readings")
    expect(page.get_by_role("heading", name="2 readings with TG since")).to_be_visible()
    expect(page.get_by_text("Nothing is judged anew by this list.")).to_be_visible()
    newest = page.get_by_role("row").nth(1)
    expect(newest).to_contain_text(re.compile("T1.*S-1.*3.*1 in.*Inspector.*out of tolerance"))
    expect(newest.get_by_role("link", name="S-1")).to_have_attribute("href", "/#/piece/T1/T1.S-1")
    reached(page, "gauge-doubt")


def withdraws_a_procedure(page: Page) -> None:
    page.evaluate("location.hash = '/procedures'")
    row = page.get_by_role("row").nth(1)
    expect(row).to_contain_text(re.compile("W-12.*SMAW.*F V.*volts: 22 to 28 V.*in use"))
    expect(page.get_by_text("The written procedure and the code edition in force decide.")).to_be_visible()
    press(page, "New revision of W-12")
    expect(page.get_by_role("heading", name="New revision of W-12")).to_be_visible()
    expect(page.get_by_label("Volts from")).to_have_value("22")
    typed(page, "Volts to", "29")
    reached(page, "procedure")
    press(page, "Keep it")
    expect(row).to_contain_text("volts: 22 to 29 V")
    press(page, "Withdraw W-12")
    press(page, r"Withdraw\s+›")
    expect(row).to_contain_text("withdrawn since")
    reached(page, "procedures")


def invites_somebody(page: Page) -> None:
    page.evaluate("location.hash = '/people'")
    lapsing = page.get_by_role("table", name="Lapses within 30 days")
    expect(lapsing).to_contain_text(re.compile("Fitter.*SMAW.*Sep 1, 2026.*lapsed"))
    press(page, "Engage somebody")
    expect(page.get_by_label("Short name, stays for good")).to_be_focused()
    page.keyboard.type("mason")
    typed(page, "Name", "Mason Ito")
    typed(page, "Stamp", "M7")
    expect(page.get_by_role("checkbox", name="supervisor")).to_be_disabled()
    tab_to(page, "welder")
    page.keyboard.press("Space")
    reached(page, "person")
    press(page, "Keep it")
    expect(page.get_by_text("Mason Ito is kept.")).to_be_visible()
    press(page, "Invite Mason Ito")
    told = page.get_by_role("status", name="Invitation for Mason Ito")
    expect(told).to_contain_text(re.compile(r"\w{3}-\w{3}-\w{3}-\w{3}"))
    expect(told.get_by_role("img", name="The invitation to scan")).to_be_visible()
    expect(page.get_by_role("button", name="Invite Supervisor")).to_have_count(0)
    reached(page, "people")


def test_the_office_by_keyboard(shop: Shop, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    shop.push(shop.reading("3/32", station="12")[0], shop.reading("1", station="3")[0])
    with shop.app.app_context(), writing() as session:
        book.put(session, [W12], 5)
        qualifications.put(session, [QUALIFICATION], 5)
    with browser(playwright, tmp_path / "desk", size=DESK) as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("planner"))
        adds_a_gauge(page)
        sees_what_a_gauge_touched(page)
        withdraws_a_procedure(page)
        invites_somebody(page)
