"""The authority is handed to devices by a code on the screen, with its fingerprint to compare, and nothing else is."""

import ssl
from hashlib import sha256
from pathlib import Path

import httpx
import pytest
from cryptography import x509

from server.upkeep.certificate import Certificate, make_certificate
from server.upkeep.certificate_names import read_names
from server.upkeep.handing_out import handing_out
from server.upkeep.install_sheet import hand_out_address, home_address, sheet


@pytest.fixture
def certificate(tmp_path: Path) -> Certificate:
    """A shop's certificate."""
    return make_certificate(tmp_path, read_names(["weldlog.local"], ["192.168.1.20"]))


def test_a_device_gets_the_authority(certificate: Certificate):
    """At the address in the code lies the authority, in the form devices offer to install."""
    with handing_out(certificate, "127.0.0.1", 0) as port:
        path = hand_out_address(certificate, port).rpartition("/")[2]
        answer = httpx.get(f"http://127.0.0.1:{port}/{path}")
        others = [httpx.get(f"http://127.0.0.1:{port}/{other}").status_code for other in ("", "server.pem", "../x")]
    assert answer.headers["content-type"] == "application/x-x509-ca-cert"
    assert x509.load_der_x509_certificate(answer.content) == certificate.authority
    assert others == [404, 404, 404]


def test_afterwards_nobody_answers(certificate: Certificate):
    """When the time is over the door is shut."""
    with handing_out(certificate, "127.0.0.1", 0) as port:
        assert httpx.get(f"http://127.0.0.1:{port}/").status_code == 404
    with pytest.raises(httpx.ConnectError):
        httpx.get(f"http://127.0.0.1:{port}/")


def test_the_sheet_says_what_to_compare(certificate: Certificate):
    """The printed sheet holds the code, the address, the whole fingerprint and the names, and needs nothing else."""
    written = sheet(certificate, 8137, 8138)
    assert "<svg" in written
    assert hand_out_address(certificate, 8138) in written
    assert hand_out_address(certificate, 8138).startswith("http://192.168.1.20:8138/")
    assert home_address(certificate, 8137) == "https://192.168.1.20:8137/"
    handed_out = ssl.PEM_cert_to_DER_cert((certificate.file.parent / "authority.crt").read_text())
    assert sha256(handed_out).digest().hex(" ").upper() in written
    assert "weldlog.local" in written
    assert "src=" not in written
