"""What a monitor reads of the service, in Prometheus' words: base units, and no label whose values could grow."""

from collections.abc import Iterable

from prometheus_client import CollectorRegistry, Counter, Histogram, generate_latest
from prometheus_client.core import CounterMetricFamily, GaugeMetricFamily, Metric
from prometheus_client.registry import Collector

from server.upkeep.backup_log import read_backup_log
from server.upkeep.disk import free_bytes
from server.upkeep.parts import FAILING, FINE, Watched, look_at_parts

MEDIA_TYPE = "text/plain; version=0.0.4; charset=utf-8"
_METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
_BUCKETS_S = (0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0)
_STATES = {FINE: 1.0, FAILING: 0.0}


class Measures:
    """Counts requests as they are answered, and looks at everything else when it is asked."""

    def __init__(self, watched: Watched) -> None:
        self._registry = CollectorRegistry()
        self._answered = Counter(
            "strawline_requests",
            "Requests answered, by the route's pattern.",
            ("method", "route", "status"),
            registry=self._registry,
        )
        self._took = Histogram(
            "strawline_request_seconds", "Time to answer.", buckets=_BUCKETS_S, registry=self._registry
        )
        self._registry.register(_Standing(watched))

    def answered(self, method: str, route: str | None, status: int, took_s: float) -> None:
        """Count one request; `route` is its pattern, none where nothing of ours was asked for."""
        # Anybody can invent methods and paths; only ours become labels.
        self._answered.labels(method if method in _METHODS else "other", route or "none", f"{status // 100}xx").inc()
        self._took.observe(took_s)

    def text(self) -> bytes:
        """Write all of it."""
        return generate_latest(self._registry)


class _Standing(Collector):
    """What is looked at only when it is asked for."""

    def __init__(self, watched: Watched) -> None:
        self._watched = watched

    def describe(self) -> Iterable[Metric]:
        """Say nothing ahead of time, since looking costs a question to the record."""
        return ()

    def collect(self) -> Iterable[Metric]:
        """Look."""
        yield from self._parts()
        yield from self._record()
        yield from self._writer()
        yield from self._upkeep()

    def _parts(self) -> Iterable[Metric]:
        parts = GaugeMetricFamily("strawline_part", "1 fine, 0.5 somebody should look, 0 failing.", labels=["part"])
        for part in look_at_parts(self._watched):
            parts.add_metric([part.name], _STATES.get(part.state, 0.5))
        yield parts

    def _record(self) -> Iterable[Metric]:
        condition = self._watched.record.condition()
        with self._watched.record.reads() as reads:
            newest, judged_to = reads.newest_checkpoint(), reads.judged_to()
        yield _gauge("lines", "Lines in the record.", condition.lines)
        yield _gauge("unsealed_lines", "Lines behind the last checkpoint.", condition.lines - condition.sealed_lines)
        yield _gauge("unjudged_lines", "Lines not judged yet.", condition.lines - judged_to)
        yield _gauge("record_closed", "1 while no entries are taken.", condition.closed is not None)
        yield _gauge("wal_bytes", "Length of the write-ahead log.", condition.write_ahead_bytes)
        yield _gauge("oldest_read_seconds", "Age of the oldest open read.", condition.oldest_read_s)
        if newest:
            yield _gauge("checkpoint_age_seconds", "Age of the last checkpoint.", self._age_s(newest.made_ms))

    def _writer(self) -> Iterable[Metric]:
        tally = self._watched.record.tally
        yield _counter("kept_groups", "Groups of lines kept, one sync each.", tally.groups)
        yield _counter("kept_lines", "Lines kept since the start.", tally.lines)
        yield _counter("kept_group_seconds", "Time spent keeping groups.", tally.group_s)
        yield _gauge("longest_group_seconds", "The longest it took to keep a group.", tally.longest_group_s)
        yield _counter("no_room", "Groups not kept since the disk was full.", tally.no_room)
        yield _counter("disk_failures", "Times the disk failed; the first one closes it.", tally.disk_failures)

    def _upkeep(self) -> Iterable[Metric]:
        settings, log = self._watched.settings, read_backup_log(self._watched.settings.data_folder)
        yield _gauge("disk_free_bytes", "Room on the record's disk.", free_bytes(settings.data_folder))
        if log.made_ms:
            yield _gauge("backup_age_seconds", "Age of the last backup.", self._age_s(log.made_ms))
        if log.proved_made_ms:
            said = "Age of the last backup a drill proved good."
            yield _gauge("backup_verified_age_seconds", said, self._age_s(log.proved_made_ms))

    def _age_s(self, moment_ms: int) -> float:
        return (self._watched.now() - moment_ms) / 1000


def _gauge(name: str, said: str, value: float) -> Metric:
    return GaugeMetricFamily(f"strawline_{name}", said, value)


def _counter(name: str, said: str, value: float) -> Metric:
    return CounterMetricFamily(f"strawline_{name}", said, value)
