"""Fills the demo's record from the shop's folder: loads it, judges it, and tells what happens there today."""

import hashlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.record.files import Files
from server.record.written import Written
from server.settings import read_settings
from server.work.folder_files import load_folder_files, read_folder_files
from server.work.house_entry import Writing, house_entry
from server.work.judging import judge_everything
from server.work.load_folder import load_folder
from server.work.set_pin import set_pin
from server.work.shop_folder import read_shop_folder
from server.work.take_deliveries import take_deliveries
from server.work.telling import told_line


def open_empty(data: Path) -> Record:
    """Open the record of a data folder that was emptied."""
    return Record.open(read_settings(data).database_url, data)


def load_and_judge(record: Record, shop: Path, say: Callable[[str, int, int], None]) -> None:
    """Tell the record everything the folder tells, and judge it."""
    load_folder(record, read_shop_folder(shop), now_ms(), lambda done, of: say("loading it", done, of))
    judge_everything(record, progress=lambda done, of: say("judging it", done, of))


def tell_today(record: Record, data: Path, shop: Path, told: dict[str, Any]) -> None:
    """Tell what the demo adds to its history, and keep the files of the folder."""
    _tell_this_morning(record, shop, told.get("today", []))
    _tell_pictures(record, shop, told.get("picture", []))
    load_folder_files(record, Files(data), read_folder_files(shop), now_ms())


def give_pin(record: Record, person: str, pin: str) -> str:
    """Set a PIN everybody may read; gives the person's name."""
    return set_pin(record, person, pin, now_ms())


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
