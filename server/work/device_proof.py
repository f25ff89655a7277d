"""A tablet proves that it holds its own key: it signs a number the house has just given, and is known for a while."""

import base64
import binascii
import secrets
from threading import Lock

from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives.asymmetric.ec import ECDSA, SECP256R1, EllipticCurvePublicKey
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import load_der_public_key

from server.work.known_device import key_hash
from server.work.refusal import NotYours, Refusal

NUMBER_LASTS_MS = 120_000
PROOF_LASTS_MS = 1_800_000
SAID = "strawline device "
_HALF = 32


class NotAKey(Refusal):
    """What a tablet sent as its public key is none."""


class NotProved(NotYours):
    """A browser holds a tablet's cookie, but not its key."""


class DeviceProofs:
    """Numbers given and not signed yet, and devices that proved themselves; in memory only, and soon made again."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}
        self._proved: dict[str, tuple[str, int]] = {}
        self._turn = Lock()

    def give_number(self, now_ms: int) -> str:
        """Give a number to sign, good once and for two minutes."""
        number = secrets.token_urlsafe(32)
        with self._turn:
            self._numbers = {each: until for each, until in self._numbers.items() if until > now_ms}
            self._numbers[number] = now_ms + NUMBER_LASTS_MS
        return number

    def prove(self, device: str, public_key: str, number: str, signature: str, now_ms: int) -> str:
        """Check the signature and give what the device shows from now on, for half an hour; raises `NotProved`."""
        with self._turn:
            in_time = self._numbers.pop(number, 0) > now_ms
        if not in_time or not _signed(public_key, SAID + number, signature):
            raise NotProved(
                f"This browser has the cookie of {device} but not its key, so it is not {device}. "
                "Let the owner revoke and enrol it anew."
            )
        shown = secrets.token_urlsafe(32)
        with self._turn:
            self._proved = {each: of for each, of in self._proved.items() if of[1] > now_ms}
            self._proved[key_hash(shown)] = (device, now_ms + PROOF_LASTS_MS)
        return shown

    def holds(self, shown: str | None, device: str, now_ms: int) -> bool:
        """Tell whether what is shown says that this device proved itself a while ago."""
        with self._turn:
            proved, until_ms = self._proved.get(key_hash(shown or ""), ("", 0))
        return proved == device and until_ms > now_ms


def good_public_key(told: str) -> str:
    """Give a public key back if it is one of the kind tablets make (ECDSA on P-256, as SPKI in base64)."""
    if _key(told) is None:
        raise NotAKey(
            "This browser made no key of its own. Open the invitation by the shop's https address, and again."
        )
    return told


def _key(told: str) -> EllipticCurvePublicKey | None:
    try:
        found = load_der_public_key(base64.b64decode(told, validate=True))
    except (ValueError, binascii.Error, UnsupportedAlgorithm):
        return None
    return found if isinstance(found, EllipticCurvePublicKey) and isinstance(found.curve, SECP256R1) else None


def _signed(public_key: str, said: str, signature: str) -> bool:
    key = _key(public_key)
    try:
        raw = base64.b64decode(signature, validate=True)
        halves = [int.from_bytes(raw[at : at + _HALF], "big") for at in (0, _HALF)]
        if key is None or len(raw) != 2 * _HALF:
            return False
        key.verify(encode_dss_signature(halves[0], halves[1]), said.encode(), ECDSA(SHA256()))
    except (InvalidSignature, ValueError, binascii.Error):
        return False
    return True
