"""What the sign-in screen shows: the names, the devices, and what went wrong the last time."""

from dataclasses import dataclass

from server.facts.people import Person


@dataclass(frozen=True, slots=True)
class SignInPage:
    """The people who can sign in, the devices this may be, and a problem to show."""

    people: tuple[Person, ...]
    devices: tuple[str, ...]
    chosen: str
    device: str
    onward: str
    problem: str
