"""What one's own page shows: what one signs in by, where one is signed in, and what has to be changed first."""

from dataclasses import dataclass

from server.record.door_facts import Passkey, Session


@dataclass(frozen=True, slots=True)
class OwnPage:
    """A person's own door; `must_change` holds while a secret somebody else chose is all they came in by.

    `passkeys` is none for who may have none; `by_name` tells whether a browser would keep one for this address.
    """

    name: str
    kinds: tuple[str, ...]
    must_change: bool
    sessions: tuple[Session, ...]
    here: str
    passkeys: tuple[Passkey, ...] | None
    by_name: bool
    done: str
    problems: tuple[str, ...]
