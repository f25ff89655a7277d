"""Hands the authority's public certificate to devices for a few minutes, over plain HTTP and nothing else with it."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import urlsplit

from cryptography.hazmat.primitives.serialization import Encoding

from server.upkeep.certificate import Certificate
from server.upkeep.install_sheet import hand_out_address

# By this type a device asks whether to install it instead of showing it.
_TYPE = "application/x-x509-ca-cert"


@contextmanager
def handing_out(certificate: Certificate, host: str, port: int) -> Iterator[int]:
    """Hand out while the block runs; give the port. A device cannot trust us yet, so the fingerprint is compared."""
    server = ThreadingHTTPServer((host, port), _handler(certificate))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield server.server_address[1]
    finally:
        server.shutdown()
        server.server_close()


def _handler(certificate: Certificate) -> type[BaseHTTPRequestHandler]:
    content = certificate.authority.public_bytes(Encoding.DER)
    path = urlsplit(hand_out_address(certificate, 0)).path

    class Handler(BaseHTTPRequestHandler):
        """Answers one address with the authority, and every other with nothing."""

        timeout = 10

        def do_GET(self) -> None:
            """Answer."""
            found = self.path == path
            self.send_response(200 if found else 404)
            self.send_header("Content-Type", _TYPE if found else "text/plain")
            self.send_header("Content-Length", str(len(content) if found else 0))
            self.end_headers()
            if found:
                self.wfile.write(content)

        def log_message(self, *_: object) -> None:
            """Say nothing: the fingerprint on the screen is to stay there."""

    return Handler
