"""Who is looking at a page: the person signed in, in which role, on which device; or nobody yet."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Visitor:
    """The person behind a request; `person` is none before sign-in."""

    person: str | None = None
    name: str = ""
    role: str = ""
    roles: tuple[str, ...] = ()
    device: str = ""

    @property
    def signed_in(self) -> bool:
        """Tell whether somebody is signed in."""
        return self.person is not None

    def holds(self, *roles: str) -> bool:
        """Tell whether the person holds one of these roles."""
        return any(role in self.roles for role in roles)
