"""Whose chains a noun belongs to: its frame, gas lines, instruments, sleeve, people, and the register it stands in."""

from collections.abc import Iterable, Iterator
from functools import cache, lru_cache

from server.evidence.chain_subject import ChainKind, ChainSubject
from server.facts.checking import Check
from server.facts.deciding import Concession, Decision, Nonconformity
from server.facts.equipment import Instrument, Window
from server.facts.log import AnyEntry
from server.facts.materials import RodSleeve
from server.facts.noun import Noun
from server.facts.people import Person
from server.facts.register_line import AnyRegisterLine
from server.facts.second_look import SecondLook
from server.facts.subject import read_joint_subject

_FIELDS: dict[str, ChainKind] = {
    "frame": "frame",
    "line": "gas line",
    "torch_line": "gas line",
    "purge_line": "gas line",
    "trailing_line": "gas line",
    "instrument": "instrument",
    "machine": "instrument",
    "against": "instrument",
    "sleeve": "sleeve",
    "who": "welder",
    "welder": "welder",
}
_ITS_OWN_ID: dict[type[Noun], ChainKind] = {Instrument: "instrument", RodSleeve: "sleeve", Person: "welder"}
NO_FILLER = "none"
_NO_SLEEVE = ChainSubject("sleeve", NO_FILLER)
_VALUES = ("values", "other_values")
_REMEMBERED = 8192


def subjects_of_entry(entry: AnyEntry) -> tuple[ChainSubject, ...]:
    """Give the subjects an entry names, each once; who only corrects an entry gets its subjects from that entry."""
    return _each_once(_named(entry))


def subjects_of_register(line: AnyRegisterLine) -> tuple[ChainSubject, ...]:
    """Give the register a line stands in, and the frames, instruments, sleeves and people it is about."""
    return _each_once([ChainSubject("register", line.kind), *_named(line), *_frames_decided(line)])


def _each_once(found: Iterable[ChainSubject]) -> tuple[ChainSubject, ...]:
    return tuple(sorted(set(found)))


# The same few things are named again and again; one that is there already is quicker to make and to find.
_subject = lru_cache(_REMEMBERED)(ChainSubject)


@cache
def _fields(noun: type[Noun]) -> tuple[tuple[str, ChainKind], ...]:
    own = [("id", _ITS_OWN_ID[noun])] if noun in _ITS_OWN_ID else []
    return (*own, *((name, kind) for name, kind in _FIELDS.items() if name in noun.model_fields))


def _named(noun: Noun) -> set[ChainSubject]:
    told = vars(noun)
    named = {_subject(kind, told[name]) for name, kind in _fields(type(noun)) if told[name]}
    named.discard(_NO_SLEEVE)
    for name in _VALUES:
        if values := told.get(name):
            named |= {_subject("instrument", by) for by in {each.by for each in values.values()} if by}
    if isinstance(noun, Check):
        named.add(_subject("gas line" if noun.check in ("leak", "dew point") else "instrument", noun.subject))
    if isinstance(noun, Window) and noun.what == "instrument at bench":
        named.add(_subject("instrument", noun.subject))
    return named


def _frames_decided(line: AnyRegisterLine) -> Iterator[ChainSubject]:
    if isinstance(line, Concession):
        yield from (ChainSubject("frame", frame) for frame in line.frames)
    if isinstance(line, SecondLook) and (looked := read_joint_subject(line.subject)):
        yield ChainSubject("frame", looked.frame)
    if isinstance(line, Decision | Nonconformity):
        joints = [key.partition("|")[0] for key in line.findings]
        joints += line.held if isinstance(line, Nonconformity) else ()
        yield from (ChainSubject("frame", found.frame) for joint in joints if (found := read_joint_subject(joint)))
