"""A letter goes over TLS to a server whose certificate an authority vouches for, or it does not go."""

import contextlib
import importlib
import socket
import ssl
import threading
from collections.abc import Iterator
from email.message import EmailMessage
from pathlib import Path

import pytest

from server.settings import Settings, read_settings
from server.upkeep.posting import NotPosted, post

_ANSWERS = {
    b"": b"",
    b"EHLO": b"250-box\r\n250 AUTH PLAIN\r\n",
    b"AUTH": b"235 come in\r\n",
    b"QUIT": b"221 bye\r\n",
}


class SealedBox(threading.Thread):
    """A mail server that speaks from the first byte over TLS with a certificate of the shop's own authority."""

    def __init__(self, folder: Path) -> None:
        super().__init__(daemon=True)
        self.authority = folder / "authority.crt"
        self._context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        self._context.load_cert_chain(folder / "server.pem")
        self._listening = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listening.getsockname()[1]
        self.told: list[bytes] = []

    def run(self) -> None:
        """Take one sender after another; one that does not trust the certificate goes away."""
        while True:
            try:
                plain, _ = self._listening.accept()
            except OSError:
                return
            with contextlib.suppress(OSError), self._context.wrap_socket(plain, server_side=True) as sender:
                self._talk(sender)

    def close(self) -> None:
        """Take no more."""
        self._listening.close()

    def _talk(self, sender: ssl.SSLSocket) -> None:
        with sender.makefile("rwb") as talk:
            answer = b"220 box\r\n"
            while answer:
                talk.write(answer)
                talk.flush()
                line = talk.readline()
                self.told.append(line)
                answer = _ANSWERS.get(line[:4].strip().upper(), b"250 kept\r\n")
                if line[:4].upper() == b"DATA":
                    talk.write(b"354 go on\r\n")
                    talk.flush()
                    self.told.extend(iter(talk.readline, b".\r\n"))


@pytest.fixture
def box(tmp_path: Path) -> Iterator[SealedBox]:
    data = tmp_path / "data"
    command = importlib.import_module("server.commands.certificate")
    assert command.run(["--data", str(data), "--name", "mail.works.example", "--address", "127.0.0.1"]) == 0
    made = SealedBox(data / "certificate")
    made.start()
    yield made
    made.close()


def settings(folder: Path, port: int) -> Settings:
    told = {"SERVER": "127.0.0.1", "PORT": str(port), "SECURED": "tls", "PASSWORD": "a secret of the shop"}
    told |= {"USER": "desk", "FROM": "desk@works.example", "TO": "lead@works.example"}
    return read_settings(folder, {f"STRAWLINE_MAIL_{name}": value for name, value in told.items()})


def letter() -> EmailMessage:
    made = EmailMessage()
    made["Subject"] = "the morning list"
    made.set_content("nothing waits\n")
    return made


def test_a_server_nobody_vouches_for_is_told_nothing(box: SealedBox, tmp_path: Path):
    """Where no trusted authority knows the certificate, neither letter nor password leaves, and the words say why."""
    with pytest.raises(NotPosted, match="certificate verify failed"):
        post(settings(tmp_path, box.port), letter())
    assert box.told == []


def test_a_server_that_is_vouched_for_gets_the_letter(box: SealedBox, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """The same server, its authority trusted: the letter arrives."""
    monkeypatch.setenv("SSL_CERT_FILE", str(box.authority))
    post(settings(tmp_path, box.port), letter())
    assert b"Subject: the morning list\r\n" in box.told
    assert b"AUTH PLAIN AGRlc2sAYSBzZWNyZXQgb2YgdGhlIHNob3A=\r\n" in box.told
