"""No words of one machine, one network or one shop stand where they do not belong."""

import re
from collections.abc import Iterable
from pathlib import Path

import pytest

from tests.house.demo_words import demo_words
from tests.house.tree import ROOT, shown, text_files

# Put together from pieces, so that this file does not report itself.
HOSTS = tuple(
    ".".join(parts) for parts in (("pypi", "org"), ("pythonhosted", "org"), ("npmjs", "org"), ("debian", "org"))
)
HOMES = ("/" + "root/", "/" + "Users/", "/" + r"home/\w+")
OUTSIDE = (re.escape("../" + "shared"), "hand" + "book/")
ELSEWHERE = re.compile("|".join([*map(re.escape, HOSTS), *(rf"(?<![\w.:]){home}" for home in HOMES), *OUTSIDE]))


def from_elsewhere(text: str, here: Path = ROOT) -> list[str]:
    found = [match.group() for match in ELSEWHERE.finditer(text)]
    return found + ([str(here)] if f"{here}/" in text else [])


def words_found(words: Iterable[str], text: str) -> list[str]:
    # Looked for as it stands first, which takes a hundredth of the time, and is in hardly any text.
    return [word for word in words if word in text and re.search(rf"(?<!\w){re.escape(word)}(?![a-z])", text)]


def test_no_file_names_a_machine_or_a_host() -> None:
    """No tracked file names a path of one machine, a package registry or a folder outside the project."""
    found = {shown(file): from_elsewhere(file.read_text(encoding="utf-8")) for file in text_files()}
    assert {name: what for name, what in found.items() if what} == {}


@pytest.mark.parametrize(
    "text",
    [
        f"see {'/' + 'root'}/x",
        f"url = https://{HOSTS[0]}/simple",
        f"open {'../' + 'shared'}/x",
        "/srv/house/server/a.py",
    ],
)
def test_a_foreign_place_is_reported(text: str) -> None:
    """Control: a home folder, a registry, a neighbour folder and the house's own absolute path are reported."""
    assert from_elsewhere(text, Path("/srv/house"))


def test_a_place_of_the_house_is_not_reported() -> None:
    """Control: paths inside the project and ordinary addresses pass."""
    assert (
        from_elsewhere("server/work/open_frame.py, /usr/bin/env, http://127.0.0.1:8000/desk", Path("/srv/house")) == []
    )


def test_the_server_knows_no_word_of_the_demo_shop() -> None:
    """Neither the demo shop's name nor its people, serials and codes occur anywhere in the server."""
    words = demo_words(ROOT / "demo_data")
    found = {shown(file): words_found(words, file.read_text(encoding="utf-8")) for file in text_files("server")}
    assert {name: what for name, what in found.items() if what} == {}


def test_a_demo_word_is_reported(tmp_path: Path) -> None:
    """Control: names and codes are drawn from a shop folder and found in a line that uses them, whole words only."""
    (tmp_path / "shop.toml").write_text('name = "Quarrel Frameworks"\nserial_prefix = "QF-"\n')
    (tmp_path / "people.toml").write_text('[[person]]\nid = "W77"\nname = "Ilda Vorne"\nrole = "welder"\n')
    words = demo_words(tmp_path)
    assert set(words_found(words, 'if serial.startswith("QF-0001") or who in ("Vorne", "W77"):')) == {
        "QF-",
        "Vorne",
        "W77",
    }
    assert words_found(words, "the welder frameworks, Vornedale") == []
