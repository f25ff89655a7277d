"""The welder's day of the story as deliveries: what a tablet sends, with its clocks, as canonical lines."""

from datetime import UTC, datetime, timedelta
from typing import Any

from server.evidence.canonical import canonical_line

# The service stamps arrivals by the clock of this machine, so the story's day began twelve hours ago.
DAY = (datetime.now(UTC) - timedelta(hours=12)).replace(second=0, microsecond=0)
LINES = {"torch_line": "N-T", "purge_line": "N-P"}


def moment(clock: str, day: datetime = DAY) -> str:
    """Write a time of the story, `1:30` being an hour and a half into its day, as a moment."""
    hours, minutes = map(int, clock.split(":"))
    return (day + timedelta(hours=hours, minutes=minutes)).strftime("%Y-%m-%dT%H:%M:%S.000Z")


def clock_now(minutes_later: int = 0) -> str:
    """Write the time of the story it is now, or will be so many minutes later, however long the proofs have run."""
    minutes = int((datetime.now(UTC) - DAY).total_seconds() // 60) + minutes_later
    return f"{minutes // 60}:{minutes % 60:02d}"


def value(number: str, unit: str, how: str, by: str | None = None) -> dict[str, Any]:
    """Write one measured value."""
    return {"value": number, "unit": unit, "how": how} | ({"by": by} if by else {})


def counted(amps: str, volts: str, seconds: str, oxygen: str) -> dict[str, Any]:
    """Write what the power source counted over one pass, and the oxygen read before it."""
    return {
        "mean_current": value(amps, "A", "counted", "PW"),
        "volts": value(volts, "V", "counted", "PW"),
        "arc_on": value(seconds, "s", "counted", "PW"),
        "oxygen": value(oxygen, "ppm", "read", "OX"),
    }


class Tablet:
    """A tablet that counts its entries and sends each as one canonical line."""

    def __init__(self, name: str, boot: str = "b1") -> None:
        self.name, self.boot, self.seq = name, boot, 0

    def tell(self, clock: str, kind: str, who: str = "WEL", **told: Any) -> dict[str, Any]:
        """Make the delivery of one entry that happened at a time of the day and is sent now."""
        self.seq += 1
        at = moment(clock)
        mono_ms = int((datetime.fromisoformat(at.replace("Z", "+00:00")) - DAY).total_seconds() * 1000)
        entry = {
            "id": f"{self.name}:{self.boot}:{self.seq}", "device": self.name, "boot": self.boot, "seq": self.seq,
            "mono_ms": mono_ms, "device_time": at, "happened": at, "who": who, "kind": kind, **told,
        }  # fmt: skip
        line = canonical_line(entry).decode()
        sent_at = datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%S.%f")[:23] + "Z"
        return {"id": f"{self.name}-d{self.seq}", "device": self.name, "sent_at": sent_at, "line": line}

    def on_joint(self, clock: str, kind: str, joint: str, **told: Any) -> dict[str, Any]:
        """Make the delivery of an entry about one joint of the frame."""
        return self.tell(clock, kind, frame="SW-1", joint=joint, **told)
