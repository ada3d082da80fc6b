"""The authority is confined to its own machine, and the server's certificate stands before an independent verifier."""

import os
import ssl
import stat
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address, ip_network
from pathlib import Path
from typing import TypeVar

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import BestAvailableEncryption, Encoding, PrivateFormat
from cryptography.x509.oid import ExtendedKeyUsageOID

from seamtag.guard import addresses, certificates
from seamtag.guard.addresses import Machine, names_of
from seamtag.guard.certificates import CertificateError, Kept, Pair, given, keep

Extension = TypeVar("Extension", bound=x509.ExtensionType)
NOW = datetime.now(UTC).replace(microsecond=0)
NAMES = ("shop-pc", "shop-pc.local", "localhost")
ADDRESSES = ("192.168.7.5", "203.0.113.9", "fd00::2", "2001:db8:1::5", "127.0.0.1", "::1")
MACHINE = Machine(NAMES, tuple(map(ip_address, ADDRESSES)))


def machine(*more: str, without: str = "") -> Machine:
    kept = [one for one in ADDRESSES if one != without]
    return Machine(MACHINE.names, tuple(map(ip_address, (*kept, *more))))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "certificates"


@pytest.fixture
def kept(folder: Path) -> Kept:
    return keep(folder, MACHINE, NOW)


def pair(folder: Path, name: str) -> Pair:
    found = certificates.read_pair(folder, name)
    assert found is not None
    return found


def extension(certificate: x509.Certificate, kind: type[Extension]) -> tuple[Extension, bool]:
    """An extension, and whether it is critical."""
    found = certificate.extensions.get_extension_for_class(kind)
    return found.value, found.critical


def shake_hands(authority: Path, files: tuple[Path, Path], host: str) -> None:
    """A TLS handshake in memory, with Python's own checks of the server's certificate. Raises ssl.SSLError."""
    ours = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    ours.load_cert_chain(*files)
    up, down = ssl.MemoryBIO(), ssl.MemoryBIO()
    server = ours.wrap_bio(up, down, server_side=True)
    client = ssl.create_default_context(cafile=authority).wrap_bio(down, up, server_hostname=host)
    done: set[ssl.SSLObject] = set()
    while len(done) < 2:
        for side in (client, server):
            try:
                side.do_handshake()
                done.add(side)
            except ssl.SSLWantReadError:
                continue


def test_the_authority_is_confined_to_this_machine(kept: Kept) -> None:
    own = kept.authority
    assert extension(own, x509.BasicConstraints) == (x509.BasicConstraints(ca=True, path_length=0), True)
    usage, critical = extension(own, x509.KeyUsage)
    assert critical
    assert usage.key_cert_sign
    assert not usage.digital_signature
    limits, critical = extension(own, x509.NameConstraints)
    assert critical
    assert limits.excluded_subtrees is None
    found = {one.value for one in limits.permitted_subtrees or []}
    private = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8", "fc00::/7", "::1/128")
    assert found == {*NAMES, *map(ip_network, (*private, "203.0.113.9/32", "2001:db8:1::/64"))}
    assert isinstance(own.public_key(), ec.EllipticCurvePublicKey)
    assert own.public_key().curve.name == "secp256r1"
    assert own.not_valid_after_utc - NOW == timedelta(days=3650)


def test_the_servers_certificate_is_for_every_name_and_address_and_no_longer_than_phones_allow(kept: Kept) -> None:
    own = kept.server
    names, _ = extension(own, x509.SubjectAlternativeName)
    assert tuple(names.get_values_for_type(x509.DNSName)) == NAMES
    assert tuple(map(str, names.get_values_for_type(x509.IPAddress))) == ADDRESSES
    assert list(extension(own, x509.ExtendedKeyUsage)[0]) == [ExtendedKeyUsageOID.SERVER_AUTH]
    assert extension(own, x509.BasicConstraints) == (x509.BasicConstraints(ca=False, path_length=None), True)
    assert own.not_valid_after_utc - own.not_valid_before_utc <= timedelta(days=825)
    assert own.not_valid_before_utc < NOW - timedelta(hours=12), "a phone's clock may be behind"
    own.verify_directly_issued_by(kept.authority)
    assert own.public_key() != kept.authority.public_key()


@pytest.mark.parametrize("host", [*NAMES, *ADDRESSES])
def test_openssl_trusts_the_server_by_every_name_and_address(kept: Kept, folder: Path, host: str) -> None:
    shake_hands(folder / "authority.crt", kept.files, host)


def test_openssl_does_not_trust_it_by_another_name(kept: Kept, folder: Path) -> None:
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch"):
        shake_hands(folder / "authority.crt", kept.files, "other-pc.local")


def forged(folder: Path, host: str, issuer: Pair | None = None) -> tuple[Path, Path]:
    """A certificate for any host, by the authority's own key."""
    try:
        name: x509.GeneralName = x509.IPAddress(ip_address(host))
    except ValueError:
        name = x509.DNSName(host)
    by = issuer or pair(folder, "authority")
    key = ec.generate_private_key(ec.SECP256R1())
    builder = certificates.begun(
        certificates.named("forged"), by.certificate.subject, key.public_key(), NOW, NOW + timedelta(days=90)
    )
    builder = builder.add_extension(x509.SubjectAlternativeName([name]), critical=False)
    made = Pair(builder.sign(by.key, hashes.SHA256()), key)
    certificates.write_pair(folder, "forged", made)
    return folder / "forged.crt", folder / "forged.key"


@pytest.mark.parametrize("host", ["shop-pc", "192.168.99.1", "10.1.2.3", "2001:db8:1::77"])
def test_what_the_authority_may_vouch_for_is_believed(kept: Kept, folder: Path, host: str) -> None:
    shake_hands(folder / "authority.crt", forged(folder, host), host)


@pytest.mark.parametrize(
    "host", ["bank.example", "local", "other-pc.local", "198.51.100.7", "203.0.113.10", "172.32.0.1", "2001:db8:2::1"]
)
def test_a_stolen_key_cannot_pose_as_anything_outside(kept: Kept, folder: Path, host: str) -> None:
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        shake_hands(folder / "authority.crt", forged(folder, host), host)


def test_a_stolen_key_cannot_make_another_authority(kept: Kept, folder: Path) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    root = pair(folder, "authority")
    name = certificates.named("below")
    builder = certificates.begun(name, root.certificate.subject, key.public_key(), NOW, NOW + timedelta(days=90))
    builder = builder.add_extension(x509.BasicConstraints(ca=True, path_length=None), critical=True)
    below = Pair(builder.sign(root.key, hashes.SHA256()), key)
    crt, private = forged(folder, "shop-pc", issuer=below)
    crt.write_bytes(crt.read_bytes() + below.certificate.public_bytes(Encoding.PEM))
    with pytest.raises(ssl.SSLCertVerificationError, match="path length constraint exceeded"):
        shake_hands(folder / "authority.crt", (crt, private), "shop-pc")


def test_nothing_is_made_anew_without_need(kept: Kept, folder: Path) -> None:
    later = keep(folder, MACHINE, NOW + timedelta(days=700))
    assert (later.authority, later.server, later.renewed) == (kept.authority, kept.server, False)


@pytest.mark.parametrize(
    ("days", "now_is"),
    [(791, MACHINE), (900, MACHINE), (1, machine("192.168.7.6")), (1, machine(without="192.168.7.5")),
     (1, Machine(("shop-pc", "localhost"), MACHINE.addresses))],
    ids=["under 30 days left", "run out", "a new address", "an address gone", "a name gone"],
)  # fmt: skip
def test_the_servers_certificate_is_renewed_under_the_same_authority(
    kept: Kept, folder: Path, days: int, now_is: Machine
) -> None:
    later = NOW + timedelta(days=days)
    new = keep(folder, now_is, later)
    assert new.renewed
    assert new.authority == kept.authority
    assert new.server.not_valid_after_utc - later == timedelta(days=820)
    assert new.server.public_key() != kept.server.public_key()
    assert not keep(folder, now_is, later).renewed


@pytest.mark.parametrize("name", ["server.crt", "server.key"])
@pytest.mark.parametrize("damage", ["cut off", "gone", "another's"])
def test_a_damaged_certificate_of_the_server_is_made_anew(kept: Kept, folder: Path, name: str, damage: str) -> None:
    file = folder / name
    if damage == "gone":
        file.unlink()
    elif damage == "cut off":
        file.write_bytes(file.read_bytes()[:100])
    else:
        file.write_bytes((folder / name.replace("server", "authority")).read_bytes())
    new = keep(folder, MACHINE, NOW)
    assert new.renewed
    shake_hands(folder / "authority.crt", new.files, "shop-pc")


def test_a_certificate_of_the_server_from_another_authority_is_made_anew(
    kept: Kept, folder: Path, tmp_path: Path
) -> None:
    other = keep(tmp_path / "other", MACHINE, NOW)
    certificates.write_pair(folder, "authority", pair(tmp_path / "other", "authority"))
    new = keep(folder, MACHINE, NOW)
    assert new.renewed
    assert new.authority == other.authority
    shake_hands(folder / "authority.crt", new.files, "shop-pc")


def test_what_the_authority_cannot_vouch_for_is_left_out_and_named(kept: Kept, folder: Path) -> None:
    moved = Machine(("new-name", "new-name.local", "localhost"), machine("198.51.100.7", "192.168.50.4").addresses)
    new = keep(folder, moved, NOW)
    assert set(new.left_out) == {"new-name", "new-name.local", "198.51.100.7"}
    shake_hands(folder / "authority.crt", new.files, "192.168.50.4")
    shake_hands(folder / "authority.crt", new.files, "203.0.113.9")


def test_the_servers_certificate_ends_with_the_authority_and_is_not_renewed_for_that(kept: Kept, folder: Path) -> None:
    end = kept.authority.not_valid_after_utc
    assert keep(folder, MACHINE, end - timedelta(days=20)).server.not_valid_after_utc == end
    assert not keep(folder, MACHINE, end - timedelta(days=10)).renewed
    with pytest.raises(CertificateError, match=r"ran out on .* Remove the folder"):
        keep(folder, MACHINE, end)


def test_a_clock_that_is_far_behind_is_named(kept: Kept, folder: Path) -> None:
    with pytest.raises(CertificateError, match="clock"):
        keep(folder, MACHINE, NOW - timedelta(days=400))


def test_keys_and_folder_are_closed_to_others(folder: Path) -> None:
    before = os.umask(0)
    try:
        keep(folder, MACHINE, NOW)
    finally:
        os.umask(before)
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    modes = {file.name: stat.S_IMODE(file.stat().st_mode) for file in folder.iterdir()}
    assert modes.pop("authority.key") == modes.pop("server.key") == 0o600
    assert set(modes) == {"authority.crt", "server.crt", "lock"}


@pytest.mark.parametrize(("name", "mode"), [("authority.key", 0o640), ("server.key", 0o604), ("", 0o750)])
def test_what_others_can_read_is_refused_with_what_to_do(kept: Kept, folder: Path, name: str, mode: int) -> None:
    path = folder / name
    path.chmod(mode)
    with pytest.raises(CertificateError, match=f"(?s)open to others.*chmod {'600' if name else '700'}.*Remove the"):
        keep(folder, MACHINE, NOW)
    path.chmod(0o600 if name else 0o700)
    assert not keep(folder, MACHINE, NOW).renewed


@pytest.mark.parametrize(
    ("damage", "says"),
    [("gone", "authority.key is missing"), ("no pem", "is damaged"), ("another's", "is not the key of authority.crt")],
)
def test_an_authority_that_cannot_be_used_is_not_quietly_replaced(
    kept: Kept, folder: Path, damage: str, says: str
) -> None:
    key = folder / "authority.key"
    secret = key.read_text()
    if damage == "gone":
        key.unlink()
    else:
        key.write_bytes(secret.encode()[:120] if damage == "no pem" else (folder / "server.key").read_bytes())
    with pytest.raises(CertificateError, match=f"{says}.*Put both back from a copy") as caught:
        keep(folder, MACHINE, NOW)
    assert secret.splitlines()[1][:20] not in str(caught.value)
    assert x509.load_pem_x509_certificate((folder / "authority.crt").read_bytes()) == kept.authority


@contextmanager
def as_nobody() -> Iterator[Path]:
    """Work as a user whom the folder in hand does not belong to."""
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        place.chmod(0o555)
        if os.geteuid() != 0:
            yield place
            return
        os.seteuid(65534)
        try:
            yield place
        finally:
            os.seteuid(0)


def test_a_folder_that_cannot_be_written_says_so(tmp_path: Path) -> None:
    with as_nobody() as place, pytest.raises(CertificateError, match=r"Permission denied.*SEAMTAG_CERTIFICATES"):
        keep(place / "certificates", MACHINE, NOW)
    (tmp_path / "file").touch()
    with pytest.raises(CertificateError, match="SEAMTAG_CERTIFICATES"):
        keep(tmp_path / "file", MACHINE, NOW)


def test_two_servers_that_start_at_once_make_one_authority(folder: Path) -> None:
    found: list[Kept] = []
    threads = [threading.Thread(target=lambda: found.append(keep(folder, MACHINE, NOW))) for _ in range(8)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert len({one.authority for one in found}) == 1
    assert [one.renewed for one in found].count(True) == 1


def given_by(folder: Path, end: datetime, password: bytes = b"") -> tuple[Path, Path]:
    """A certificate from elsewhere, in files."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = certificates.named("elsewhere")
    builder = certificates.begun(name, name, key.public_key(), min(NOW, end) - timedelta(days=9), end)
    closed = BestAvailableEncryption(password) if password else certificates.NoEncryption()
    crt, file = folder / "given.crt", folder / "given.key"
    crt.write_bytes(builder.sign(key, hashes.SHA256()).public_bytes(Encoding.PEM))
    file.write_bytes(key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, closed))
    file.chmod(0o640)
    return crt, file


def test_a_certificate_from_elsewhere_is_taken_as_it_is(tmp_path: Path) -> None:
    crt, key = given_by(tmp_path, NOW + timedelta(days=90))
    assert given(crt, key, NOW).public_bytes(Encoding.PEM) == crt.read_bytes()


@pytest.mark.parametrize(
    ("fault", "says"),
    [("run out", "not now. Renew it"), ("locked", "locked by a password"), ("open", "chmod o="),
     ("gone", "cannot be read"), ("no pem", "is no PEM file"), ("another's", "is not the key of")],
)  # fmt: skip
def test_a_certificate_from_elsewhere_that_cannot_be_served_says_why(tmp_path: Path, fault: str, says: str) -> None:
    end = NOW - timedelta(days=1) if fault == "run out" else NOW + timedelta(days=90)
    crt, key = given_by(tmp_path, end, b"secret" if fault == "locked" else b"")
    if fault == "open":
        key.chmod(0o644)
    elif fault == "gone":
        key.unlink()
    elif fault == "no pem":
        key.write_text("nothing")
    elif fault == "another's":
        (tmp_path / "more").mkdir()
        key = given_by(tmp_path / "more", end)[1]
    with pytest.raises(CertificateError, match=says):
        given(crt, key, NOW)


@pytest.mark.parametrize(
    ("hostname", "names"),
    [
        ("shop-pc", ("shop-pc", "shop-pc.local", "localhost")),
        ("PC.shop.lan.", ("pc.shop.lan", "pc", "pc.local", "localhost")),
        ("mac.local", ("mac.local", "mac", "localhost")),
        ("localhost", ("localhost",)),
        ("old_pc", ("localhost",)),
        ("12345", ("localhost",)),
    ],
)
def test_names_that_a_computer_answers_to(hostname: str, names: tuple[str, ...]) -> None:
    assert names_of(hostname) == names


def test_this_machines_addresses_end_with_loopback_and_have_no_zone() -> None:
    found = addresses.addresses()
    assert found[-2:] == addresses.LOOPBACK
    assert not any(one.version == 6 and one.is_link_local for one in found)
    assert not any(one.is_loopback for one in Machine((), found).outward)
