"""A repair is signed by whom its own procedure names, this time, at this place."""

from datetime import date
from typing import Any

import pytest

from server.judgement.repair_signers import repair_signers
from tests.judgement.barrow_works import registers_with

LEAD, BOTH = frozenset({"quality lead"}), frozenset({"quality lead", "owner"})
DAY = date(2031, 3, 10)


def decided(*subjects: str, choice: str = "repair") -> list[dict[str, Any]]:
    signed = {"person": "LEA", "role": "quality lead", "at": "2031-03-01T08:00", "meaning": "decided"}
    signed["shown_sha256"] = "0" * 64
    usual = {"kind": "decision", "choice": choice, "reason": "seen", "signatures": [signed]}
    return [usual | {"id": f"D-{n}", "findings": [f"{subject}|purge-o2"]} for n, subject in enumerate(subjects)]


@pytest.mark.parametrize(
    ("earlier", "asked", "roles"),
    [
        ((), "X1/A1#1", LEAD),
        (("X1/A1#1",), "X1/A1#2", BOTH),
        (("X1/A1#1:q12",), "X1/A1#2:q6", LEAD),
        (("X1/A1#1:q12",), "X1/A1#2:q12", BOTH),
        (("X1/A2#1",), "X1/A1#1", LEAD),
        (("X1/A1#1", "X1/A1#2", "X1/A1#3"), "X1/A1#4", BOTH),
    ],
)
def test_the_first_and_the_next(earlier: tuple[str, ...], asked: str, roles: frozenset[str]):
    """The first repair is the lead's, the second at the same place both roles'; another joint or quarter is another."""
    assert repair_signers([asked], registers_with(decided(*earlier), {}), DAY) == roles


def test_only_repairs_count():
    """A rework decided before is no repair."""
    assert repair_signers(["X1/A1#2"], registers_with(decided("X1/A1#1", choice="rework"), {}), DAY) == LEAD


def test_several_joints_are_signed_by_all_they_need():
    """One paper over two joints carries the roles of both."""
    assert repair_signers(["X1/A1#2", "X1/A2#1"], registers_with(decided("X1/A1#1"), {}), DAY) == BOTH


@pytest.mark.parametrize("asked", ["X1/B1#1", "X9/A1#1", "a line@2031-03-10"])
def test_without_a_repair_procedure_both_sign(asked: str):
    """A fitting no repair procedure covers, a frame nobody knows, a gas line: quality lead and owner."""
    assert repair_signers([asked], registers_with([], {}), DAY) == BOTH


def test_before_the_procedure_was_in_force():
    """On a day no repair procedure had started, both sign."""
    assert repair_signers(["X1/A1#1"], registers_with([], {}), date(2029, 1, 1)) == BOTH
