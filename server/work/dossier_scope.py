"""Narrows what a dossier tells: to one joint of the frame, or to what one customer may see and nothing of another's."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import Any

from server.facts.deciding import Permission
from server.facts.log import AnyEntry
from server.facts.registers import Registers
from server.facts.subject import read_joint_subject
from server.work.frame_history import FrameStory
from server.work.names_known import Earlier
from server.work.refusal import NotThere
from server.work.without_names import without_names

_CODE = re.compile(r"[\w-]+")
_OF_EVERY_JOINT = frozenset({"stage", "geometry", "problem"})
ANOTHER = "another frame"
_MAY_REMAIN = (
    "In what people typed, a name that the record knows stands in square brackets as a role or a neutral word. Names "
    "it does not know, letters that also mean something in the trade, and what a picture shows may be left: whoever "
    "hands this out reads it first."
)
LEFT_OUT = "left out: the words name a customer whose details were removed"
_NEVER_TYPED = frozenset({"kind", "shown", "role"})


def of_joint(story: FrameStory, joint: str) -> FrameStory:
    """Keep what is about one joint, and of the frame only its way, its gates and its shipments."""
    mine = tuple(each for each in story.joints if each.joint.id == joint)
    if not mine:
        raise NotThere(f"{joint!r} is no joint of {story.packet.frame}; its joints are on the frame picture")

    def about(keys: Sequence[str]) -> bool:
        subjects = (read_joint_subject(key.partition("|")[0].partition("~")[0]) for key in keys)
        return any(each and (each.frame, each.joint) == (story.packet.frame, joint) for each in subjects)

    return replace(
        story,
        joints=mine,
        of_frame=tuple(each for each in story.of_frame if _leads_to(each.entry, joint) or each in mine[0].apart),
        frame_matters=(),
        decisions=tuple(each for each in story.decisions if about(each.findings)),
        permissions=tuple(each for each in story.permissions if each.joint in (None, joint)),
        concessions=tuple(each for each in story.concessions if not each.joints or joint in each.joints),
        nonconformities=tuple(each for each in story.nonconformities if about((*each.findings, *each.held))),
    )


def _leads_to(entry: AnyEntry, joint: str) -> bool:
    """The frame's own steps and checks, and what names this joint; not the comings and goings at other joints."""
    named = getattr(entry, "joint", None)
    return named == joint or (named is None and entry.kind in _OF_EVERY_JOINT)


def opened_over(permission: Permission, joint: str) -> list[str]:
    """Give what a gate was signed over, of one joint where one is told."""
    keys = permission.open_findings
    if not joint:
        return list(keys)
    return [key for key in keys if (about := read_joint_subject(key.partition("|")[0])) and about.joint == joint]


def for_customer(told: Mapping[str, Any], registers: Registers, earlier: Earlier) -> dict[str, Any]:
    """Leave out the people, the customers, and every other frame, which may be somebody else's."""
    serial, others = told["serial"], set(registers.packets) - {told["serial"]}
    own = {
        "owners": [],
        "shipments": [each | {"customer": None, "packed_by": None} for each in told["shipments"]],
        "nonconformities": [_own_lists(each, serial, ("findings", "held")) for each in told["nonconformities"]],
        "decisions": [_own_lists(each, serial, ("findings",)) for each in told["decisions"]],
        "concessions": [each | {"frames": [serial]} for each in told["concessions"]],
        "legal_hold": _without_reason(told.get("legal_hold")),
    }
    typed_in = _typed_in(registers)
    whole = {**told, **own}
    nameless = without_names(_without_words(whole, typed_in) if typed_in else whole, registers, earlier)
    hidden: dict[str, Any] = _without(nameless.told, others)
    return hidden | {"typed_names": {"replaced": nameless.places, "says": _MAY_REMAIN}}


def _typed_in(registers: Registers) -> frozenset[str]:
    return frozenset(each for removal in registers.customer_removals.values() for each in removal.also_typed_in)


def _without_words(told: Any, typed_in: Collection[str], *, inside: bool = False) -> Any:
    """Leave out what was typed in a paper or an entry that names somebody whose name is known to nobody any more."""
    if isinstance(told, str):
        return LEFT_OUT if inside and " " in told else told
    if isinstance(told, Mapping):
        inside = inside or told.get("id") in typed_in
        return {
            key: value if key in _NEVER_TYPED else _without_words(value, typed_in, inside=inside)
            for key, value in told.items()
        }
    if isinstance(told, list | tuple):
        return [_without_words(each, typed_in, inside=inside) for each in told]
    return told


def _own_lists(paper: Mapping[str, Any], serial: str, names: Sequence[str]) -> dict[str, Any]:
    return {**paper, **{name: [key for key in paper[name] if key.startswith(f"{serial}/")] for name in names}}


def _without_reason(hold: Mapping[str, Any] | None) -> dict[str, Any] | None:
    return {**hold, "reason": "", "signatures": []} if hold else None


def _without(told: Any, others: Collection[str]) -> Any:
    """Put `another frame` wherever another serial stands, in keys and values alike."""
    if isinstance(told, str):
        return _CODE.sub(lambda found: ANOTHER if found[0] in others else found[0], told)
    if isinstance(told, Mapping):
        return {key: _without(value, others) for key, value in told.items()}
    if isinstance(told, list | tuple):
        return [_without(each, others) for each in told]
    return told
