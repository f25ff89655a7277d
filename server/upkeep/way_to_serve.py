"""How a service is reached: by HTTPS where it has a certificate, by plain HTTP on this machine only."""

import errno
import socket
from datetime import UTC, datetime
from ipaddress import ip_address
from typing import NamedTuple

from server.settings import Settings
from server.upkeep.certificate import Certificate, read_certificate, renew_certificate


class NotServedOpenly(Exception):
    """The service would be reached over the network without a certificate."""


class PortTaken(Exception):
    """Something else answers where the service should, or the machine does not let it answer there."""


class Way(NamedTuple):
    """The address to tell, the certificate to answer with, and a word on why it is so."""

    address: str
    certificate: Certificate | None
    why: str


def way_to_serve(settings: Settings, now: datetime | None = None) -> Way:
    """Choose, renewing a certificate that soon ends; refuse plain HTTP for any host but this machine itself."""
    now = now or datetime.now(UTC)
    certificate = renew_certificate(settings.data_folder, now) or read_certificate(settings.data_folder)
    place = f"{_shown(settings.host)}:{settings.port}"
    if certificate:
        why = f"with the shop's certificate for {certificate.names}, {certificate.days_left(now):.0f} days left"
        return Way(f"https://{place}", certificate, why)
    if not is_this_machine(settings.host):
        raise NotServedOpenly(
            f"host is {settings.host!r}, which other machines reach, and there is no certificate: by plain HTTP every "
            "PIN could be read on the way, and a browser keeps nothing offline. Run `strawline certificate --data "
            f"{settings.data_folder}` first, or set host to 127.0.0.1 to serve this machine only"
        )
    return Way(f"http://{place}", None, "plain HTTP, for this machine only: what stays inside it cannot be overheard")


def surely_free(host: str, port: int) -> None:
    """Raise `PortTaken` where nothing can be served there, before anything is made or promised."""
    try:
        family, _, _, _, place = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        with socket.socket(family, socket.SOCK_STREAM) as probe:
            # As the service itself does, so that one just stopped is not in the way.
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind(place)
    except OSError as error:
        why = "another program answers there already" if error.errno == errno.EADDRINUSE else error.strerror
        raise PortTaken(
            f"port {port} of {host}: {why}; stop that program, or choose another port: put STRAWLINE_PORT={port + 1} "
            f"before the command, or write `port = {port + 1}` into strawline.toml in the data folder"
        ) from error


def is_this_machine(host: str) -> bool:
    """Say whether a host leads nowhere but to this machine."""
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"


def _shown(host: str) -> str:
    return f"[{host}]" if ":" in host else host
