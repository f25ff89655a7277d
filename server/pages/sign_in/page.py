"""What the sign-in screen shows: the names, the devices, and what went wrong the last time."""

from dataclasses import dataclass

from server.facts.people import Person


@dataclass(frozen=True, slots=True)
class SignInPage:
    """The people who can sign in here, the devices this may be, and a problem to show.

    `devices` is empty where nothing is to be chosen: on an enrolled device, and on one the shop does not know.
    """

    people: tuple[Person, ...]
    devices: tuple[str, ...]
    chosen: str
    device: str
    onward: str
    problem: str
    known_device: bool
    passkeys: bool
    unproved: str
