"""Plain HTTP is for this machine only; a certificate, once there, is what the service answers with."""

import socket
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from server.settings import Settings
from server.upkeep.certificate import make_certificate
from server.upkeep.certificate_names import read_names
from server.upkeep.one_server import AlreadyServed, the_one_service
from server.upkeep.way_to_serve import NotServedOpenly, PortTaken, surely_free, way_to_serve

NAMES = read_names(["weldlog.local"], [])


@pytest.mark.parametrize("host", ["127.0.0.1", "127.0.0.7", "localhost", "::1"])
def test_this_machine_needs_no_certificate(settings: Settings, host: str):
    """On a loopback address plain HTTP is served, and it says why that is enough."""
    way = way_to_serve(replace(settings, host=host))
    assert way.address.startswith("http://")
    assert "this machine only" in way.why


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.20", "weldlog.local", "::", ""])
def test_other_machines_do(settings: Settings, host: str):
    """Any other host without a certificate is refused, with what would be read on the way and what to do."""
    with pytest.raises(NotServedOpenly, match=r"every PIN could be read .*strawline certificate"):
        way_to_serve(replace(settings, host=host))


def test_a_port_that_is_taken_is_named_with_the_way_out():
    """Where another program answers, nothing is promised: the port, why, and how to choose another; a free one is."""
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(PortTaken, match=rf"port {port} of 127.0.0.1: another program .* STRAWLINE_PORT={port + 1}"):
            surely_free("127.0.0.1", port)
    surely_free("127.0.0.1", port)


@pytest.mark.parametrize("host", ["0.0.0.0", "127.0.0.1", "::"])
def test_a_certificate_is_used(settings: Settings, host: str):
    """Once it is there, it is HTTPS on whatever host."""
    make_certificate(settings.data_folder, NAMES)
    way = way_to_serve(replace(settings, host=host))
    assert way.address == f"https://{'[::]' if host == '::' else host}:8137"
    assert way.certificate is not None


def test_one_that_ended_is_renewed_first(settings: Settings):
    """After a long pause the service starts with a new certificate for the same names."""
    made = make_certificate(settings.data_folder, NAMES)
    later = datetime.now(UTC) + timedelta(days=500)
    way = way_to_serve(settings, later)
    assert way.certificate is not None
    assert (way.certificate.names, way.certificate.fingerprint) == (made.names, made.fingerprint)
    assert way.certificate.days_left(later) > 390


def test_only_one_service_holds_a_folder(settings: Settings):
    """A second one is told so; when the first has ended, the folder is free."""

    def hold() -> str:
        with the_one_service(settings.data_folder):
            return "held"

    with the_one_service(settings.data_folder), pytest.raises(AlreadyServed, match="stop that service first"):
        hold()
    assert hold() == "held"
