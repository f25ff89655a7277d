"""The morning letter is off by default; switched on it is sent once a day, after its hour, without anybody's name."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.settings import BadSetting, Settings, read_settings
from server.upkeep.posting import NotPosted
from server.work.mailing import SENT, Mailing, mailing
from server.work.morning_list import morning_list
from server.work.morning_mail import morning_letter
from tests.story.log import Tablet
from tests.upkeep.letterbox import Letterbox
from tests.work.small_shop import a_pass, open_shop, send

DAY_MS = 86_400_000


@pytest.fixture
def box() -> Iterator[Letterbox]:
    made = Letterbox()
    made.start()
    yield made
    made.close()


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    send(made, a_pass(slate, "1:00", oxygen="300"))
    yield made
    made.close()


def told(folder: Path, port: int, **more: str) -> Settings:
    plain = {"SERVER": "127.0.0.1", "PORT": str(port), "SECURED": "no", "FROM": "desk@works.example"}
    usual = plain | {"TO": "lead@works.example", "AT": "00:00", "LINK": "https://works.example"}
    return read_settings(folder, {f"STRAWLINE_MAIL_{name}": value for name, value in (usual | more).items()})


def at(moment_ms: int) -> Callable[[], int]:
    return lambda: moment_ms


def test_it_is_off_until_a_server_is_named(shop: Record, tmp_path: Path):
    """Nothing runs and nothing is sent by default."""
    assert mailing(shop, Settings(tmp_path), now_ms) is None


def test_one_letter_a_day_and_none_after_a_restart(shop: Record, tmp_path: Path, box: Letterbox):
    """The same day is sent once, also by a service started anew; the next day once more."""
    settings, now = told(tmp_path, box.port), now_ms()
    sent = [Mailing(shop, settings, lambda: now).look() for _ in range(3)]
    sent.append(Mailing(shop, settings, lambda: now + DAY_MS).look())
    assert sent == [True, False, False, True]
    assert len(box.letters) == 2


def test_not_before_its_hour(shop: Record, tmp_path: Path, box: Letterbox):
    """Before the time told nothing is sent, and the day is not marked."""
    midnight_ms = now_ms() - now_ms() % DAY_MS
    with shop.reads() as reads:
        known = reads.registers().shop
    assert known is not None
    late = told(tmp_path, box.port, AT="23:59")
    assert [Mailing(shop, late, at(midnight_ms + ms)).look() for ms in (0, 3_600_000)] == [False, False]
    assert not (tmp_path / SENT).exists()


def test_it_says_what_waits_and_names_nobody(shop: Record, tmp_path: Path, box: Letterbox):
    """Serial and question stand in it, the desk's address too; no name of a person or a customer."""
    Mailing(shop, told(tmp_path, box.port), now_ms).look()
    letter = box.letters[0]
    assert "SW-1" in letter
    assert "Was the purge oxygen within the limit" in letter
    assert "https://works.example/desk" in letter
    with shop.reads() as reads:
        registers = reads.registers()
    people = [each.name for each in registers.people.values()] + [each.name for each in registers.customers.values()]
    assert people
    assert not [name for name in people if name in letter]


def test_a_shops_name_begins_no_header(shop: Record):
    """Whatever the shop is called, the letter has its one subject and no further receiver."""
    with shop.reads() as reads:
        found = morning_list(reads)
    letter = morning_letter(found, "Works\r\nBcc: all@works.example", "today", "")
    assert letter["Subject"].startswith("Works Bcc: all@works.example, today: ")
    assert letter["Bcc"] is None


def test_a_server_that_is_not_there_is_said_and_tried_again(shop: Record, tmp_path: Path, box: Letterbox):
    """The letter is not marked as sent when nobody took it."""
    gone = told(tmp_path, 1)
    with pytest.raises(NotPosted, match=r"127\.0\.0\.1:1 did not take the letter"):
        Mailing(shop, gone, now_ms).look()
    assert Mailing(shop, told(tmp_path, box.port), now_ms).look()


@pytest.mark.parametrize(
    ("more", "said"),
    [({"TO": "nobody"}, "mail_to is 'nobody'"), ({"FROM": ""}, "mail_from is ''"),
     ({"PASSWORD": "x", "USER": "y"}, "a password is sent over TLS only"),
     ({"AT": "25:00"}, "a time of the day such as 06:30"), ({"SECURED": "maybe"}, "expected one of starttls, tls, no")],
)  # fmt: skip
def test_half_a_setting_is_named(shop: Record, tmp_path: Path, more: dict[str, str], said: str):
    """What is missing or unsafe is named when the service starts, not when the letter is due."""
    with pytest.raises(BadSetting, match=said):
        mailing(shop, told(tmp_path, 25, **more), now_ms)
