"""The demo: made once, kept while it is fresh, and never made in a folder that holds something else."""

import json
from itertools import combinations
from pathlib import Path

import pytest

from server.commands import _demo_folder, demo
from server.commands._demo_shop import MARK, _key, make_stand
from server.facts.supplies import Arrived, Photo
from server.record.book_of_lines import Record
from server.record.files import Files
from server.record.lines import HOUSE
from server.settings import read_settings
from server.work.claims import claim_file
from server.work.evidence_files import kind_of
from server.work.proving import proves


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small demo, made once."""
    data = tmp_path_factory.mktemp("demo") / "data"
    assert demo.run(["--data", str(data), "--only-make"]) == 0
    return data


def test_who_may_sign_in_can(made: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Everybody it names can sign in with the PIN it prints, and it says that these are the demo's."""
    assert demo.run(["--data", str(made), "--only-make"]) == 0
    said = capsys.readouterr().out
    assert "PINs of the demo" in said
    record = Record.open(read_settings(made).database_url, made)
    with record.reads() as reads:
        people, able = reads.registers().people, reads.people_with_credentials()
        kept = {person: reads.credentials(person)["pin"].secret_hash for person in able}
    pepper = record.pepper
    record.close()
    lines = {line.split("PIN ")[0].strip(): line.split("PIN ")[1][:6] for line in said.splitlines() if "  PIN " in line}
    named = {people[person].name: person for person in able}
    assert lines.keys() <= named.keys()
    assert {role for person in able for role in people[person].roles} >= {"welder", "quality lead", "owner"}
    assert all(proves(pin, kept[named[name]], pepper) for name, pin in lines.items() if name)


def test_it_is_judged(made: Path) -> None:
    """Everything that was loaded has been judged, and something was found; what is told of today comes after it."""
    record = Record.open(read_settings(made).database_url, made)
    with record.reads() as reads:
        found, judged_to = reads.findings(), reads.judged_to()
        after = reads.lines_between(judged_to + 1, reads.last_position())
    record.close()
    assert {line.device for line in after if line.kind != "seal"} <= {HOUSE}
    assert judged_to > 6000
    assert len(found) > 50


def test_its_pictures_have_come(made: Path) -> None:
    """Every drawn picture an entry names has come, no two alike; the claim's and the laboratory's sheet are kept."""
    settings = read_settings(made)
    record = Record.open(settings.database_url, made)
    with record.reads() as reads:
        arrived = {each.entry.sha256: each.entry for each in reads.shared_entries() if isinstance(each.entry, Arrived)}
        arrived |= {each.entry.sha256: each.entry for each in reads.mending() if isinstance(each.entry, Arrived)}
        named = [each.entry for each in reads.frame_entries("MT-0041") if isinstance(each.entry, Photo)]
        steps = claim_file(reads.registers(), "W-26-004").steps
    record.close()
    assert len(named) == 3
    assert {each.sha256 for each in named} == set(arrived)
    looks = [int(each.looks_like, 16) for each in arrived.values()]
    assert min((one ^ other).bit_count() for one, other in combinations(looks, 2)) > 6
    kept = [Files(settings.data_folder).read(sha256) or b"" for step in steps for sha256 in step.files]
    assert [kind_of(each) for each in kept] == ["picture", "PDF"]


def test_it_is_not_made_twice(made: Path) -> None:
    """While nothing it is made from has changed it stands as it is."""
    said: list[str] = []
    before = (made / "record.sqlite3").stat().st_ino
    make_stand(made, "small", lambda doing, done, of: said.append(doing))
    assert said == []
    assert (made / "record.sqlite3").stat().st_ino == before


@pytest.mark.parametrize("mark", [{"key": "older", "complete": True}, {"key": _key("slice")}])
def test_a_stale_or_unfinished_one_is_made_anew(tmp_path: Path, mark: dict[str, object]) -> None:
    """A demo made from something older, or one that was interrupted, is thrown away and made again."""
    (tmp_path / MARK).write_text(json.dumps({**mark, "sign_ins": []}))
    (tmp_path / "left.txt").write_text("left over")
    said: list[str] = []
    make_stand(tmp_path, "slice", lambda doing, done, of: said.append(doing))
    assert {"writing the shop", "loading it", "judging it"} <= set(said)
    assert not (tmp_path / "left.txt").exists()
    assert json.loads((tmp_path / MARK).read_text())["complete"]


def test_another_folder_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder that holds something else is refused with what to do, and not touched."""
    (tmp_path / "mine.txt").write_text("mine")
    assert demo.run(["--data", str(tmp_path), "--only-make"]) == 2
    assert "--data" in capsys.readouterr().err
    assert [file.name for file in tmp_path.iterdir()] == ["mine.txt"]


def test_a_shop_that_cannot_be_written_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A process of its own writes the shop; where that fails nothing is served, and it is made again next time."""
    writer = tmp_path / "house" / "demo_data" / "generator.py"
    writer.parent.mkdir(parents=True)
    writer.write_text("print('1 9', flush=True)\nraise SystemExit(3)\n")
    monkeypatch.setattr(_demo_folder, "ROOT", tmp_path / "house")
    data = tmp_path / "data"
    assert demo.run(["--data", str(data), "--only-make"]) == 2
    assert "exit code 3" in capsys.readouterr().err
    assert "complete" not in json.loads((data / MARK).read_text())


def test_a_file_is_no_folder_for_a_demo(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Named a file, the demo says so and what to name instead, and leaves the file as it was."""
    (tmp_path / "notes").write_text("mine")
    assert demo.run(["--data", str(tmp_path / "notes"), "--only-make"]) == 2
    assert "is a file; name a folder with --data" in capsys.readouterr().err
    assert (tmp_path / "notes").read_text() == "mine"
