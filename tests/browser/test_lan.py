"""A phone in a network of its own: without the authority it gets the page that hands it over, with it the whole app.

Chromium runs in a network namespace that a virtual cable joins to the server's. It trusts the authority as a person's
own Chromium does, by the NSS database in the home folder, and no switch turns a check off.
"""

import os
import re
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from playwright.sync_api import BrowserContext, Page, Playwright, expect
from playwright.sync_api import Error as PlaywrightError

from seamtag.database import db
from seamtag.guard import certificates
from seamtag.guard.certificates import Pair
from seamtag.tags.models import Tag
from tests.browser.conftest import WEB
from tests.browser.place import FLAGS, PHONE, chromium
from tests.browser.test_main_line import enrol, type_on_keypad
from tests.shop import Shop

COMPUTER, HANDSET = "10.91.7.1", "10.91.7.2"
OUTSIDE, INSIDE = "bank.example", "till.shop-pc"
NAMES = ("shop-pc.local", OUTSIDE, INSIDE)
"""What the phone's resolver finds at the computer."""


def run(*command: str | Path, **more: str) -> str:
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, env={**os.environ, **more})
    if done.returncode:
        raise OSError(f"{' '.join(map(str, command))}: {done.stderr.strip()}")
    return done.stdout


def eventually(look: Callable[[], Any]) -> Any:
    """What is seen, once there is anything to see."""
    for _ in range(100):
        if found := look():
            return found
        time.sleep(0.1)
    return look()


class Network:
    """Two network namespaces with a cable between them."""

    def __init__(self) -> None:
        self.computer, self.handset = f"seamtag-{os.getpid()}-c", f"seamtag-{os.getpid()}-h"

    def make(self) -> None:
        for name in (self.computer, self.handset):
            run("ip", "netns", "add", name)
        run("ip", "-n", self.computer, "link", "add", "eth0", "type", "veth", "peer", "eth0", "netns", self.handset)
        for name, address in ((self.computer, COMPUTER), (self.handset, HANDSET)):
            run("ip", "-n", name, "address", "add", f"{address}/24", "dev", "eth0")
            for link in ("lo", "eth0"):
                run("ip", "-n", name, "link", "set", link, "up")

    def remove(self) -> None:
        for name in (self.computer, self.handset):
            with suppress(OSError):
                run("ip", "netns", "delete", name)


@pytest.fixture
def network() -> Iterator[Network]:
    missing = [name for name in ("ip", "certutil", "unshare") if shutil.which(name) is None]
    if missing:
        pytest.skip(f"no {', '.join(missing)} here: apt-get install iproute2 libnss3-tools util-linux")
    if chromium() is None:
        pytest.skip("no Chromium here: apt-get install chromium")
    one = Network()
    try:
        one.make()
    except OSError as error:
        one.remove()
        pytest.skip(f"no network namespaces here, which take root: {error}")
    yield one
    one.remove()


class LanServer:
    """`seamtag serve --lan` on a computer that calls itself shop-pc."""

    url = f"https://{COMPUTER}:8443"
    page = f"http://{COMPUTER}:8080"

    def __init__(self, network: Network, folder: Path) -> None:
        self.network, self.folder = network, folder
        self.log = folder / "server.log"

    def start(self) -> None:
        env = {**os.environ, "SEAMTAG_DATABASE": f"sqlite:///{self.folder}/seamtag.db",
               "SEAMTAG_PHOTOS": str(self.folder / "photos"), "SEAMTAG_HOST": f"{COMPUTER}:8443"}  # fmt: skip
        seamtag = Path(sys.executable).with_name("seamtag")
        called = ["unshare", "--uts", "sh", "-c", f"hostname shop-pc && exec {seamtag} serve --lan"]
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                ["ip", "netns", "exec", self.network.computer, *called],
                env=env, stdout=log, stderr=log, start_new_session=True,
            )  # fmt: skip
        for _ in range(150):
            with suppress(OSError):
                self.ask()
                return
            time.sleep(0.1)
        raise AssertionError(self.log.read_text())

    def ask(self) -> None:
        """The phone's side asks whether the server is ready, and believes the authority alone."""
        look = "import sys, ssl, urllib.request as ask; ask.urlopen(sys.argv[1], context=ssl.create_default_context("
        look += "cafile=sys.argv[2]), timeout=2)"
        command = [sys.executable, "-c", look, f"{self.url}/healthz", self.folder / "certificates" / "authority.crt"]
        run("ip", "netns", "exec", self.network.handset, *command)

    def kill(self) -> None:
        with suppress(ProcessLookupError):
            os.killpg(self.process.pid, 9)
        self.process.wait()


@pytest.fixture
def server(shop: Shop, network: Network, tmp_path: Path) -> Iterator[LanServer]:
    if not (WEB / "index.html").is_file():
        pytest.fail("the app is not built: npm run build in webapp")
    one = LanServer(network, tmp_path)
    one.start()
    yield one
    one.kill()


@contextmanager
def phone(playwright: Playwright, network: Network, home: Path, profile: str) -> Iterator[BrowserContext]:
    """Chromium in the phone's namespace, with its own home folder."""
    program = home / "chromium"
    program.write_text(f'#!/bin/sh\nexec ip netns exec {network.handset} {chromium()} "$@"\n')
    program.chmod(0o755)
    rules = ", ".join(f"MAP {name} {COMPUTER}" for name in NAMES)
    context = playwright.chromium.launch_persistent_context(
        str(home / profile), executable_path=program, args=[*FLAGS, f"--host-resolver-rules={rules}"], viewport=PHONE,
        has_touch=True, env={**os.environ, "HOME": str(home)},
    )  # fmt: skip
    context.set_default_timeout(10_000)
    try:
        yield context
    finally:
        context.close()


def refused(context: BrowserContext, url: str) -> str:
    """The browser's error for an address that it will not open; empty where it opens it."""
    tab = context.new_page()
    try:
        for _ in range(3):
            try:
                tab.goto(url)
            except PlaywrightError as error:
                found = re.search(r"net::(\w+)", str(error))
                if found and found.group(1) == "ERR_NETWORK_CHANGED":  # its new network has just come up
                    continue
                return found.group(1) if found else str(error)
            return ""
        return "ERR_NETWORK_CHANGED"
    finally:
        tab.close()


def downloaded(page: Page, server: LanServer, home: Path) -> Path:
    """The certificate, as the page without https hands it to a phone."""
    page.goto(server.page)
    expect(page.get_by_role("heading", name="Make this phone ready")).to_be_visible()
    assert not page.evaluate("isSecureContext")
    assert in_the_way(page), "this page is not the app"
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Get the certificate").click()
    file = home / waiting.value.suggested_filename
    waiting.value.save_as(file)
    return file


def trust(file: Path, home: Path) -> None:
    """What a person does in Chromium's settings: the authority is trusted for servers, and for nothing else."""
    store = home / ".pki" / "nssdb"
    store.mkdir(parents=True, exist_ok=True)
    run("certutil", "-N", "-d", f"sql:{store}", "--empty-password")
    run("certutil", "-A", "-d", f"sql:{store}", "-t", "C,,", "-n", "Seamtag", "-i", file)


def in_the_way(page: Page) -> list[Any]:
    """What Chromium has against installing the page as an app."""
    found: list[Any] = page.context.new_cdp_session(page).send("Page.getInstallabilityErrors")["installabilityErrors"]
    return found


def is_all_there(page: Page) -> None:
    """Secure context, keys, camera, service worker, and nothing against putting it on the home screen."""
    assert page.evaluate("isSecureContext")
    assert page.evaluate("typeof crypto.subtle.sign") == "function"
    asked = "navigator.mediaDevices.getUserMedia({video: true}).then((one) => one.getVideoTracks()[0].readyState)"
    assert page.evaluate(asked) == "live"
    assert eventually(lambda: page.evaluate("navigator.serviceWorker.controller !== null"))
    assert in_the_way(page) == []


def measure_by_the_tags_link(page: Page, shop: Shop, server: LanServer) -> None:
    """Follow the link on a tag, and record a reading of the piece it belongs to."""
    with shop.app.app_context():
        code = db.session.query(Tag).filter(Tag.piece == "T1.S-1").one().code
    page.goto(f"{server.url}/T/{code}")
    page.get_by_label("PIN").fill("602417")
    page.get_by_role("button", name="Unlock").click()
    page.get_by_role("link", name=re.compile("^Fit-up")).first.click()
    type_on_keypad(page, "3/32")
    page.get_by_role("button", name="Save").click()


def verdicts(folder: Path) -> list[str]:
    """Of the records that the server has."""
    with sqlite3.connect(folder / "seamtag.db") as connection:
        return [row[0] for row in connection.execute("SELECT verdict FROM record")]


def test_a_phone_is_handed_the_authority_and_then_has_the_whole_app(
    shop: Shop, server: LanServer, network: Network, playwright: Playwright, tmp_path: Path
) -> None:
    home = tmp_path / "home"
    home.mkdir()
    with phone(playwright, network, home, "before") as context:
        assert refused(context, server.url) == "ERR_CERT_AUTHORITY_INVALID"
        file = downloaded(context.new_page(), server, home)
    handed = x509.load_der_x509_certificate(file.read_bytes())
    shown = certificates.fingerprint(handed).replace(":", "")
    assert shown in re.sub(r"\s", "", server.log.read_text()), (
        "the terminal shows the fingerprint of what was handed over"
    )
    trust(file, home)
    with phone(playwright, network, home, "after") as context:
        page = context.new_page()
        page.goto(server.page)
        page.get_by_role("link", name="Open Seamtag").click()
        page.wait_for_url(f"{server.url}/")
        is_all_there(page)
        enrol(page, server, shop.invite("inspector"))
        expect(page.get_by_text("A small vessel").first).to_be_visible()
        measure_by_the_tags_link(page, shop, server)
        assert eventually(lambda: verdicts(tmp_path)) == ["in tolerance"]
        cookies = eventually(context.cookies)
        assert [(one["name"], one["secure"]) for one in cookies] == [("__Host-seamtag", True)]
        assert refused(context, "https://shop-pc.local:8443/healthz") == ""
        server.kill()
        page.goto(server.url)
        expect(page.get_by_label("PIN")).to_be_visible()
        assert page.evaluate("isSecureContext"), "offline too"


@contextmanager
def impostor(network: Network, folder: Path, host: str, port: int) -> Iterator[None]:
    """A server on the computer that has a certificate for any host, made with the authority's own key."""
    root = certificates.read_pair(folder / "certificates", "authority")
    assert root is not None
    key, now = ec.generate_private_key(ec.SECP256R1()), datetime.now(UTC).replace(microsecond=0)
    subject = root.certificate.subject
    builder = certificates.begun(certificates.named(host), subject, key.public_key(), now, now + timedelta(days=9))
    builder = builder.add_extension(certificates.alternatives([host]), critical=False)
    certificates.write_pair(folder, host, Pair(builder.sign(root.key, hashes.SHA256()), key))
    serve = (
        "import http.server, ssl, sys; port, crt, key = sys.argv[1:];"
        "one = http.server.ThreadingHTTPServer(('', int(port)), http.server.BaseHTTPRequestHandler);"
        "tls = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER); tls.load_cert_chain(crt, key);"
        "one.socket = tls.wrap_socket(one.socket, server_side=True); print(flush=True); one.serve_forever()"
    )
    command = [sys.executable, "-c", serve, str(port), folder / f"{host}.crt", folder / f"{host}.key"]
    process = subprocess.Popen(
        ["ip", "netns", "exec", network.computer, *map(str, command)], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
    )
    with process:
        try:
            assert process.stdout is not None
            process.stdout.readline()
            yield
        finally:
            process.kill()


def test_a_phone_that_trusts_the_authority_does_not_believe_it_about_anything_outside(
    server: LanServer, network: Network, playwright: Playwright, tmp_path: Path
) -> None:
    home = tmp_path / "home"
    home.mkdir()
    trust(tmp_path / "certificates" / "authority.crt", home)
    with (
        phone(playwright, network, home, "after") as context,
        impostor(network, tmp_path, OUTSIDE, 9443),
        impostor(network, tmp_path, INSIDE, 9444),
    ):
        assert refused(context, f"https://{INSIDE}:9444/") == ""
        assert refused(context, f"https://{OUTSIDE}:9443/") == "ERR_CERT_INVALID"
