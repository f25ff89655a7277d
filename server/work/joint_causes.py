"""Puts every cause to one joint, and finds the joints a laboratory should compare it with."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from server.facts.judged import Word
from server.facts.occasion_frame import FrameOccasion
from server.facts.occasion_joint import JointOccasion
from server.facts.recorded import Recorded
from server.judgement.book import RULES
from server.judgement.cause_table import CauseWord, Witness, cause_table
from server.occasions.build import Shop
from server.occasions.known import Known
from server.occasions.sleeves import sleeve_occasions
from server.occasions.tables import Tables
from server.record.reads import Reads
from server.work.analysis_beside import with_analysis
from server.work.cause_witnesses import witnesses
from server.work.controls import Control, nearest_controls
from server.work.hardness_beside import with_hardness
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
        thin = ": it was built before the record began" if packet.before_the_record else ""
        raise NotThere(f"the record holds no pass at {joint!r} of {frame}{thin}, so it is silent on every cause")
    last = max(attempts, key=lambda each: each.attempt)
    whole = next((each for each in occasions if isinstance(each, FrameOccasion)), None)
    filled_from = {each.rod.sleeve for each in last.passes if each.rod}
    told = list(witnesses(shop.tables, last, whole, list(sleeve_occasions(shop.tables, filled_from))))
    words = with_hardness(with_analysis(cause_table(told, watched()), shop.tables, last), joint, entries)
    controls = tuple(nearest_controls(shop.tables, last, bad_gas=_bad_gas(told)))
    sharing = shares_cause(shop.tables, last)
    used = (*_used(last), *_heats(shop.tables, last))
    return JointCauses(frame, joint, last.attempt, words, controls, used, sharing, position)


def _bad_gas(told: Iterable[Witness]) -> bool:
    return any(each.question == "purge bead failed" and each.word is Word.OUTSIDE for each in told)


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


def _heats(tables: Tables, joint: JointOccasion) -> Iterable[tuple[str, str]]:
    """The heats of the tubes and parts the joint is made of."""
    pieces = tables.pieces_of.get(joint.frame, ())
    heats = (each.heat for each in pieces if each.member in joint.joint.parts)
    return dict.fromkeys(("tube heat", heat) for heat in heats if heat)


def watched() -> dict[str, list[str]]:
    """Give, by cause, the questions about the weld itself whose failure speaks for that cause."""
    found = {cause: list(questions) for cause, questions in _FROM_HOLDS.items()}
    for rule in RULES:
        if (rule.level in _LEVELS and rule.id not in _NOT_OF_THE_WELD) or rule.id in _OF_FRAME:
            for cause in rule.causes:
                found.setdefault(cause, []).append(rule.id)
    return found
