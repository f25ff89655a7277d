"""Reach of the desk: how many entries the record holds does not lengthen the morning list."""

from pathlib import Path

from tests.benchmarks.desk_speed import DeskSpeed, desk_speed, record_of_many


def least_of(one: DeskSpeed, other: DeskSpeed) -> DeskSpeed:
    return min(one, other, key=lambda each: each.seconds)


def test_ten_times_the_entries(tmp_path: Path):
    """With five hundred open findings the list takes less than twice as long over ten times the entries."""
    few, many = (tmp_path / name for name in ("few", "many"))
    for folder in (few, many):
        folder.mkdir()
    files = [record_of_many(folder, entries, 500) for folder, entries in ((few, 2_000), (many, 20_000))]
    small, large = map(desk_speed, files)
    assert large.entries > 9 * small.entries
    assert small.findings == large.findings > 500
    # Once more, and once more, where another program took the processor while the larger one was asked.
    for _ in range(5):
        if large.seconds < 2 * small.seconds:
            break
        small, large = (least_of(each, desk_speed(file)) for each, file in zip((small, large), files, strict=True))
    assert large.seconds < 2 * small.seconds
