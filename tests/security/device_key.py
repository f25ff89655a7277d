"""A tablet's own key, made and used as a browser makes and uses it."""

import base64

from cryptography.hazmat.primitives.asymmetric.ec import ECDSA, SECP256R1, generate_private_key
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

from server.work.device_proof import SAID


class DeviceKey:
    """A key pair on P-256; signatures are r and s side by side, as WebCrypto gives them."""

    def __init__(self) -> None:
        self._key = generate_private_key(SECP256R1())

    @property
    def public(self) -> str:
        """The public half, as it is sent."""
        told = self._key.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
        return base64.b64encode(told).decode()

    def sign(self, number: str, said: str = SAID) -> str:
        """Sign a number of the house."""
        r, s = decode_dss_signature(self._key.sign((said + number).encode(), ECDSA(SHA256())))
        return base64.b64encode(r.to_bytes(32, "big") + s.to_bytes(32, "big")).decode()
