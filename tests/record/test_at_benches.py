"""What is on the lines and open of the sleeves, carried on entry by entry, is what going through all of them gives."""

import json
import random
from functools import partial
from typing import Any

from server.record.at_benches import AtBenches, KnownAtBenches, Row, Things, Told, with_rows

LINES = ("T", "P")
NAMES = [*"ABC", *(f"C{number}" for number in range(60))]


def entries(seed: int) -> list[Row]:
    """Cylinders and sleeves that happened in another order than they arrived, some taken back, also ahead."""
    dice = random.Random(seed)
    told: list[dict[str, Any]] = []
    for number in range(60):
        at = {"id": f"E{number}", "happened": f"2026-01-{dice.randint(1, 28):02}"}
        cylinder = {"kind": "cylinder", "line": dice.choice(LINES), "on": f"C{number}"}
        sleeve = {"kind": "sleeve", "sleeve": dice.choice("ABC"), "act": dice.choice(("opened", "closed", "checked"))}
        back = {"kind": "correction", "of": f"E{dice.randint(0, 59)}", "withdraw": dice.random() < 0.5}
        told.append(at | dice.choice((cylinder, cylinder, sleeve, sleeve, sleeve, back)))
    return [(position, json.dumps(each).encode()) for position, each in enumerate(told, 1)]


def between(rows: list[Row], after: int, position: int) -> list[Row]:
    return rows[after:position]


def about(rows: list[Row], asked: list[int], things: Things, position: int) -> list[Row]:
    """Give what was told of some lines and sleeves up to a position, and note how many rows that were."""
    wanted = {name for _, name in things}
    found = [row for row in rows[:position] if (told := json.loads(row[1]))["kind"] != "correction"
             and (told.get("line") or told.get("sleeve")) in wanted]  # fmt: skip
    asked.append(len(found))
    return found


def gone_through(rows: list[Row]) -> tuple[dict[str, str], list[tuple[str, str]]]:
    """The cylinder on each line and the open sleeves with since when, by going through all as they happened."""
    told = [json.loads(body) for _, body in rows]
    back = {each["of"] for each in told if each["kind"] == "correction" and each["withdraw"]}
    lines: dict[str, str] = {}
    is_open: dict[str, str] = {}
    for each in sorted((each for each in told if each["id"] not in back), key=lambda each: str(each["happened"])):
        if each["kind"] == "cylinder":
            lines[each["line"]] = each["on"]
        elif each["kind"] == "sleeve" and each["act"] == "closed":
            is_open.pop(each["sleeve"], None)
        elif each["kind"] == "sleeve" and each["act"] == "opened":
            is_open[each["sleeve"]] = each["happened"]
    return lines, list(is_open.items())


def taken(rows: list[Row]) -> set[str]:
    """What was put on a line, or opened or closed as a sleeve, and not taken back."""
    told = [json.loads(body) for _, body in rows]
    back = {each["of"] for each in told if each["kind"] == "correction" and each["withdraw"]}
    acts = [each for each in told if each["kind"] != "correction" and each["id"] not in back]
    return {each.get("on") or each["sleeve"] for each in acts if each.get("act") != "checked"}


def as_told(shared: list[Told]) -> tuple[dict[str, str], list[tuple[str, str]]]:
    acts = [(each["sleeve"], each["happened"]) for each in shared if each["kind"] == "sleeve"]
    return {each["line"]: each["on"] for each in shared if each["kind"] == "cylinder"}, list(dict(acts).items())


def test_carried_on_as_gone_through():
    """However it arrives and whatever is taken back, each further entry leaves what a walk through all would find."""
    for seed in range(20):
        rows, known, again = entries(seed), KnownAtBenches(), list[int]()
        for last in range(1, len(rows) + 1):
            found = known.up_to(last, partial(between, rows), partial(about, rows, again))
            assert as_told(found.shared(LINES)) == gone_through(rows[:last]), (seed, last)
        assert {name for name in NAMES if found.taken_before(name)} == taken(rows), seed
        assert sum(again) < len(rows) * 2


def test_who_does_not_read_again_is_found_out():
    """Control: where nothing is told again of a thing whose last entry is taken back, what was before it is lost."""
    wrong = 0
    for seed in range(20):
        rows, known = entries(seed), KnownAtBenches()
        found = [known.up_to(last, partial(between, rows), lambda *_: []).shared(LINES) for last in range(1, 61)]
        wrong += any(as_told(each) != gone_through(rows[:last]) for last, each in enumerate(found, 1))
    assert wrong


def never(things: Things, position: int) -> list[Row]:
    raise AssertionError(things)


def test_who_looks_further_back_is_told_of_then():
    """Once more is known, an earlier position is read for itself, unless nothing of this came since."""
    rows, asked, known = entries(1), [], KnownAtBenches()

    def read(after: int, position: int) -> list[Row]:
        asked.append((after, position))
        return rows[after:position]

    known.up_to(60, read, never)
    assert as_told(known.up_to(40, read, never).shared(LINES)) == gone_through(rows[:40])
    known.up_to(70, read, never)
    assert known.up_to(65, read, never) is known.up_to(70, read, never)
    assert asked == [(0, 60), (0, 40), (60, 70)]


def test_nothing_but_what_is_needed_is_kept():
    """A sleeve that was opened and closed a hundred times leaves the moment it was closed last, and no act."""
    acts = ({"kind": "sleeve", "id": f"E{n}", "sleeve": "A", "act": ("opened", "closed")[n % 2], "happened": f"{n:03}"}
            for n in range(200))  # fmt: skip
    found = with_rows(AtBenches(), [(n, json.dumps(each).encode()) for n, each in enumerate(acts, 1)])
    assert (dict(found.closed), dict(found.acts)) == ({"A": ("199", 200)}, {})
