"""A register line of a folder: what it is known by, and what is sealed."""

from server.evidence.canonical import parse_line
from server.facts.deciding import Permission
from server.work.folder_line import NOUNS, FolderLine, line_of
from server.work.register_sheet import read_register

SIGNED = {
    "person": "p", "role": "owner", "at": "2025-03-28T10:00:00Z", "meaning": "released", "shown_sha256": "0" * 64
}  # fmt: skip
RELEASE = {"kind": "permission", "id": "r", "permits": "release", "frame": "X-1", "signatures": [SIGNED]}


def permission(**fields: object) -> FolderLine:
    told = {**RELEASE, **fields}
    return line_of(Permission.model_validate({"known_at": 0, **told}), told, None)


def test_every_kind_of_register_line_has_its_noun() -> None:
    """Each kind the record knows is a kind a folder can tell."""
    assert {"person", "filler lot", "packet", "narrowing", "procedure", "shop"} <= set(NOUNS)


def test_the_same_words_are_the_same_line() -> None:
    """Lines are told apart by their words and by nothing else."""
    first, second = (read_register('[[customer]]\nid = "c"\nname = "A"\n', name)[0] for name in ("a.toml", "b.toml"))
    other = read_register('[[customer]]\nid = "c"\nname = "B"\n', "a.toml")[0]
    assert first.digest == second.digest != other.digest


def test_a_permission_is_told_the_position_it_is_loaded_at() -> None:
    """The position a gate judged at is filled in where the folder leaves it open, and changes nothing of its digest."""
    line = permission()
    assert parse_line(line.body_at(41)) == {**RELEASE, "known_at": 41}
    assert line.digest == permission(known_at=41).digest
    assert parse_line(permission(known_at=5).body_at(41)) == {**RELEASE, "known_at": 5}
