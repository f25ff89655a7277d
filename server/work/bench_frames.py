"""The frames in work at a bench, each with its picture, its joints, what has to wait for what, and its set-ups."""

import re
from collections.abc import Iterable, Mapping
from typing import Any

from server.facts.design import Design, GeometryCheck, Joint
from server.facts.equipment import Bench
from server.facts.frame_papers import permissions_of, shipped_frames
from server.facts.looked_up import looked_up
from server.facts.orders import Packet
from server.facts.registers import Registers
from server.plan.purge import setup_of
from server.plan.step_links import links
from server.plan.steps import split_step
from server.procedures.card_lines import doubt_words
from server.work.at_hand import AtHand
from server.work.bench_guide import hold_told, pause_told, setup_told
from server.work.bench_picture import picture_told

MOST_FRAMES = 8
_NUMBER = re.compile(r"\d+")


def frames_in_work(registers: Registers, bench: Bench) -> list[Packet]:
    """Give the packets that are neither released nor shipped, the oldest first; a packet without a bench is for any."""
    by_bench = _newest_by_bench(registers)
    here = sorted((*by_bench.get(None, ()), *by_bench.get(bench.id, ())))[-MOST_FRAMES:]
    return [registers.packets[frame] for _, _, frame in here]


def _newest_by_bench(registers: Registers) -> Mapping[str | None, list[tuple[int, int, str]]]:
    """Give the newest of each bench and of those for any: when issued, in which place told, and which."""
    told = (registers.packets, registers.shipments, registers.permissions, registers.designs)

    def read() -> Mapping[str | None, list[tuple[int, int, str]]]:
        found: dict[str | None, list[tuple[int, int, str]]] = {}
        for at, each in enumerate(_not_gone(registers)):
            if each.design in registers.designs:
                found.setdefault(each.bench, []).append((each.issued, at, each.frame))
        return {bench: sorted(of_one)[-MOST_FRAMES:] for bench, of_one in found.items()}

    return looked_up(registers, "in work by bench", told, read)


def _not_gone(registers: Registers) -> Iterable[Packet]:
    gone = {each.frame for each in registers.permissions.values() if each.permits in ("release", "ship")}
    gone |= shipped_frames(registers)
    return (each for each in registers.packets.values() if each.frame not in gone and not each.before_the_record)


def frame_told(registers: Registers, packet: Packet, cards: list[dict[str, Any]], hand: AtHand) -> dict[str, Any]:
    """Give one frame as the tablet draws it and reckons with it."""
    design = registers.designs[packet.design]
    kinds = {each.name: each.joint_kind for each in registers.procedures.values() if each.stage == "production"}
    return {
        "frame": packet.frame,
        "title": design.title,
        "size": packet.size,
        "picture": picture_told(design, packet.size),
        "joints": [_joint_told(design, joint, kinds, cards) for joint in design.joints],
        "needs": needs_told(design),
        "order": list(design.order),
        "released": _released(registers, packet.frame),
        "setups": [setup_told(design, packet.size, setup, cards) for setup in design.setups],
        "geometry": [_check_told(check, hand) for check in design.geometry],
    }


def _released(registers: Registers, frame: str) -> list[str]:
    """Give the joints whose hold point was released at a desk, by a signed paper and not by an entry."""
    papers = permissions_of(registers, frame)
    return sorted({each.joint for each in papers if each.permits == "hold point" and each.joint})


def needs_told(design: Design) -> list[dict[str, str]]:
    """Give what has to come before what on the frame, and why; what one seam asks of itself goes without saying."""
    return [
        {"step": link.step, "first": link.first, "reason": link.reason}
        for link in links(design)
        if split_step(link.step)[0] != split_step(link.first)[0]
    ]


def _joint_told(design: Design, joint: Joint, kinds: dict[str, str], cards: list[dict[str, Any]]) -> dict[str, Any]:
    setup, number = setup_of(design, joint.id), _NUMBER.search(joint.id)
    return {
        "id": joint.id,
        "title": joint.title,
        "number": int(number.group()) if number else None,
        "procedure": joint.procedure,
        "joint_kind": kinds.get(joint.procedure),
        "inside": joint.inside,
        "runs": list(joint.runs),
        "stage": joint.stage,
        "quartered": joint.quartered,
        "setup": setup.id if setup else None,
        "hides": [f"{each.by} comes over it: {each.reason}" for each in design.covers if each.seam == joint.id],
        "hold": hold_told(design, joint, cards),
        "pause": pause_told(design, joint, cards),
    }


def _check_told(check: GeometryCheck, hand: AtHand) -> dict[str, Any]:
    known, limit = hand.reads("deviation"), f"{check.limit_mm:g}"
    doubt = (doubt_words(known.fixed, known.share) or "0") if known else None
    return {"id": check.id, "title": check.title, "limit_mm": limit, "source": check.source, "uncertainty": doubt}
