"""The sheet by which the shop's authority is installed on a tablet: a QR code, the fingerprint, and the steps."""

from pathlib import Path

import segno
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from server.upkeep.certificate import Certificate


def hand_out_address(certificate: Certificate, port: int) -> str:
    """Give where the authority is handed out, short enough to be typed."""
    return f"http://{_shown_host(certificate)}:{port}/{_short(certificate)}.crt"


def home_address(certificate: Certificate, port: int) -> str:
    """Give where devices find the shop."""
    return f"https://{_shown_host(certificate)}:{port}/"


def sheet(certificate: Certificate, port: int, hand_out_port: int) -> str:
    """Write the sheet to be printed."""
    address = hand_out_address(certificate, hand_out_port)
    loader = FileSystemLoader(Path(__file__).parent)
    template = Environment(loader=loader, autoescape=True, undefined=StrictUndefined).get_template("install_sheet.html")
    return template.render(
        names=str(certificate.names),
        qr=segno.make(address, micro=False, error="q").svg_inline(scale=4),
        address=address,
        home=home_address(certificate, port),
        fingerprint=" ".join(certificate.fingerprint.split(":")),
        until=certificate.authority.not_valid_after_utc.date().isoformat(),
    )


def _shown_host(certificate: Certificate) -> str:
    # A tablet may not know the shop's names, but an address always leads somewhere.
    outside = [each for each in certificate.names.addresses if not each.is_loopback]
    if outside:
        return f"[{outside[0]}]" if outside[0].version == 6 else str(outside[0])
    return certificate.names.hosts[0]


def _short(certificate: Certificate) -> str:
    return certificate.fingerprint.replace(":", "")[:8].lower()
