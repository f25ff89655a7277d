"""`POST /api/photos`: a picture of a known device or of somebody signed in, told by its content, kept once."""

import hashlib
import json
from io import BytesIO
from pathlib import Path
from typing import Any

import httpx
import pytest
from PIL import Image

from server.app import build_app
from server.documents.jpeg_marks import tells_only_the_picture
from server.documents.picture import MOST_BYTES
from server.documents.pixels import look_of
from server.facts.supplies import Arrived
from server.record.book_of_lines import Record
from server.record.door_facts import Device
from server.record.files import Files
from server.record.keeping_devices import enrol_device
from server.record.written import Written
from server.settings import Settings
from server.work.known_device import key_hash
from tests.api.asking import Asker, delivery
from tests.documents.drawn_picture import as_bytes, bomb, drawn, from_a_telephone
from tests.record.sample_lines import FRAME
from tests.work import recordings

KEY = "a-tablets-own-key"
TABLET = {"Cookie": f"strawline_key={KEY}"}
PLAIN = as_bytes(drawn())


@pytest.fixture
def shop(record: Record, tmp_path: Path) -> Asker:
    """The whole application with one tablet enrolled, on which nobody is signed in."""
    change = enrol_device(Device("TAB-1", "first bench", None, key_hash(KEY), 5))
    record.write(lambda _: Written(answer=lambda _: None, changes=(change,))).result()
    app = build_app(Settings(data_folder=tmp_path), record)
    return Asker(httpx.ASGITransport(app, raise_app_exceptions=False, client=("192.0.2.7", 4711)))


def post(shop: Asker, content: bytes = PLAIN, **further: Any) -> httpx.Response:
    headers = TABLET | further.pop("headers", {})
    told = further if "files" in further else {"content": content} | further
    return shop.ask("POST", "/api/photos", headers=headers, **told)


def arrivals(record: Record) -> list[Arrived]:
    with record.reads() as reads:
        return [each.entry for each in reads.every_entry() if isinstance(each.entry, Arrived)]


def test_a_plain_picture_is_kept_as_it_is(shop: Asker, record: Record, tmp_path: Path) -> None:
    """The bytes are kept under their own SHA-256, and a sealed line says when they came and from which tablet."""
    answer = post(shop, params={"frame": FRAME})
    told, sha256 = answer.json(), hashlib.sha256(PLAIN).hexdigest()
    assert (answer.status_code, told["sha256"], told["kept_sha256"]) == (200, sha256, sha256)
    assert told["looks_like"] == look_of(Image.open(BytesIO(PLAIN)))
    assert Files(tmp_path).read(sha256) == PLAIN
    (found,) = arrivals(record)
    assert (found.sent_by, found.frame, found.device, found.who) == ("TAB-1", FRAME, "house", "house")
    with record.reads() as reads:
        line = reads.line(told["receipt"]["entry"])
        assert line is not None
        assert line.leaf.hex() == told["receipt"]["leaf"]
        assert FRAME in {each.id for each in reads.subjects_of([line.position])[line.position]}


def test_sent_twice_is_one(shop: Asker, record: Record, tmp_path: Path) -> None:
    """A tablet that lost the answer sends it again and gets the first receipt; one line, one file."""
    first, again = post(shop).json(), post(shop).json()
    assert again["receipt"].pop("taken") == "taken before"
    assert first["receipt"].pop("taken") == "taken"
    assert first == again
    assert len(arrivals(record)) == len(recordings.kept(tmp_path)) == 1


def test_what_it_tells_beside_itself_is_not_kept(shop: Asker, tmp_path: Path) -> None:
    """Place and camera go; both SHA-256 are told, and no file of the folder holds the words."""
    told = from_a_telephone(drawn())
    answer = post(shop, told).json()
    assert answer["sha256"] == hashlib.sha256(told).hexdigest() != answer["kept_sha256"]
    kept = Files(tmp_path).read(answer["kept_sha256"])
    assert kept is not None
    assert tells_only_the_picture(kept)
    assert all(b"Invented" not in file.read_bytes() for file in (tmp_path / "record" / "files").glob("*/*"))


def test_a_form_is_the_same(shop: Asker) -> None:
    """A file in a form is the same picture as the bare bytes."""
    answer = post(shop, files={"file": ("../../etc/passwd", PLAIN, "text/html")})
    assert (answer.status_code, answer.json()["sha256"]) == (200, hashlib.sha256(PLAIN).hexdigest())
    assert "`file`" in post(shop, files={"photo": ("a.jpg", PLAIN)}).json()["detail"]


@pytest.mark.parametrize("content", [b"", b"hello", b"<svg/>", bomb(), PLAIN[:700], b"%PDF-1.4\n%%EOF"])
def test_what_is_no_picture_is_refused(shop: Asker, record: Record, tmp_path: Path, content: bytes) -> None:
    """Whatever its name and header say: 422 in words, nothing kept, nothing recorded."""
    answer = post(shop, content, headers={"Content-Type": "image/jpeg"})
    assert answer.status_code == 422
    assert answer.json()["detail"].startswith("photo: ")
    assert recordings.kept(tmp_path) == []
    assert arrivals(record) == []


def test_size_has_a_limit(shop: Asker) -> None:
    """More than a picture needs is refused before it is read."""
    assert post(shop, b"x" * (MOST_BYTES + 1)).status_code == 413


def test_an_unknown_device_is_not_heard(shop: Asker, tmp_path: Path) -> None:
    """Neither signed in nor enrolled: 401, and nothing kept."""
    assert post(shop, headers={"Cookie": ""}).status_code == 401
    assert recordings.kept(tmp_path) == []


def test_only_the_record_says_that_a_picture_arrived(shop: Asker, record: Record) -> None:
    """A tablet that writes such an entry itself, even in the record's name, is taken and not believed."""
    false: dict[str, Any] = {"kind": "arrived", "sha256": "0" * 64, "kept_sha256": "0" * 64, "looks_like": "0" * 16}
    false |= {"width_px": 1, "height_px": 1}
    own = delivery(1, **false)
    named = delivery(2, **false) | {"device": "house"}
    receipts = shop.ask("POST", "/api/deliveries", headers=TABLET, json={"deliveries": [own, named]}).json()["receipts"]
    assert [each["taken"] for each in receipts] == ["taken, not understood"] * 2
    assert "the record alone writes" in receipts[0]["problem"]
    assert "house" in receipts[1]["problem"]
    assert arrivals(record) == []


def test_it_is_documented(shop: Asker) -> None:
    """Its forms and answers stand in the application's own description."""
    paths = json.loads(shop.ask("GET", "/api/openapi.json").content)["paths"]
    told = paths["/api/photos"]["post"]
    assert {"image/jpeg", "image/png", "image/webp", "multipart/form-data"} <= set(told["requestBody"]["content"])
    assert {"200", "401", "413", "422", "503", "507"} <= set(told["responses"])
