"""Changes of devices: enrolled by the owner, and revoked by name."""

from sqlalchemy import Connection, delete, insert, update

from server.record.door_facts import Device
from server.record.tables.columns import DEVICE, DEVICE_TABLE
from server.record.written import Change


def enrol_device(device: Device) -> Change:
    """Enrol a device with a key not used before; one of the same name gives up its own."""

    def change(connection: Connection) -> None:
        connection.execute(delete(DEVICE_TABLE).where(DEVICE.id == device.id))
        connection.execute(insert(DEVICE_TABLE), device._asdict())

    return change


def revoke_device(device: str, revoked_ms: int) -> Change:
    """Revoke a device by its name; its key opens nothing any more."""
    revoked = update(DEVICE_TABLE).where(DEVICE.id == device).values(revoked_ms=revoked_ms)
    return lambda connection: connection.execute(revoked)
