"""Work of a fortnight ago: the story's tablet with its day moved back, so that its week is over."""

import json
from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from server.evidence.canonical import canonical_line
from server.record.book_of_lines import Record
from tests.story.log import DAY, LINES, Tablet, value
from tests.work.small_shop import a_pass, send

_BACK = timedelta(days=14)
OVER = DAY - _BACK


class EarlierTablet(Tablet):
    """A tablet whose entries happened a fortnight before those of the story."""

    def tell(self, clock: str, kind: str, who: str = "WEL", **told: Any) -> dict[str, Any]:
        """Make the delivery of one entry, moved back."""
        made = super().tell(clock, kind, who, **told)
        entry = json.loads(made["line"])
        back = {name: _moved(entry[name]) for name in ("device_time", "happened")}
        return made | {"line": canonical_line(entry | back).decode()}


def weld_clean(record: Record, joints: Sequence[str] = "ABC") -> None:
    """Weld joints a fortnight ago with everything in order, so that nothing is found on them."""
    slate = EarlierTablet("SLATE")
    flow = {"pre_purge_flow": value("9", "L/min", "read", "FL")}
    told = [slate.tell("0:00", "cylinder", line=line, on=f"{line}-1") for line in LINES.values()]
    told += [slate.tell("0:01", "bead", line=line, result="good") for line in LINES.values()]
    told.append(slate.tell("0:10", "purge", frame="SW-1", setup="one", line="N-P", act="on", values=flow))
    for hour, joint in enumerate(joints, 1):
        told += [
            a_pass(slate, f"{hour}:10", joint),
            a_pass(slate, f"{hour}:20", joint, run="fill", sleeve="S-1"),
            *(slate.on_joint(f"{hour}:30", "look", joint, side=side, grade=0) for side in ("outside", "inside")),
        ]
    send(record, *told)


def _moved(moment: str) -> str:
    day, _, clock = moment.partition("T")
    return f"{(DAY.fromisoformat(day) - _BACK).date().isoformat()}T{clock}"
