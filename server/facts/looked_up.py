"""What was gathered from registers once, for as long as what it was gathered from stays the same."""

from collections.abc import Callable, Hashable, Iterable, Mapping
from typing import Any, TypeVar

from server.facts.layered import Layered, layered
from server.facts.registers import Registers

Answer = TypeVar("Answer")
Paper = TypeVar("Paper")
Name = TypeVar("Name", bound=Hashable)
_Known = tuple[tuple[Any, ...], Any]


def looked_up(registers: Registers, name: str, sources: tuple[object, ...], read: Callable[[], Answer]) -> Answer:
    """Give what was read from these very sources, or read it; a register that is told more of is another source."""
    known = _known(registers, name)
    if known is not None and all(map(_same, known[0], sources)):
        found: Answer = known[1]
        return found
    answer = read()
    registers.looked_up[name] = sources, answer
    return answer


def carried_up(
    registers: Registers,
    name: str,
    papers: Mapping[str, Paper],
    read: Callable[[Mapping[str, Answer], Iterable[Paper]], Mapping[str, Answer]],
) -> Mapping[str, Answer]:
    """Give what is read off papers into what was read off those before; off all of them where one was told anew."""

    def anew() -> Mapping[str, Answer]:
        known = _known(registers, name)
        new = only_new(known[0][0], papers) if known is not None else None
        return read({}, papers.values()) if known is None or new is None else read(known[1], new)

    return looked_up(registers, name, (papers,), anew)


def gathered(
    registers: Registers, name: str, papers: Mapping[str, Paper], names: Callable[[Paper], Iterable[str]]
) -> Mapping[str, tuple[Paper, ...]]:
    """Give papers by each of the names they bear, in the order told; papers told since are put to those known."""
    return carried_up(registers, name, papers, lambda known, more: _with(known, more, names))


def only_new(before: Mapping[Name, Paper], now: Mapping[Name, Paper]) -> list[Paper] | None:
    """Give the papers that came to those of before; none where one of before was told anew, or is not there."""
    if now is before:
        return []
    came = now.came_since(before) if isinstance(now, Layered) else None
    if came is not None:
        return list(came.values())
    names, papers, count = list(now), list(now.values()), len(before)
    same = list(before) == names[:count] and list(before.values()) == papers[:count]
    return papers[count:] if same else None


def _with(
    known: Mapping[str, tuple[Paper, ...]], more: Iterable[Paper], names: Callable[[Paper], Iterable[str]]
) -> Mapping[str, tuple[Paper, ...]]:
    found: dict[str, list[Paper]] = {}
    for each in more:
        for name in dict.fromkeys(names(each)):
            found.setdefault(name, []).append(each)
    return layered(known, {name: (*known.get(name, ()), *of_one) for name, of_one in found.items()})


def _known(registers: Registers, name: str) -> _Known | None:
    known: _Known | None = registers.looked_up.get(name)
    return known


def _same(one: object, other: object) -> bool:
    return one is other
