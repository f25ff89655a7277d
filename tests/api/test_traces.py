"""`POST /api/traces`: a recording as a form or as bytes, for somebody signed in, with every refusal a problem."""

from pathlib import Path
from typing import Any

import httpx
import pytest

from server.api.traces import MOST_BYTES
from server.app import build_app
from server.record.book_of_lines import Record
from server.record.door_facts import Session
from server.record.keeping_sessions import open_session
from server.record.written import Written
from server.settings import Settings
from server.work.frame_passes import one_pass
from server.work.sign_in import token_hash
from tests.api.asking import Asker
from tests.work import recordings

TOKEN = "proof-token"
COOKIE = {"Cookie": f"strawline_session={TOKEN}"}
HOUR_MS = 3_600_000
NAMED = {"time": "t [ms]", "amps": "I [A]", "volts": "U [V]"}
NOW_MS = 4_000_000_000_000


@pytest.fixture
def of(record: Record) -> str:
    """A pass in the record, and its welder signed in."""
    name = recordings.shop_with_a_pass(record)
    session = Session(token_hash(TOKEN), "P1", "welder", "TAB-1", NOW_MS, NOW_MS, NOW_MS + HOUR_MS)
    record.write(lambda _: Written(answer=lambda _: None, changes=(open_session(session),))).result()
    return name


@pytest.fixture
def shop(record: Record, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Asker:
    """The whole application, as its tablets reach it."""
    monkeypatch.setattr("server.pages.frame.doorkeeper.now_ms", lambda: NOW_MS)
    app = build_app(Settings(data_folder=tmp_path), record)
    return Asker(httpx.ASGITransport(app, raise_app_exceptions=False))


def post(shop: Asker, of: str, content: bytes = b"", **further: Any) -> httpx.Response:
    params = {"of": of, "instrument": recordings.INSTRUMENT} | further.pop("params", {})
    headers = {"Content-Type": "text/csv"} | COOKIE | further.pop("headers", {})
    told = further or {"content": content}
    if "files" in told:
        headers.pop("Content-Type")
    return shop.ask("POST", "/api/traces", params=params, headers=headers, **told)


def test_bytes_are_taken_and_answered(shop: Asker, of: str, record: Record, tmp_path: Path) -> None:
    """The answer has the receipt, the measured energy with its doubt, the beads, and where the file is kept."""
    answer = post(shop, of, recordings.text())
    assert answer.status_code == 200
    told = answer.json()
    assert told["receipt"]["taken"] == "taken"
    assert float(told["values"]["arc_energy"]["value"]) == pytest.approx(sum(recordings.ENERGIES_J), rel=0.01)
    assert [bead["number"] for bead in told["beads"]] == [1, 2, 3]
    assert told["energy_doubt_j"] > 0.0
    assert (tmp_path / "record" / "files" / told["sha256"][:2] / told["sha256"]).read_bytes() == recordings.text()
    with record.reads() as reads:
        assert [trace.id for trace in one_pass(reads, of).traces] == [told["receipt"]["entry"]]


def test_a_form_with_a_file_is_the_same(shop: Asker, of: str) -> None:
    """A file in a form, in the binary form, with some beads named."""
    files = {"file": ("arc.bin", recordings.binary(), "application/octet-stream")}
    answer = post(shop, of, files=files, params={"beads": "2,3"})
    assert answer.status_code == 200
    assert float(answer.json()["values"]["arc_energy"]["value"]) == pytest.approx(3600.0, rel=0.01)


def test_headers_and_a_turned_clamp_may_be_named(shop: Asker, of: str) -> None:
    """Columns the house cannot guess are read as they are named in the address."""
    content = recordings.text(header="ms;set;V2").replace(b";40.0;", b";-40.0;")
    named = {"time": "ms", "amps": "set", "volts": "V2", "time_unit": "ms", "clamp_reversed": "true"}
    assert post(shop, of, content).status_code == 422
    assert post(shop, of, content, params=named).status_code == 200


@pytest.mark.parametrize(
    ("content", "params", "status", "said"),
    [
        (b"hello", {}, 422, "headers"),
        (b"", {}, 422, "headers"),
        (recordings.text(), {"of": "nobody"}, 404, "is no pass"),
        (recordings.text(), {"instrument": "XX-1"}, 404, recordings.INSTRUMENT),
        (recordings.text(), {"beads": "7"}, 422, "beads 1 to 3"),
        (recordings.text(), {"beads": "one"}, 422, "beads"),
        (recordings.text(), {"time_unit": "furlong"} | NAMED, 422, "furlong"),
        (recordings.text(), {"time": "t [ms]"}, 422, "over all three"),
    ],
)
def test_what_is_wrong_is_told(
    shop: Asker, of: str, content: bytes, params: dict[str, str], status: int, said: str, tmp_path: Path
) -> None:
    """A bad file, an unknown pass, instrument, bead or unit: a problem in words, and nothing kept."""
    answer = post(shop, of, content, params=params)
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    assert said in answer.json()["detail"]
    assert recordings.kept(tmp_path) == []


def test_the_same_twice_is_told(shop: Asker, of: str) -> None:
    """A recording sent again is 409, so a sender that lost the answer knows."""
    assert post(shop, of, recordings.text()).status_code == 200
    again = post(shop, of, recordings.text())
    assert (again.status_code, "already" in again.json()["detail"]) == (409, True)


def test_a_form_without_its_file_is_told(shop: Asker, of: str) -> None:
    """A form whose file has another name is refused by the name that is expected."""
    answer = post(shop, of, files={"recording": ("a.csv", recordings.text(), "text/csv")})
    assert answer.status_code == 422
    assert "`file`" in answer.json()["detail"]


def test_nobody_signed_in_is_nobody(shop: Asker, of: str, tmp_path: Path) -> None:
    """Without a session nothing is read and nothing kept."""
    answer = post(shop, of, recordings.text(), headers={"Cookie": ""})
    assert answer.status_code == 401
    assert recordings.kept(tmp_path) == []


def test_size_has_its_own_limit_here(shop: Asker, of: str) -> None:
    """More than a batch of entries may have is taken here; more than the limit is refused before it is read."""
    padded = recordings.binary(hz=20_000.0)
    assert 4_000_000 < len(padded) < MOST_BYTES
    assert post(shop, of, padded).status_code == 200
    refused = post(shop, of, b"x" * (MOST_BYTES + 1))
    assert (refused.status_code, str(MOST_BYTES) in refused.json()["detail"]) == (413, True)


def test_it_is_documented(shop: Asker) -> None:
    """Each status it answers with and each form it takes stands in the application's own description."""
    told = shop.ask("GET", "/api/openapi.json", headers=COOKIE).json()["paths"]["/api/traces"]["post"]
    assert {"200", "400", "401", "404", "409", "413", "422", "503", "507"} <= set(told["responses"])
    assert set(told["requestBody"]["content"]) == {"multipart/form-data", "text/csv", "application/octet-stream"}
