"""Changes one's own PIN or pass phrase: the present one proves who it is, and every other session of theirs ends."""

from dataclasses import dataclass

from server.record.book_of_lines import Record
from server.record.keeping_sessions import open_session
from server.record.reads import Reads
from server.record.written import Written
from server.work.door_told import Hand, door_line
from server.work.proving import SecretTooWeak
from server.work.set_pin import ACTS, keep_new, new_credential
from server.work.sign_in import Admitted, Asked, Entering, Proven, entered
from server.work.signature import proved


@dataclass(frozen=True, slots=True)
class Changing:
    """Somebody changing their own secret: who, in which role, on which device, which kind, the present and the new."""

    person: str
    role: str
    device: str
    kind: str
    present: str
    new: str


def change_own(record: Record, changing: Changing, now_ms: int, hours: int) -> Admitted:
    """Change it and open a new session in place of all others; raises `WrongSecret` or `SecretTooWeak`."""
    person = proved(record, Asked(changing.person, changing.present, changing.device), now_ms).person
    if changing.new == changing.present:
        raise SecretTooWeak("The new one is the one you have; choose another")
    kept = new_credential(record, person, changing.kind, changing.new, now_ms)
    admitted, _ = entered(Entering(Proven(person), changing.device, changing.role), now_ms, hours)
    told = door_line(
        ACTS[changing.kind], Hand(person.id, changing.role, changing.device), now_ms, person=changing.person
    )

    def verb(reads: Reads) -> Written[Admitted]:
        changes = (*keep_new(reads, kept), open_session(admitted.session))
        return Written(lambda _: admitted, lines=(told,), changes=changes)

    return record.write(verb).result()
