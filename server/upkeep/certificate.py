"""The certificate in the data folder: made once, renewed before it ends, and looked at by whoever serves with it."""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NamedTuple

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePrivateKey
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat, load_pem_private_key

from server.upkeep.certificate_names import Names, Network
from server.upkeep.issuing import Issued, beyond, issue, make_authority, names_in
from server.upkeep.secret_files import make_secret_folder, write_whole

RENEW_DAYS = 30
_SERVER, _AUTHORITY, _HANDED_OUT = "server.pem", "authority.pem", "authority.crt"


class AuthorityTooNarrow(Exception):
    """A name was asked for that the shop's authority may not vouch for."""


class CertificateBroken(Exception):
    """What lies in the certificate folder cannot be used."""


class Certificate(NamedTuple):
    """The shop's certificate as it is used: its file with the key, names, until when, and who vouches for it."""

    file: Path
    names: Names
    ends: datetime
    authority: x509.Certificate

    @property
    def fingerprint(self) -> str:
        """The authority's SHA-256, as devices show it."""
        return self.authority.fingerprint(hashes.SHA256()).hex(":").upper()

    def days_left(self, now: datetime) -> float:
        """Give how many days it still runs."""
        return (self.ends - now) / timedelta(days=1)


def folder_of(data_folder: Path) -> Path:
    """Give where the certificate lies."""
    return data_folder / "certificate"


def read_certificate(data_folder: Path) -> Certificate | None:
    """Give the certificate of a data folder; none when none was made."""
    folder = folder_of(data_folder)
    file = folder / _SERVER
    if not file.exists():
        return None
    try:
        server = x509.load_pem_x509_certificate(file.read_bytes())
        authority = x509.load_pem_x509_certificate((folder / _HANDED_OUT).read_bytes())
        server.verify_directly_issued_by(authority)
        names = names_in(server)
    except (ValueError, TypeError, OSError, InvalidSignature, x509.ExtensionNotFound) as slip:
        said = str(slip) or "the shop's authority does not vouch for this certificate"
        raise CertificateBroken(f"{folder}: {said}; run `strawline certificate` again") from slip
    return Certificate(file, names, server.not_valid_after_utc, authority)


def make_certificate(
    data_folder: Path,
    names: Names,
    networks: Iterable[Network] = (),
    *,
    new_authority: bool = False,
    now: datetime | None = None,
) -> Certificate:
    """Make a server certificate for these names, and the authority behind it where there is none yet."""
    now = now or datetime.now(UTC)
    folder = folder_of(data_folder)
    make_secret_folder(folder)
    networks = tuple(networks)
    authority = None if new_authority else _read_authority(folder)
    if authority is None:
        authority = make_authority(names, networks, now)
        _write(folder / _AUTHORITY, authority)
    elif outside := beyond(authority.certificate, names.with_ends_of(networks)):
        raise AuthorityTooNarrow(
            f"{', '.join(outside)}: the shop's authority may not vouch for that; make another one with "
            "--new-authority, which every device then has to install"
        )
    write_whole(folder / _HANDED_OUT, authority.certificate.public_bytes(Encoding.PEM))
    _write(folder / _SERVER, issue(authority, names, now))
    return _surely(data_folder)


def renew_certificate(data_folder: Path, now: datetime) -> Certificate | None:
    """Renew the certificate for the same names when it soon ends; none when there is nothing to renew."""
    found = read_certificate(data_folder)
    if found is None or found.days_left(now) > RENEW_DAYS:
        return None
    return make_certificate(data_folder, found.names, now=now)


def _surely(data_folder: Path) -> Certificate:
    found = read_certificate(data_folder)
    if found is None:
        raise CertificateBroken(f"{folder_of(data_folder)}: the certificate just made is gone")
    return found


def _read_authority(folder: Path) -> Issued | None:
    file = folder / _AUTHORITY
    if not file.exists():
        return None
    try:
        key = load_pem_private_key(file.read_bytes(), None)
        certificate = x509.load_pem_x509_certificate(file.read_bytes())
    except ValueError as slip:
        raise CertificateBroken(f"{file}: {slip}; make a new authority with --new-authority") from slip
    if not isinstance(key, EllipticCurvePrivateKey):
        raise CertificateBroken(f"{file}: not a key this program made; make a new authority with --new-authority")
    return Issued(certificate, key)


def _write(file: Path, issued: Issued) -> None:
    # Key and certificate in one file, so that no crash can leave one without the other.
    key = issued.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    write_whole(file, key + issued.certificate.public_bytes(Encoding.PEM), secret=True)
