"""The names and addresses that this computer has in its own network."""

import re
import socket
from dataclasses import dataclass
from ipaddress import IPv4Address, IPv6Address, ip_address

import ifaddr

Address = IPv4Address | IPv6Address

LABEL = re.compile(r"(?!\d+$)[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?")
"""One label of a name that a certificate can hold; an all-digit one would be read as an address."""
LOOPBACK = (ip_address("127.0.0.1"), ip_address("::1"))
NOWHERE = "192.0.2.1"
"""An address of nobody (RFC 5737). Choosing a way to it sends nothing, and tells the address that faces the network."""


@dataclass(frozen=True)
class Machine:
    """names: the computer's own first, 'localhost' last. addresses: that which faces the network first, loopback last.

    Link-local addresses of IPv6 are left out: no browser opens them.
    """

    names: tuple[str, ...]
    addresses: tuple[Address, ...]

    @property
    def outward(self) -> tuple[Address, ...]:
        """The addresses that others can reach."""
        return tuple(one for one in self.addresses if not one.is_loopback)


def this_machine() -> Machine:
    return Machine(names_of(socket.gethostname()), addresses())


def names_of(hostname: str) -> tuple[str, ...]:
    """What a computer with this host name answers to: 'pc.shop.lan' also to 'pc' and 'pc.local'."""
    whole = hostname.lower().rstrip(".")
    first = whole.split(".")[0]
    given = [whole, first, f"{first}.local"] if first != "localhost" else []
    fit = [name for name in given if all(LABEL.fullmatch(label) for label in name.split("."))]
    return (*dict.fromkeys(fit), "localhost")


def addresses() -> tuple[Address, ...]:
    found: set[Address] = set()
    for adapter in ifaddr.get_adapters():
        for one in adapter.ips:
            address = ip_address(one.ip if isinstance(one.ip, str) else one.ip[0])
            if not address.is_loopback and not (address.version == 6 and address.is_link_local):
                found.add(address)
    first = facing()
    ordered = sorted(found, key=lambda one: (one != first, one.version, int(one)))
    return (*ordered, *LOOPBACK)


def facing() -> Address | None:
    """The address by which this computer speaks to others; None without a network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as one:
        try:
            one.connect((NOWHERE, 9))
        except OSError:
            return None
        return ip_address(one.getsockname()[0])


def in_url(host: str | Address) -> str:
    """The host as it stands in a URL: an IPv6 address in brackets."""
    text = str(host)
    return f"[{text}]" if ":" in text else text


def url_of(scheme: str, host: str, port: int) -> str:
    """host: as it stands in a URL."""
    usual = {"http": 80, "https": 443}[scheme]
    return f"{scheme}://{host}" if port == usual else f"{scheme}://{host}:{port}"
