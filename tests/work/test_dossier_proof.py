"""Whoever gets a dossier checks by it alone that no line was left out or altered; each way to cheat is seen."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.commands import check_dossier
from server.record.book_of_lines import Record
from server.record.signing_key import known_keys
from server.work.dossier import ForWhom, dossier
from server.work.dossier_joints import Wording
from tests.record.fixtures import url_of
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, accept_all, open_shop, send, weld_it_all

WORDING = Wording(lambda entry: entry.kind, str, str)


@pytest.fixture(scope="module")
def sealed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Record, str]]:
    """A welded frame under a second checkpoint, one pass that came after it, and a gas line nobody knew before."""
    folder = Path(tmp_path_factory.mktemp("shop"))
    made = open_shop(folder)
    made.checkpoint().result()
    tablet = Tablet("SLATE")
    welded = weld_it_all(tablet)
    change = {"note": "looked at again"}
    send(made, *welded, tablet.tell("3:50", "correction", of="SLATE:b1:2", change=change, reason="a slip"))
    accept_all(made)
    made.checkpoint().result()
    later = Tablet("SLATE", "b2")
    send(made, a_pass(later, "1:50"), later.tell("1:55", "cylinder", line="LATER-P", on="CY-9"))
    yield made, str(known_keys(folder)[0])
    made.close()


def told(sealed: tuple[Record, str], for_whom: ForWhom = "shop", joint: str = "") -> dict[str, Any]:
    with sealed[0].reads() as reads:
        return dossier(reads, "SW-1", WORDING, for_whom, joint, sealed[1])


def check(told: dict[str, Any], folder: Path, *more: str) -> int:
    (folder / "dossier.json").write_text(json.dumps(told))
    return check_dossier.run([str(folder / "dossier.json"), *more])


@pytest.mark.parametrize(("for_whom", "joint"), [("shop", ""), ("customer", ""), ("shop", "B")])
def test_a_dossier_holds_by_itself(sealed: tuple[Record, str], tmp_path: Path, for_whom: ForWhom, joint: str):
    """For the shop, for a customer and for one joint; the line after the checkpoint is told as not under it."""
    found = told(sealed, for_whom, joint)
    assert [each["under_the_checkpoint"] for each in found["lines"]].count(False) == 1
    assert check(found, tmp_path, "--key", sealed[1]) == 0


def test_a_customers_version_says_what_it_does_not_show(
    sealed: tuple[Record, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    """Whether its words are those of the lines can be seen in the shop's own version alone, which has no such words."""
    said = []
    for for_whom in ("customer", "shop"):
        check(told(sealed, for_whom), tmp_path, "--key", sealed[1])
        said.append("the shop's own version alone" in capsys.readouterr().out)
    assert said == [True, False]


def test_a_customers_lines_have_no_text(sealed: tuple[Record, str]):
    """The hashes stay, what was typed does not; a joint's dossier has the texts of its own entries alone."""
    assert {(each["id"], each["envelope"], each["body"]) for each in told(sealed, "customer")["lines"]} == {
        ("", None, None)
    }
    bodies = [each["body"] for each in told(sealed, joint="B")["lines"] if each["kind"] == "entry" and each["body"]]
    assert bodies
    assert all('"joint":"B"' in each for each in bodies)


CHEATS = {
    "one left out": lambda told: told["lines"].pop(3),
    "one twice": lambda told: told["lines"].insert(3, told["lines"][3]),
    "two changed about": lambda told: told["lines"].insert(3, told["lines"].pop(4)),
    "a text altered": lambda told: told["lines"][-1].update(body=told["lines"][-1]["body"].replace("SLATE", "SLATS")),
    "an envelope altered": lambda told: told["lines"][3].update(envelope=told["lines"][3]["envelope"] + " "),
    "another count": lambda told: told["proof"].update(count=told["proof"]["count"] - 1),
    "another seal": lambda told: told["proof"].update(
        seal=told["proof"]["seal"].replace('"subjects":', '"subjects":1')
    ),
    "a path cut": lambda told: told["proof"]["seal_path"].pop(),
    "another frame": lambda told: told["proof"].update(subject=["frame", "SW-2"]),
    "a checkpoint altered": lambda told: told["proof"].update(
        checkpoint=told["proof"]["checkpoint"].replace("\n", "1\n", 2)
    ),
    "another frame's name on it": lambda told: told.update(serial="SW-2"),
    "another checkpoint on top": lambda told: told.update(checkpoint="strawline-0\n9\n"),
    "a line told as another": lambda told: told["lines"][3].update(id="SLATE:b1:99"),
    "a value told otherwise": lambda told: a_told_pass(told)["values"][0].update(value=1.0),
    "a value left out": lambda told: a_told_pass(told)["values"].pop(),
    "somebody else told": lambda told: a_told_pass(told).update(who="LEA"),
    "told as late for a reason": lambda told: a_told_pass(told).update(late_reason="no network"),
    "told as mended": lambda told: a_told_pass(told).update(mended_by=[{"id": "x", "reason": "y", "withdrawn": True}]),
    "an entry not told": lambda told: told["joints"][0]["attempts"][0]["entries"].pop(0),
    "an entry made up": lambda told: a_told_pass(told).update(id="SLATE:b1:99"),
    "a shipment made up": lambda told: told["shipments"].append({"id": "S-9", "frame": "SW-1"}),
    "another reason decided": lambda told: told["decisions"][0].update(reason="nobody was asked"),
    "another signer": lambda told: told["decisions"][0]["signatures"][0].update(person="LEA"),
    "a mending not told": lambda told: [
        each.update(mended_by=[]) for each in every_entry(told) if each["mended_by"]
    ],
}


def every_entry(told: dict[str, Any]) -> list[dict[str, Any]]:
    return [each for joint in told["joints"] for attempt in joint["attempts"] for each in attempt["entries"]]


def a_told_pass(told: dict[str, Any]) -> dict[str, Any]:
    return next(each for each in every_entry(told) if each["kind"] == "pass")


@pytest.mark.parametrize("cheat", CHEATS)
def test_each_way_to_cheat_is_seen(sealed: tuple[Record, str], tmp_path: Path, cheat: str):
    """What is left out, doubled, moved or altered does not hold any more."""
    found = told(sealed)
    CHEATS[cheat](found)
    assert check(found, tmp_path, "--key", sealed[1]) == 1


def test_another_key_and_another_file_are_refused(sealed: tuple[Record, str], tmp_path: Path):
    """A dossier signed by somebody else does not hold; what is no dossier cannot be checked."""
    (tmp_path / "other").mkdir()
    # A record of its own and not a copy of the shop, which would have the shop's key.
    Record.open(url_of(tmp_path / "other" / "record.sqlite3"), tmp_path / "other").close()
    assert check(told(sealed), tmp_path, "--key", str(known_keys(tmp_path / "other")[0])) == 1
    assert check({"lines": []}, tmp_path) == 2
