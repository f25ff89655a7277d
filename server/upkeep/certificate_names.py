"""The names and addresses a shop's server is reached by, which its certificate has to carry."""

import re
import socket
from collections.abc import Iterable
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network, ip_address, ip_network
from typing import NamedTuple

_HOST = re.compile(r"(?=.{1,253}$)[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?(\.[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)*")
# A documentation address: asking which way it would go sends nothing, and tells our own address on that way.
_SOMEWHERE = "192.0.2.1"

Address = IPv4Address | IPv6Address
Network = IPv4Network | IPv6Network


class BadName(ValueError):
    """A name or an address no certificate can carry."""


class Names(NamedTuple):
    """Host names and addresses, each once, the one to be shown first in front."""

    hosts: tuple[str, ...]
    addresses: tuple[Address, ...]

    def __str__(self) -> str:
        """Write them in one line."""
        return ", ".join((*self.hosts, *map(str, self.addresses)))

    def with_ends_of(self, networks: "Iterable[Network]") -> "Names":
        """Give the names with the first and the last address of each network besides."""
        ends = [end for network in networks for end in (network[0], network[-1])]
        return Names(self.hosts, (*self.addresses, *ends))


def read_names(hosts: Iterable[str], addresses: Iterable[str]) -> Names:
    """Read what was typed, and add this machine's own loopback, by which it looks at itself."""
    read = [_host(each) for each in hosts]
    found = [_address(each) for each in addresses]
    return Names(_once([*read, "localhost"]), _once([*found, IPv4Address("127.0.0.1"), IPv6Address("::1")]))


def own_names() -> Names:
    """Find what this machine is called and reached by, for whoever does not name it."""
    name = socket.gethostname().lower().partition(".")[0]
    hosts = [f"{name}.local", name] if _HOST.fullmatch(name) and name != "localhost" else []
    return read_names(hosts, _own_addresses())


def read_network(text: str) -> Network:
    """Read a network such as 192.168.1.0/24, for addresses that may change."""
    try:
        return ip_network(text)
    except ValueError as slip:
        raise BadName(f"network {text!r}: {slip}; expected one such as 192.168.1.0/24") from None


def _own_addresses() -> list[str]:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect((_SOMEWHERE, 9))
        except OSError:
            return []
        return [str(probe.getsockname()[0])]


def _host(text: str) -> str:
    host = text.strip().lower().rstrip(".")
    if not _HOST.fullmatch(host) or host.replace(".", "").isdigit():
        raise BadName(f"name {text!r}: expected a host name such as weldlog.local; an address goes behind --address")
    return host


def _address(text: str) -> Address:
    try:
        return ip_address(text.strip())
    except ValueError:
        raise BadName(f"address {text!r}: expected one such as 192.168.1.20; a name goes behind --name") from None


def _once(several: list) -> tuple:  # type: ignore[type-arg]
    return tuple(dict.fromkeys(several))
