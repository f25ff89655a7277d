"""A containment keeps the frames as they were found, its notice, and for each frame who was told and what came back."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.contain import (
    ActTold,
    ContainmentFile,
    ContainmentRefused,
    ContainmentTold,
    add_act,
    contain,
    containment_file,
)
from server.work.refusal import NotThere
from tests.work.small_shop import open_shop, tell

TOLD = ContainmentTold("cylinder G-1", ("SW-1",), "it was on the line by its change", "please do not use it", "OWN")
ACT = ActTold("", "SW-1", "told", now_ms() - 1000, "written and telephoned", "OWN", to="CU-1")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def start(shop: Record, **told: object) -> str:
    wanted = replace(TOLD, **told)  # type: ignore[arg-type]
    return shop.write(lambda reads: contain(reads, wanted, now_ms())).result()


def add(shop: Record, **told: object) -> str:
    act = replace(ACT, **told)  # type: ignore[arg-type]
    return shop.write(lambda reads: add_act(reads, act, now_ms())).result()


def read(shop: Record, number: str) -> ContainmentFile:
    with shop.reads() as reads:
        return containment_file(reads.registers(), number)


def test_a_frame_stands_as_the_last_thing_done_about_it(shop: Record):
    """Nobody was told at first; then told, then answered, by the time it happened and not the time it was written."""
    number = start(shop)
    assert read(shop, number).frames[0].stands == "not told yet"
    add(shop, containment=number, act="answer", words="will bring it", at_ms=ACT.at_ms + 500)
    add(shop, containment=number)
    (frame,) = read(shop, number).frames
    assert [each.act for each in frame.steps] == ["told", "answer"]
    assert (frame.stands, len(read(shop, number).waiting)) == ("answer", 1)
    add(shop, containment=number, act="done", words="looked at: sound", at_ms=ACT.at_ms + 900)
    assert read(shop, number).waiting == []


def test_who_has_a_frame_is_read_when_it_is_asked(shop: Record):
    """A frame that is shipped after the containment was opened shows its customer."""
    number = start(shop)
    assert read(shop, number).frames[0].has_it == ""
    tell(shop, kind="shipment", id="S-7", frame="SW-1", customer="CU-1", at="2030-01-02T10:00:00.000Z")
    with shop.reads() as reads:
        name = reads.registers().customers["CU-1"].name
    assert read(shop, number).frames[0].has_it == name


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"frames": ()}, "frames: none"),
        ({"frames": ("SW-9",)}, "frames: 'SW-9' is no serial"),
        ({"title": " "}, "title: ' ' is too short"),
        ({"because": ""}, "because: '' is too short"),
        ({"notice": ""}, "notice: '' is too short"),
        ({"claim": "W-9"}, "claim: 'W-9' is no claim"),
    ],
)
def test_what_is_wrong_with_a_containment_is_named(shop: Record, wrong: dict[str, object], said: str):
    """A containment that cannot stand is refused with the field, the value and what to do."""
    with pytest.raises(ContainmentRefused, match=said):
        start(shop, **wrong)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"frame": "SW-9"}, "frame: 'SW-9' is not in"),
        ({"act": "gossiped"}, "act: 'gossiped'"),
        ({"at_ms": now_ms() + 86_400_000}, "at: .* has not come yet"),
        ({"to": ""}, "to: empty; write who was told"),
        ({"words": ""}, "words: '' is too short"),
    ],
)
def test_what_is_wrong_with_a_step_is_named(shop: Record, wrong: dict[str, object], said: str):
    """A step that cannot stand is refused with the field, the value and what to do."""
    number = start(shop)
    with pytest.raises(ContainmentRefused, match=said):
        add(shop, containment=number, **wrong)


def test_an_unknown_containment_is_said(shop: Record):
    """Nothing is added to a containment that is not there."""
    with pytest.raises(NotThere, match="CT-0"):
        add(shop, containment="CT-0")
