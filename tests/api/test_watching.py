"""The service says from outside whether it lives, whether it is ready and which part fails, and gives its measures."""

import shutil
from pathlib import Path
from typing import Any

import httpx
import pytest

from server.app import build_app
from server.record.book_of_lines import Record
from server.record.troubles import NoRoom, RecordClosed
from server.settings import Settings
from tests.api.asking import Asker, delivery
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry

PASSED_ON = {"X-Forwarded-For": "127.0.0.1"}


class Near(Asker):
    """Somebody who asks by the server's own address."""

    def ask(self, method: str, path: str, **further: Any) -> httpx.Response:
        """Send one request."""
        return super().ask(method, f"http://127.0.0.1{path}", **further)


@pytest.fixture
def here(record: Record, tmp_path: Path) -> Asker:
    """Somebody on the server itself."""
    app = build_app(Settings(data_folder=tmp_path), record)
    return Near(httpx.ASGITransport(app, raise_app_exceptions=False, client=("127.0.0.1", 5)))


@pytest.fixture
def elsewhere(record: Record, tmp_path: Path) -> Asker:
    """Somebody on the shop's network who is not signed in."""
    app = build_app(Settings(data_folder=tmp_path), record)
    return Asker(httpx.ASGITransport(app, raise_app_exceptions=False, client=("192.168.1.9", 5)))


def fail(record: Record, error: Exception) -> None:
    def change(_: object) -> None:
        raise error

    with pytest.raises(type(error)):
        append(record, changes=(change,))


def test_it_is_ready(here: Asker):
    """With everything well it answers 200 and says of each part how it is."""
    answer = here.ask("GET", "/readyz")
    assert answer.status_code == 200
    told = answer.json()
    assert (told["ready"], told["failing"]) == (True, [])
    assert set(told["parts"]) == set(told["sentences"]) == {"record", "disk", "clock", "judging", "backup"}


def test_a_closed_record_is_named_and_it_still_lives(here: Asker, record: Record):
    """After the disk failed it is not ready, names the record with the reason, and is alive all the same."""
    fail(record, RecordClosed("the disk failed"))
    answer = here.ask("GET", "/readyz")
    assert (answer.status_code, answer.json()["failing"]) == (503, ["record"])
    assert "the disk failed" in answer.json()["sentences"]["record"]
    assert here.ask("GET", "/livez").json() == {"alive": True}


def test_a_full_disk_is_named_until_something_was_kept(here: Asker, record: Record):
    """Not ready from the first entry that found no room until the next one that did, without a restart."""
    fail(record, NoRoom())
    assert here.ask("GET", "/readyz").json()["failing"] == ["record"]
    append(record, new_entry(1))
    assert here.ask("GET", "/readyz").status_code == 200


def test_a_disk_nearly_full_is_named(here: Asker, monkeypatch: pytest.MonkeyPatch):
    """Before the disk is full it is not ready any more, and says how much is left."""
    monkeypatch.setattr(shutil, "disk_usage", lambda _: shutil._ntuple_diskusage(9, 0, 7_000_000))
    told = here.ask("GET", "/readyz").json()
    assert told["failing"] == ["disk"]
    assert "7 MB are free" in told["sentences"]["disk"]


def test_from_elsewhere_only_the_parts_are_named(elsewhere: Asker, here: Asker):
    """Who is not on the server and not its owner learns which part fails, and no more."""
    assert elsewhere.ask("GET", "/readyz").json()["sentences"] == {}
    assert here.ask("GET", "/readyz", headers=PASSED_ON).json()["sentences"] == {}


def test_measures_are_for_the_server_and_the_owner(here: Asker, elsewhere: Asker):
    """From the network without sign-in, and passed on by another server, they are refused."""
    assert here.ask("GET", "/metrics").status_code == 200
    assert elsewhere.ask("GET", "/metrics").status_code == 403
    assert here.ask("GET", "/metrics", headers=PASSED_ON).status_code == 403


def measures(here: Asker) -> dict[str, float]:
    answer = here.ask("GET", "/metrics")
    assert answer.headers["content-type"].startswith("text/plain; version=0.0.4")
    lines = [line for line in answer.text.splitlines() if not line.startswith("#")]
    return {name: float(value) for name, value in (line.rsplit(" ", 1) for line in lines)}


def test_measures_tell_what_was_kept(here: Asker):
    """Two entries sent are two lines kept, in the record and since the start, and one request answered."""
    assert here.send(delivery(1), delivery(2)).status_code == 200
    told = measures(here)
    assert (told["strawline_lines"], told["strawline_kept_lines_total"]) == (2, 2)
    assert told['strawline_requests_total{method="POST",route="/api/deliveries",status="2xx"}'] == 1
    assert told["strawline_record_closed"] == 0
    assert told["strawline_disk_failures_total"] == 0


def test_measures_tell_a_failed_disk(here: Asker, record: Record):
    """Control: after the disk failed, the same measures say so."""
    fail(record, RecordClosed("the disk failed"))
    told = measures(here)
    assert (told["strawline_record_closed"], told["strawline_disk_failures_total"]) == (1, 1)
    assert told['strawline_part{part="record"}'] == 0


def test_no_label_grows_with_what_strangers_ask(here: Asker):
    """Whatever paths and methods are invented, they are counted under the same few labels."""
    before = len(measures(here))
    for number in range(30):
        here.ask("GET", f"/nowhere/{number}")
        here.ask(f"M{number}", "/livez")
        here.ask("GET", f"/api/lines/L-{number}")
    assert len(measures(here)) - before <= 8


def test_names_of_measures_keep_to_the_custom(here: Asker):
    """Each has the house's prefix, its type and its help; every name promtool would refuse is absent."""
    from prometheus_client.parser import text_string_to_metric_families

    families = list(text_string_to_metric_families(here.ask("GET", "/metrics").text))
    assert len(families) > 15
    assert all(each.name.startswith("strawline_") and each.documentation for each in families)
    assert {each.type for each in families} == {"counter", "gauge", "histogram"}
