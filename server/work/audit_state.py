"""How the sample audit stands: what was drawn, what each second look found, and how much at most slips through."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from server.facts.registers import Registers
from server.facts.second_look import SampleDraw, SecondLook
from server.occasions.clocks import Clocks
from server.occasions.days import Days
from server.record.reads import Reads
from server.statistics.slips_through import slips_through
from server.work.audit_week import week_of
from server.work.standing_passes import standing_passes

_WEEKS_OFFERED = 12


class Drawn(NamedTuple):
    """One drawn joint with the look that stands, none while it waits, and those it followed."""

    subject: str
    look: SecondLook | None
    before: tuple[SecondLook, ...]


class Tally(NamedTuple):
    """How many joints were looked at, on how many something was found, the exact upper bound of what slips through."""

    looked: int
    found: int
    at_most: float | None


class AuditedWeek(NamedTuple):
    """One draw with each of its joints and what they come to."""

    draw: SampleDraw
    joints: tuple[Drawn, ...]
    tally: Tally

    @property
    def waiting(self) -> tuple[str, ...]:
        """The joints nobody has looked at again yet."""
        return tuple(each.subject for each in self.joints if each.look is None)


def audited(registers: Registers) -> tuple[AuditedWeek, ...]:
    """Give every draw, the newest first."""
    draws = sorted(registers.sample_draws.values(), key=lambda each: each.week, reverse=True)
    return tuple(audited_week(each, registers.second_looks) for each in draws)


def audited_week(draw: SampleDraw, looks: Mapping[str, SecondLook]) -> AuditedWeek:
    """Give one draw as it stands; of several looks at one joint the last told counts."""
    of_draw = [each for each in looks.values() if each.draw == draw.id]
    joints = []
    for subject in draw.drawn:
        own = [each for each in of_draw if each.subject == subject]
        joints.append(Drawn(subject, own[-1] if own else None, tuple(own[:-1])))
    return AuditedWeek(draw, tuple(joints), tally_of(joints))


def tally_of(joints: Iterable[Drawn]) -> Tally:
    """Count what was looked at; a joint nobody could reach says nothing either way."""
    outcomes = [each.look.outcome for each in joints if each.look and each.look.outcome != "not reached"]
    found = outcomes.count("found")
    return Tally(len(outcomes), found, slips_through(found, len(outcomes)) if outcomes else None)


def weeks_to_draw(reads: Reads, registers: Registers, now_ms: int) -> tuple[str, ...]:
    """Give the newest weeks that are over, in which something was welded, and for which nothing was drawn."""
    days, clocks = Days(registers.zone), Clocks(reads.clock_pairs())
    welded = {week_of(clocks.stamp(it).at_ms, days) for it, _ in standing_passes(reads)}
    drawn = {each.week for each in registers.sample_draws.values()}
    left = sorted(each for each in welded - drawn if each < week_of(now_ms, days))
    return tuple(reversed(left[-_WEEKS_OFFERED:]))
