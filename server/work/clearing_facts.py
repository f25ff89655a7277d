"""Facts at the joints that speak for some of a suspect set: inside seen silver, another instrument's reading."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from server.facts.checking import Reading
from server.facts.entry import QUARTERS
from server.facts.occasion_joint import JointOccasion, LookFact
from server.facts.occasion_pass import PassOccasion
from server.facts.suspect import SuspectSet
from server.occasions.build import Shop
from server.occasions.tables import Tables
from server.occasions.timed import Timed
from server.record.reads import Reads
from server.statistics.conformity import conform

_SILVER = 0
_OF_INSTRUMENTS = frozenset({"calibration", "cross-check"})
_MS_PER_MIN = 60_000


class Cleared(NamedTuple):
    """Joints one kind of fact speaks for, and the entries it rests on, the newest last with its moment [ms, UTC]."""

    by: str
    words: str
    lets_out: tuple[str, ...]
    rests_on: tuple[str, ...]
    at_ms: int


def clearing_facts(reads: Reads, shop: Shop, found: SuspectSet) -> list[Cleared]:
    """Give what was seen inside, and for a wrong instrument what another one read, over the joints still in."""
    occasions = _joints_of(reads, shop, found)
    ways = {"inside colour": _seen_silver, "sister instrument": _read_by_another}
    if found.kind not in _OF_INSTRUMENTS:
        del ways["sister instrument"]
    words = {
        "inside colour": "the inside was seen silver all round, as welded",
        "sister instrument": "another instrument on the same set-up read the purge inside its limit, in time",
    }
    told = []
    for by, way in ways.items():
        each_joint = {subject: tuple(way(shop.tables, found, joint)) for subject, joint in occasions.items()}
        cleared = {subject: rests for subject, rests in each_joint.items() if rests}
        if cleared:
            told.append(_told(by, words[by], cleared))
    return told


class _Joint(NamedTuple):
    occasion: JointOccasion
    readings: tuple[Timed, ...]


def _joints_of(reads: Reads, shop: Shop, found: SuspectSet) -> dict[str, _Joint]:
    wanted = {each.subject for each in found.still_in}
    frames = sorted({each.frame for each in found.still_in})
    entries = reads.frames_entries(frames)
    joints: dict[str, _Joint] = {}
    for frame in frames:
        packet = shop.tables.packet_of.get(frame)
        if packet is None:
            continue
        readings = tuple(each for each in shop.tables.read(entries[frame]) if isinstance(each.entry, Reading))
        for occasion in shop.frame(packet, entries[frame]):
            if isinstance(occasion, JointOccasion) and occasion.subject in wanted:
                joints[occasion.subject] = _Joint(occasion, readings)
    return joints


def _seen_silver(_: Tables, __: SuspectSet, joint: _Joint) -> Iterator[tuple[int, str]]:
    """Every quarter seen silver inside as welded, after the last pass, and nothing darker seen anywhere inside."""
    inside = [each for each in joint.occasion.looks if each.side == "inside" and each.grade is not None]
    silver = [each for each in inside if each.grade == _SILVER and each.as_welded and each.after_last_pass]
    seen = {quarter for each in silver for quarter in each.quarters}
    if len(silver) == len(inside) and seen == set(QUARTERS):
        yield from map(_stamped, silver)


def _read_by_another(tables: Tables, found: SuspectSet, joint: _Joint) -> Iterator[tuple[int, str]]:
    """For every pass in doubt a reading by another instrument, on its set-up, within the age a reading may have."""
    in_doubt = {name for each in found.suspects if each.subject == joint.occasion.subject for name in each.passes}
    chosen = [
        next(_sisters(tables, found, joint, each), None) for each in joint.occasion.passes if each.entry in in_doubt
    ]
    if chosen and all(chosen):
        yield from ((each.at.at_ms, each.entry.id) for each in chosen if each)


def _sisters(tables: Tables, found: SuspectSet, joint: _Joint, arc: PassOccasion) -> Iterator[Timed]:
    age, limit = arc.accept.get("reading_age"), arc.limits.get("oxygen")
    if age is None or limit is None or arc.setup is None or arc.started_ms is None:
        return
    for each in joint.readings:
        oxygen = each.entry.values.get("oxygen")
        if each.entry.setup != arc.setup or oxygen is None or oxygen.by in (None, found.thing):
            continue
        figure = tables.doubts.figure("oxygen", oxygen, each.entry.id, arc.accept)
        in_time = 0 <= arc.started_ms - each.at.at_ms <= age.value * _MS_PER_MIN
        if in_time and conform(figure.value, limit.low, limit.high, figure.u).word == "within":
            yield each


def _stamped(look: LookFact) -> tuple[int, str]:
    return look.at.at_ms, look.entry


def _told(by: str, words: str, cleared: Mapping[str, tuple[tuple[int, str], ...]]) -> Cleared:
    rests = sorted({each for found in cleared.values() for each in found})
    count = f"{words}: {len(cleared)} joint{'s' if len(cleared) != 1 else ''}"
    return Cleared(by, count, tuple(sorted(cleared)), tuple(name for _, name in rests), rests[-1][0])
