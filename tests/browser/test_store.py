"""The phone's store in a real browser: a file as the way out, a full phone, PINs, two tabs, versions, a restore."""

import json
import re
import sqlite3
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from PIL import Image
from playwright.sync_api import BrowserContext, Page, Playwright, expect

from seamtag import create_app
from seamtag.core.progress import Progress
from seamtag.database import db, writing
from seamtag.jobs.floor import core_job
from seamtag.people import staff
from seamtag.people.models import Person
from seamtag.records.reading import payloads_of
from seamtag.settings import Settings
from seamtag.sync.verifying import verify
from tests.browser.place import Server, browser
from tests.browser.test_corners import open_gap
from tests.browser.test_main_line import PIN, enrol, stored, type_on_keypad, unlock, worker_ready
from tests.shop import JOB, Shop

NEW_PIN = "715064"


def seamtag(server: Server, *words: str) -> str:
    """What a command of the server prints. Fails where the command does."""
    command = [str(Path(sys.executable).with_name("seamtag")), *words]
    done = subprocess.run(command, env=server.env, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def no_faults(app: Flask) -> None:
    with app.app_context():
        assert list(verify(db.session(), app.extensions["vault"], {})) == []
        db.engine.dispose()


def noise(file: Path) -> Path:
    """A photo that cannot be made small: about 1 MB after the phone has drawn it anew."""
    Image.effect_noise((1600, 1200), 90).convert("RGB").save(file, "JPEG", quality=95)
    return file


def take_photo(page: Page, file: Path) -> None:
    page.locator("input[type=file]").set_input_files(file)


def read_gap(page: Page, server: Server, value: str = "3/32") -> None:
    open_gap(page, server)
    type_on_keypad(page, value)
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_text("saved on this phone").first).to_be_visible()


def all_sent(page: Page) -> None:
    expect(page.locator("header").get_by_text("all sent")).to_be_visible(timeout=30_000)


def unsent(page: Page, count: int) -> None:
    expect(page.locator("header").get_by_text(f"{count} unsent")).to_be_visible()


def in_store(page: Page, store: str) -> list[dict[str, Any]]:
    """The rows of a store of the phone's database, its bytes left out."""
    found: list[dict[str, Any]] = page.evaluate(
        """store => new Promise((done, failed) => {
            const open = indexedDB.open("seamtag");
            open.onerror = () => failed(open.error);
            open.onsuccess = () => {
                const all = open.result.transaction(store).objectStore(store).getAll();
                all.onsuccess = () => {
                    open.result.close();
                    done(all.result.map((row) => ({ ...row, bytes: 0, wrapped: 0, salt: 0 })));
                };
            };
        })""",
        store,
    )
    return found


def states(page: Page) -> list[str]:
    return sorted(row["state"] for row in in_store(page, "records"))


def ready(page: Page, server: Server, invitation: str) -> None:
    """Enrolled, with the job on the phone, and trying to reach the server once a second at least."""
    enrol(page, server, invitation)
    expect(page.get_by_role("link", name=re.compile("^T1"))).to_be_visible()
    worker_ready(page)
    page.evaluate(
        """new Promise((done) => {
            const open = indexedDB.open("seamtag");
            open.onsuccess = () => {
                const tx = open.result.transaction("settings", "readwrite");
                tx.objectStore("settings").put({ shortest: 250, longest: 1000 }, "sync");
                tx.oncomplete = () => { open.result.close(); done(); };
            };
        })"""
    )


def lock(page: Page, server: Server) -> None:
    page.goto(f"{server.url}/#/")
    page.get_by_role("button", name="Lock").click()
    expect(page.get_by_role("button", name="Unlock")).to_be_visible()


def exported(page: Page, to: Path) -> Path:
    page.goto(f"{page.url.split('#')[0]}#/unsent")
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save to a file").click()
    assert re.fullmatch(r"seamtag-unsent-phone-[\w-]{12}-\d{4}-\d\d-\d\d\.jsonl", saving.value.suggested_filename)
    saving.value.save_as(to)
    return to


def carried_in(file: Path) -> list[dict[str, Any]]:
    """The lines of an export but for the phone's keys, of which there is one."""
    lines = [json.loads(line) for line in file.read_text().splitlines()]
    assert [set(line) for line in lines[:1]] == [{"key"}]
    return lines[1:]


def test_a_file_carries_what_a_locked_phone_cannot_send(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite("inspector"))
        worker_ready(page)
        server.kill()
        read_gap(page, server)
        take_photo(page, noise(tmp_path / "noise.jpg"))
        expect(page.get_by_role("img", name="Root opening, 1 of 1")).to_be_visible()
        lock(page, server)
        file = exported(page, tmp_path / "carried.jsonl")
        expect(page.get_by_text("2 records and 1 photo are in the file")).to_be_visible()
        unsent(page, 3)
        assert states(page) == ["saved", "saved"]
        assert seamtag(server, "intake", str(file)).splitlines() == ["photos: 1", "taken in: 2"]
        assert [kind for kind, _ in stored(tmp_path)] == ["reading", "photo"]
        server.start()
        all_sent(page)
        assert states(page) == ["received", "received"]
        assert len(stored(tmp_path)) == 2
    no_faults(shop.app)


def quota(context: BrowserContext, page: Page, server: Server, size: int | None) -> None:
    """What the app may take on the phone, in bytes; as much as there is where None."""
    given = {"origin": server.url} | ({} if size is None else {"quotaSize": size})
    context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", given)


def test_a_full_phone_says_so_before_and_after_and_loses_nothing(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    first, second = noise(tmp_path / "first.jpg"), noise(tmp_path / "second.jpg")
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        # From the start: the browser asks how much is left only when what it knew of is used up. 1.4 MB are the app's.
        quota(context, page, server, 3_500_000)
        ready(page, server, shop.invite("inspector"))
        worker_ready(page)
        server.kill()
        # Chromium tells of a quota of its own making, so what another browser tells is put into its mouth.
        page.evaluate("navigator.storage.estimate = async () => ({ quota: 21e6, usage: 1e6 })")
        read_gap(page, server)
        take_photo(page, first)
        expect(page.get_by_role("img", name="Root opening, 1 of 1")).to_be_visible()
        expect(page.get_by_text("This phone has room for about 33 more photos")).to_be_visible()
        take_photo(page, second)
        expect(page.get_by_role("alert")).to_contain_text("NOT saved. This phone's storage is full")
        expect(page.get_by_text("This phone has no room for another photo")).to_be_visible()
        unsent(page, 3)
        assert (len(in_store(page, "records")), len(in_store(page, "photos"))) == (2, 1)
        assert in_store(page, "keys")[0]["seq"] == 2
        page.get_by_role("alert").get_by_role("link", name="Save to a file").click()
        expect(page.get_by_role("button", name="Save to a file")).to_be_enabled()
        quota(context, page, server, None)
        open_gap(page, server)
        take_photo(page, second)
        expect(page.get_by_role("img", name="Root opening, 2 of 2")).to_be_visible()
        expect(page.get_by_role("alert")).to_have_count(0)
        server.start()
        all_sent(page)
    assert [kind for kind, _ in stored(tmp_path)] == ["reading", "photo", "photo"]
    no_faults(shop.app)


def change_pin(page: Page, old: str, new: str) -> None:
    page.get_by_label("Old PIN").fill(old)
    page.get_by_label("New PIN, six digits or more").fill(new)
    page.get_by_label("New PIN once more").fill(new)
    page.get_by_role("button", name="Change the PIN").click()


def test_a_pin_is_changed_then_forgotten_and_nothing_signed_is_lost(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite("inspector"))
        context.route("**/api/v1/records", lambda route: route.abort())
        read_gap(page, server)
        page.goto(f"{server.url}/#/")
        page.get_by_role("link", name="Change PIN").click()
        change_pin(page, NEW_PIN, "904471")
        expect(page.get_by_role("alert")).to_have_text("This is not the PIN. The PIN was not changed.")
        change_pin(page, PIN, NEW_PIN)
        expect(page.get_by_text("The PIN is changed")).to_be_visible()
        lock(page, server)
        unlock(page)
        expect(page.get_by_text("This is not the PIN")).to_be_visible()
        page.get_by_role("button", name="PIN forgotten").click()
        expect(page.get_by_text("Nothing is erased")).to_be_visible()
        page.get_by_role("button", name="I have an invitation").click()
        page.get_by_label("Invitation").fill(shop.invite("inspector"))
        page.get_by_label("PIN", exact=True).fill(PIN)
        page.get_by_label("PIN once more").fill(PIN)
        page.get_by_role("button", name="Enrol this phone").click()
        expect(page.get_by_role("button", name="Scan a tag")).to_be_visible()
        read_gap(page, server)
        lock(page, server)
        expect(page.get_by_role("list", name="Keys no longer usable")).to_contain_text("kept and goes out: 1 record.")
        context.unroute("**/api/v1/records")
        all_sent(page)
        unlock(page)
        expect(page.get_by_role("heading", name="Inspector")).to_be_visible()
        assert len({row["kid"] for row in in_store(page, "keys")}) == 2
    with sqlite3.connect(tmp_path / "seamtag.db") as connection:
        rows = connection.execute("SELECT kid, seq FROM record").fetchall()
    assert len({kid for kid, _ in rows}) == 2
    assert [seq for _, seq in rows] == [1, 1]
    no_faults(shop.app)


WRITE_NOTES = """([count, at, name]) => {
    const until = async (find) => {
        for (;;) {
            const found = find();
            if (found) return found;
            await new Promise((done) => setTimeout(done, 4));
        }
    };
    const button = (text) => () => [...document.querySelectorAll("button")].find((one) => one.textContent === text);
    const write = async () => {
        await new Promise((done) => setTimeout(done, at - Date.now()));
        for (let made = 0; made < count; made += 1) {
            (await until(button("Write a note"))).click();
            const field = await until(() => document.querySelector("textarea"));
            field.value = `${name} ${made}`;
            field.dispatchEvent(new Event("input", { bubbles: true }));
            (await until(() => { const one = button("Save the note")(); return one && !one.disabled && one; })).click();
        }
        await until(button("Write a note"));
        window.written = true;
    };
    void write();
}"""


def test_two_tabs_at_once_keep_one_unbroken_chain(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        one = context.pages[0]
        ready(one, server, shop.invite("inspector"))
        other = context.new_page()
        other.goto(server.url)
        unlock(other)
        expect(other.get_by_role("link", name=re.compile("^T1"))).to_be_visible()
        for page in (one, other):
            page.goto(f"{server.url}/#/piece/T1/T1.S-1")
            expect(page.get_by_role("button", name="Write a note")).to_be_visible()
        at = int(time.time() * 1000) + 500
        one.evaluate(WRITE_NOTES, [50, at, "one"])
        other.evaluate(WRITE_NOTES, [50, at, "other"])
        for page in (one, other):
            page.wait_for_function("() => window.written", timeout=30_000)
            expect(page.get_by_role("list", name="Notes").get_by_role("listitem")).to_have_count(100)
            expect(page.get_by_role("alert")).to_have_count(0)
            all_sent(page)
    with sqlite3.connect(tmp_path / "seamtag.db") as connection:
        rows = connection.execute("SELECT seq, prev, digest, link FROM record ORDER BY seq").fetchall()
    assert [seq for seq, *_ in rows] == list(range(1, 101))
    assert [prev for _, prev, *_ in rows] == ["", *(digest for _, _, digest, _ in rows[:-1])]
    assert {link for *_, link in rows} == {""}
    no_faults(shop.app)


def test_an_older_app_sends_and_exports_from_a_newer_store_but_does_not_record(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite("inspector"))
        context.route("**/api/v1/records", lambda route: route.abort())
        read_gap(page, server)
        page.evaluate(
            """new Promise((done, failed) => {
                const open = indexedDB.open("seamtag", 999);
                open.onupgradeneeded = () => open.result.createObjectStore("of a newer app");
                open.onblocked = () => failed(new Error("the older tab stays in the way"));
                open.onsuccess = () => { open.result.close(); done(); };
            })"""
        )
        type_on_keypad(page, "3/32")
        page.get_by_role("button", name="Save").click()
        expect(page.get_by_role("alert")).to_contain_text("NOT saved. This app is older than what is stored")
        unsent(page, 1)
        page.reload()
        expect(page.get_by_text("Load the page again, to get the new one")).to_be_visible()
        file = exported(page, tmp_path / "carried.jsonl")
        assert len(carried_in(file)) == 1
        context.unroute("**/api/v1/records")
        all_sent(page)
    assert len(stored(tmp_path)) == 1


def restored(server: Server, folder: Path) -> None:
    """The backup made into a new database, served on the same port."""
    server.kill()
    server.env |= {"SEAMTAG_DATABASE": f"sqlite:///{folder}/new.db", "SEAMTAG_PHOTOS": str(folder / "new photos")}
    seamtag(server, "restore", str(folder / "backup"))
    server.start()


def test_a_restored_server_gets_back_what_the_phone_made_and_the_phone_counts_only_what_it_has(
    shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    with browser(playwright, tmp_path / "phone") as context:
        page = context.pages[0]
        ready(page, server, shop.invite("inspector"))
        read_gap(page, server)
        all_sent(page)
        seamtag(server, "backup", str(tmp_path / "backup"))
        take_photo(page, noise(tmp_path / "noise.jpg"))
        expect(page.get_by_role("img", name="Root opening, 1 of 1")).to_be_visible()
        carried, _ = shop.reading("3/32", station="6")
        shop.push(carried)
        all_sent(page)
        expect(page.locator(".station.good")).to_have_count(2)
        assert states(page) == ["received"] * 3
        restored(server, tmp_path)
        expect(page.locator(".station.good")).to_have_count(1, timeout=30_000)
        all_sent(page)
        assert states(page) == ["missing", "received", "received"]
        page.locator("header").get_by_role("link", name="all sent").click()
        expect(page.get_by_text("put back to be sent: 2 records and 1 photo")).to_be_visible()
        expect(page.get_by_role("list", name="Not on the server any more").get_by_role("listitem")).to_have_count(1)
        file = exported(page, tmp_path / "carried.jsonl")
        with sqlite3.connect(tmp_path / "new.db") as connection:
            kinds = connection.execute("SELECT type FROM record ORDER BY number").fetchall()
            photos = connection.execute("SELECT stored FROM photo").fetchall()
        assert (kinds, photos) == ([("reading",), ("photo",)], [(1,)])
        assert carried_in(file) == [{"record": carried}]
        seamtag(server, "intake", str(file))
        open_gap(page, server)
        expect(page.locator(".station.good")).to_have_count(2)
        assert states(page) == ["received"] * 3
    no_faults(create_app(Settings(database=server.env["SEAMTAG_DATABASE"], photos=server.env["SEAMTAG_PHOTOS"])))


def up_to_the_hold(shop: Shop) -> None:
    """All before the hold at the fit-up of S-1 is done: plates received, the fit measured, and signed by the fitter."""
    for mark in ("P-1", "P-2"):
        made = [
            shop.record("inspector", "text", {"value": "H 4711"}, mark, step="receipt", item="heat"),
            shop.record("inspector", "reading", {"entered": "1/4", "uom": "in"}, mark, step="receipt", item="thick"),
        ]
        covers = [payload["id"] for _, payload in made]
        signed = shop.record("inspector", "sign-off", {"party": "QC", "covers": covers}, mark, step="receipt")
        shop.push(*(text for text, _ in [*made, signed]))
    made = [shop.reading("3/32", station=station) for station in ("12", "3", "6", "9")]
    made.append(shop.record("inspector", "visual", {"result": "accept"}, step="fit", item="clean"))
    covers = [payload["id"] for _, payload in made]
    signed = shop.record("fitter", "sign-off", {"party": "maker", "covers": covers}, step="fit")
    shop.push(*(text for text, _ in [*made, signed]))


def ladder(page: Page) -> dict[str, str]:
    """The steps of S-1 as a phone shows them: name and state."""
    rows = [text.split("\n") for text in page.locator("ol.ladder li a.grow").all_inner_texts()]
    return {name.partition(" ")[2]: state.lower() for name, state in rows}


def ladder_of_server(shop: Shop) -> dict[str, str]:
    with shop.app.app_context():
        session = db.session()
        job = core_job(session, JOB)
        assert job is not None
        steps = Progress(job, payloads_of(session, JOB)).piece(f"{JOB}.S-1").steps
    return {job.steps[code]["name"]: state.state for code, state in steps.items()}


def sign_the_hold(page: Page) -> None:
    page.goto(f"{page.url.split('#')[0]}#/step/T1/T1.S-1/fit")
    page.get_by_label("PIN").fill(PIN)
    page.get_by_role("button", name=re.compile("^Sign")).click()
    expect(page.get_by_text("Released.")).to_be_visible()


def go_on_behind_it(page: Page) -> None:
    page.goto(f"{page.url.split('#')[0]}#/step/T1/T1.S-1/finished")
    page.get_by_role("button", name="I was told to go on").click()
    page.get_by_label("By whom, and why").fill("the foreman: the crane is here today only")
    page.get_by_role("button", name="Record that, and go on").click()
    page.get_by_role("link", name=re.compile("Undercut")).click()
    type_on_keypad(page, "1/64")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("header").get_by_text("2 unsent")).to_be_visible()


@pytest.mark.parametrize("order", [("signs", "goes on"), ("goes on", "signs")])
def test_two_inspectors_at_one_hold_agree_with_the_server_whoever_is_back_first(
    order: tuple[str, str], shop: Shop, server: Server, playwright: Playwright, tmp_path: Path
) -> None:
    up_to_the_hold(shop)
    with shop.app.app_context(), writing() as session:
        staff.engage(session, Person(id="second", name="Second", roles=["inspector"], stamp=""), int(time.time()))
    with (
        browser(playwright, tmp_path / "one") as first,
        browser(playwright, tmp_path / "other") as second,
    ):
        contexts = {"signs": first, "goes on": second}
        pages = {name: context.pages[0] for name, context in contexts.items()}
        for name, person in (("signs", "inspector"), ("goes on", "second")):
            ready(pages[name], server, shop.invite(person))
            contexts[name].set_offline(True)
        sign_the_hold(pages["signs"])
        go_on_behind_it(pages["goes on"])
        for name in order:
            contexts[name].set_offline(False)
            all_sent(pages[name])
        wanted = {"Fit-up": "released", "Finished seam": "complete"}
        for page in pages.values():
            page.goto(f"{server.url}/#/piece/T1/T1.S-1")
            expect(page.get_by_role("link", name="Finished seam").last).to_contain_text("complete")
            expect(page.locator("ol.ladder li").last).to_contain_text("QC next")
            expect(page.get_by_role("link", name="Fit-up").last).to_contain_text("released")
            assert ladder(page) == wanted
        assert ladder_of_server(shop) == wanted
    flags = [(flag["kind"], flag["state"], flag["step"]["code"]) for flag in shop.flags()]
    assert flags == [("went past an open hold", "open", "finished")]
    no_faults(shop.app)
