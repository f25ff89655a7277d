"""Which roles must sign a repair: those its own procedure names for this time at this place."""

from collections.abc import Iterable
from datetime import date

from server.facts.deciding import Decision
from server.facts.procedure import Procedure
from server.facts.registers import Registers
from server.facts.subject import JointSubject, read_joint_subject
from server.judgement.signing import DECIDERS
from server.procedures.in_force import revision_in_force


def repair_signers(subjects: Iterable[str], registers: Registers, today: date) -> frozenset[str]:
    """Give the roles, over all joints named; where no repair procedure in force says who, quality lead and owner."""
    joints = [joint for joint in map(read_joint_subject, subjects) if joint]
    found = [_signers_at(joint, registers, today) for joint in joints]
    return frozenset().union(*found) if found else DECIDERS


def _signers_at(joint: JointSubject, registers: Registers, today: date) -> frozenset[str]:
    papers = [each for each in _repair_papers(joint, registers, today) if each.approvals]
    if not papers:
        return DECIDERS
    before = sum(_same_place(each, joint) for each in registers.decisions.values() if each.choice == "repair")
    return frozenset(role for each in papers for role in each.approvals[min(before, len(each.approvals) - 1)])


def _repair_papers(joint: JointSubject, registers: Registers, today: date) -> Iterable[Procedure]:
    kind = _kind_of(joint, registers, today)
    names = {each.name for each in registers.procedures.values() if each.stage == "repair"}
    in_force = (revision_in_force(registers.procedures.values(), name, today) for name in sorted(names))
    return [each for each in in_force if each and kind in each.repairs]


def _kind_of(joint: JointSubject, registers: Registers, today: date) -> str | None:
    packet = next((each for each in registers.packets.values() if each.frame == joint.frame), None)
    design = registers.designs.get(packet.design) if packet else None
    drawn = next((each for each in design.joints if each.id == joint.joint), None) if design else None
    made_by = revision_in_force(registers.procedures.values(), drawn.procedure, today) if drawn else None
    return made_by.joint_kind if made_by else None


def _same_place(decision: Decision, joint: JointSubject) -> bool:
    """A quarter nobody named may be any of them."""
    for key in decision.findings:
        other = read_joint_subject(key.partition("|")[0])
        if other and (other.frame, other.joint) == (joint.frame, joint.joint):
            return None in (other.quarter, joint.quarter) or other.quarter == joint.quarter
    return False
