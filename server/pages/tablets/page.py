"""What the page of tablets shows, and what a tablet sees that is being enrolled."""

from dataclasses import dataclass

from server.pages.frame.door_history import DoorHistory
from server.record.door_facts import Device
from server.work.enrolling import Invited


@dataclass(frozen=True, slots=True)
class TabletHeard:
    """One enrolled tablet, and when the record last got something from it."""

    device: Device
    heard_ms: int | None


@dataclass(frozen=True, slots=True)
class InvitationShown:
    """An invitation as the owner shows it: where it leads, as a picture and as text; whether a tablet can get there."""

    device: str
    address: str
    picture: str
    reachable: bool


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed and chosen in a form that was refused, which stands there again, but for the PIN."""

    device: str = ""
    title: str = ""
    bench: str = ""
    gone: str = ""
    entries: str = ""


@dataclass(frozen=True, slots=True)
class TabletsPage:
    """The tablets, names the registers know without a key, and an invitation just made."""

    tablets: tuple[TabletHeard, ...]
    unenrolled: tuple[str, ...]
    benches: tuple[str, ...]
    invitation: InvitationShown | None
    minutes: int
    history: DoorHistory
    done: str
    problems: tuple[str, ...]
    typed: Typed


@dataclass(frozen=True, slots=True)
class EnrolPage:
    """The invitation as the tablet sees it, or why it is none."""

    token: str
    invited: Invited | None
    problems: tuple[str, ...]
