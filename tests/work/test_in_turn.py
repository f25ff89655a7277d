"""Costly work runs two at a time: a third waits until one is done, or is told to come again."""

import asyncio

import pytest

from server.work.in_turn import ComeAgain, Turns


def test_a_third_waits_until_one_is_done():
    """Two turns are taken at once; the third is had only after one was given back."""
    turns, had = Turns(2, 30), list[str]()

    async def third() -> None:
        await turns.take()
        had.append("third")

    async def all_three() -> list[str]:
        await turns.take()
        await turns.take()
        waiting = asyncio.create_task(third())
        await asyncio.sleep(0.2)
        before = list(had)
        turns.give_back()
        await asyncio.wait_for(waiting, 5)
        return before

    assert asyncio.run(all_three()) == []
    assert had == ["third"]


def test_patience_ends_in_words():
    """Who waited long enough is told so, and takes nobody's turn."""
    turns = Turns(1, 0.1)

    async def twice() -> None:
        await turns.take()
        with pytest.raises(ComeAgain, match="Ask again"):
            await turns.take()
        turns.give_back()
        await turns.take()

    asyncio.run(twice())
