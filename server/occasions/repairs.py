"""A repair attempt: which one at its place, who had signed for it before its first arc, how long the metal rested."""

from collections.abc import Iterator

from server.facts.occasion_joint import RepairFact
from server.facts.registers import Registers
from server.facts.subject import read_joint_subject
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.lives import same_metal
from server.occasions.purging import arc_start_ms
from server.occasions.timed import Timed

_MS_PER_MIN = 60_000.0


def repair_of(log: FrameLog, attempt: Attempt, registers: Registers) -> RepairFact | None:
    """Give what is known of a repair; none of an attempt that is no repair."""
    if not attempt.repair:
        return None
    first = attempt.passes[0]
    start_ms = arc_start_ms(first)
    place = set(first.entry.quarters)
    earlier = [each for each in same_metal(log, attempt) if each.number < attempt.number]
    same_place = [each for each in earlier if each.repair and place & set(each.passes[0].entry.quarters)]
    signed = sorted(set(_signed(log.frame, attempt, registers, start_ms)))
    last = max((arc for each in earlier for arc in each.passes), key=_at_ms, default=None)
    return RepairFact(
        number=len(same_place) + 1,
        signed_roles=tuple(dict.fromkeys(role for _, role in signed)),
        signed_by=tuple(dict.fromkeys(person for person, _ in signed)),
        pause_min=(start_ms - last.at.at_ms) / _MS_PER_MIN if last else None,
        pause_error_min=_apart_min(first, last) if last else 0.0,
        last_arc_entry=last.entry.id if last else None,
    )


def _signed(frame: str, attempt: Attempt, registers: Registers, start_ms: int) -> Iterator[tuple[str, str]]:
    """A repair is signed for on what was found in the attempt before it, or on the removal it begins with."""
    for decision in registers.decisions.values():
        if decision.choice == "repair" and _about(decision.findings, frame, attempt):
            yield from ((each.person, each.role) for each in decision.signatures if each.at < start_ms)
    for removed in attempt.of("removed"):
        if removed.at.at_ms < start_ms:
            for person in removed.entry.approved_by:
                known = registers.people.get(person)
                yield from ((person, role) for role in (known.roles if known else ()))


def _about(findings: tuple[str, ...], frame: str, attempt: Attempt) -> bool:
    subjects = (read_joint_subject(key.partition("|")[0]) for key in findings)
    wanted = (frame, attempt.joint, attempt.number - 1)
    return any(each is not None and (each.frame, each.joint, each.attempt) == wanted for each in subjects)


def _apart_min(first: Timed, last: Timed) -> float:
    if first.at.boot is not None and (first.at.device, first.at.boot) == (last.at.device, last.at.boot):
        return 0.0
    return (first.at.error_ms + last.at.error_ms) / _MS_PER_MIN


def _at_ms(timed: Timed) -> int:
    return timed.at.at_ms
