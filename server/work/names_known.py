"""Whom the record knows by name: every part of a name, its initials, ids and addresses, each with whose it is."""

import json
import re
import unicodedata
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, fields
from functools import cached_property
from typing import NamedTuple, TypeAlias

from server.facts.customers import NamelessCustomer
from server.facts.registers import Registers
from server.record.reads import Reads
from server.work.everyday_words import everyday_words, words_of

A_CUSTOMER = "a customer"
AN_ADDRESS = "an address"
WORD = re.compile(r"[^\W_](?:[^\W_]|[\u0300-\u036f])*")
Earlier: TypeAlias = Mapping[str, frozenset[str]]
"""Names that people (by id) and customers (by number) were told under before."""

_NO_MARK = str.maketrans({"ø": "o", "æ": "ae", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "œ": "oe"})
_SPELLED_OUT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe"})
_PARTED = re.compile(r"[\s-]+")
_OWN_KEYS = ("people", "customers", "customer_removals", "positions", "looked_up")
_SHORTEST_STREET = 6


class Whose(NamedTuple):
    """One spelling, and whom it may mean."""

    spelled: str
    who: str


class Spoken(NamedTuple):
    """A name as it may be spoken: the words that name somebody by themselves, its initials, and whom it means."""

    words: tuple[str, ...]
    initials: str
    who: str


def folded(word: str) -> str:
    """Give a word without capitals and without marks, as somebody in a hurry types it.

    >>> folded("Ørsted"), folded("ZOË")
    ('orsted', 'zoe')
    """
    if word.isascii():
        return word.lower()
    apart = unicodedata.normalize("NFKD", word.casefold())
    return "".join(each for each in apart if not unicodedata.combining(each)).translate(_NO_MARK)


def plain_mark(words: str) -> str:
    """Give words with the apostrophe that is on every keyboard."""
    return words.replace("’", "'")


def spellings(word: str) -> set[str]:
    """Give the ways a word is typed: without its marks, or with them spelled out."""
    if word.isascii():
        return {word.lower()}
    whole = unicodedata.normalize("NFC", word.casefold())
    return {folded(word), folded(whole.translate(_SPELLED_OUT))}


@dataclass(frozen=True)
class KnownNames:
    """The people and customers of the registers, with the names they had before."""

    registers: Registers
    earlier: Earlier

    @cached_property
    def roles(self) -> dict[str, str]:
        """Each person's id with what stands for it: `welder 1`."""
        found: dict[str, str] = {}
        counted: dict[str, int] = defaultdict(int)
        for person in sorted(self.registers.people.values(), key=lambda each: each.id):
            role = person.roles[0] if person.roles else "person"
            counted[role] += 1
            found[person.id] = f"{role} {counted[role]}"
        return found

    @cached_property
    def parts(self) -> dict[str, list[Whose]]:
        """The words of names, by how they are typed."""
        found: dict[str, list[Whose]] = defaultdict(list)
        for said in self._spoken:
            for word in said.words:
                for typed in spellings(word):
                    found[typed].append(Whose(word, said.who))
        return found

    @cached_property
    def initials(self) -> dict[str, set[str]]:
        """Who has which initials; of three names also without the middle one. A firm has none."""
        found: dict[str, set[str]] = defaultdict(set)
        for said in self._spoken:
            if said.who in self.roles and len(said.initials) > 1:
                found[said.initials].add(said.who)
                found[said.initials[0] + said.initials[-1]].add(said.who)
        return found

    @cached_property
    def phrases(self) -> dict[str, list[Whose]]:
        """Whole names, addresses and ids, by how their first two words are typed, or their only one."""
        found: dict[str, list[Whose]] = defaultdict(list)
        for phrase, who in self._phrases():
            if words := list(WORD.finditer(phrase)):
                head = " ".join(folded(each[0]) for each in words[:2])
                found[head].append(Whose(phrase[words[0].start() :], who))
        return {head: sorted(said, key=lambda each: -len(each.spelled)) for head, said in found.items()}

    @cached_property
    def beginnings(self) -> frozenset[str]:
        """The first words of all of these; any other word begins no name, which most words are."""
        return frozenset((*self.parts, *(head.partition(" ")[0] for head in self.phrases)))

    @cached_property
    def everyday(self) -> frozenset[str]:
        """Words that in small letters are the bench's or the drawing's own."""
        designs = self.registers.designs.values()
        joints = (joint.title for design in designs for joint in design.joints)
        members = (member.title for design in designs for member in design.members)
        return everyday_words() | words_of(*(design.title for design in designs), *joints, *members)

    @cached_property
    def places(self) -> frozenset[str]:
        """Joints and tubes, as they stand on the drawings."""
        designs = self.registers.designs.values()
        joints = frozenset(joint.id for design in designs for joint in design.joints)
        return joints | {member.id for design in designs for member in design.members}

    def said_for(self, who: Iterable[str]) -> str:
        """Give what stands for one of these: the role where it is one person, else no more than that it is somebody."""
        meant = {self.roles.get(each, A_CUSTOMER if each != AN_ADDRESS else AN_ADDRESS) for each in who}
        return meant.pop() if len(meant) == 1 else "a person"

    def _phrases(self) -> Iterator[Whose]:
        for person in self.registers.people.values():
            if len(person.id) > 1 and not self._also_a_thing(person.id):
                yield Whose(person.id, person.id)
        for customer in self.registers.customers.values():
            yield Whose(customer.id, customer.id)
            for address in (customer.address or "", (customer.address or "").partition(",")[0]):
                if len(address) >= _SHORTEST_STREET and any(map(str.isdigit, address)):
                    yield Whose(address, AN_ADDRESS)
        for who, names in self._names():
            marked = (part.strip(",;.()") for name in names for part in name.split() if "'" in plain_mark(part))
            yield from (Whose(said, who) for said in (*(name for name in names if len(name.split()) > 1), *marked))

    def _also_a_thing(self, name: str) -> bool:
        """An id that is also a joint's or an instrument's is taken for a person only where one stands."""
        registers = self.registers
        named = [getattr(registers, each.name) for each in fields(Registers) if each.name not in _OWN_KEYS]
        kept = any(isinstance(each, Mapping) and name in each for each in named)
        return kept or name in self.places or any(name == procedure for procedure, _ in registers.procedures)

    @cached_property
    def _spoken(self) -> list[Spoken]:
        return [_spoken(name, who) for who, names in self._names() for name in sorted(names)]

    def _names(self) -> Iterator[tuple[str, set[str]]]:
        for person in self.registers.people.values():
            yield person.id, {person.name, *self.earlier.get(person.id, ())}
        for customer in self.registers.customers.values():
            if not isinstance(customer, NamelessCustomer):
                yield customer.id, {customer.name, *self.earlier.get(customer.id, ())}


def names_before(reads: Reads, registers: Registers) -> Earlier:
    """Give the names people and customers were told under at any time: somebody may have married since a note."""
    found: dict[str, set[str]] = defaultdict(set)
    for person in registers.people:
        told = (json.loads(line.body) for line in reads.sendings_of(person) if line.kind == "person")
        found[person] |= {str(each.get("name", "")) for each in told}
    for kept in reads.customer_details():
        if kept.details is not None:
            found[kept.customer].add(_name_in(kept.details))
    return {who: frozenset(names) for who, names in found.items()}


def _name_in(details: bytes) -> str:
    try:
        return str(json.loads(details).get("name", ""))
    except ValueError:
        # Altered details tell no name; check-record names them.
        return ""


def _spoken(name: str, who: str) -> Spoken:
    """What begins with a small letter ("van", "cycle dealers") is no name by itself, unless all of it does."""
    small, parts = name.islower(), list(filter(None, _PARTED.split(name)))
    run_together = ("".join(WORD.findall(part)) for part in parts)
    words = dict.fromkeys((*WORD.findall(name), *run_together))
    first = [part[0] for part in parts if not part[0].islower()]
    return Spoken(tuple(word for word in words if word and (small or not word[0].islower())), "".join(first), who)
