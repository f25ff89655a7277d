"""The trace screens end to end: choose a pass, send, look, attach, log what is left; slips told, the form filled."""

import re
from pathlib import Path
from typing import Any

import httpx
import pytest

from server.app import build_app
from server.record.book_of_lines import Record
from server.record.door_facts import Session
from server.record.keeping_sessions import open_session
from server.record.written import Written
from server.settings import Settings
from server.work.frame_passes import frame_passes
from server.work.sign_in import token_hash
from tests.api.asking import Asker
from tests.record.fixtures import append, empty_file, file, record
from tests.record.sample_lines import FRAME, RECEIVED, new_register, person
from tests.work import recordings

__all__ = ["empty_file", "file", "record"]

NOW_MS = 4_000_000_000_000
ISSUED = "2025-03-18T08:00:00.000Z"
PACKET = {"kind": "packet", "id": FRAME, "frame": FRAME, "design": "D", "size": "S", "issued": ISSUED}


class Hand:
    """Somebody at the screen, signed in or not."""

    def __init__(self, asker: Asker, who: str) -> None:
        self._asker = asker
        self._headers = {"Accept": "text/html", "Cookie": f"strawline_session={who}"}

    def get(self, path: str) -> httpx.Response:
        """Open a page."""
        return self._asker.ask("GET", path, headers=self._headers)

    def post(self, path: str, **further: Any) -> httpx.Response:
        """Send a form."""
        return self._asker.ask("POST", path, headers=self._headers, **further)

    def send(self, of: str, content: bytes = recordings.text(), **fields: str) -> httpx.Response:
        """Send a recording for a pass."""
        told = {"frame": FRAME, "of": of, "instrument": recordings.INSTRUMENT} | fields
        return self.post("/traces", data=told, files={"file": ("arc.csv", content, "text/csv")})


@pytest.fixture
def of(record: Record) -> str:
    """A shop with one frame and one pass, its welder and a quality lead signed in."""
    name = recordings.shop_with_a_pass(record)
    append(record, new_register(person("Bo Lind", id="P2", roles=["quality lead"])), new_register(PACKET, RECEIVED))
    sessions = [
        Session(token_hash(who), who, role, "desk", NOW_MS, NOW_MS, NOW_MS + 3_600_000)
        for who, role in (("P1", "welder"), ("P2", "quality lead"))
    ]
    changes = tuple(map(open_session, sessions))
    record.write(lambda _: Written(answer=lambda _: None, changes=changes)).result()
    return name


@pytest.fixture
def shop(record: Record, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Asker:
    """The application."""
    monkeypatch.setattr("server.pages.frame.doorkeeper.now_ms", lambda: NOW_MS)
    app = build_app(Settings(data_folder=tmp_path), record)
    return Asker(httpx.ASGITransport(app, raise_app_exceptions=False))


@pytest.fixture
def welder(shop: Asker) -> Hand:
    """The welder who laid the pass."""
    return Hand(shop, "P1")


def fields(text: str) -> list[tuple[str, str]]:
    """The hidden fields of the first form."""
    form = text[text.index("<form", text.index("</header>")) :]
    return re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)">', form[: form.index("</form>")])


def attached(welder: Hand, of: str, *beads: str) -> str:
    """Send the recording, attach some of its beads, and give where it is looked at."""
    place = welder.send(of).headers["location"]
    told = [*fields(welder.get(place).text), *(("bead", bead) for bead in beads)]
    form = {name: _all(told, name) for name, _ in told}
    answer, again = [welder.post(f"{place.partition('?')[0]}/attach", data=form) for _ in "12"]
    assert (answer.status_code, again.headers["location"]) == (303, answer.headers["location"]), again.text
    return str(answer.headers["location"])


def _all(told: list[tuple[str, str]], name: str) -> list[str]:
    return [value for each, value in told if each == name]


def test_a_pass_is_chosen_from_its_frame(welder: Hand, of: str) -> None:
    """The frame's passes are listed with the instruments that record an arc; another frame's page says what to do."""
    text = welder.get(f"/traces?frame={FRAME}").text
    assert f'value="{of}"' in text
    assert f'value="{recordings.INSTRUMENT}" selected' in text
    assert "Show its passes" in welder.get("/traces?frame=F-9").text


def test_sent_it_is_seen_and_nothing_is_recorded(welder: Hand, of: str, record: Record, tmp_path: Path) -> None:
    """The picture, three beads and the figures are shown; the file is kept, and the record has nothing of it yet."""
    answer = welder.send(of)
    assert answer.status_code == 303
    text = welder.get(answer.headers["location"]).text
    assert text.count('<svg class="curves"') == 2
    assert text.count('type="checkbox" name="bead"') == 3
    assert "measured arc energy" in text
    assert "t [ms] in ms" in text
    assert recordings.kept(tmp_path) == [recordings.text()]
    with record.reads() as reads:
        assert frame_passes(reads, FRAME)[0].traces == ()


def test_attached_it_is_in_the_record_and_offers_the_rest(welder: Hand, of: str, record: Record) -> None:
    """One bead attached is an entry; the other two are offered with what would be logged, and nothing of them is."""
    text = welder.get(attached(welder, of, "1")).text
    assert "Attached." in text
    assert text.count('type="checkbox" name="log"') == 2
    with record.reads() as reads:
        (only,) = frame_passes(reads, FRAME)
    assert [trace.beads for trace in only.traces] == [(1,)]


def test_all_beads_ticked_are_written_as_none_named(welder: Hand, of: str, record: Record) -> None:
    """Every bead ticked is the whole recording, and none is left to offer."""
    text = welder.get(attached(welder, of, "1", "2", "3")).text
    assert "none is left to offer" in text
    with record.reads() as reads:
        assert [trace.beads for trace in frame_passes(reads, FRAME)[0].traces] == [()]


def test_the_welder_logs_a_bead(welder: Hand, of: str, record: Record) -> None:
    """A click by the welder makes the pass, as the run and the quarters chosen, and the page says so."""
    place = attached(welder, of, "1")
    form = {**dict(fields(welder.get(place).text)), "log": "3", "run_3": "wash", "quarters_3": "q6"}
    answer, again = [welder.post(f"{place.partition('?')[0]}/passes", data=form) for _ in "12"]
    assert (answer.status_code, again.status_code) == (303, 303)
    assert again.headers["location"] == answer.headers["location"]
    assert welder.post(f"{place.partition('?')[0]}/passes", data=form | {"run_3": "fill"}).status_code == 422
    assert "bead 3, logged" in welder.get(answer.headers["location"]).text
    with record.reads() as reads:
        assert {(each.entry.run, each.entry.quarters) for each in frame_passes(reads, FRAME)} == {
            ("root", ("q12", "q3", "q6", "q9")),
            ("wash", ("q6",)),
        }


def test_somebody_else_sees_the_offer_and_logs_nothing(shop: Asker, welder: Hand, of: str, record: Record) -> None:
    """The lead is told whose beads they are, has no button, and a form sent all the same is refused."""
    place, lead = attached(welder, of, "1"), Hand(shop, "P2")
    text = lead.get(place).text
    assert "Only Ada Vane" in text
    assert "Log the ticked" not in text
    form = {**dict(fields(text)), "log": "3", "run_3": "root", "quarters_3": "all"}
    assert lead.post(f"{place.partition('?')[0]}/passes", data=form).status_code == 422
    with record.reads() as reads:
        assert len(frame_passes(reads, FRAME)) == 1


def test_a_bad_file_is_told_with_the_form_filled(welder: Hand, of: str, tmp_path: Path) -> None:
    """What cannot be read is named, the pass stays chosen, the headers stay written, and nothing is kept."""
    answer = welder.send(of, b"a;b;c\n1;2;3\n", time="a", amps="b", volts="d")
    assert answer.status_code == 422
    assert "headers such as those in" in answer.text
    assert re.search(rf'value="{of}"[^>]* checked', answer.text)
    assert 'name="volts" value="d"' in answer.text
    assert recordings.kept(tmp_path) == []


def test_no_file_and_no_pass_are_told(welder: Hand, of: str) -> None:
    """A form without a file, and one without a pass, say which is missing."""
    told = {"frame": FRAME, "of": of, "instrument": recordings.INSTRUMENT}
    empty = welder.post("/traces", data=told, files={"file": ("", b"", "application/octet-stream")})
    assert (empty.status_code, "file: none chosen" in empty.text) == (422, True)
    assert "is no pass in the record" in welder.send("").text


def test_no_bead_ticked_is_told(welder: Hand, of: str) -> None:
    """Attaching nothing is refused in place."""
    place = welder.send(of).headers["location"]
    answer = welder.post(f"{place.partition('?')[0]}/attach", data=dict(fields(welder.get(place).text)))
    assert (answer.status_code, "none ticked" in answer.text) == (422, True)


def test_an_unknown_recording_is_told(welder: Hand, of: str) -> None:
    """An address of a file that was never kept says to send it again."""
    answer = welder.get(f"/traces/{'ab' * 32}?of={of}&instrument={recordings.INSTRUMENT}")
    assert (answer.status_code, "send it again" in answer.text) == (404, True)


def test_it_asks_for_somebody_at_the_bench(shop: Asker, of: str) -> None:
    """Nobody signed in is led to the door and sends nothing."""
    nobody = Hand(shop, "")
    assert nobody.get("/traces").headers["location"].startswith("/sign-in")
    assert nobody.send(of).headers["location"].startswith("/sign-in")
