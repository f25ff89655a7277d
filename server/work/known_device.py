"""Which device a request comes from: the one whose key it carries, unless the owner has revoked it."""

import hashlib
from typing import Protocol

from server.record.door_facts import Device

ELSEWHERE = "elsewhere"
"""The device of everybody on a device the shop does not know; a PIN is never checked there."""


class DeviceQuestions(Protocol):
    """What is asked of the record."""

    def device_by_key(self, key_hash: str) -> Device | None:
        """Give the device a key belongs to, revoked or not."""


def key_hash(key: str) -> str:
    """Hash a device's key for keeping."""
    return hashlib.sha256(key.encode()).hexdigest()


def known_device(reads: DeviceQuestions, key: str) -> Device | None:
    """Give the enrolled device a key opens for; none when it is unknown or revoked."""
    device = reads.device_by_key(key_hash(key))
    return device if device is not None and device.revoked_ms is None else None
