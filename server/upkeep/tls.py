"""Which versions and ciphers of TLS the service speaks: chosen here, not left to the machine's library."""

import ssl

CIPHERS = "ECDHE+AESGCM:ECDHE+CHACHA20"
"""For TLS 1.2: keys that are forgotten after each connection, and contents that cannot be altered unnoticed."""


def choose_tls(context: ssl.SSLContext) -> None:
    """Let a server's context speak TLS 1.2 with these ciphers, and 1.3, and nothing older."""
    context.minimum_version = ssl.TLSVersion.TLSv1_2
    context.set_ciphers(CIPHERS)
    context.options |= ssl.OP_CIPHER_SERVER_PREFERENCE | ssl.OP_NO_COMPRESSION
