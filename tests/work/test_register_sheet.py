"""Register files: every table a line, every slip at its place."""

import pytest

from server.facts.moment import parse_moment
from server.sheets.complaint import Complaint, SheetRefused
from server.work.register_sheet import read_register

PERSON = '[[person]]\nid = "p"\nname = "A B"\nroles = ["welder"]\n'
PACKET = '[[packet]]\nframe = "X-1"\ndesign = "D"\nsize = "52"\nissued = 2025-01-06T06:40:00+01:00\n'


def complaints(text: str) -> tuple[Complaint, ...]:
    with pytest.raises(SheetRefused) as refused:
        read_register(text, "some.toml")
    return refused.value.complaints


def test_every_table_becomes_a_line() -> None:
    """Tables of several kinds in one file become their nouns, with the words they were told in."""
    lines = read_register(PERSON + '[[bench]]\nid = "b"\ntitle = "t"\ntorch_line = "x"\npurge_line = "y"\n', "f.toml")
    assert [(line.noun.kind, line.noun.id) for line in lines] == [("person", "p"), ("bench", "b")]
    assert lines[0].body_at(7) == b'{"id":"p","kind":"person","name":"A B","roles":["welder"]}'


def test_received_at_is_when_the_record_learned_it() -> None:
    """`received_at` is kept beside the noun and never inside it; without it the line is known from the start."""
    early, late = read_register(PERSON + PERSON + "received_at = 2025-09-15T07:20:00+02:00\n", "f.toml")
    assert early.received_ms is None
    assert late.received_ms == parse_moment("2025-09-15T05:20:00Z")
    assert late.words == early.words


def test_two_words_make_a_table_with_an_underscore() -> None:
    """A kind of two words is headed with an underscore."""
    (line,) = read_register('[[filler_lot]]\nid = "L"\nfiller_class = "c"\n', "f.toml")
    assert line.noun.kind == "filler lot"


def test_pieces_of_a_packet_become_lines() -> None:
    """Each member of a packet's pieces becomes a piece known when the packet is; an empty text is a lost tag."""
    told = PACKET + 'received_at = 2025-01-06T06:40:00+01:00\npieces = { ST = "H1", DT = "" }\n'
    packet, first, second = read_register(told, "f.toml")
    assert packet.noun.id == "X-1"
    assert (first.noun.id, first.noun.heat, first.received_ms) == ("X-1 ST", "H1", packet.received_ms)
    assert second.noun.heat is None


def test_what_is_named_by_its_fields_needs_no_id() -> None:
    """A confirmation is named by its qualification and day; an id that is given stands."""
    told = '[[confirmation]]\nqualification = "Q1"\ndated = 2025-03-10\nby = "lead"\n'
    assert read_register(told, "f.toml")[0].noun.id == "Q1 2025-03-10"
    assert read_register(told + 'id = "own"\n', "f.toml")[0].noun.id == "own"


def test_one_figure_leaves_the_diameter_open() -> None:
    """A diameter range of one figure is open above, and is sealed in the words it was told in."""
    told = (
        '[[qualification]]\nid = "Q"\nwelder = "p"\nprocedures = ["A"]\nthickness_mm = [0.7, 2.0]\n'
        'diameter_mm = [12.7]\nissued = 2025-01-07\nstandard = "s"\n'
    )
    (line,) = read_register(told, "f.toml")
    assert line.noun.diameter_mm == (12.7, None)
    assert line.words["diameter_mm"] == ["12.7"]


def test_a_broken_file_names_its_line() -> None:
    """What is no TOML is named with file and line."""
    (told,) = complaints(PERSON + "name = \n")
    assert (told.file, told.line) == ("some.toml", 5)


def test_a_wrong_value_names_line_field_value_and_what_is_expected() -> None:
    """A role nobody can have is named at its line, with those one can."""
    (told,) = complaints(PERSON.replace("welder", "chef"))
    assert (told.line, told.value) == (4, "'chef'")
    assert "roles" in told.field
    assert "'welder'" in told.expected


def test_an_unknown_table_is_named_with_the_known_ones() -> None:
    """A table of no known kind is named, with the kinds there are."""
    (told,) = complaints('[[persn]]\nid = "p"\n')
    assert (told.line, told.field) == (1, "persn")
    assert "person" in told.expected


def test_a_moment_without_an_offset_is_refused() -> None:
    """`received_at` without an offset says no moment; the complaint shows how to write one."""
    (told,) = complaints(PERSON + "received_at = 2025-01-06T06:40:00\n")
    assert (told.line, told.field) == (5, "person[p].received_at")
    assert "+02:00" in told.instead


def test_pieces_that_are_no_table_are_refused() -> None:
    """Pieces have to be members with their heats."""
    (told,) = complaints(PACKET + "pieces = 3\n")
    assert (told.line, told.value) == (6, "3")


def test_everything_wrong_is_said_at_once() -> None:
    """Slips in several tables are all told, in the order of their lines."""
    told = complaints(PERSON.replace("welder", "chef") + PACKET + "colour = 1\n" + '[[bench]]\nid = "b"\n')
    assert [complaint.line for complaint in told] == sorted(complaint.line for complaint in told)
    assert {"'chef'", "1", "missing"} <= {complaint.value for complaint in told}
