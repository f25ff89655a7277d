"""What is at hand at a bench, found by its names, is what going through every window and instrument finds."""

import random

from server.facts.equipment import Bench, Instrument, Uncertainty, Window
from server.facts.registers import Registers
from server.work.at_hand import at_hand

BENCHES = ("B1", "B2", None)


def shop(seed: int) -> Registers:
    """Instruments of two benches and of none, brought here and there, some of them to no bench that is named."""
    dice = random.Random(seed)
    reads = [Uncertainty(quantity=name, unit="1") for name in ("oxygen", "travel")]
    names = [f"I{number}" for number in range(9)]
    instruments = {
        name: Instrument(
            id=name, title=name, bench=dice.choice(BENCHES), reads=tuple(dice.sample(reads, dice.randint(0, 2)))
        )
        for name in names
    }
    windows = [brought(dice, f"W{number}", dice.choice([*names, "I99"])) for number in range(dice.randint(0, 14))]
    return Registers(instruments=instruments, windows={each.id: each for each in windows})


def brought(dice: random.Random, name: str, subject: str) -> Window:
    """A stretch of time in which something was at a bench, or said to be at none."""
    return Window.model_construct(
        id=name,
        what=dice.choice(("instrument at bench", "instrument at bench", "fixture at bench")),
        subject=subject,
        bench=dice.choice(BENCHES),
        since=dice.randint(0, 5),
        until=dice.choice((None, dice.randint(5, 9))),
    )


def gone_through(registers: Registers, bench: str, at_ms: int) -> list[str]:
    """Give the names by looking at all there are: those here, the ones brought here first, the shared ones last."""
    windows = [each for each in registers.windows.values() if each.what == "instrument at bench"]
    still = [each for each in windows if each.since <= at_ms and (each.until is None or at_ms < each.until)]
    where = {each.subject: each.bench for each in still}
    instruments = registers.instruments.values()
    here = [each for each in instruments if each.reads and where.get(each.id, each.bench) in (None, bench)]
    here.sort(key=lambda each: (where.get(each.id) != bench, each.bench is None, each.id))
    return [each.id for each in here]


def test_found_by_name_as_gone_through() -> None:
    """However instruments were carried about, a bench has those that a walk through all windows finds, in its order."""
    seen = set()
    for seed in range(300):
        registers, at_ms = shop(seed), seed % 10
        for bench in ("B1", "B2"):
            asked = Bench(id=bench, title="a booth", torch_line="T", purge_line="P")
            found = [each.id for each in at_hand(registers, asked, at_ms).instruments]
            assert found == gone_through(registers, bench, at_ms), (seed, bench)
            seen.add(len(found))
    assert seen >= {1, 2, 3, 4, 5, 6}
