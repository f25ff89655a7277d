"""Serials found in one look through all of them are those a look at each finds."""

import random

from server.facts.orders import Packet
from server.work.serials import Serials


def test_found_in_one_look_as_one_by_one():
    """Whatever letters are asked for, across two serials too: the same ones in the same order, each once."""
    dice = random.Random(3)
    names = ["".join(dice.choice("aAB-1") for _ in range(dice.randint(1, 6))) for _ in range(200)]
    packets = [Packet.model_construct(id=name, frame=name, design="D", size="56", issued=0) for name in names]
    found = 0
    for _ in range(300):
        letters = "".join(dice.choice("ab-1\n") for _ in range(dice.randint(0, 4)))
        plain = [each for each in packets if letters in each.frame.lower()]
        assert list(Serials(packets).having(letters)) == plain, letters
        found += 0 < len(plain) < 200
    assert found > 50
    assert not Serials([]).having("a")
