"""Questions to a told history: its entries by kind, by joint, and the moments in shop time."""

import json
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any

from demo_data.generator.days import at, clock_of
from demo_data.generator.devices import Sent
from demo_data.generator.folder import devices_of
from demo_data.generator.plan import Plan
from demo_data.generator.shop import Shop
from demo_data.generator.story import Happening, Story


@dataclass
class Told:
    """A history: the shop laid out, what happened, and every sending."""

    shop: Shop
    story: Story
    sent: list[Sent]

    @cached_property
    def entries(self) -> list[dict[str, Any]]:
        """Every entry once, as it was first sent."""
        found: dict[str, dict[str, Any]] = {}
        for sending in self.sent:
            entry = json.loads(sending.line)
            found.setdefault(entry["id"], entry)
        return list(found.values())

    @cached_property
    def by_kind(self) -> dict[str, list[Happening]]:
        """What happened, by kind."""
        found: dict[str, list[Happening]] = defaultdict(list)
        for happening in self.story.happenings:
            found[happening.fields["kind"]].append(happening)
        return found

    def of(self, frame: str, joint: str, kind: str, attempt: int = 1) -> list[Happening]:
        """What happened at one joint in one attempt, in its order."""
        found = [h for h in self.by_kind[kind] if h.fields.get("frame") == frame and h.fields.get("joint") == joint]
        return sorted((h for h in found if h.fields.get("attempt", 1) == attempt), key=lambda h: h.at)

    def oxygen(self, frame: str, joint: str, attempt: int = 1) -> list[str]:
        """What the analyser showed at the runs of a joint."""
        return [h.fields["values"]["oxygen"]["value"] for h in self.of(frame, joint, "pass", attempt)]


def sent_of(plan: Plan, story: Story) -> list[Sent]:
    """Send what happened."""
    return devices_of(plan, story.seed).send(story.happenings)


def clocks(happenings: Iterable[Happening]) -> list[str]:
    """Give the shop time of each, to the minute."""
    return [clock_of(h.at).strftime("%H:%M") for h in happenings]


def moment(day: str, clock: str) -> int:
    """Give a moment of the shop's clock."""
    return at(date.fromisoformat(day), clock)
