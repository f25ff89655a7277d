"""Gathers the papers a frame's dossier carries: procedures in full, instruments, gas, rods, tube heats, people."""

import json
from collections.abc import Collection, Iterable, Mapping
from typing import Any

from server.evidence.chain_subject import ChainSubject
from server.facts.equipment import Uncertainty
from server.facts.noun import Noun
from server.facts.procedure import Procedure
from server.facts.quantities import QUANTITIES
from server.facts.registers import Registers
from server.facts.supplies import CylinderChange
from server.facts.welding import Pass, Tack
from server.occasions.clocks import Clocks
from server.occasions.days import Days
from server.occasions.revisions import Revisions
from server.record.reads import Reads
from server.work.dossier_joints import Wording
from server.work.frame_history import FrameStory, Told


def told_papers(
    reads: Reads,
    story: FrameStory,
    registers: Registers,
    wording: Wording,
    gas: list[dict[str, Any]],
    others: Collection[str] = (),
) -> dict[str, Any]:
    """Gather every paper the frame's own entries lead to; `gas` was under its passes, `others` made checks beside."""
    welded = _welded(story)
    every = [*welded, *story.of_frame]
    instruments = {by for each in every for by in _instruments(each)}
    people = {each.entry.who for each in (*every, *_others(story))} | set(others)
    pieces = [each for each in registers.pieces.values() if each.frame == story.packet.frame]
    sleeves = _known(registers.sleeves, (getattr(each.entry, "sleeve", None) for each in welded))
    lots = [each for each in registers.fill_lots.values() if set(each.cylinders) & {on["on"] for on in gas}]
    return {
        "pieces": _plain(pieces),
        "heats": _plain(_known(registers.heats, (each.heat for each in pieces))),
        "instruments": [
            _instrument(registers, each, wording) for each in sorted(instruments & registers.instruments.keys())
        ],
        "cylinders": gas,
        "fill_lots": _plain(lots),
        "analyses": _plain(each for each in registers.analyses.values() if each.cylinder in {on["on"] for on in gas}),
        "sleeves": _plain(sleeves),
        "filler_lots": _plain(_known(registers.filler_lots, (each.lot for each in sleeves))),
        "people": _people(registers, people, {each.entry.who for each in welded}),
        "procedures": [_procedure(reads, each) for each in _revisions(story, registers, welded)],
    }


def _welded(story: FrameStory) -> list[Told]:
    return [each for each in _others(story) if isinstance(each.entry, Pass | Tack)]


def _others(story: FrameStory) -> list[Told]:
    return [each for joint in story.joints for attempt in joint.attempts for each in attempt.told]


def _instruments(told: Told) -> set[str]:
    values = getattr(told.entry, "values", {}).values()
    return {each.by for each in values if each.by} | {getattr(told.entry, "machine", None) or ""}


def _instrument(registers: Registers, named: str, wording: Wording) -> dict[str, Any]:
    calibrations = [each for each in registers.calibrations.values() if each.instrument == named]
    calibrations.sort(key=lambda calibration: calibration.at)
    instrument = registers.instruments[named]
    return _one(instrument) | {
        "doubt": [_doubt(each) for each in instrument.reads],
        "calibrations": [_one(each) | {"shown": wording.moment(each.at)} for each in calibrations],
    }


def _doubt(reads: Uncertainty) -> str:
    words = QUANTITIES[reads.quantity].words if reads.quantity in QUANTITIES else reads.quantity
    fixed = f"{reads.fixed:g} {reads.unit}" if reads.fixed else ""
    share = f"{reads.share * 100:g} % of the reading" if reads.share else ""
    return f"{words} {' and '.join(part for part in (fixed, share) if part) or '0'}"


def gas_under(reads: Reads, story: FrameStory) -> list[dict[str, Any]]:
    """Tell which cylinder was on each line under each pass, from the changes of those lines alone."""
    welded, known_at = _welded(story), story.known_at
    lines = {line for each in welded for line in _lines(each)}
    changes = reads.entries_by([ChainSubject("gas line", line) for line in sorted(lines)], known_at, ["cylinder"])
    clocks = Clocks(reads.clock_pairs_for(changes, known_at))
    on_line: dict[str, list[tuple[int, CylinderChange]]] = {}
    for each in changes:
        if isinstance(each.entry, CylinderChange):
            on_line.setdefault(each.entry.line, []).append((clocks.stamp(each.entry).at_ms, each.entry))
    found: dict[tuple[str, str], dict[str, Any]] = {}
    for told in welded:
        for line in _lines(told):
            before = [each for each in on_line.get(line, ()) if each[0] <= told.stamp.at_ms]
            change = max(before, key=lambda each: each[0])[1] if before else None
            if change and change.on:
                on = {"line": line, "on": change.on, "entry": change.id, "under": []}
                found.setdefault((line, change.on), on)["under"].append(told.entry.id)
    return [found[key] for key in sorted(found)]


def _lines(told: Told) -> list[str]:
    lines = (getattr(told.entry, name, None) for name in ("torch_line", "trailing_line", "purge_line"))
    return list(dict.fromkeys(line for line in lines if line))


def _revisions(story: FrameStory, registers: Registers, welded: list[Told]) -> list[Procedure]:
    days = Days(registers.zone)
    revisions = Revisions(registers.procedures.values(), None)
    joints = {each.joint.id: each.joint for each in story.joints}
    found: dict[str, Procedure] = {}
    for told in welded:
        joint = joints[getattr(told.entry, "joint", "")]
        day = days.day_of(told.stamp.at_ms)
        repair = getattr(told.entry, "run", "") == "repair"
        used = revisions.repair_for(joint, day) if repair else revisions.in_force(joint.procedure, day)
        if used:
            found[used.called] = used
    return [found[called] for called in sorted(found)]


def _procedure(reads: Reads, procedure: Procedure) -> dict[str, Any]:
    line = reads.line(procedure.called)
    text = json.loads(line.body).get("text", "") if line else ""
    return {
        "called": procedure.called,
        "title": procedure.title,
        "sha256": procedure.sha256,
        "valid_from": procedure.valid_from.isoformat(),
        "marked": procedure.marked,
        "reason": procedure.reason,
        "supports": [each.id for each in procedure.supports],
        "cautions": [f"{each.where}: {each.words} ({each.authority})" for each in procedure.cautions],
        "text": text,
    }


def _people(registers: Registers, named: set[str], welders: set[str]) -> list[dict[str, Any]]:
    return [
        {
            "id": person.id,
            "name": person.name,
            "roles": list(person.roles),
            "qualifications": [_qualification(registers, each) for each in _held(registers, person.id, welders)],
        }
        for person in _known(registers.people, sorted(named))
    ]


def _held(registers: Registers, person: str, welders: set[str]) -> list[Any]:
    return [each for each in registers.qualifications.values() if each.welder == person and person in welders]


def _qualification(registers: Registers, held: Any) -> dict[str, Any]:
    confirmed = [each.dated.isoformat() for each in registers.confirmations.values() if each.qualification == held.id]
    return _one(held) | {"confirmed": sorted(confirmed)}


def _known(register: Mapping[str, Any], named: Iterable[str | None]) -> list[Any]:
    return [register[each] for each in dict.fromkeys(named) if each and each in register]


def _plain(nouns: Iterable[Noun]) -> list[dict[str, Any]]:
    return [_one(each) for each in nouns]


def _one(noun: Noun) -> dict[str, Any]:
    return noun.model_dump(mode="json")
