"""The shop and the visitor these addresses are proved with."""

from tests.pages.bench.fixtures import bench_record, visit

__all__ = ["bench_record", "visit"]
