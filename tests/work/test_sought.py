"""What used some things within a time is counted from an index, and is what asking every pass would find."""

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

import pytest

from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work import thing_changes
from server.work import thing_index as index_module
from server.work import used_together as used_together_module
from server.work.frame_places import PLACES, place_of
from server.work.sought import Sought
from server.work.stretch import EVER, Stretch
from server.work.thing_changes import Seen
from server.work.thing_index import ThingIndex, thing_index
from server.work.used_together import used_together
from server.work.what_things import KINDS, Thing, reader
from tests.facts.test_in_parts import few_are_many
from tests.judgement.test_any_order import sent
from tests.occasions.test_carried_on import STAGES, carried, placed, told

EVERY = placed(told([0]))
LONE = """
13:00 pass A1 root frame=X3 purge_line=S-P torch_line=S-T id=lone who=CEL device=ELSE
13:20 correction lone withdraw=yes reason=slip device=ELSE
"""
CUTS = [*range(4, len(EVERY) - len(STAGES), 5), *range(len(EVERY) - len(STAGES), len(EVERY))]
PAPERS = [each % len(STAGES) for each in range(-len(CUTS) - 1, 0)]
"""So that the last papers are told with the last entries."""


@pytest.fixture(autouse=True)
def in_layers() -> Iterator[None]:
    """Lists in parts and mappings in layers, though the shop is small."""
    with few_are_many():
        yield


def things_of(tables: Tables) -> list[Thing]:
    read = {kind: reader(tables, kind) for kind in KINDS}
    return sorted({Thing(kind, name) for kind in KINDS for use in tables.uses.all for name in read[kind](use)})


def asked(tables: Tables, things: Sequence[Thing], stretch: Stretch) -> list[Use]:
    """Ask every pass."""
    reads = [(each.name, reader(tables, each.kind)) for each in things]
    inside = (use for use in tables.uses.all if stretch.holds(use.at.at_ms))
    return [use for use in inside if all(name in read(use) for name, read in reads)]


def told_by_passes(tables: Tables, uses: Sequence[Use]) -> list[object]:
    """What is told of these passes, worked out from each."""
    placed_at = {use.subject: place_of(tables, use, home=False) for use in reversed(uses)}
    frames = {(placed_at[use.subject], use.frame) for use in uses}
    standing = {frame for place, frame in frames if place != "removed"}
    return [
        [use.entry for use in uses], len(uses), len(placed_at), [uses[0].at.at_ms, uses[-1].at.at_ms],
        [sum(at == place for at in placed_at.values()) for place in PLACES],
        [{frame for at, frame in frames if at == place} for place in PLACES],
        standing, len(standing), uses[-1].at.at_ms,
    ]  # fmt: skip


def told_by_index(tables: Tables, found: Sought) -> list[object]:
    uses = list(found.uses)
    frames = [{row.frame for row in found.rows.get(place, ())} for place in PLACES]
    return [
        [use.entry for use in uses], found.passes, found.count, list(found.ends_ms),
        [found.joints_at(place) for place in PLACES], frames, found.frames, found.frames_count,
        found.first_from(uses[-1].at.at_ms),
    ]  # fmt: skip


def questions(tables: Tables) -> Iterator[tuple[tuple[Thing, ...], Stretch]]:
    """Every thing, any two of different kinds, and the same within two stretches of time."""
    things, ends = things_of(tables), [use.at.at_ms for use in tables.uses.all]
    if not ends:
        return
    stretches = EVER, Stretch(ends[len(ends) // 3], ends[-1] - 1), Stretch(until_ms=ends[len(ends) // 2] + 1)
    for things_asked in [*((each,) for each in things), *list(combinations(things, 2))[::3]]:
        yield from ((things_asked, stretch) for stretch in stretches)


def differing(tables: Tables) -> list[tuple[tuple[Thing, ...], Stretch]]:
    index, found = thing_index(tables), []
    for things, stretch in questions(tables):
        known = all(each in index.filed.uses for each in things)
        sought = Sought(tables, index, things, stretch) if known else None
        uses = asked(tables, things, stretch)
        by_index = told_by_index(tables, sought) if sought and sought.rows else []
        if by_index != (told_by_passes(tables, uses) if uses else []):
            found.append((things, stretch))
    return found


def test_counted_as_by_asking_every_pass():
    """Each thing of each kind, two together, and within a time: passes, joints, places, frames and ends are those."""
    *_, (tables, _) = carried(EVERY, CUTS, PAPERS)
    assert {each.kind for each in things_of(tables)} == set(KINDS)
    assert differing(Tables(_, None)) == []


def parts(index: ThingIndex) -> dict[str, object]:
    return index.filed._asdict() | {"left": index.left}


def differing_when_carried_on() -> list[object]:
    """What the index carried on from state to state says otherwise than one made of that state alone, by itself or of
    what was asked within a time or of two things; of these the last one is asked about every third time."""
    *_, (last, _) = carried(EVERY, CUTS, PAPERS)
    found: list[object] = []
    every = [each for each in questions(last) if len(each[0]) > 1 or each[1] != EVER]
    pairs = every[::16]
    assert {(len(things), stretch == EVER) for things, stretch in pairs} == {(1, False), (2, False), (2, True)}
    assert 10 < len(pairs) <= used_together_module._KEPT
    for number, (tables, known) in enumerate(carried(EVERY, CUTS, PAPERS)):
        alone = Tables(known, None)
        anew, now = thing_index(alone), thing_index(tables)
        found += [name for name, told in parts(anew).items() if told != parts(now)[name]]
        for pair in pairs if number % 3 == 0 else pairs[:-1]:
            wanted, told = used_together(alone, anew, *pair), used_together(tables, now, *pair)
            found += [pair] if wanted != told else []
    return found


def test_carried_on_as_made_anew():
    """After each stretch of two days' work, with papers of every room told in between, nothing is counted otherwise."""
    assert differing_when_carried_on() == []


def test_a_frame_of_which_nothing_is_left_goes():
    """A frame whose only pass is taken back stands under nothing any more."""
    every = placed([*told([0]), *sent(LONE)])
    *_, before, with_it, without = (thing_index(tables) for tables, _ in carried(every, range(1, len(every)), [1]))
    assert with_it.filed.frames.keys() - before.filed.frames.keys() == {"X3"}
    assert parts(without) == parts(before) != parts(with_it)


def test_what_was_asked_last_is_kept(monkeypatch: pytest.MonkeyPatch):
    """The questions asked last are kept as they were answered, another one in the place of the oldest."""
    monkeypatch.setattr(used_together_module, "_KEPT", 2)
    *_, (tables, _) = carried(EVERY, CUTS, PAPERS)
    index, pairs = thing_index(tables), list(combinations(things_of(tables), 2))[:3]
    first, second = (used_together(tables, index, each) for each in pairs[:2])
    assert used_together(tables, index, pairs[0]) is first
    used_together(tables, index, pairs[2])
    assert used_together(tables, index, pairs[0]) is first
    again = used_together(tables, index, pairs[1])
    assert (again is second, again) == (False, second)


@pytest.mark.parametrize("part", thing_changes.PARTS)
def test_who_forgets_a_change_is_found_out(monkeypatch: pytest.MonkeyPatch, part: Callable[[Seen, Seen], set[str]]):
    """Control: where what a paper or a line tells otherwise is left out, the index says what was so before."""
    monkeypatch.setattr(thing_changes, "PARTS", [each for each in thing_changes.PARTS if each is not part])
    assert differing_when_carried_on() != []


def test_a_frame_not_read_again_is_found_out(monkeypatch: pytest.MonkeyPatch):
    """Control: where frames are not read anew at all, the counts differ from those of every pass."""
    monkeypatch.setattr(index_module, "changed_frames", lambda *_: set())
    assert differing_when_carried_on() != []
