"""Reach of the desk: how many entries the record holds does not lengthen the morning list."""

from pathlib import Path

from tests.benchmarks.desk_speed import desk_speed, record_of_many


def test_ten_times_the_entries(tmp_path: Path):
    """With five hundred open findings the list takes less than twice as long over ten times the entries."""
    few, many = (tmp_path / name for name in ("few", "many"))
    for folder in (few, many):
        folder.mkdir()
    small = desk_speed(record_of_many(few, 2_000, 500))
    large = desk_speed(record_of_many(many, 20_000, 500))
    assert large.entries > 9 * small.entries
    assert small.findings == large.findings > 500
    assert large.asking_s + large.page_s < 2 * (small.asking_s + small.page_s)
