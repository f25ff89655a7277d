"""The shop's certificate is believed for the shop's names only, kept secret, and renewed before it ends."""

import socket
import ssl
import threading
from contextlib import closing
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

import pytest
from cryptography import x509

from server.upkeep.certificate import (
    AuthorityTooNarrow,
    Certificate,
    CertificateBroken,
    folder_of,
    make_certificate,
    read_certificate,
    renew_certificate,
)
from server.upkeep.certificate_names import BadName, Names, own_names, read_names, read_network
from server.upkeep.issuing import Issued, issue

NAMES = read_names(["weldlog.local"], ["192.168.1.20"])
NOW = datetime.now(UTC)


@pytest.fixture
def made(tmp_path: Path) -> Certificate:
    """A certificate and the authority behind it."""
    return make_certificate(tmp_path, NAMES)


def trusts(folder: Path, server: Path, name: str) -> str:
    """Shake hands over TLS as a device that has installed the authority; give what it says against it."""
    serving = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    serving.load_cert_chain(server)
    device = ssl.create_default_context(cafile=folder_of(folder) / "authority.crt")
    ours, theirs = socket.socketpair()

    def answer() -> None:
        try:
            with serving.wrap_socket(ours, server_side=True) as wrapped:
                wrapped.recv(1)
        except OSError:
            ours.close()

    answering = threading.Thread(target=answer)
    answering.start()
    try:
        with closing(device.wrap_socket(theirs, server_hostname=name)):
            return ""
    except ssl.SSLCertVerificationError as refused:
        return refused.verify_message
    finally:
        theirs.close()
        answering.join()


@pytest.mark.parametrize("name", ["weldlog.local", "192.168.1.20", "localhost", "127.0.0.1"])
def test_a_device_believes_the_shops_names(tmp_path: Path, made: Certificate, name: str):
    """After installing the authority a device connects by each name and address without a warning."""
    assert trusts(tmp_path, made.file, name) == ""


@pytest.mark.parametrize("name", ["bank.example", "192.168.1.21", "local"])
def test_it_does_not_believe_others(tmp_path: Path, made: Certificate, name: str):
    """Control: by any other name the same certificate is refused."""
    assert "mismatch" in trusts(tmp_path, made.file, name)


@pytest.mark.parametrize(
    "names", [Names(("bank.example",), ()), Names(("weldlog.local",), (ip_address("192.168.1.21"),))]
)
def test_a_stolen_authority_opens_nothing_else(tmp_path: Path, made: Certificate, names: Names):
    """A certificate its key signs for another name or address is refused by the device for the constraint itself."""
    from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePrivateKey
    from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat, load_pem_private_key

    stolen = (folder_of(tmp_path) / "authority.pem").read_bytes()
    key = load_pem_private_key(stolen, None)
    assert isinstance(key, EllipticCurvePrivateKey)
    forged = issue(Issued(x509.load_pem_x509_certificate(stolen), key), names, NOW)
    private = forged.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    (tmp_path / "forged.pem").write_bytes(private + forged.certificate.public_bytes(Encoding.PEM))
    said = trusts(tmp_path, tmp_path / "forged.pem", str((*names.addresses, *names.hosts)[0]))
    assert "permitted subtree violation" in said


def test_the_keys_are_secret(tmp_path: Path, made: Certificate):
    """Files with a key are for their owner only; the authority that is handed out holds no key."""
    folder = folder_of(tmp_path)
    assert folder.stat().st_mode & 0o777 == 0o700
    modes = {path.name: path.stat().st_mode & 0o777 for path in folder.iterdir()}
    assert modes == {"authority.pem": 0o600, "server.pem": 0o600, "authority.crt": 0o644}
    assert b"PRIVATE" not in (folder / "authority.crt").read_bytes()


def test_it_runs_no_longer_than_devices_allow(made: Certificate):
    """The server's certificate ends within 398 days, the authority after years."""
    assert 390 < made.days_left(NOW) < 398
    assert made.authority.not_valid_after_utc - NOW > timedelta(days=3600)


def test_it_is_renewed_a_month_before_it_ends(tmp_path: Path, made: Certificate):
    """Long before its end nothing is renewed; within the last month it is, same names, same authority."""
    assert renew_certificate(tmp_path, NOW + timedelta(days=300)) is None
    renewed = renew_certificate(tmp_path, NOW + timedelta(days=380))
    assert renewed is not None
    assert (renewed.names, renewed.fingerprint) == (made.names, made.fingerprint)
    assert renewed.ends > made.ends + timedelta(days=370)


def test_without_a_certificate_nothing_is_renewed(tmp_path: Path):
    """A shop that serves on this machine only has none, and none is made behind its back."""
    assert renew_certificate(tmp_path, NOW) is None
    assert list(tmp_path.iterdir()) == []


def test_another_name_needs_another_authority(tmp_path: Path, made: Certificate):
    """A name the authority may not vouch for is refused; asked for, another authority is made."""
    wider = read_names(["other.local"], ["192.168.1.20"])
    with pytest.raises(AuthorityTooNarrow, match=r"other\.local.*--new-authority"):
        make_certificate(tmp_path, wider)
    assert read_certificate(tmp_path) == made
    again = make_certificate(tmp_path, wider, new_authority=True)
    assert again.fingerprint != made.fingerprint
    assert trusts(tmp_path, again.file, "other.local") == ""


def test_within_a_network_the_address_may_change(tmp_path: Path):
    """Made for a network, the authority vouches for whatever address the machine gets there, and for none outside."""
    network = read_network("192.168.1.0/24")
    make_certificate(tmp_path, NAMES, [network])
    moved = make_certificate(tmp_path, read_names(["weldlog.local"], ["192.168.1.77"]), [network])
    assert trusts(tmp_path, moved.file, "192.168.1.77") == ""
    with pytest.raises(AuthorityTooNarrow, match=r"192\.168\.2\.7"):
        make_certificate(tmp_path, read_names([], ["192.168.2.7"]))
    with pytest.raises(AuthorityTooNarrow, match=r"10\.0\.0\.0"):
        make_certificate(tmp_path, NAMES, [read_network("10.0.0.0/8")])


@pytest.mark.parametrize("name", ["server.pem", "authority.crt"])
def test_a_broken_file_is_named(tmp_path: Path, made: Certificate, name: str):
    """A file that is no certificate, or one of another authority, is refused with what to do."""
    (folder_of(tmp_path) / name).write_text("nonsense")
    with pytest.raises(CertificateBroken, match="strawline certificate"):
        read_certificate(tmp_path)


def test_a_certificate_of_another_authority_is_not_used(tmp_path: Path, made: Certificate):
    """If somebody put another authority's certificate there, it is refused."""
    other = make_certificate(tmp_path / "other", NAMES)
    (folder_of(tmp_path) / "server.pem").write_bytes(other.file.read_bytes())
    with pytest.raises(CertificateBroken):
        read_certificate(tmp_path)


def test_own_names_can_be_used(tmp_path: Path):
    """What this machine is called and reached by is found and fit for a certificate."""
    names = own_names()
    assert "localhost" in names.hosts
    assert trusts(tmp_path, make_certificate(tmp_path, names).file, names.hosts[0]) == ""


@pytest.mark.parametrize(
    ("hosts", "addresses", "said"),
    [(["a b"], [], "'a b'"), (["192.168.1.20"], [], "--address"), ([], ["weldlog"], "--name"), ([""], [], "''")],
)
def test_a_bad_name_is_named(hosts: list[str], addresses: list[str], said: str):
    """A name or an address no certificate can carry is refused with what is expected."""
    with pytest.raises(BadName, match=said):
        read_names(hosts, addresses)
