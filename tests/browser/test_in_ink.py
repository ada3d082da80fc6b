"""A release signed in ink: the AI signs a page, QC photographs and enters it, the supervisor sees it."""

import re
import time
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, Playwright, expect

from seamtag.core.progress import Progress
from seamtag.database import db, writing
from seamtag.jobs.floor import core_job
from seamtag.people import staff
from seamtag.people.models import Person
from seamtag.records.reading import payloads_of
from tests.browser.place import Server, big_photo, browser
from tests.browser.test_main_line import PIN, look
from tests.browser.test_store import all_sent, ladder_of_server, no_faults, ready, up_to_the_hold
from tests.shop import JOB, Shop

PARTY = "the Authorized Inspector"
SEAM = f"{JOB}.S-1"


def up_to_the_party(shop: Shop) -> None:
    """The fit-up is released by all but the AI, who has set a hold there."""
    up_to_the_hold(shop)
    with shop.app.app_context(), writing() as session:
        staff.engage(session, Person(id="second", name="Second", roles=["inspector"], stamp=""), int(time.time()))
    hold, _ = shop.record("visitor", "point", {"party": "AI", "point": "H"}, step="fit")
    shop.push(hold)


def released_by_qc(shop: Shop) -> None:
    with shop.app.app_context():
        job = core_job(db.session(), JOB)
        assert job is not None
        progress = Progress(job, payloads_of(db.session(), JOB))
        covers, under = progress.covered(SEAM, "fit"), progress.relied_on(SEAM, "fit")
    shop.push(shop.record("inspector", "sign-off", {"party": "QC", "covers": covers}, step="fit", under=under)[0])


def at_the_fit_up(page: Page, server: Server) -> None:
    page.goto(f"{server.url}/#/step/T1/T1.S-1/fit")
    expect(page.get_by_role("heading", name="Fit-up")).to_be_visible()


def sign(page: Page) -> None:
    page.get_by_label(re.compile("^PIN of")).fill(PIN)
    page.get_by_role("button", name="Sign", exact=True).click()


def photographed(page: Page, photo: Path) -> None:
    page.get_by_role("button", name="Signed in ink on paper").click()
    expect(page.get_by_text("The supervisor sees each of these in the day review. Keep the page")).to_be_visible()
    expect(page.get_by_text("Say first who signed the page.")).to_be_visible()
    page.get_by_label("Who signed the page").fill("J. Visitor")
    page.get_by_label("Photograph the page").set_input_files(photo)
    expect(
        page.get_by_role("status").filter(has_text="The page that J. Visitor signed is photographed.")
    ).to_be_visible()


def signed_in_ink(shop: Shop) -> list[dict[str, Any]]:
    return [flag for flag in shop.flags() if flag["kind"] == "signed in ink"]


def test_a_hold_of_the_ai_is_released_by_a_photographed_page(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    up_to_the_party(shop)
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite("inspector"))
        at_the_fit_up(page, server)
        sign(page)
        expect(page.get_by_text(f"Next to sign: {PARTY}.")).to_be_visible()
        context.set_offline(True)
        photographed(page, big_photo(tmp_path / "page.jpg"))
        expect(
            page.get_by_text("J. Visitor released step 1.2 at S-1 for the Authorized Inspector, in ink")
        ).to_be_visible()
        expect(page.get_by_text("1 photo")).to_be_visible()
        look(page, "in-ink")
        sign(page)
        expect(page.get_by_text("Released.")).to_be_visible(timeout=30_000)
        page.goto(f"{server.url}/#/piece/T1/T1.S-1")
        expect(page.get_by_text("AI in ink on paper, entered by Inspector")).to_be_visible()
        context.set_offline(False)
        all_sent(page)

    assert ladder_of_server(shop)["Fit-up"] == "released"
    (flag,) = signed_in_ink(shop)
    assert (flag["state"], flag["by"], flag["step"]["code"], flag["piece"]["mark"]) == (
        "open",
        "Inspector",
        "fit",
        "S-1",
    )
    about = {"records": [flag["record"]], "flag": "signed in ink"}
    word = {"about": about, "disposition": "use as is", "reason": "page seen"}
    shop.catch_up()
    shop.push(shop.record("supervisor", "disposition", word)[0])
    assert [one["state"] for one in signed_in_ink(shop)] == ["closed"]
    assert ladder_of_server(shop)["Fit-up"] == "released"
    no_faults(shop.app)


@pytest.mark.parametrize("person", ["fitter", "visitor"])
def test_who_is_not_of_qc_sees_who_may_enter_it(
    person: str, shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    up_to_the_party(shop)
    released_by_qc(shop)
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite(person))
        at_the_fit_up(page, server)
        page.get_by_role("button", name="Signed in ink on paper").click()
        expect(
            page.get_by_text("An inspector or supervisor enters it, with their own PIN: Inspector, Second")
        ).to_be_visible()
        expect(page.get_by_label("Who signed the page")).to_have_count(0)
        page.get_by_role("button", name="Back, not in ink").click()
        expect(page.get_by_role("button", name="Signed in ink on paper")).to_be_visible()
