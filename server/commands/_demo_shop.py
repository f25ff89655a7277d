"""Makes the demo's data folder: writes the invented shop, loads it, and sets the PINs that are written beside it."""

import hashlib
import importlib
import json
import shutil
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.record.files import Files
from server.record.schema import REVISION
from server.record.written import Written
from server.settings import read_settings
from server.upkeep.one_server import LOCK, the_one_service
from server.work.folder_files import load_folder_files, read_folder_files
from server.work.house_entry import Writing, house_entry
from server.work.judging import judge_everything
from server.work.load_folder import load_folder
from server.work.set_pin import set_pin
from server.work.shop_folder import read_shop_folder
from server.work.take_deliveries import take_deliveries
from server.work.telling import told_line

ROOT = Path(__file__).resolve().parents[2]
SHOP, MARK, TOUR = "shop", "demo.json", ROOT / "demo_data" / "tour.toml"
Say = Callable[[str, int, int], None]


class NotADemo(Exception):
    """The folder holds something that is not the demo's, so it is left alone."""


class SignIn(NamedTuple):
    """Somebody who may sign in, with the PIN the demo gives them."""

    name: str
    pin: str
    words: str


def make_stand(data: Path, which: str, say: Say) -> tuple[SignIn, ...]:
    """Make the data folder unless it stands as it should; what an older demo left there is made anew."""
    key = _key(which)
    mark = data / MARK
    stands = json.loads(mark.read_text(encoding="utf-8")) if mark.is_file() else {}
    if stands.get("key") == key and stands.get("complete"):
        return tuple(SignIn(*each) for each in stands["sign_ins"])
    if data.exists() and any(data.iterdir()) and not stands:
        raise NotADemo(f"{data} holds something that is not a demo's; name another folder with --data")
    with the_one_service(data):
        _empty(data)
        mark.write_text(json.dumps({"key": key}), encoding="utf-8")
        sign_ins = _make(data, which, say)
        mark.write_text(json.dumps({"key": key, "complete": True, "sign_ins": sign_ins}), encoding="utf-8")
    return sign_ins


def _empty(data: Path) -> None:
    for each in data.iterdir():
        if each.is_dir():
            shutil.rmtree(each)
        elif each.name != LOCK:
            each.unlink()


def tour(sign_ins: tuple[SignIn, ...]) -> str:
    """Say who may sign in and where to look."""
    looks = tomllib.loads(TOUR.read_text(encoding="utf-8"))["look"]
    people = [f"  {each.name:<14}PIN {each.pin}   {each.words}" for each in sign_ins]
    places = [f"  {look['at']:<22}{look['words']}" for look in looks]
    return "\n".join(["Sign in as (PINs of the demo, for everybody to read):", *people, "Look at:", *places])


def _make(data: Path, which: str, say: Say) -> tuple[SignIn, ...]:
    generator = importlib.import_module("demo_data.generator.folder")
    cards = importlib.import_module("demo_data.generator.cards")
    shop = data / SHOP
    importlib.import_module("demo_data.generator.pictures").write_pictures(shop)
    generator.write_shop(
        shop, which, cards=cards.shown_cards, progress=lambda done, of: say("writing the shop", done, of)
    )
    record = Record.open(read_settings(data).database_url, data)
    try:
        load_folder(record, read_shop_folder(shop), now_ms(), lambda done, of: say("loading it", done, of))
        judge_everything(record, progress=lambda done, of: say("judging it", done, of))
        told = tomllib.loads(TOUR.read_text(encoding="utf-8"))
        _tell_this_morning(record, shop, told.get("today", []))
        _tell_pictures(record, shop, told.get("picture", []))
        load_folder_files(record, Files(data), read_folder_files(shop), now_ms())
        return tuple(_sign_in(record, each) for each in told["sign_in"])
    finally:
        record.close()


def _tell_this_morning(record: Record, shop: Path, told: list[dict[str, Any]]) -> None:
    """Tell what the demo adds of today: a packet to weld, papers that have not lapsed, a picture that came by mail."""
    at_ms = now_ms()
    moment = show_moment(at_ms)
    lines = [told_line(_dated(_named(each, shop), moment), at_ms) for each in told]
    written: Written[None] = Written(answer=lambda _: None, lines=lines)
    record.write(lambda _: written).result()


def _tell_pictures(record: Record, shop: Path, told: list[dict[str, Any]]) -> None:
    """Tell of the drawn pictures as the desk would: their entries first, the bytes follow with the folder's files."""
    with record.reads() as reads:
        after = reads.last_position()
    for number, each in enumerate(told):
        told_of = _named({"kind": "photo", "sha256": each["file"]} | each, shop)
        writing = Writing(told_of.pop("who"), told_of.pop("role"), now_ms(), after + number)
        del told_of["file"]
        take_deliveries(record, [house_entry(f"photo:{told_of['sha256']}", writing, told_of)]).result()


def _named(told: dict[str, Any], shop: Path) -> dict[str, Any]:
    """Put the SHA-256 of a file of the shop folder where the sheet names the file."""
    named = {key: shop / told[key] for key in ("sha256", "file_sha256") if key in told}
    return told | {key: hashlib.sha256(file.read_bytes()).hexdigest() for key, file in named.items()}


def _dated(told: dict[str, Any], moment: str) -> dict[str, Any]:
    return {name: str(value).replace("@now", moment).replace("@today", moment[:10]) for name, value in told.items()}


def _sign_in(record: Record, told: dict[str, Any]) -> SignIn:
    return SignIn(set_pin(record, told["person"], told["pin"], now_ms()), told["pin"], told["words"])


def _key(which: str) -> str:
    """Digest of everything the demo is made from, and of the schema it stands in, so that a change makes it anew."""
    digest = hashlib.sha256(f"{which} {REVISION}".encode())
    for folder in ("demo_data", "procedures"):
        for file in sorted((ROOT / folder).rglob("*")):
            if file.suffix in (".py", ".toml"):
                digest.update(file.read_bytes())
    return digest.hexdigest()
