"""From `strawline certificate` to a tablet's connection: HTTPS for which the shop's own authority vouches."""

import importlib
import socket
import ssl
import warnings
from collections.abc import Iterator
from http.client import HTTPConnection, HTTPException, HTTPSConnection

import pytest

from tests.faults.serving import Service, forging, wait_until
from tests.upkeep.shop_data import make_data

NAME = "weldlog.local"


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    """A service started on a folder for which the command made a certificate."""
    data = make_data(tmp_path_factory.mktemp("https") / "data", 1).data_folder
    command = importlib.import_module("server.commands.certificate")
    assert command.run(["--data", str(data), "--name", NAME, "--address", "127.0.0.1"]) == 0
    with forging() as forge:
        started = forge.begin(data)
        wait_until(lambda: reachable(started.port) or not started.lives(), "the service did not answer")
        assert started.lives(), started.said
        yield started


def reachable(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def trusting(service: Service) -> ssl.SSLContext:
    """A device on which the shop's authority was installed, and no other."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    context.load_verify_locations(service.data / "certificate" / "authority.crt")
    return context


def spoken(service: Service, context: ssl.SSLContext, name: str = NAME) -> tuple[str | None, str]:
    """Connect, and give the version and the cipher the two agreed on."""
    with (
        socket.create_connection(("127.0.0.1", service.port), 10) as plain,
        context.wrap_socket(plain, server_hostname=name) as secured,
    ):
        cipher = secured.cipher()
        return secured.version(), cipher[0] if cipher else ""


def only(context: ssl.SSLContext, version: ssl.TLSVersion, ciphers: str = "ALL:@SECLEVEL=0") -> ssl.SSLContext:
    """Let a device speak this version only, were it never so old."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        context.minimum_version = context.maximum_version = version
    context.set_ciphers(ciphers)
    return context


def test_a_device_with_the_authority_is_served(service: Service):
    """By its name and by its address the service answers over HTTPS, believed without any exception made."""
    for name in (NAME, "127.0.0.1"):
        assert spoken(service, trusting(service), name)[0] == "TLSv1.3"
    connection = HTTPSConnection("127.0.0.1", service.port, context=trusting(service), timeout=10)
    connection.request("GET", "/livez")
    assert connection.getresponse().read() == b'{"alive":true}'
    connection.close()


def test_without_the_authority_it_is_not_believed(service: Service):
    """Control: a device without the shop's authority refuses, and so does one asked for another name."""
    with pytest.raises(ssl.SSLCertVerificationError):
        spoken(service, ssl.create_default_context())
    with pytest.raises(ssl.SSLCertVerificationError, match="match"):
        spoken(service, trusting(service), "elsewhere.local")


def test_plain_http_gets_no_answer(service: Service):
    """Somebody who asks without TLS is answered nothing, so no PIN is ever asked for over plain HTTP."""
    connection = HTTPConnection("127.0.0.1", service.port, timeout=10)
    connection.request("GET", "/sign-in")
    with pytest.raises((HTTPException, ConnectionError)):
        connection.getresponse()
    connection.close()


def test_nothing_older_than_tls_1_2_is_spoken(service: Service):
    """TLS 1.2 is, 1.1 and 1.0 are not, however much the device would like to."""
    assert spoken(service, only(trusting(service), ssl.TLSVersion.TLSv1_2))[0] == "TLSv1.2"
    for old in (ssl.TLSVersion.TLSv1_1, ssl.TLSVersion.TLSv1):
        with pytest.raises((ssl.SSLError, ConnectionError)):
            spoken(service, only(trusting(service), old))


@pytest.mark.parametrize("cipher", ["ECDHE-ECDSA-AES128-SHA", "ECDHE-ECDSA-AES256-SHA384"])
def test_ciphers_that_are_not_sound_are_refused(service: Service, cipher: str):
    """With contents that are not sealed there is no connection, where with a sound cipher there is one."""
    sound = only(trusting(service), ssl.TLSVersion.TLSv1_2, "ECDHE-ECDSA-AES128-GCM-SHA256")
    assert spoken(service, sound) == ("TLSv1.2", "ECDHE-ECDSA-AES128-GCM-SHA256")
    with pytest.raises((ssl.SSLError, ConnectionError)):
        spoken(service, only(trusting(service), ssl.TLSVersion.TLSv1_2, cipher))
