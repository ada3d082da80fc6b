"""`seamtag serve --lan` and `--cert`, as processes of their own."""

import json
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from http.client import HTTPConnection, HTTPSConnection
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from cryptography import x509
from flask import Flask

from seamtag import create_app
from seamtag.cli import main
from seamtag.guard import lan
from seamtag.guard.certificates import fingerprint
from seamtag.settings import Settings
from tests.server.test_certificates import given_by

AT_ONCE = """
import json, sys
from ipaddress import ip_address
from pathlib import Path
from seamtag.cli import main
from seamtag.guard import lan
from seamtag.guard.addresses import Machine

def this_machine():
    return Machine(("shop-pc", "localhost"), tuple(map(ip_address, json.loads(Path(sys.argv[1]).read_text()))))

lan.LOOKS_EVERY, lan.this_machine = 0.2, this_machine
main(sys.argv[2:])
"""
"""The command with other addresses than this computer has, which looks for new ones at once."""
ADDRESSES = ["192.168.7.5", "127.0.0.1", "::1"]


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def environment(folder: Path) -> dict[str, str]:
    plain = {name: value for name, value in os.environ.items() if not name.startswith("SEAMTAG_")}
    return plain | {"SEAMTAG_DATABASE": f"sqlite:///{folder}/seamtag.db", "SEAMTAG_PHOTOS": str(folder / "photos")}


class Running:
    def __init__(self, folder: Path, *words: str) -> None:
        self.folder, self.port, self.http_port = folder, free_port(), free_port()
        if "--lan" in words:
            words = (*words, "--http-port", str(self.http_port))
        self.machine = folder / "addresses.json"
        self.machine.write_text(json.dumps(ADDRESSES))
        self.said = folder / "said.txt"
        command = [sys.executable, "-c", AT_ONCE, str(self.machine), "serve", "--port", str(self.port), *words]
        with self.said.open("wb") as out:
            self.process = subprocess.Popen(
                command, env=environment(folder), stdout=out, stderr=out, start_new_session=True
            )

    def trusting(self, certificate: Path) -> ssl.SSLContext:
        return ssl.create_default_context(cafile=certificate)

    def ask(self, path: str, certificate: Path) -> tuple[int, dict[str, str], bytes]:
        with ssl_answers():
            connection = HTTPSConnection("127.0.0.1", self.port, timeout=5, context=self.trusting(certificate))
            connection.request("GET", path)
            answer = connection.getresponse()
            found = answer.status, dict(answer.headers), answer.read()
            connection.close()
            return found

    def wait(self, certificate: Path) -> None:
        until(lambda: self.ask("/healthz", certificate)[0] == 200, self.said)

    def certificate(self) -> x509.Certificate:
        return x509.load_pem_x509_certificate(ssl.get_server_certificate(("127.0.0.1", self.port)).encode())

    def end(self) -> int:
        self.process.send_signal(signal.SIGTERM)
        try:
            return self.process.wait(15)
        finally:
            if self.process.poll() is None:
                os.killpg(self.process.pid, signal.SIGKILL)
                self.process.wait()


@contextmanager
def ssl_answers() -> Iterator[None]:
    """A certificate that is not believed is a failure, not a server that is not there yet."""
    try:
        yield
    except ssl.SSLCertVerificationError as error:
        raise AssertionError(str(error)) from None


def until(good: Callable[[], bool], said: Path, seconds: float = 30) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            if good():
                return
        except OSError:
            pass
        time.sleep(0.1)
    raise AssertionError(said.read_text())


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    one = Running(tmp_path_factory.mktemp("lan"), "--lan", "--host", "127.0.0.1")
    one.wait(one.folder / "certificates" / "authority.crt")
    yield one
    one.end()


def test_a_client_that_trusts_the_authority_is_served(running: Running) -> None:
    status, headers, body = running.ask("/healthz", running.folder / "certificates" / "authority.crt")
    assert (status, json.loads(body)) == (200, {"status": "ready"})
    assert "default-src 'none'" in headers["content-security-policy"]


@pytest.mark.parametrize("path", ["/", "/healthz", "/nothing"])
def test_no_browser_is_told_to_keep_to_https(running: Running, path: str) -> None:
    headers = running.ask(path, running.folder / "certificates" / "authority.crt")[1]
    assert "strict-transport-security" not in {name.lower() for name in headers}


def test_a_client_that_does_not_trust_the_authority_is_not_served(running: Running) -> None:
    connection = HTTPSConnection("127.0.0.1", running.port, timeout=5, context=ssl.create_default_context())
    with pytest.raises(ssl.SSLCertVerificationError, match="unable to get local issuer"):
        connection.request("GET", "/healthz")
    connection.close()


def handed_over(running: Running, path: str) -> bytes:
    connection = HTTPConnection("127.0.0.1", running.http_port, timeout=5)
    connection.request("GET", path)
    body = connection.getresponse().read()
    connection.close()
    return body


def test_terminal_page_and_file_tell_of_one_certificate(running: Running) -> None:
    file = handed_over(running, "/seamtag.crt")
    shown = fingerprint(x509.load_der_x509_certificate(file))
    for text in (running.said.read_text(), handed_over(running, "/").decode()):
        assert "".join(re.findall(r"(?:[0-9A-F]{2} ){7}[0-9A-F]{2}", text)).replace(" ", "") == shown.replace(":", "")
    assert running.certificate().issuer == x509.load_der_x509_certificate(file).subject


def test_the_terminal_says_where_to_begin(running: Running) -> None:
    said = running.said.read_text()
    assert f"http://127.0.0.1:{running.http_port}" in said
    assert f"https://127.0.0.1:{running.port}" in said
    assert "Printed tags link to 127.0.0.1:8000. Set SEAMTAG_HOST" in said
    assert said.count("█") > 100, "the QR code"


def test_no_key_is_ever_shown(running: Running) -> None:
    shown = running.said.read_bytes() + handed_over(running, "/") + handed_over(running, "/seamtag.crt")
    for file in (running.folder / "certificates").glob("*.key"):
        lines = file.read_text().splitlines()[1:-1]
        assert lines
        assert not [line for line in lines if line.encode() in shown]
    assert b"PRIVATE" not in shown


def test_a_new_address_is_taken_up_while_phones_go_on(running: Running) -> None:
    authority = running.folder / "certificates" / "authority.crt"
    before, trusted = running.certificate(), authority.read_bytes()
    running.machine.write_text(json.dumps(["192.168.7.77", *ADDRESSES]))
    answers, found = [], []

    def renewed() -> bool:
        answers.append(running.ask("/healthz", authority)[0])
        found.append(running.certificate())
        return found[-1] != before

    until(renewed, running.said)
    names = found[-1].extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert "192.168.7.77" in map(str, names.get_values_for_type(x509.IPAddress))
    assert set(answers) == {200}
    assert authority.read_bytes() == trusted
    assert "The certificate was renewed" in running.said.read_text()


def test_a_folder_that_was_opened_meanwhile_is_said_once_and_phones_go_on(running: Running) -> None:
    folder = running.folder / "certificates"
    folder.chmod(0o755)
    until(lambda: "The certificate stays as it is" in running.said.read_text(), running.said)
    time.sleep(0.6)
    folder.chmod(0o700)
    assert running.said.read_text().count("The certificate stays as it is") == 1
    assert running.ask("/healthz", folder / "authority.crt")[0] == 200


def test_a_certificate_from_elsewhere_is_served_and_its_renewal_taken_up(tmp_path: Path) -> None:
    now = datetime.now(UTC).replace(microsecond=0)
    crt, key = given_by(tmp_path, now + timedelta(days=90))
    one = Running(tmp_path, "--host", "127.0.0.1", "--cert", str(crt), "--key", str(key))
    try:
        until(lambda: one.certificate().public_bytes(lan.Encoding.PEM) == crt.read_bytes(), one.said)
        assert f"https://127.0.0.1:{one.port}" in one.said.read_text()
        assert not (tmp_path / "certificates").exists(), "no authority is made"
        given_by(tmp_path, now + timedelta(days=180))
        until(lambda: one.certificate().not_valid_after_utc == now + timedelta(days=180), one.said)
    finally:
        assert one.end() == 0


def test_the_server_ends_when_it_is_told_to_and_leaves_its_ports(tmp_path: Path) -> None:
    one = Running(tmp_path, "--lan", "--host", "127.0.0.1")
    one.wait(tmp_path / "certificates" / "authority.crt")
    assert one.end() == 0
    for port in (one.port, one.http_port):
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection(("127.0.0.1", port))


def run(folder: Path, *words: str) -> Any:
    return CliRunner(env=environment(folder)).invoke(main, ["serve", "--host", "127.0.0.1", *words])


@pytest.mark.parametrize("option", ["--port", "--http-port"])
def test_a_port_that_is_taken_is_named_with_what_to_do(tmp_path: Path, option: str) -> None:
    ports = {"--port": free_port(), "--http-port": free_port()}
    with socket.create_server(("127.0.0.1", ports[option])):
        found = run(tmp_path, "--lan", *[word for name, port in ports.items() for word in (name, str(port))])
    assert found.exit_code == 1
    says = f"Port {ports[option]} of 127.0.0.1 cannot be used: Address already in use. Give another {option}."
    assert found.output == f"Error: {says}\n"


def test_one_port_for_both_is_refused(tmp_path: Path) -> None:
    found = run(tmp_path, "--lan", "--port", "9443", "--http-port", "9443")
    assert found.output == "Error: --port and --http-port must be two different numbers.\n"


def test_a_certificate_without_its_key_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.crt").touch()
    found = run(tmp_path, "--cert", str(tmp_path / "a.crt"))
    assert found.output == "Error: --cert and --key belong together. Give both.\n"


def test_what_is_wrong_with_certificates_is_one_line(tmp_path: Path) -> None:
    (tmp_path / "certificates").mkdir(mode=0o755)
    found = run(tmp_path, "--lan", "--port", str(free_port()), "--http-port", str(free_port()))
    assert found.exit_code == 1
    assert found.output.startswith(f"Error: {tmp_path}/certificates is open to others on this computer (mode 755).")


@pytest.mark.parametrize(
    ("database", "certificates", "folder"),
    [
        ("sqlite:////srv/shop/seamtag.db", "", "/srv/shop/certificates"),
        ("sqlite:////srv/shop/seamtag.db", "/etc/seamtag", "/etc/seamtag"),
        ("sqlite:///seamtag.db", "", "INSTANCE/certificates"),
        ("postgresql://u@h/d", "", "HERE/certificates"),
        ("sqlite://", "", "HERE/certificates"),
    ],
)
def test_certificates_are_kept_beside_the_database(database: str, certificates: str, folder: str) -> None:
    app: Flask = create_app(Settings(database="sqlite://", photos="memory:///"))
    app.config["SEAMTAG"] = Settings(database=database, certificates=certificates)
    wanted = folder.replace("INSTANCE", app.instance_path).replace("HERE", str(Path.cwd()))
    assert lan.folder_of(app) == Path(wanted)
