"""Every request has an id that stands in its answer and its log line, and nobody can write lines into the log."""

import io
import json
import logging
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
import pytest

from server.api.request_log import HEADER
from server.app import build_app
from server.record.book_of_lines import Record
from server.settings import Settings
from server.upkeep.json_logs import log_as_json
from tests.api.asking import Asker

WRITE_HERE = ("strawline", "server", "uvicorn", "fastapi", "starlette", "sqlalchemy", "alembic")
"""Who writes lines while the house serves; a library that another proof asks may keep a place of its own."""


@pytest.fixture
def log() -> Iterator[io.StringIO]:
    """What is logged meanwhile, as lines of JSON."""
    root, written = logging.getLogger(), io.StringIO()
    before, level = list(root.handlers), root.level
    log_as_json("info", written)
    yield written
    root.handlers[:] = before
    root.setLevel(level)


@pytest.fixture
def asker(record: Record, tmp_path: Path, log: io.StringIO) -> Asker:
    """Somebody who asks the whole application."""
    return Asker(httpx.ASGITransport(build_app(Settings(data_folder=tmp_path), record), raise_app_exceptions=False))


def lines(log: io.StringIO) -> list[dict[str, Any]]:
    return [json.loads(line) for line in log.getvalue().splitlines()]


def test_a_request_can_be_followed(asker: Asker, log: io.StringIO):
    """The id in the answer is the one in the log, with what was asked, how it ended and how long it took."""
    answer = asker.ask("GET", "/api/verdicts")
    (line,) = [each for each in lines(log) if each["from"] == "strawline.request"]
    assert line["request"] == answer.headers[HEADER]
    assert (line["method"], line["path"], line["status"]) == ("GET", "/api/verdicts", 401)
    assert line["ms"] > 0


def test_moments_are_utc_and_go_to_one_place(asker: Asker, log: io.StringIO):
    """Each line tells its moment in UTC, and there is one place only to which lines go."""
    asker.ask("GET", "/api/verdicts")
    moments = [datetime.fromisoformat(line["at"]) for line in lines(log)]
    assert {moment.utcoffset() for moment in moments} == {timedelta(0)}
    assert all(abs(datetime.now(UTC) - moment) < timedelta(minutes=1) for moment in moments)
    names = [name for name in logging.Logger.manager.loggerDict if name.partition(".")[0] in WRITE_HERE]
    loggers = [logging.getLogger(), *map(logging.getLogger, names)]
    handlers = [handler for each in loggers for handler in each.handlers]
    writing = [each for each in handlers if isinstance(each, logging.StreamHandler)]
    ours = [each for each in writing if not type(each).__module__.startswith("_pytest")]
    assert [each.stream for each in ours] == [log]


def test_an_id_that_was_sent_is_kept(asker: Asker):
    """A monitor's own id, or the trace a request belongs to, is taken over; two requests never share a made one."""
    assert asker.ask("GET", "/livez", headers={HEADER: "shop-17.a"}).headers[HEADER] == "shop-17.a"
    trace = {"traceparent": f"00-{'ab' * 16}-{'cd' * 8}-01"}
    assert asker.ask("GET", "/livez", headers=trace).headers[HEADER] == "ab" * 16
    assert len({asker.ask("GET", "/livez").headers[HEADER] for _ in range(5)}) == 5


@pytest.mark.parametrize("sent", ["x" * 65, 'a"b', "a b", "a\x7fb", "<script>", ""])
def test_an_id_that_is_not_fit_is_replaced(asker: Asker, sent: str):
    """What could do harm where it is read is not taken over."""
    assert asker.ask("GET", "/livez", headers={HEADER: sent}).headers[HEADER] not in (sent, "")


def test_nobody_writes_lines_of_their_own(asker: Asker, log: io.StringIO):
    """A path with line breaks and quotes stays one line that says what it was."""
    evil = "/nowhere/x%0A%7B%22level%22:%22error%22%7D%0D%E2%80%A8y"
    asker.ask("GET", evil)
    found = [each for each in lines(log) if each["from"] == "strawline.request"]
    assert len(found) == 1
    assert found[0]["path"] == '/nowhere/x\n{"level":"error"}\r\u2028y'
    assert log.getvalue().count("\n") == len(lines(log))


def test_what_is_logged_meanwhile_carries_the_id(asker: Asker, log: io.StringIO, monkeypatch: pytest.MonkeyPatch):
    """An error nobody foresaw is logged with its trace under the request's id, and the answer gives nothing away."""

    def break_down(*_: object, **__: object) -> None:
        raise ZeroDivisionError("secret figures")

    monkeypatch.setattr("server.pages.sign_in.route._page", break_down)
    answer = asker.ask("GET", "/sign-in")
    assert answer.status_code == 500
    assert "secret figures" not in answer.text
    traced = [each for each in lines(log) if "ZeroDivisionError" in each.get("trace", "")]
    assert traced
    assert {each["request"] for each in traced} == {answer.headers[HEADER]}


def test_watching_is_not_logged(asker: Asker, log: io.StringIO):
    """A monitor that looks every few seconds does not fill the log."""
    for path in ("/livez", "/readyz", "/metrics"):
        asker.ask("GET", path)
    assert [each for each in lines(log) if each["from"] == "strawline.request" and each["status"] < 500] == []
