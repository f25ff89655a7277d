"""Ends sessions: the owner all of somebody's, a person one of their own; the record is told when there were any."""

from server.record.keeping_sessions import end_session, end_sessions
from server.record.reads import Reads
from server.record.written import Written
from server.work.door_told import Hand, door_line
from server.work.refusal import NotThere
from server.work.set_pin import working_here


def sign_out(reads: Reads, person: str, hand: Hand, now_ms: int) -> Written[str]:
    """End every session of somebody and answer their name; raises `NobodyOfThatName`."""
    known = working_here(reads, person)
    devices = sorted({each.device for each in reads.sessions(now_ms) if each.person == person})
    words = f"on {', '.join(devices)}"
    lines = (door_line("sessions ended", hand, now_ms, person=person, words=words),) if devices else ()
    return Written(lambda _: known.name, lines=lines, changes=(end_sessions(person=person),))


def end_own(reads: Reads, handle: str, hand: Hand, now_ms: int) -> Written[str]:
    """End one of one's own sessions, named by its token's hash, and answer its device; raises `NotThere`."""
    found = reads.session(handle)
    if found is None or found.person != hand.by:
        raise NotThere("that session has ended already, or is not yours; the list shows those that are")
    told = door_line("sessions ended", hand, now_ms, person=found.person, words=f"on {found.device}")
    return Written(lambda _: found.device, lines=(told,), changes=(end_session(handle),))
