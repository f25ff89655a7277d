"""How a service is reached: by HTTPS where it has a certificate, by plain HTTP on this machine only."""

from datetime import UTC, datetime
from ipaddress import ip_address
from typing import NamedTuple

from server.settings import Settings
from server.upkeep.certificate import Certificate, read_certificate, renew_certificate


class NotServedOpenly(Exception):
    """The service would be reached over the network without a certificate."""


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


def is_this_machine(host: str) -> bool:
    """Say whether a host leads nowhere but to this machine."""
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"


def _shown(host: str) -> str:
    return f"[{host}]" if ":" in host else host
