"""A mail server that speaks as little of RFC 5321 as a client needs, plainly or over TLS, and keeps what it is told."""

import contextlib
import socket
import ssl
import threading
from typing import BinaryIO, cast

_ANSWERS = {b"": b"", b"EHLO": b"250-box\r\n250 AUTH PLAIN\r\n", b"AUTH": b"235 come in\r\n", b"QUIT": b"221 bye\r\n"}


class Letterbox(threading.Thread):
    """Takes one sender after another; one that does not trust its certificate goes away."""

    def __init__(self, sealed: ssl.SSLContext | None = None) -> None:
        super().__init__(daemon=True)
        self._sealed = sealed
        self._listening = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listening.getsockname()[1]
        self.told: list[bytes] = []
        self.letters: list[str] = []

    def run(self) -> None:
        """Listen until closed."""
        while True:
            try:
                plain, _ = self._listening.accept()
            except OSError:
                return
            with contextlib.suppress(OSError), self._safely(plain) as sender, sender.makefile("rwb") as talk:
                self._talk(cast(BinaryIO, talk))

    def close(self) -> None:
        """Take no more."""
        self._listening.close()

    def _safely(self, plain: socket.socket) -> socket.socket:
        return self._sealed.wrap_socket(plain, server_side=True) if self._sealed else plain

    def _talk(self, talk: BinaryIO) -> None:
        answer = b"220 box\r\n"
        while answer:
            _say(talk, answer)
            line = talk.readline()
            self.told.append(line)
            word = line[:4].strip().upper()
            answer = _ANSWERS.get(word, b"250 kept\r\n")
            if word == b"DATA":
                _say(talk, b"354 go on\r\n")
                self.letters.append(b"".join(iter(talk.readline, b".\r\n")).decode())


def _say(talk: BinaryIO, words: bytes) -> None:
    talk.write(words)
    talk.flush()
