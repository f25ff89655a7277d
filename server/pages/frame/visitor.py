"""Who is looking at a page: the person signed in, in which role, on which device; or nobody yet."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Visitor:
    """The person behind a request; `person` is none before sign-in.

    Somebody signed in by a secret the owner chose is only `changing` it, and is nobody anywhere else.
    A browser with the cookie of an enrolled device that has yet to prove its key is `unproved`, and not known.
    `known_device` holds on what the owner enrolled, under the name `enrolled_as`, and on the server's own screen.
    Somebody signed in is so `since_ms`.
    """

    person: str | None = None
    name: str = ""
    role: str = ""
    roles: tuple[str, ...] = ()
    device: str = ""
    known_device: bool = False
    enrolled_as: str = ""
    changing: str | None = None
    unproved: str = ""
    since_ms: int = 0

    @property
    def signed_in(self) -> bool:
        """Tell whether somebody is signed in."""
        return self.person is not None

    def holds(self, *roles: str) -> bool:
        """Tell whether the person holds one of these roles."""
        return any(role in self.roles for role in roles)
