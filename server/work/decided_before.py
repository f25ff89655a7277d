"""What the shop decided the last times it met a cause, and whether the same was found again."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from operator import is_
from typing import Generic, NamedTuple, TypeVar

from server.facts.deciding import Decision, Nonconformity
from server.facts.frame_papers import decisions_by_key
from server.facts.layered import layered
from server.facts.looked_up import carried_up, gathered, looked_up, only_new
from server.facts.registers import Registers
from server.judgement.book import RULES
from server.record.findings_short import Groups
from server.record.reads import Reads

_SHOWN = 5
_CAUSES: Mapping[str, tuple[str, ...]] = {rule.id: tuple(rule.causes) for rule in RULES}
_Paper = TypeVar("_Paper", bound=Decision | Nonconformity)


class DecidedBefore(NamedTuple):
    """One cause: the newest nonconformities and decisions about its questions, how many, and what stands open."""

    cause: str
    nonconformities: tuple[Nonconformity, ...]
    papers: int
    decisions: tuple[Decision, ...]
    decided: int
    still_found: tuple[tuple[str, Sequence[str]], ...]
    """By question, the keys of what is found and under none of these; the question of the first key before others."""

    @property
    def known(self) -> bool:
        """Whether the shop ever decided anything about it."""
        return bool(self.nonconformities or self.decided)


def decided_before(reads: Reads, causes: Iterable[str]) -> list[DecidedBefore]:
    """Give it for some causes, in the order asked."""
    registers, found = reads.registers(), reads.findings_short()
    return [_before(registers, cause, found) for cause in causes]


def read_ahead(reads: Reads) -> None:
    """Put the papers and what stands to every cause, so that the first question does not wait for all of them."""
    decided_before(reads, {cause for causes in _CAUSES.values() for cause in causes})


def _before(registers: Registers, cause: str, found: Groups) -> DecidedBefore:
    papers = _newest_papers(registers).get(cause, _Newest(0, ()))
    decisions = _newest_decisions(registers).get(cause, _Newest(0, ()))
    questions = [question for question, causes in _CAUSES.items() if cause in causes]
    left = {question: _left_open(registers, question, found) for question in questions}
    still = sorted(((question, keys) for question, keys in left.items() if keys), key=lambda item: item[1][0])
    return DecidedBefore(cause, papers.shown, papers.told, decisions.shown, decisions.told, tuple(still))


class _Newest(NamedTuple, Generic[_Paper]):
    told: int
    shown: tuple[_Paper, ...]


def _newest_papers(registers: Registers) -> Mapping[str, _Newest[Nonconformity]]:
    papers, positions = registers.nonconformities, registers.positions
    return _newest(
        registers, "nonconformities", papers, lambda each: (-positions.get(f"nonconformity:{each.id}", 0), 0)
    )


def _newest_decisions(registers: Registers) -> Mapping[str, _Newest[Decision]]:
    def order(decision: Decision) -> tuple[int, int]:
        signed_ms = max(signed.at for signed in decision.signatures)
        return -signed_ms, registers.positions.get(f"decision:{decision.id}", 0)

    return _newest(registers, "decisions", registers.decisions, order)


def _newest(
    registers: Registers, name: str, papers: Mapping[str, _Paper], order: Callable[[_Paper], tuple[int, int]]
) -> Mapping[str, _Newest[_Paper]]:
    """How many papers name a question of each cause, and the newest of them."""

    def read(known: Mapping[str, _Newest[_Paper]], more: Iterable[_Paper]) -> Mapping[str, _Newest[_Paper]]:
        told: dict[str, list[_Paper]] = {}
        for each in more:
            for cause in {cause for key in each.findings for cause in _CAUSES.get(_question(key), ())}:
                told.setdefault(cause, []).append(each)
        return layered(known, {cause: with_more(known.get(cause), of_one) for cause, of_one in told.items()})

    def with_more(known: _Newest[_Paper] | None, more: Sequence[_Paper]) -> _Newest[_Paper]:
        before: _Newest[_Paper] = known or _Newest(0, ())
        return _Newest(before.told + len(more), tuple(sorted((*before.shown, *more), key=order)[:_SHOWN]))

    return carried_up(registers, f"newest {name} by cause", papers, read)


def _left_open(registers: Registers, question: str, found: Groups) -> Sequence[str]:
    """The keys of what stands on a question, in order, that no decision and no nonconformity names."""
    standing = [found.get((question, gates)) for gates in (True, False)]
    told = registers.decisions, registers.nonconformities
    name = f"left open|{question}"
    known = registers.looked_up.get(name)

    def read() -> Sequence[str]:
        if known is not None and all(map(is_, known[0], standing)):
            new = [only_new(before, now) for before, now in zip(known[0][2:], told, strict=True)]
            if None not in new:
                named = {key for papers in new for each in papers or () for key in each.findings}
                own = {key for key in named if key.endswith(f"|{question}")}
                still: Sequence[str] = known[1]
                return [key for key in still if key not in own] if own else still
        decided, under = decisions_by_key(registers), _papers_by_key(registers)
        every = (key for of_one in standing for key in of_one or ())
        return sorted(key for key in every if key not in decided and key not in under)

    return looked_up(registers, name, (*standing, *told), read)


def _papers_by_key(registers: Registers) -> Mapping[str, tuple[Nonconformity, ...]]:
    return gathered(registers, "nonconformities by key", registers.nonconformities, lambda each: each.findings)


def _question(key: str) -> str:
    return key.partition("|")[2]
