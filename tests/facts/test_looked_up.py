"""What is gathered from the registers once holds for as long as its own papers are the same, and is carried on."""

from dataclasses import replace

from server.facts.deciding import Permission
from server.facts.layered import layered
from server.facts.looked_up import gathered, looked_up, only_new
from server.facts.registers import Registers


def permission(number: int, frame: str) -> Permission:
    return Permission.model_construct(id=f"P-{number}", permits="ship", frame=frame, known_at=1, signatures=())


def by_frame(registers: Registers) -> dict[str, list[str]]:
    found = gathered(registers, "by frame", registers.permissions, lambda each: [each.frame])
    return {frame: [each.id for each in of_frame] for frame, of_frame in found.items()}


def test_it_is_read_again_only_of_another_source():
    """Registers told of something else give what was read; those told more of it have it read again."""
    registers, read = Registers(permissions={}), []
    for state in (registers, replace(registers, claims={}), replace(registers, permissions={})):
        looked_up(state, "once", (state.permissions,), lambda: read.append(1))
    assert len(read) == 2


def test_what_was_told_since_is_put_to_what_is_known():
    """Carried on from paper to paper it is what would be gathered from all of them, also when one is told anew."""
    registers = Registers()
    for told in (
        {"P-1": permission(1, "A")},
        {"P-2": permission(2, "B")},
        {"P-3": permission(3, "A")},
        {"P-2": permission(2, "C")},
    ):
        registers = replace(registers, permissions={**registers.permissions, **told})
        assert by_frame(registers) == by_frame(replace(registers, looked_up={}))
    assert by_frame(registers) == {"A": ["P-1", "P-3"], "C": ["P-2"]}


def test_only_new_ones_are_told_apart_from_changed_ones():
    """Papers behind those of before are new; one told anew or missing means that all are to be gathered again."""
    one, two = permission(1, "A"), permission(2, "B")
    assert only_new({"P-1": one}, {"P-1": one, "P-2": two}) == [two]
    assert only_new({"P-1": one}, {"P-1": permission(1, "B"), "P-2": two}) is None
    assert only_new({"P-1": one, "P-2": two}, {"P-1": one}) is None
    assert only_new({"P-1": one}, {"P-2": two, "P-1": one}) is None


def test_what_lies_in_layers_is_carried_on_the_same():
    """Of thousands of papers only what came is read again, and the answer is that of all of them, also at a merge."""
    registers, read = Registers(), []
    told = {f"P-{number}": permission(number, f"F-{number % 50}") for number in range(1500)}

    def frames(each: Permission) -> list[str]:
        read.append(each.id)
        return [each.frame]

    for number in range(1500, 1600):
        registers = replace(registers, permissions=layered(registers.permissions, told))
        found = gathered(registers, "by frame", registers.permissions, frames)
        assert list(found) == [f"F-{each}" for each in range(50)]
        assert [each.id for each in found["F-7"]] == [f"P-{each}" for each in range(7, len(registers.permissions), 50)]
        told = {f"P-{number}": permission(number, f"F-{number % 50}")}
    assert read == [f"P-{each}" for each in range(1599)]
