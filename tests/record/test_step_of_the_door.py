"""A record made before the door kept passkeys and given secrets is carried over, with every secret as it was."""

from alembic import command
from alembic.config import Config

from server.record import schema
from server.record.asking import Remembered
from server.record.engines import migrating_engine
from server.record.reads import Reads
from server.record.schema import bring_up_to_date


def at_the_first_step(url: str) -> None:
    """Make an empty record as the first program made it."""
    engine = migrating_engine(url)
    config = Config()
    config.set_main_option("script_location", str(schema._STEPS))
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "2025_01_first")
        connection.exec_driver_sql("INSERT INTO credential VALUES ('P1', 'pin', 'a hash', 7)")
        connection.exec_driver_sql("INSERT INTO session VALUES ('t', 'P1', 'welder', 'TAB-1', 1, 2, 3)")
        connection.exec_driver_sql("INSERT INTO device VALUES ('TAB-1', 'first bench', NULL, 'k', 5, NULL)")
    engine.dispose()


def test_what_was_kept_is_kept(url: str):
    """On both engines a PIN, a session and a tablet of before are there, chosen by their person and without a key."""
    at_the_first_step(url)
    bring_up_to_date(url)
    engine = migrating_engine(url)
    with engine.connect() as connection:
        reads = Reads(connection, Remembered())
        pin, session, [device] = reads.credentials("P1")["pin"], reads.session("t"), reads.devices()
        assert (pin.secret_hash, pin.given) == ("a hash", False)
        assert session is not None
        assert (session.ends_ms, session.must_change) == (3, False)
        assert (device.id, device.public_key, reads.passkeys()) == ("TAB-1", None, [])
    engine.dispose()
