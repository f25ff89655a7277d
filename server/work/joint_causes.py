"""Puts every cause to one joint, and finds the joints a laboratory should compare it with."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from server.facts.judged import Word
from server.facts.occasion_frame import FrameOccasion
from server.facts.occasion_joint import JointOccasion
from server.facts.recorded import Recorded
from server.facts.suspect import SuspectSet
from server.judgement.book import RULES
from server.judgement.cause_table import CauseWord, Witness, cause_table
from server.occasions.build import Shop
from server.occasions.known import Known
from server.occasions.sleeves import sleeve_occasions
from server.occasions.suspects import suspect_set
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.record.reads import Reads
from server.work.cause_witnesses import witnesses
from server.work.known_shop import shop_now
from server.work.refusal import NotThere
from server.work.shares_cause import SharesCause, shares_cause

_NOT_OF_THE_WELD = {"held-by-failed-check", "weld-before-bead", "covered-while-waiting"}
_LEVELS = {"pass", "tack", "joint"}
_OF_FRAME = {"cold-set", "piece-heat"}
_FROM_HOLDS = {
    "C1": ["torch bead failed"],
    "C2": ["purge bead failed"],
    "C5": ["meter failed"],
    "C14": ["coupon failed"],
}
_MOST_CONTROLS = 3
_A_WEEK_MS = 7 * 86_400_000


class Control(NamedTuple):
    """A joint to compare with: what differs, what is the same, and the pass it rests on."""

    subject: str
    differs: str
    same: str
    entry: str


@dataclass(frozen=True, slots=True)
class JointCauses:
    """The words on every cause for one joint in one attempt, the joints to compare it with, those that share one."""

    frame: str
    joint: str
    attempt: int
    words: tuple[CauseWord, ...]
    controls: tuple[Control, ...]
    used: tuple[tuple[str, str], ...]
    sharing: tuple[SharesCause, ...]
    known_at: int


def joint_causes(reads: Reads, frame: str, joint: str) -> JointCauses:
    """Answer for the last attempt at a joint; raises `NotThere` for a joint without a pass."""
    position = reads.last_position()
    return _causes(shop_now(reads), frame, joint, reads.frame_entries(frame, position), position)


def causes_from(known: Known, frame: str, joint: str, entries: Sequence[Recorded], position: int) -> JointCauses:
    """Answer from what is known, so that the same can be asked of a copy that lacks an entry."""
    return _causes(Shop(known), frame, joint, entries, position)


def _causes(shop: Shop, frame: str, joint: str, entries: Sequence[Recorded], position: int) -> JointCauses:
    packet = shop.tables.registers.packets.get(frame)
    if packet is None:
        raise NotThere(f"{frame!r} is no serial the record knows")
    occasions = shop.frame(packet, entries)
    attempts = [each for each in occasions if isinstance(each, JointOccasion) and each.joint.id == joint]
    if not attempts:
        raise NotThere(f"{joint!r} of {frame} has no pass in the record, so there is nothing to ask")
    last = max(attempts, key=lambda each: each.attempt)
    whole = next((each for each in occasions if isinstance(each, FrameOccasion)), None)
    filled_from = {each.rod.sleeve for each in last.passes if each.rod}
    told = list(witnesses(shop.tables, last, whole, list(sleeve_occasions(shop.tables, filled_from))))
    words = tuple(cause_table(told, watched()))
    sets = list(_near_sets(shop, last))
    controls = _controls(shop.tables, last, told, sets)
    sharing = shares_cause(shop.tables, sets, last)
    return JointCauses(frame, joint, last.attempt, words, controls, tuple(_used(last)), sharing, position)


def _near_sets(shop: Shop, joint: JointOccasion) -> Iterator[SuspectSet]:
    """The sets that hold the joint, and those that may hold one it could be compared with."""
    holding = {hold.check for hold in joint.holds}
    ended = [each.ended.at_ms for each in joint.passes]
    for failed in shop.tables.every_failed():
        since_ms = failed.since_ms if failed.since_ms is not None else 0
        near = bool(ended) and since_ms <= max(ended) + _A_WEEK_MS and min(ended) - _A_WEEK_MS <= failed.until_ms
        if near or failed.check in holding:
            yield suspect_set(shop.tables, failed)


def _used(joint: JointOccasion) -> Iterable[tuple[str, str]]:
    """What the passes used, each as the kind and the name one asks by for what else used it."""
    found: dict[tuple[str, str], None] = {}
    for each in joint.passes:
        oxygen = each.figures.get("oxygen")
        asked = (
            ("cylinder", each.purge.cylinder if each.purge else None),
            ("cylinder", each.torch.cylinder if each.torch else None),
            ("fill lot", each.purge.fill_lot if each.purge else None),
            ("sleeve", each.rod.sleeve if each.rod and not each.no_filler else None),
            ("filler lot", each.rod.lot if each.rod else None),
            ("instrument", oxygen.by if oxygen else None),
            ("welder", each.welder),
            ("revision", each.in_force.called if each.in_force else None),
        )
        found |= dict.fromkeys((kind, thing) for kind, thing in asked if thing)
    return found


def watched() -> dict[str, list[str]]:
    """Give, by cause, the questions about the weld itself whose failure speaks for that cause."""
    found = {cause: list(questions) for cause, questions in _FROM_HOLDS.items()}
    for rule in RULES:
        if (rule.level in _LEVELS and rule.id not in _NOT_OF_THE_WELD) or rule.id in _OF_FRAME:
            for cause in rule.causes:
                found.setdefault(cause, []).append(rule.id)
    return found


def _controls(
    tables: Tables, joint: JointOccasion, told: list[Witness], sets: Iterable[SuspectSet]
) -> tuple[Control, ...]:
    """Joints of the same frame, else of the same design and week, that differ in cylinder, sleeve or welder."""
    own = [use for use in tables.uses.by_frame.get(joint.frame, ()) if use.subject == joint.subject]
    if not own:
        return ()
    last = own[-1]
    bad_gas = any(each.question == "purge bead failed" and each.word is Word.OUTSIDE for each in told)
    near = tables.uses.between(last.at.at_ms - _A_WEEK_MS, last.at.at_ms + _A_WEEK_MS)
    held = {each.subject for found in sets for each in found.still_in} | {joint.subject}
    others = {use.subject: use for use in near if use.subject not in held and _comparable(tables, use, last)}
    ranked = sorted(
        ((_rank(tables, each, last, bad_gas), each) for each in others.values() if _differs(tables, each, last)),
        key=lambda pair: (pair[0], pair[1].subject),
    )
    return tuple(_control(tables, each, last) for _, each in ranked[:_MOST_CONTROLS])


def _comparable(tables: Tables, use: Use, last: Use) -> bool:
    joint, own = tables.joint_of(use.frame, use.joint), tables.joint_of(last.frame, last.joint)
    same_design = tables.drawing_of(use.frame) is tables.drawing_of(last.frame)
    return bool(joint and own and joint.structural == own.structural and same_design)


def _cylinder(tables: Tables, use: Use) -> str | None:
    on = tables.gas.at(use.purge_line, use.at.at_ms)
    return on.cylinder if on else None


def _differs(tables: Tables, use: Use, last: Use) -> list[str]:
    found = []
    if _cylinder(tables, use) != _cylinder(tables, last):
        found.append(f"purge cylinder {_cylinder(tables, use) or 'not recorded'}")
    if use.sleeve and use.sleeve != last.sleeve:
        found.append(f"sleeve {use.sleeve}")
    if use.welder != last.welder:
        found.append(f"welder {use.welder}")
    return found


def _rank(tables: Tables, use: Use, last: Use, bad_gas: bool) -> tuple[bool, bool, bool, bool, int]:
    other_gas = _cylinder(tables, use) != _cylinder(tables, last)
    apart = abs(use.at.at_ms - last.at.at_ms)
    return (bad_gas and not other_gas, use.frame != last.frame, use.day != last.day, use.welder != last.welder, apart)


def _control(tables: Tables, use: Use, last: Use) -> Control:
    same = ["frame" if use.frame == last.frame else "design"]
    same += ["day"] * (use.day == last.day) + ["welder"] * (use.welder == last.welder)
    return Control(use.subject, ", ".join(_differs(tables, use, last)), ", ".join(same), use.entry)
