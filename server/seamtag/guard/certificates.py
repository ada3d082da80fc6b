"""A certificate authority for this computer alone, made once, and the server's certificate that it vouches for.

A phone that trusts the authority lets it speak for the names of this computer and for addresses of private networks,
and for nothing else: that limit stands in the authority's own certificate (RFC 5280, 4.2.1.10) and is marked critical.
"""

import fcntl
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import IPv4Network, IPv6Network, ip_network
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat, load_pem_private_key
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from seamtag.guard.addresses import Address, Machine

AUTHORITY_LASTS = timedelta(days=3650)
SERVER_LASTS = timedelta(days=820)
"""Apple refuses any certificate of a server that is good for more than 825 days."""
BACKDATED = timedelta(days=1)
"""A phone's clock may be behind this computer's."""
RENEWED_BEFORE = timedelta(days=30)
PRIVATE = tuple(map(ip_network, ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
                                 "fc00::/7", "::1/128")))  # fmt: skip
"""RFC 1918, RFC 3927, loopback, and RFC 4193."""
KEY_MODE, FOLDER_MODE = 0o600, 0o700

Network = IPv4Network | IPv6Network


class CertificateError(Exception):
    """Says what is wrong with which file, and what to do."""


@dataclass(frozen=True)
class Pair:
    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


@dataclass(frozen=True)
class Kept:
    """What was found or made. files: the server's certificate and key. left_out: what cannot be vouched for."""

    authority: x509.Certificate
    server: x509.Certificate
    files: tuple[Path, Path]
    left_out: tuple[str, ...]
    renewed: bool


def keep(folder: Path, machine: Machine, now: datetime) -> Kept:
    """The authority and the server's certificate in a folder, made or renewed where that is due.

    Raises CertificateError where the folder cannot be used, or is open to others.
    """
    with alone_in(folder):
        for key in filter(Path.exists, (folder / "authority.key", folder / "server.key")):
            closed_to_others(key, KEY_MODE)
        authority = read_pair(folder, "authority") or write_pair(folder, "authority", new_authority(machine, now))
        check_authority(folder, authority, now)
        permitted = permitted_by(authority.certificate)
        wanted: list[str | Address] = [*machine.names, *machine.addresses]
        fit = [one for one in wanted if covers(permitted, one)]
        server, renewed = None, False
        with suppress(CertificateError):
            server = read_pair(folder, "server")
        if server is None or is_due(server, authority, fit, now):
            server = write_pair(folder, "server", new_server(authority, fit, now))
            renewed = True
    left_out = tuple(str(one) for one in wanted if one not in fit)
    files = (folder / "server.crt", folder / "server.key")
    return Kept(authority.certificate, server.certificate, files, left_out, renewed)


def new_authority(machine: Machine, now: datetime) -> Pair:
    key = ec.generate_private_key(ec.SECP256R1())
    name = named(f"Seamtag at {machine.names[0][:40]}, {now:%Y-%m-%d}")
    permitted = [x509.DNSName(one) for one in machine.names] + [x509.IPAddress(one) for one in networks_of(machine)]
    usage = x509.KeyUsage(
        digital_signature=False, content_commitment=False, key_encipherment=False, data_encipherment=False,
        key_agreement=False, key_cert_sign=True, crl_sign=True, encipher_only=False, decipher_only=False,
    )  # fmt: skip
    builder = begun(name, name, key.public_key(), now, now + AUTHORITY_LASTS)
    builder = builder.add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
    builder = builder.add_extension(usage, critical=True)
    builder = builder.add_extension(x509.NameConstraints(permitted, None), critical=True)
    return Pair(builder.sign(key, hashes.SHA256()), key)


def new_server(authority: Pair, fit: list[str | Address], now: datetime) -> Pair:
    key = ec.generate_private_key(ec.SECP256R1())
    end = min(now + SERVER_LASTS, authority.certificate.not_valid_after_utc)
    builder = begun(
        named(f"Seamtag's server, {now:%Y-%m-%d}"), authority.certificate.subject, key.public_key(), now, end
    )
    usage = x509.KeyUsage(
        digital_signature=True, content_commitment=False, key_encipherment=False, data_encipherment=False,
        key_agreement=False, key_cert_sign=False, crl_sign=False, encipher_only=False, decipher_only=False,
    )  # fmt: skip
    issuer = authority.certificate.extensions.get_extension_for_class(x509.SubjectKeyIdentifier).value
    builder = builder.add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
    builder = builder.add_extension(usage, critical=True)
    builder = builder.add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
    builder = builder.add_extension(alternatives(fit), critical=False)
    builder = builder.add_extension(
        x509.AuthorityKeyIdentifier.from_issuer_subject_key_identifier(issuer), critical=False
    )
    return Pair(builder.sign(authority.key, hashes.SHA256()), key)


def begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: datetime, end: datetime
) -> x509.CertificateBuilder:
    builder = x509.CertificateBuilder().subject_name(subject).issuer_name(issuer).public_key(key)
    builder = builder.serial_number(x509.random_serial_number())
    builder = builder.not_valid_before(now - BACKDATED).not_valid_after(end)
    return builder.add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)


def named(text: str) -> x509.Name:
    return x509.Name(
        [x509.NameAttribute(NameOID.ORGANIZATION_NAME, "Seamtag"), x509.NameAttribute(NameOID.COMMON_NAME, text)]
    )


def alternatives(fit: list[str | Address]) -> x509.SubjectAlternativeName:
    return x509.SubjectAlternativeName(
        [x509.DNSName(one) if isinstance(one, str) else x509.IPAddress(one) for one in fit]
    )


def networks_of(machine: Machine) -> list[Network]:
    """Private networks, and beside them what this computer has of other addresses.

    Of IPv6 that is its own /64, inside which a computer changes its address of itself every day.
    """
    own = [
        ip_network((one, 64 if one.version == 6 else 32), strict=False)
        for one in machine.addresses
        if not any(one in network for network in PRIVATE)
    ]
    return [*PRIVATE, *dict.fromkeys(own)]


def permitted_by(certificate: x509.Certificate) -> list[str | Network]:
    """The names and networks that an authority's certificate confines it to."""
    limits = certificate.extensions.get_extension_for_class(x509.NameConstraints).value
    return [one.value for one in limits.permitted_subtrees or []]


def covers(permitted: list[str | Network], wanted: str | Address) -> bool:
    if isinstance(wanted, str):
        names = [one for one in permitted if isinstance(one, str)]
        return any(wanted == one or wanted.endswith(f".{one}") for one in names)
    return any(wanted in one for one in permitted if not isinstance(one, str))


def is_due(server: Pair, authority: Pair, fit: list[str | Address], now: datetime) -> bool:
    """Whether the server's certificate has to be made anew: another issuer, other names, or near its end."""
    own, ca = server.certificate, authority.certificate
    try:
        own.verify_directly_issued_by(ca)
    except (ValueError, TypeError, InvalidSignature):
        return True
    found = own.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    if set(found) != set(alternatives(fit)):
        return True
    last = own.not_valid_after_utc
    near = last - now < RENEWED_BEFORE and last < ca.not_valid_after_utc
    return near or not own.not_valid_before_utc <= now < last


def check_authority(folder: Path, authority: Pair, now: datetime) -> None:
    certificate = authority.certificate
    if now < certificate.not_valid_before_utc:
        raise CertificateError(
            f"This computer's clock says {now:%Y-%m-%d}, which is before the certificates in {folder} were made. "
            "Set its clock and start again."
        )
    if now >= certificate.not_valid_after_utc:
        raise CertificateError(
            f"The authority in {folder} ran out on {certificate.not_valid_after_utc:%Y-%m-%d}. {anew(folder)}"
        )


def anew(folder: Path) -> str:
    return f"Remove the folder {folder}. The next start makes a new authority, which each phone has to trust anew."


def fingerprint(certificate: x509.Certificate) -> str:
    """SHA-256 of a certificate as phones show it: pairs of hexadecimal digits."""
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def common_name(certificate: x509.Certificate) -> str:
    return str(certificate.subject.get_attributes_for_oid(NameOID.COMMON_NAME)[0].value)


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """The folder, made where it lacks, closed to others, and used by no second server meanwhile."""
    try:
        folder.mkdir(mode=FOLDER_MODE, parents=True, exist_ok=True)
        closed_to_others(folder, FOLDER_MODE)
        lock = os.open(folder / "lock", os.O_CREAT | os.O_RDWR, KEY_MODE)
    except OSError as error:
        raise unusable(folder, error) from None
    try:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield
    finally:
        os.close(lock)


def given(certificate: Path, key: Path, now: datetime) -> x509.Certificate:
    """The server's certificate that somebody else has issued. Raises CertificateError where it cannot be served."""
    try:
        found = x509.load_pem_x509_certificate(certificate.read_bytes())
        if stat.S_IMODE(key.stat().st_mode) & 0o007:
            raise CertificateError(f"{key} is open to everybody on this computer. Run: chmod o= {key}")
        own = load_pem_private_key(key.read_bytes(), password=None).public_key()
    except OSError as error:
        raise CertificateError(f"{error.filename} cannot be read: {error.strerror or error}.") from None
    except TypeError:
        raise CertificateError(f"{key} is locked by a password. Give a key without one.") from None
    except ValueError:
        raise CertificateError(f"{certificate} or {key} is no PEM file of a certificate, or of a key.") from None
    if own != found.public_key():
        raise CertificateError(f"{key} is not the key of {certificate}. Give the two that belong together.")
    if not found.not_valid_before_utc <= now < found.not_valid_after_utc:
        start, end = found.not_valid_before_utc, found.not_valid_after_utc
        raise CertificateError(f"{certificate} is good from {start:%Y-%m-%d} to {end:%Y-%m-%d}, not now. Renew it.")
    return found


def unusable(folder: Path, error: OSError) -> CertificateError:
    return CertificateError(
        f"The certificates cannot be kept in {folder}: {error.strerror or error}. "
        "Let the user that the server runs as write there, or name another folder in SEAMTAG_CERTIFICATES."
    )


def closed_to_others(path: Path, mode: int) -> None:
    found = stat.S_IMODE(path.stat().st_mode)
    if found & 0o077:
        raise CertificateError(
            f"{path} is open to others on this computer (mode {found:03o}). Run: chmod {mode:o} {path}\n"
            "If somebody may have read a key in it, do not go on using it. "
            + anew(path if path.is_dir() else path.parent)
        )


def read_pair(folder: Path, name: str) -> Pair | None:
    """A certificate and its key; None where neither is there. Raises CertificateError where they cannot be used."""
    crt, key = folder / f"{name}.crt", folder / f"{name}.key"
    if not crt.exists() and not key.exists():
        return None
    try:
        certificate = x509.load_pem_x509_certificate(crt.read_bytes())
        private = load_pem_private_key(key.read_bytes(), password=None)
    except FileNotFoundError as error:
        fault = f"{error.filename} is missing"
    except OSError as error:
        raise unusable(folder, error) from None
    except (ValueError, TypeError):
        fault = f"{crt} or {key.name} is damaged"
    else:
        if isinstance(private, ec.EllipticCurvePrivateKey) and private.public_key() == certificate.public_key():
            return Pair(certificate, private)
        fault = f"{key} is not the key of {crt.name}"
    raise CertificateError(f"{fault}. Put both back from a copy, if there is one. {anew(folder)}")


def write_pair(folder: Path, name: str, pair: Pair) -> Pair:
    """Write a key, then its certificate, each whole or not at all."""
    text = pair.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    try:
        write(folder / f"{name}.key", text)
        write(folder / f"{name}.crt", pair.certificate.public_bytes(Encoding.PEM))
    except OSError as error:
        raise unusable(folder, error) from None
    return pair


def write(file: Path, content: bytes) -> None:
    new = file.with_suffix(f"{file.suffix}.new")
    new.unlink(missing_ok=True)
    handle = os.open(new, os.O_CREAT | os.O_EXCL | os.O_WRONLY, KEY_MODE)
    with open(handle, "wb") as out:
        out.write(content)
        out.flush()
        os.fsync(out.fileno())
    os.replace(new, file)
