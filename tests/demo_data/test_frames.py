"""The skeleton of the demo history: what is built when, where and in which size."""

from collections import Counter
from datetime import date

import pytest

from demo_data.generator.days import LAST, working_days_later
from demo_data.generator.frames import SHIPPED, Frame
from demo_data.generator.joints import seam
from tests.demo_data.told import Told

SLIPPED = [3, 54, 71, 88, 105, 139, 156, 173, 190, 207, 224, 241, 258, 275]


@pytest.fixture
def frames(full: Told) -> list[Frame]:
    """The frames made while the record runs."""
    return [frame for frame in full.shop.frames.values() if not frame.before_the_record]


def test_there_are_so_many_frames(frames: list[Frame]) -> None:
    """284 frames: 142 touring, 106 chairs, 36 step-through, with 4,972 structural joints and 3,128 fittings."""
    assert Counter(frame.design for frame in frames) == {"LST": 142, "PLV": 106, "WHB": 36}
    joints = Counter(seam(joint).structural for frame in frames for joint in frame.joints)
    assert joints == {True: 4972, False: 3128}


def test_stages_follow_one_another(frames: list[Frame]) -> None:
    """The claimed frame starts, is inspected, released and shipped on the days of the story."""
    frame = next(frame for frame in frames if frame.number == 41)
    assert (frame.serial, frame.bench, frame.size) == ("MT-0041", "B1", "60")
    assert [frame.days[stage] for stage in (0, 7, 10, 12)] == [
        date(2025, 3, 17), date(2025, 3, 26), date(2025, 3, 31), date(2025, 4, 2)
    ]  # fmt: skip


def test_some_frames_slip(frames: list[Frame]) -> None:
    """Fourteen frames are inspected later than the working day after their alignment, none of them planted."""
    late = [frame.number for frame in frames if frame.days[7] != working_days_later(frame.days[6], 1)]
    assert [number for number in late if number % 17 == 3] == SLIPPED


def test_most_are_shipped_by_the_end(frames: list[Frame]) -> None:
    """274 frames have left the house by the last evening, ten are in it."""
    assert sum(frame.days[SHIPPED] <= LAST for frame in frames) == 274
