"""A weld pass on the phone: by its procedure, with a spot check, by a welder who is qualified and by one who is not."""

import re
import time
from datetime import date, timedelta
from pathlib import Path

from playwright.sync_api import Page, Playwright, expect
from sqlalchemy import select

from seamtag.database import db, writing
from seamtag.jobs.opening import open_job
from seamtag.people import qualifications, staff
from seamtag.people.models import Person
from seamtag.plans.publishing import publish
from seamtag.plans.reading import read
from seamtag.procedures import book
from seamtag.records import jws
from seamtag.records.models import Record
from seamtag.review.models import FlagRow
from seamtag.sync.models import Entry
from tests.browser.place import Server, big_photo, browser
from tests.browser.test_main_line import enrol, type_on_keypad
from tests.shop import Shop

PLAN = """
plan: passes
title: One seam
notice: Made up for the tests.
stages: [{number: "1", name: Welding}]
steps:
  - {code: weld, number: "1.1", stage: "1", name: Seam welding, kinds: [seam], points: [{party: QC, point: S}], items: [
      {code: passes, name: Passes, kind: weld, thickness: "3/4", photo: always}]}
"""
PROCEDURES = [
    {"id": "W-12", "name": "Groove in plate", "process": "SMAW", "positions": ["F", "V"], "volts": [20, 28],
     "amps": [90, 150], "travel": [3, 8], "heat_input_max": 55, "preheat_min": 50},
    {"id": "W-20", "name": "Root of tube", "process": "GTAW", "positions": ["F"]},
]  # fmt: skip


def qualification(person: str, tested: date) -> dict[str, object]:
    return {"id": f"Q {person}", "person": person, "process": "SMAW", "test": "plate 3G", "coupon": "7/16", "layers": 2,
            "tested": tested.isoformat()}  # fmt: skip


def set_up(shop: Shop) -> None:
    """Two welders, of whom the second has lapsed; two procedures; a job with one seam."""
    now, today = int(time.time()), date.today()
    with shop.app.app_context(), writing() as session:
        for person, stamp in (("ann", "A7"), ("bob", "B9")):
            staff.engage(session, Person(id=person, name=person.title(), roles=["welder"], stamp=stamp), now)
        session.flush()
        book.put(session, PROCEDURES, now)
        qualifications.put(session, [qualification("ann", today), qualification("bob", today - timedelta(200))], now)
        plan = publish(session, read(PLAN), now)
        session.flush()
        pieces = [{"mark": mark, "kind": "seam"} for mark in ("L-1", "L-2")]
        open_job(session, {"job": "T2", "title": "Seam", "plan": "passes", "figures": {}, "pieces": pieces}, plan, now)


def passes(shop: Shop) -> list[tuple[dict[str, str], str, str]]:
    """Body, verdict and reason of every weld record, as they came."""
    with shop.app.app_context():
        query = select(Entry.body, Record.verdict, Record.reason).join(Record, Record.number == Entry.number)
        rows = db.session.execute(query.where(Record.type == "weld").order_by(Entry.number)).all()
        return [(jws.json_of(text.split(".")[1])["body"], verdict, reason) for text, verdict, reason in rows]


def first_pass(page: Page) -> None:
    """Procedure and lot are given once; the spot check says at once what is outside."""
    expect(page.get_by_text("Still to give: procedure, lot.")).to_be_visible()
    page.get_by_role("button", name=re.compile("W-12")).click()
    card = page.get_by_label("Procedure W-12")
    expect(card).to_contain_text("at least 50 degF")
    expect(card).to_contain_text("90 to 150 A")
    expect(page.get_by_text(re.compile("Qualified: SMAW, 3G plate, to 7/8 in, until"))).to_be_visible()
    page.get_by_label("Filler lot").fill("FL-2")
    page.get_by_role("button", name="Spot check").click()
    type_on_keypad(page, "24.5")
    expect(page.get_by_role("status").filter(has_text="volts: inside")).to_be_attached()
    page.get_by_role("button", name="Next").click()
    type_on_keypad(page, "160")
    expect(page.get_by_role("button", name=re.compile("amps.*outside"))).to_be_visible()
    page.get_by_role("button", name="Next").click()
    type_on_keypad(page, "8")
    expect(page.locator("output")).to_contain_text("29.4")
    page.get_by_role("button", name="Done").first.click()
    expect(card).to_contain_text(re.compile("read: 160.*outside"))


def test_a_pass_is_judged_by_its_procedure_and_its_welder(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    set_up(shop)
    with browser(playwright, tmp_path / "profile") as context:
        page = context.pages[0]
        enrol(page, server, shop.invite("ann"))
        expect(page.get_by_text("all sent")).to_be_visible()
        page.goto(f"{server.url}/#/piece/T2/T2.L-1")
        page.get_by_role("link", name=re.compile("^Seam welding")).first.click()
        first_pass(page)
        page.get_by_role("button", name="Log the pass").click()
        expect(page.get_by_text("Saved on this phone: root pass, Ann, stamp A7.")).to_be_visible()
        expect(page.get_by_text("Out of tolerance: amps 160: W-12 asks 90 to 150 A")).to_be_visible()
        page.get_by_label("Photo of the finished pass").set_input_files(big_photo(tmp_path / "pass.jpg"))
        expect(page.locator(".thumbs img")).to_have_count(1)

        # Stamp, procedure and lot are remembered: from a piece that was scanned it is two touches, and so is a photo.
        page.goto(f"{server.url}/#/piece/T2/T2.L-2")
        page.get_by_role("link", name=re.compile("^Seam welding")).first.click()
        expect(page.get_by_label("Photo of the pass")).to_be_in_viewport()
        page.get_by_role("button", name="Log the pass").click()
        expect(page.get_by_text("Saved on this phone: root pass, Ann, stamp A7.")).to_be_visible()

        # For another welder, whose process has lapsed: it is told, and does not stop anybody.
        page.get_by_role("button", name="Log another pass").click()
        expect(page.get_by_role("button", name="fill", exact=True)).to_have_attribute("aria-pressed", "true")
        page.get_by_role("button", name="Another welder").click()
        page.get_by_role("button", name=re.compile("B9")).click()
        expect(page.get_by_label("Stamp")).to_have_value("B9")
        page.get_by_role("button", name=re.compile("W-12")).click()
        expect(page.get_by_text(re.compile("Not qualified for this pass: Bob: SMAW lapsed on"))).to_be_visible()
        page.get_by_label("Filler lot").fill("FL-3")
        page.get_by_role("button", name="Log the pass").click()
        expect(page.get_by_text("Saved on this phone: fill pass, Bob, stamp B9.")).to_be_visible()
        expect(page.get_by_text("all sent")).to_be_visible()

    (root, out, why), (next_root, recorded, _), (by_bob, _, _) = passes(shop)
    assert (out, why) == ("out of tolerance", "amps 160: W-12 asks 90 to 150 A")
    assert (root["volts"], root["amps"], root["travel"], root["layer"]) == ("24.5", "160", "8", "root")
    assert (next_root["stamp"], next_root["procedure"], next_root["lot"], recorded) == (
        "A7",
        "W-12",
        "FL-2",
        "recorded",
    )
    assert (by_bob["welder"], by_bob["stamp"], by_bob["lot"]) == ("bob", "B9", "FL-3")
    with shop.app.app_context():
        kinds = sorted(db.session.scalars(select(FlagRow.kind).where(FlagRow.job == "T2")))
    assert kinds == ["maker not qualified", "out of tolerance", "photo missing"]
