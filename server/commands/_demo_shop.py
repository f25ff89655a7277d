"""Makes the demo's data folder stand: new where it is not there or stale, untouched where it is not the demo's."""

import hashlib
import json
import shutil
import tomllib
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from server.commands._demo_folder import ROOT, written_beside
from server.upkeep.one_server import LOCK, the_one_service
from server.work.uncollected import uncollected

if TYPE_CHECKING:
    from server.record.book_of_lines import Record

SHOP, MARK, TOUR = "shop", "demo.json", ROOT / "demo_data" / "tour.toml"
MADE_FROM = ("demo_data", "procedures", "server/record/migrations")
Say = Callable[[str, int, int], None]


class NotADemo(Exception):
    """The folder holds something that is not the demo's, so it is left alone."""


class SignIn(NamedTuple):
    """Somebody who may sign in, with the PIN the demo gives them."""

    name: str
    pin: str
    words: str


def make_stand(data: Path, which: str, say: Say, meanwhile: Sequence[str] = ()) -> tuple[SignIn, ...]:
    """Make the data folder unless it stands as it should; what an older demo left there is made anew.

    The modules named under `meanwhile` are imported while another process writes the shop.
    """
    key = _key(which)
    mark = data / MARK
    stands = json.loads(mark.read_text(encoding="utf-8")) if mark.is_file() else {}
    if stands.get("key") == key and stands.get("complete"):
        return tuple(SignIn(*each) for each in stands["sign_ins"])
    if data.exists() and not data.is_dir():
        raise NotADemo(f"{data} is a file; name a folder with --data")
    if data.exists() and any(data.iterdir()) and not stands:
        raise NotADemo(f"{data} holds something that is not a demo's; name another folder with --data")
    with the_one_service(data):
        _empty(data)
        mark.write_text(json.dumps({"key": key}), encoding="utf-8")
        sign_ins = _make(data, which, say, meanwhile)
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


def _make(data: Path, which: str, say: Say, meanwhile: Sequence[str]) -> tuple[SignIn, ...]:
    shop, told = data / SHOP, tomllib.loads(TOUR.read_text(encoding="utf-8"))
    with written_beside(shop, which) as writing, _opened_beside(data, meanwhile) as opened:
        writing.until_told(lambda done, of: say("writing the shop", done, of))
        record = opened()
        from server.commands._demo_filling import give_pin, load_and_judge, tell_today

        load_and_judge(record, shop, say)
        writing.until_drawn()
        tell_today(record, data, shop, told)
        given = ((give_pin(record, each["person"], each["pin"]), each) for each in told["sign_in"])
        return tuple(SignIn(name, each["pin"], each["words"]) for name, each in given)


@contextmanager
def _opened_beside(data: Path, meanwhile: Sequence[str]) -> "Iterator[Callable[[], Record]]":
    """Open the empty record on a thread of its own, and get ready there; it is closed behind the block."""
    with ThreadPoolExecutor(1) as beside:
        opening = beside.submit(_open, data, meanwhile)
        try:
            yield opening.result
        finally:
            opening.result().close()


def _open(data: Path, meanwhile: Sequence[str]) -> "Record":
    with uncollected():
        for module in meanwhile:
            import_module(module)
        from server.commands._demo_filling import open_empty

        return open_empty(data)


def _key(which: str) -> str:
    """Digest of everything the demo is made from, and of the schema's steps, so that a change makes it anew."""
    digest = hashlib.sha256(which.encode())
    for folder in MADE_FROM:
        for file in sorted((ROOT / folder).rglob("*")):
            if file.suffix in (".py", ".toml"):
                digest.update(file.read_bytes())
    return digest.hexdigest()
