"""The Ed25519 keys that sign notes, and their written form: name, key id and public key, as C2SP signed-note has it."""

from base64 import b64decode, b64encode
from hashlib import sha256
from typing import NamedTuple

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from server.evidence.refusals import NoteRefused

# The signature type of signed-note that says Ed25519; a later algorithm gets another byte and another key id.
_ED25519 = b"\x01"


class NoteKey(NamedTuple):
    """A public key whose signatures are believed: whose it is, and its 32 bytes."""

    name: str
    public: bytes

    @property
    def id(self) -> bytes:
        """Give the four bytes that say which key of that name made a signature."""
        return sha256(self.name.encode() + b"\n" + _ED25519 + self.public).digest()[:4]

    def __str__(self) -> str:
        """Write the key on one line, to be handed to whoever checks."""
        return f"{self.name}+{self.id.hex()}+{b64encode(_ED25519 + self.public).decode()}"

    def has_signed(self, text: bytes, signature: bytes) -> bool:
        """Say whether this key made the signature over the text."""
        try:
            Ed25519PublicKey.from_public_bytes(self.public).verify(signature, text)
        except (InvalidSignature, ValueError):
            return False
        return True


class NoteSigner:
    """A private key that signs in a name, made from 32 secret bytes which the caller keeps."""

    def __init__(self, name: str, secret: bytes) -> None:
        if not name or "+" in name or any(letter.isspace() or not letter.isprintable() for letter in name):
            raise NoteRefused("key name", name, "a name without spaces, plus signs or control characters")
        if len(secret) != 32:
            raise NoteRefused("secret", f"{len(secret)} bytes", "32 bytes")
        self._private = Ed25519PrivateKey.from_private_bytes(secret)
        self.key = NoteKey(name, self._private.public_key().public_bytes_raw())

    def sign(self, text: bytes) -> bytes:
        """Sign the text; the same text always gets the same signature."""
        return self._private.sign(text)


def read_key(written: str) -> NoteKey:
    """Read a key from its one line; its id must fit, so a slip of the pen is noticed."""
    name, _, rest = written.strip().partition("+")
    # Base64 may itself hold a plus sign, so only the first one behind the id parts.
    _, _, encoded = rest.partition("+")
    try:
        material = b64decode(encoded, validate=True)
    except ValueError:
        material = b""
    key = NoteKey(name, material[1:])
    # Written anew it says Ed25519 and the id that fits, so any other type or id differs.
    if len(key.public) != 32 or str(key) != written.strip():
        raise NoteRefused("key", written, "name+id+base64 of an Ed25519 public key, the id fitting name and key")
    return key
