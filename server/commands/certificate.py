"""Makes the shop's own certificate for HTTPS, and shows how tablets come to trust it.

The authority can vouch for the named hosts and addresses only, so that a stolen key opens nothing else. Run again, it
renews; the service itself renews it a month before it ends. With --hand-out the authority is given to devices for ten
minutes: scan the code on the screen or on the printed sheet, and compare the fingerprint.
"""

import argparse
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from server.upkeep.certificate import Certificate
    from server.upkeep.certificate_names import Names

SHEET = "install-on-a-tablet.html"
_HAND_OUT_MINUTES = 10


def run(arguments: list[str]) -> int:
    """Make or renew, say what was made, and hand the authority out where that is asked."""
    asked = _asked(arguments)
    from server.settings import BadSetting, read_settings
    from server.upkeep.certificate import AuthorityTooNarrow, CertificateBroken, make_certificate
    from server.upkeep.certificate_names import BadName, read_network
    from server.upkeep.install_sheet import sheet

    data = asked.data.resolve()
    try:
        port = read_settings(data).port
        data.mkdir(parents=True, exist_ok=True)
        networks = [read_network(each) for each in asked.network]
        made = make_certificate(data, _names(asked, data), networks, new_authority=asked.new_authority)
    except (BadSetting, BadName, AuthorityTooNarrow, CertificateBroken, OSError) as slip:
        print(slip, file=sys.stderr)
        return 2
    (made.file.parent / SHEET).write_text(sheet(made, port, port + 1), encoding="utf-8")
    _say(made)
    if asked.hand_out:
        _hand_out(made, port + 1, asked.minutes)
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    description, _, more = (__doc__ or "").partition("\n\n")
    parser = argparse.ArgumentParser(prog="strawline certificate", description=description, epilog=more)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    parser.add_argument("--name", action="append", default=[], help="a host name of this machine: weldlog.local")
    parser.add_argument("--address", action="append", default=[], help="an address of this machine")
    parser.add_argument("--network", action="append", default=[], help="a network its address may move within")
    parser.add_argument("--new-authority", action="store_true", help="a new authority, which all devices must install")
    parser.add_argument("--hand-out", action="store_true", help="hand the authority to devices for some minutes")
    parser.add_argument("--minutes", type=float, default=_HAND_OUT_MINUTES, help="for how long to hand it out")
    return parser.parse_args(arguments)


def _names(asked: argparse.Namespace, data: Path) -> "Names":
    from server.upkeep.certificate import read_certificate
    from server.upkeep.certificate_names import own_names, read_names

    if asked.name or asked.address:
        return read_names(asked.name, asked.address)
    found = None if asked.new_authority else read_certificate(data)
    return found.names if found else own_names()


def _say(made: "Certificate") -> None:
    print(f"certificate for {made.names}\nvalid until {made.ends:%Y-%m-%d}, renewed by the service before it ends")
    print(f"authority's SHA-256 fingerprint, to be compared on each device:\n  {made.fingerprint}")
    print(f"sheet to print: {made.file.parent / SHEET}")
    print("the keys beside it are secret; the service uses them when it starts")


def _hand_out(made: "Certificate", port: int, minutes: float) -> None:
    import segno

    from server.upkeep.handing_out import handing_out
    from server.upkeep.install_sheet import hand_out_address

    segno.make(hand_out_address(made, port), micro=False).terminal(compact=True)
    print(f"{hand_out_address(made, port)}  (for {minutes:g} minutes; Ctrl-C ends it)", flush=True)
    try:
        with handing_out(made, "0.0.0.0", port):  # noqa: S104 - tablets are elsewhere; only the public part is given
            time.sleep(60 * minutes)
    except KeyboardInterrupt:
        print("ended")
