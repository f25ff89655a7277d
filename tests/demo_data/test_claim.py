"""The claim is answered from the record as the key says, and the same in the shop told under other names and days."""

import hashlib
import json
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from demo_data.generator.elsewhere import VERSIONS
from demo_data.generator.folder import write_shop
from demo_data.generator.planting import planted
from demo_data.generator.selection import SELECTIONS, Part, Selection
from server.facts.checking import Reading
from server.record.book_of_lines import Record, now_ms
from server.work.claims import claim_file
from server.work.evidence_files import kind_of
from server.work.joint_causes import JointCauses, causes_from, joint_causes
from server.work.known_shop import known_shop
from server.work.load_folder import load_folder
from server.work.shop_folder import read_shop_folder
from tests.documents.page_text import words_of

Asked = Callable[[frozenset[str]], JointCauses]
SUPPORTS = {"C2"}
EXCLUDES = {"C5", "C8", "C9", "C13", "C15", "C17", "C20", "C23"}
SILENT = {"C3", "C10", "C11", "C12", "C22", "C24", "C26"}
OF_THE_JOINT = {"C13", "C14", "C15", "C17", "C19", "C20"}


@pytest.fixture(scope="module")
def moved_claim(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The frames around the claimed one in the shop told under other names on other days."""
    version = VERSIONS["moved"]
    claimed = planted(version.moves).facts["claimed frame"]
    folder = tmp_path_factory.mktemp("demo") / "moved claim"
    with pytest.MonkeyPatch.context() as patch:
        # Numbered as the moved telling has them already.
        around = Part("", tuple(range(claimed - 6, claimed + 5)))
        patch.setitem(SELECTIONS, "claim", Selection("claim", (around,), ("I-01", "I-09")))
        write_shop(folder, "claim", version)
    return folder


@pytest.fixture(scope="module", params=["small", "moved_claim"])
def folder(request: pytest.FixtureRequest) -> Path:
    found: Path = request.getfixturevalue(request.param)
    return found


@pytest.fixture(scope="module")
def record(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Record]:
    data = tmp_path_factory.mktemp("claim")
    made = Record.open(f"sqlite:///{data / 'record.sqlite3'}", data)
    load_folder(made, read_shop_folder(folder), now_ms())
    yield made
    made.close()


@pytest.fixture(scope="module")
def tested(record: Record) -> list[Reading]:
    """The laboratory's hardness readings, the hardest first: the claimed joint, then its control."""
    with record.reads() as reads:
        every = [each.entry for each in reads.every_entry()]
    hard = [each for each in every if isinstance(each, Reading) and each.joint and "hardness" in each.values]
    return sorted(hard, key=lambda each: -each.values["hardness"].value)


@pytest.fixture(scope="module")
def asked_of(record: Record) -> Callable[[str, str], JointCauses]:
    """Ask for the causes of any joint."""

    def ask(frame: str, joint: str) -> JointCauses:
        with record.reads() as reads:
            return joint_causes(reads, frame, joint)

    return ask


@pytest.fixture(scope="module")
def asked(record: Record, tested: list[Reading]) -> Asked:
    """Ask for the causes of the claimed joint, in a copy of what is known that lacks some entries."""
    frame, joint = str(tested[0].frame), str(tested[0].joint)
    with record.reads() as reads:
        position = reads.last_position()
        known, entries = known_shop(reads, position), reads.frame_entries(frame, position)

    def ask(without: frozenset[str]) -> JointCauses:
        less = replace(
            known,
            shared=[each for each in known.shared if each.entry.id not in without],
            passes=[each for each in known.passes if each.entry.id not in without],
        )
        return causes_from(less, frame, joint, [each for each in entries if each.entry.id not in without], position)

    return ask


def said(found: JointCauses) -> dict[str, str]:
    return {each.cause: each.says for each in found.words}


def rested_on(found: JointCauses, cause: str) -> frozenset[str]:
    word = next(each for each in found.words if each.cause == cause)
    return frozenset(entry for each in word.because for entry in each.rests_on)


def test_the_causes_are_as_the_key_says(asked: Asked):
    """The purge gas is supported; filler, heat, qualification, gap, meter, order and alignment are excluded."""
    words = said(asked(frozenset()))
    assert {cause for cause, says in words.items() if says == "supports"} == SUPPORTS
    assert {cause: words[cause] for cause in EXCLUDES} == dict.fromkeys(EXCLUDES, "excludes")
    assert {cause: words[cause] for cause in SILENT} == dict.fromkeys(SILENT, "silent")


def test_the_claim_names_the_joint_the_laboratory_found(record: Record, tested: list[Reading]):
    """The claim's own file is about the joint whose root was the hardest."""
    with record.reads() as reads:
        (claim,) = reads.registers().claims.values()
    assert (claim.serial, claim.joint) == (tested[0].frame, tested[0].joint)


def test_the_laboratorys_sheet_lies_beside_its_result(record: Record, tested: list[Reading], folder: Path):
    """The result names a PDF of the folder by its SHA-256, with both joints as they were read."""
    with record.reads() as reads:
        registers = reads.registers()
    (claim,) = registers.claims.values()
    (result,) = claim_file(registers, claim.id).of("laboratory result")
    (sheet,) = (each.read_bytes() for each in (folder / "files").iterdir())
    assert result.files == (hashlib.sha256(sheet).hexdigest(),)
    assert kind_of(sheet) == "PDF"
    claimed, control = (f"{each.joint}" for each in (tested[0], tested[-1]))
    wanted = (claim.id, claim.serial, claimed, control, *(f"{each.values['hardness'].value:g}" for each in tested))
    shown = words_of(sheet)
    assert [each for each in wanted if each not in shown] == []
    assert [claimed in (each.note or "") for each in tested] == [False, True], "only the control is told beside another"


def test_what_else_rests_on_its_cause_is_what_is_planted(asked: Asked, folder: Path):
    """The joints still in product on the same cylinder are those of the truth table, each with who has its frame."""
    table = [json.loads(line) for line in (folder / "truth.jsonl").read_text(encoding="utf-8").splitlines()]
    planted = {row["subject"] for row in table if row["question"] == "shares-cause"}
    sharing = asked(frozenset()).sharing
    assert {each.verdict.subject for each in sharing} == planted
    assert len(planted) == 8
    assert {each.shared.place for each in sharing} == {"shipped"}
    assert all(each.shared.customer for each in sharing)


def test_the_control_shares_nothing(asked_of: Callable[[str, str], JointCauses], tested: list[Reading]):
    """Asked of the laboratory's control, welded that day on the cylinder before, no joint shares a cause with it."""
    assert asked_of(str(tested[-1].frame), str(tested[-1].joint)).sharing == ()


def test_the_cylinder_is_named(asked: Asked):
    """The support for the purge gas names the cylinder and the oxygen read beside what was usual."""
    word = next(each for each in asked(frozenset()).words if each.cause == "C2")
    assert word.because[0].words.startswith("cylinder ")
    assert "not recorded" not in word.because[0].words
    assert "purge oxygen" in word.because[0].words
    assert word.because[0].rests_on


def test_what_the_laboratory_read_stands_beside_the_cause_it_bears_on(asked: Asked, tested: list[Reading]):
    """Both hardnesses are named under the supported cause and under no other, and are gone with their entries."""
    read = frozenset(each.id for each in tested)
    (cause,) = SUPPORTS
    assert read <= rested_on(asked(frozenset()), cause)
    assert not any(read & rested_on(asked(frozenset()), other) for other in EXCLUDES | SILENT)
    for gone in (frozenset({tested[0].id}), frozenset({tested[-1].id})):
        assert said(asked(gone))[cause] == "supports"
        assert not read & rested_on(asked(gone), cause)


def test_what_was_found_in_the_cylinder_stands_beside_its_certificate(asked: Asked):
    """The supplier's later analysis is told under the supported cause, with what had been certified."""
    (told,) = [it for each in asked(frozenset()).words for it in each.because if it.question == "cylinder analysed"]
    found, _, certified = told.words.partition("; as certified: ")
    assert re.search(r"analysed \d+ \w+ \d{4} by .+: oxygen 38 ppm, dew point -18 °C$", found)
    assert certified == "oxygen 2 ppm, dew point -60 °C"
    assert told.rests_on


def test_what_it_is_made_of_can_be_asked_by(asked: Asked):
    """Among what else can be asked by stand the cylinder, the sleeve and the heat of the tubes that meet in it."""
    used = asked(frozenset()).used
    assert {"cylinder", "sleeve", "tube heat"} <= {kind for kind, _ in used}
    assert len([kind for kind, _ in used if kind == "tube heat"]) == 1


def test_the_laboratorys_control_is_the_first_one_offered(asked: Asked, tested: list[Reading]):
    """The joint the laboratory compared with is offered first: same frame, day and welder, another cylinder."""
    first = asked(frozenset()).controls[0]
    assert first.subject.partition("#")[0] == f"{tested[-1].frame}/{tested[-1].joint}"
    assert first.same == "frame, day, welder"
    assert "purge cylinder" in first.differs


@pytest.mark.parametrize("cause", sorted(OF_THE_JOINT))
def test_what_an_exclusion_rests_on_taken_away_leaves_silence(asked: Asked, cause: str):
    """Without the joint's own entries behind it, what was excluded is silent and names what is missing."""
    whole = asked(frozenset())
    found = asked(rested_on(whole, cause))
    word = next(each for each in found.words if each.cause == cause)
    assert (said(whole)[cause], word.says) == ("excludes", "silent")
    assert word.missing


@pytest.mark.parametrize("cause", sorted(EXCLUDES))
def test_nothing_rests_on_an_entry_that_is_not_there(asked: Asked, cause: str):
    """A word given after an entry was taken away never rests on that entry."""
    gone = rested_on(asked(frozenset()), cause)
    assert not rested_on(asked(gone), cause) & gone


def test_every_figure_has_its_unit_and_every_check_its_name(asked: Asked):
    """A lawyer reads which check was good, on which line, and no number stands without its unit and its ends."""
    because = {each.cause: "\n".join(it.words for it in each.because) for each in asked(frozenset()).words}
    assert re.search(r"the leak test of \S+ was good before and after its root", because["C11"])
    assert re.search(r"the test bead on \S+ was good before and after its root", because["C1"])
    assert "Is the bead colour outside within the limit? grade 0 within" in because["C1"]
    assert re.search(
        r"purge oxygen within the limit at arc start\? root: \d+ ppm \(at most \d+ ppm\) within", because["C3"]
    )
    assert re.search(r"was open [\d.]+ days \(at most \d+ days\)", because["C7"])
    assert re.search(r"Can a hand weld that fast\? root: [\d.]+ mm/min within", because["C25"])
