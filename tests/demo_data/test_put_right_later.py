"""Judging only what a line touches says what judging everything says, however old work is put right afterwards."""

import random
import shutil
from collections import defaultdict
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from server.facts.log import AnyEntry
from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.work import touched
from server.work.judge_new import judge_new
from server.work.load_folder import load_folder
from server.work.rejudge import Changed, rejudge
from server.work.sent_delivery import from_request
from server.work.shared_level import SharedLevel
from server.work.shop_folder import read_shop_folder
from server.work.take_deliveries import take_deliveries
from tests.story.log import Tablet

_SHARED = ["bead", "check", "cylinder", "sleeve"]
_OPEN_A_LITTLE_LONGER = Changed("sleeve-open-long", new=0, gone=0, other=0)
_A_DAY_MS = 86_400_000
_NAMED = ("who", "torch_line", "purge_line", "line", "sleeve", "frame", "joint", "machine", "run", "on", "subject")
_SAID = {
    "grade": range(9), "side": ["inside", "outside"], "result": ["good", "failed"], "act": ["opened", "closed"],
    "rod_ends": ["ERTi-2", "ERTi-9"], "attempt": [1, 2],
}  # fmt: skip


class Mended:
    """A copy of the judged small shop in which old entries are put right by dice, judged by what changed."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.record = Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)
        self._dice, self._pad, self._level = random.Random(seed), Tablet(f"PAD{seed}"), SharedLevel()
        self._kinds: dict[str, list[AnyEntry]] = defaultdict(list)
        with self.record.reads() as reads:
            for each in reads.every_entry():
                self._kinds[each.entry.kind].append(each.entry)
        self._known = {name: sorted(self._told(name)) for name in _NAMED}

    def _told(self, name: str) -> set[str]:
        return {told for kind in self._kinds.values() for each in kind if (told := getattr(each, name, None))}

    def put_right(self, entry: AnyEntry) -> dict[str, Any]:
        """Take an entry back, say it was earlier or later, or put another of what the shop has in one of its fields."""
        fields = [name for name in (*_NAMED, *_SAID) if getattr(entry, name, None) is not None]
        if entry.kind in _SHARED:
            fields.remove("who")
        name = self._dice.choice(["withdraw", "happened", *fields])
        if name == "withdraw":
            return {"withdraw": True}
        if name == "happened":
            off_ms = self._dice.choice([-40, -1, 1, 40]) * _A_DAY_MS
            return {"change": {name: show_moment(entry.happened + off_ms)}}
        return {"change": {name: self._dice.choice([*_SAID.get(name, self._known.get(name, ()))])}}

    def some(self, kinds: list[str]) -> list[dict[str, Any]]:
        """One correction of an entry of each of these kinds."""
        chosen = [self._dice.choice(self._kinds[kind]) for kind in kinds]
        told = [{"of": each.id, "reason": "put right", **self.put_right(each)} for each in chosen]
        return [self._pad.tell("11:50", "correction", who="Q01", **each) for each in told]

    def any(self, count: int) -> list[dict[str, Any]]:
        """Corrections of entries of kinds that fall."""
        return self.some(self._dice.choices(sorted(self._kinds), k=count))

    def of_every_kind(self) -> list[dict[str, Any]]:
        """Corrections of an entry of every kind there is, and of more of those that many frames rest on."""
        return self.some([*sorted(self._kinds), *_SHARED * 8])

    def differs(self, sent: list[dict[str, Any]]) -> tuple[Changed, ...]:
        """Judge what some corrections touch, then everything: what the second judging says otherwise.

        How long a sleeve stands open is told up to the newest line, and is put on once a day where nothing is told.
        """
        take_deliveries(self.record, [from_request(each, "sent", now_ms()) for each in sent]).result()
        while judge_new(self.record, level=self._level):
            pass
        changed = rejudge(self.record).changed
        return tuple(each for each in changed if each != _OPEN_A_LITTLE_LONGER._replace(other=each.other))


@pytest.fixture(scope="module")
def judged(small: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop, loaded and judged once."""
    folder = tmp_path_factory.mktemp("judged")
    record = Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)
    load_folder(record, read_shop_folder(small), now_ms())
    while judge_new(record):
        pass
    record.close()
    return folder


Open = Callable[[int], Mended]


@pytest.fixture
def mended(judged: Path, tmp_path: Path) -> Iterator[Open]:
    """Copies of it, each for dice of its own."""
    made: list[Mended] = []

    def copy(seed: int) -> Mended:
        made.append(Mended(Path(shutil.copytree(judged, tmp_path / str(seed))), seed))
        return made[-1]

    yield copy
    for each in made:
        each.record.close()


def test_what_is_put_right_is_judged_as_if_all_were_judged_again(mended: Open) -> None:
    """Entries of every kind put right at once: nothing stands otherwise, is missing or is left over."""
    shop = mended(1)
    assert shop.differs(shop.of_every_kind()) == ()


def test_a_correction_that_reaches_only_its_frame_is_seen(mended: Open, monkeypatch: pytest.MonkeyPatch) -> None:
    """Control: where a correction of a cylinder, a bead or a check reaches no other frame, verdicts stay behind."""
    monkeypatch.setitem(touched._REACH, "correction", ())
    shop = mended(1)
    assert shop.differs(shop.of_every_kind()) != ()


@pytest.mark.long
@pytest.mark.parametrize("seed", range(2, 6))
def test_hundreds_put_right_by_dice(mended: Open, seed: int) -> None:
    """Sixty times one to three entries of any kind: judged by what changed as by everything."""
    shop = mended(seed)
    assert [found for _ in range(60) if (found := shop.differs(shop.any(shop._dice.randint(1, 3))))] == []
