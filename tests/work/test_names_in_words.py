"""A name that the record knows is taken out of typed words in every way it is typed, and nothing else is."""

from collections.abc import Iterator

import pytest

from server.facts.design import Design, Joint, Member
from server.facts.orders import Customer
from server.facts.people import Person, Role
from server.facts.registers import Registers
from server.work.names_in_words import told_words, typed_words
from server.work.names_known import KnownNames


def _people() -> Iterator[Person]:
    of: tuple[tuple[str, str, Role], ...] = (
        ("W01", "Bea Garlin", "welder"), ("W02", "Stig Tormo", "welder"), ("W03", "Al Rod", "welder"),
        ("W04", "Zoë Ørby-Lang", "welder"), ("W05", "Sven Garlin", "welder"), ("W06", "Milo Tadd", "welder"),
        ("M01", "Pat O'Hallan", "fitter"), ("LEA", "Lea Marsh", "owner"), ("A", "Ann Ash", "finisher"),
        ("J01", "Jon Van Dorp", "office"), ("M02", "Ivo Sand", "fitter"),
        ("M03", "Ida Ekholt", "fitter"), ("M04", "Ike Vorn", "fitter"),
    )  # fmt: skip
    return (Person(id=id, name=name, roles=(role,)) for id, name, role in of)


def _design() -> Design:
    tube = Member(id="IV", title="inner sleeve", metal="Ti", od_mm=30, wall_mm=1, length_mm={})
    seam = {"title": "seat tube on shell", "parts": ("IV", "IV"), "procedure": "P1", "seam_mm": 90, "inside": "F"}
    joint = Joint.model_validate(seam | {"id": "J01", "at": "N", "stage": "D0"})
    return Design(name="SHED", title="Shed", kind="cycle", sizes=(), nodes={}, members=(tube,), joints=(joint,))


CUSTOMERS = (
    Customer(id="C-07", name="Harle & Quint, cycle dealers, Nether Mere", address="12 Ropers Row, Mere"),
    Customer(id="C-08", name="Tolland Seating Clinic"),
    Customer(id="C-09", name="Edda Fenn"),
)


@pytest.fixture(scope="module")
def known() -> KnownNames:
    people, customers = {each.id: each for each in _people()}, {each.id: each for each in CUSTOMERS}
    registers = Registers(people=people, customers=customers, designs={"SHED": _design()})
    return KnownNames(registers, {"W02": frozenset({"Stig Farrel"})})


NAMED = {
    "Bea Garlin said so": "[welder 1] said so",
    "BEA GARLIN": "[welder 1]",
    "asked bea, cup was dirty": "asked [welder 1], cup was dirty",
    "Bea's and Stigs torch": "[welder 1]'s and [welder 2]s torch",
    "Garlin, Bea": "[welder 1]",
    "bea_garlin@shop": "[welder 1]@shop",
    "as Garlin says": "as [a person] says",
    "B. Garlin, S. Garlin": "[welder 1], [welder 5]",
    "with Bea G.; Sven G": "with [welder 1]; [welder 5]",
    "B.G. and b.g. and B. G.": "[welder 1] and [welder 1] and [welder 1]",
    "redone BG 14/3, seen ST/BG": "redone [welder 1] 14/3, seen ST/[welder 1]",
    "ask w01 or W02": "ask [welder 1] or [welder 2]",
    "zoe orby of ZOË, Zoe\u0308 Ørby": "[welder 4] of [welder 4]",
    "Oerby-Lang": "[welder 4]",
    "O'Hallan, o’hallan, ohallan": "[fitter 1]",
    "Al Rod, and Rod alone": "[welder 3], and [welder 3] alone",
    "M.T. looked": "[welder 6] looked",
    "Stig Farrel before the wedding": "[welder 2] before the wedding",
    "lea was told by LEA": "[owner 1] was told by [owner 1]",
    "Van Dorp rang": "[office 1] rang",
    "for Harle & Quint, cycle dealers, Nether Mere": "for [a customer]",
    "quint of C-07, c-08": "[a customer] of [a customer], [a customer]",
    "Edda of tolland rang": "[a customer] of [a customer] rang",
    "sent to 12 ropers row": "sent to [an address]",
}
NOT_NAMED = (
    "Al 6.1 %, V 4.0 %, rest Ti", "rod ends read twice", "sand on the bead, ash on the tip", "the clinic's dealers",
    "MT and PT done, nothing seen", "IV landed on J01, it IS dull", "A 38, 38 A at 10 V", "J01 q6 dull", "stigma",
    "BG-1 read 40 ppm", "cylinder BG 0317 on", "set-up LST-BG", "heat F9-W01", "beacon, beads and beams", "garlinge",
    "grade 3. B. then q6", "i.e. T1 rev B, a.m. shift", "bg in small letters", "van came late", "JV of the tube",
)  # fmt: skip


@pytest.mark.parametrize("typed", NAMED)
def test_a_name_is_found_however_it_is_typed(known: KnownNames, typed: str):
    """Whole, in part, in any letters, as initials, as an id; where two may be meant it is a person and no more."""
    assert typed_words(typed, known).words == NAMED[typed]


@pytest.mark.parametrize("typed", NOT_NAMED)
def test_what_only_looks_like_a_name_stays(known: KnownNames, typed: str):
    """Units, elements, tubes, joints, tests, codes, trade words and longer words stand as they were typed."""
    assert typed_words(typed, known) == (typed, 0)


def test_places_are_counted(known: KnownNames):
    """A whole name is one place, however many words it has."""
    assert typed_words("Bea Garlin, then Stig and Pat O'Hallan", known).places == 3


def test_what_the_house_says_keeps_its_words(known: KnownNames):
    """In words nobody typed a name stands as it is registered; a trade word at the head of a sentence is none."""
    said = told_words("Rod size 1.1 mm; W01's paper, Bea Garlin", known)
    assert said == "Rod size 1.1 mm; welder 1's paper, welder 1"
