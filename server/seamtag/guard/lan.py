"""Serving over https: to the phones of the shop's own network, or with a certificate that somebody else has issued."""

import io
import multiprocessing
import os
import signal
import socket
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding
from flask import Flask
from granian.constants import Interfaces
from granian.server import Server
from granian.server.common import AbstractServer
from sqlalchemy import make_url

from seamtag.guard.addresses import Machine, in_url, this_machine, url_of
from seamtag.guard.certificates import CertificateError, Kept, common_name, fingerprint, given, keep, permitted_by
from seamtag.guard.handing_over import Counter, Offer, font_in, in_lines, symbol
from seamtag.settings import Settings

LOOKS_EVERY = 60.0
"""Seconds between two looks at this computer's addresses and at the end of its certificate."""
EVERYWHERE = ("::", "0.0.0.0")


@dataclass(frozen=True)
class Place:
    """Where to serve. http_port: of the page that hands over the authority's certificate."""

    host: str
    port: int
    threads: int
    http_port: int = 0


def everywhere() -> str:
    """The host that stands for all addresses of this computer, of both kinds where it has both."""
    return EVERYWHERE[0] if socket.has_dualstack_ipv6() else EVERYWHERE[1]


def folder_of(app: Flask) -> Path:
    """Where the certificates are kept: as set, else beside SQLite's file, else in the current folder."""
    settings: Settings = app.config["SEAMTAG"]
    if settings.certificates:
        return Path(settings.certificates).absolute()
    url = make_url(settings.database)
    if url.get_backend_name() == "sqlite" and url.database and url.database != ":memory:":
        return (Path(app.instance_path) / url.database).parent / "certificates"
    return Path("certificates").absolute()


def check_free(host: str, port: int, option: str) -> None:
    """Granian shares a port with whoever has it already, so this is asked before. Raises click.ClickException."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    try:
        socket.create_server((host, port), family=family, dualstack_ipv6=host == EVERYWHERE[0]).close()
    except OSError as error:
        reason, where = str(error.strerror).split(" (")[0], "" if host in EVERYWHERE else f" of {host}"
        raise click.ClickException(f"Port {port}{where} cannot be used: {reason}. Give another {option}.") from None


def granian(place: Place, files: tuple[Path, Path] | None = None) -> AbstractServer[Any]:
    """The server. files: certificate and key, for https."""
    crt, key = files or (None, None)
    return Server("seamtag:create_app", factory=True, address=place.host, port=place.port, interface=Interfaces.WSGI,
                  blocking_threads=place.threads, log_enabled=False, ssl_cert=crt, ssl_key=key)  # fmt: skip


def serve_lan(app: Flask, place: Place) -> None:
    """Serve the app over https, and the page that makes phones trust it; ends when it is told to."""
    check_free(place.host, place.port, "--port")
    check_free(place.host, place.http_port, "--http-port")
    desk = Desk(app, place)
    counter = Counter(place.host, place.http_port, lambda: desk.offer)
    threading.Thread(target=counter.serve_forever, daemon=True).start()
    click.echo(words(desk))
    run(granian(place, desk.kept.files), desk.look)


def serve_given(place: Place, certificate: Path, key: Path) -> None:
    """Serve the app over https with a certificate that browsers trust already."""
    found = [read_given(certificate, key)]
    check_free(place.host, place.port, "--port")
    urls = [url_of("https", in_url(host), place.port) for host in hosts_in(found[0], place.host)]
    click.echo("\n".join(["Seamtag is served at:", *(f"  {url}" for url in urls), qr(urls[0])]))

    def look() -> bool:
        newer = read_given(certificate, key)
        changed = newer != found[0]
        found[0] = newer
        return changed

    run(granian(place, (certificate, key)), look)


def read_given(certificate: Path, key: Path) -> x509.Certificate:
    return given(certificate, key, datetime.now(UTC))


def hosts_in(certificate: x509.Certificate, bound: str) -> list[str]:
    """The names and addresses that a certificate is for, as far as they can be opened as they stand."""
    try:
        names = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except x509.ExtensionNotFound:
        return [bound]
    found = [*names.get_values_for_type(x509.DNSName), *map(str, names.get_values_for_type(x509.IPAddress))]
    return [one for one in found if not one.startswith("*")] or [bound]


def run(server: AbstractServer[Any], look: Callable[[], bool]) -> None:
    """Serve, and look again and again whether the certificate has changed; then new workers take it up.

    Workers are started anew, not forked: this process has threads by now. They would inherit its sockets as well.
    """

    def watch() -> None:
        said = ""
        while True:
            time.sleep(LOOKS_EVERY)
            try:
                if look():
                    os.kill(os.getpid(), signal.SIGHUP)
            except (CertificateError, OSError) as error:
                if str(error) != said:
                    click.echo(f"The certificate stays as it is. {error}", err=True)
                said = str(error)

    multiprocessing.set_start_method("spawn", force=True)
    server.on_startup(lambda: threading.Thread(target=watch, daemon=True).start())
    server.serve()


class Desk:
    """What this computer offers to phones at the moment. tags: the host that printed tags link to."""

    def __init__(self, app: Flask, place: Place) -> None:
        settings: Settings = app.config["SEAMTAG"]
        self.folder, self.place, self.tags = folder_of(app), place, settings.host
        self.font = font_in(Path(settings.web))
        self.find()

    def find(self) -> None:
        self.machine = this_machine()
        self.kept = keep(self.folder, self.machine, datetime.now(UTC))
        self.offer = offer_of(self.kept, self.machine, self.place, self.font)

    def look(self) -> bool:
        """Find it anew; whether the server's certificate is another now."""
        before = self.kept.server
        self.find()
        if self.kept.server == before:
            return False
        click.echo(f"The certificate was renewed. Phones reach Seamtag at {self.offer.app_address('')}")
        return True


def offer_of(kept: Kept, machine: Machine, place: Place, font: bytes) -> Offer:
    if place.host in EVERYWHERE:
        reached = [one for one in machine.outward if place.host == "::" or one.version == 4]
        hosts = [str(one) for one in [*reached, *machine.names] if str(one) not in kept.left_out]
    else:
        hosts = [place.host]
    authority = kept.authority
    return Offer(
        certificate=authority.public_bytes(Encoding.DER), name=common_name(authority),
        fingerprint=fingerprint(authority), until=f"{authority.not_valid_after_utc:%Y-%m-%d}",
        computer=machine.names[0], hosts=tuple(map(in_url, hosts)), port=place.port,
        permitted=tuple(map(str, permitted_by(authority))), font=font,
    )  # fmt: skip


def words(desk: Desk) -> str:
    """What the terminal says: where phones begin, where the app is, and the fingerprint to compare."""
    offer, place = desk.offer, desk.place
    start = url_of("http", offer.hosts[0], place.http_port)
    apps = [url_of("https", host, place.port) for host in offer.hosts]
    lines = [
        f"A phone's first visit, which says what to tap: {start} (the QR code below)",
        "Seamtag itself, once the phone is ready:",
        *(f"  {app}" for app in apps),
        "  Keep to one of them: a phone keeps its key and its unsent records under the address it was opened with.",
        f"SHA-256 fingerprint that the phone has to show for '{offer.name}':",
        *(f"  {line}" for line in in_lines(offer.fingerprint)),
    ]
    if not desk.machine.outward:
        lines.append("This computer has no address in a network yet. It is looked for every minute.")
    if desk.kept.left_out:
        lines += [
            f"The authority in {desk.folder} cannot vouch for {', '.join(desk.kept.left_out)}.",
            "To change that, remove the folder and start again. Each phone then has to trust the new authority.",
        ]
    if f"https://{desk.tags}" not in apps:
        lines.append(f"Printed tags link to {desk.tags}. Set SEAMTAG_HOST to one of the above before you print any.")
    return "\n".join([*lines, qr(start)])


def qr(text: str) -> str:
    """The QR code of a text in characters; empty for a terminal that has none of them."""
    out = io.StringIO()
    code = symbol(text)
    code.border = 4
    code.print_ascii(out=out, invert=True)
    try:
        out.getvalue().encode(sys.stdout.encoding or "ascii")
    except UnicodeEncodeError:
        return ""
    return out.getvalue()
