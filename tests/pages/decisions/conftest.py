"""The bench's shop ."""

from tests.pages.bench.fixtures import bench_record

__all__ = ["bench_record"]
