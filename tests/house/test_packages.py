"""The locked lists name no host, pin everything by hash, and fit the ranges of pyproject.toml."""

import re
import tomllib

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

from tests.house.tree import ROOT

DOOR = ROOT / "server" / "door"
LINE = re.compile(r"(?P<name>[\w.-]+)==(?P<version>[\w.+]+)( ; [^\\]+)?( \\)?|    --hash=sha256:[0-9a-f]{64}( \\)?")


def strange_lines(text: str) -> list[str]:
    return [line for line in text.splitlines() if not LINE.fullmatch(line)]


def unhashed(text: str) -> list[str]:
    entries = re.split(r"\n(?=\S)", text.strip())
    return [entry.split("==")[0] for entry in entries if "--hash=sha256:" not in entry]


def pinned(text: str) -> dict[str, set[Version]]:
    versions: dict[str, set[Version]] = {}
    for found in filter(None, map(LINE.fullmatch, text.splitlines())):
        if found["name"]:
            versions.setdefault(canonicalize_name(found["name"]), set()).add(Version(found["version"]))
    return versions


def out_of_range(wanted: list[str], have: dict[str, set[Version]]) -> list[str]:
    requirements = map(Requirement, wanted)
    return [r.name for r in requirements if not any(v in r.specifier for v in have.get(canonicalize_name(r.name), ()))]


@pytest.mark.parametrize("name", ["locked_run.txt", "locked_test.txt"])
def test_a_locked_list_holds_names_versions_and_hashes_only(name: str) -> None:
    """Every line is a pinned name or a hash, so no host is named, and no package goes without a hash."""
    text = (DOOR / name).read_text()
    assert strange_lines(text) == []
    assert unhashed(text) == []


def test_a_host_or_a_loose_package_is_reported() -> None:
    """Control: an address, an option line, a range and a package without a hash are reported."""
    address = "thing @ https://example.org/thing.whl"
    assert strange_lines(f"{address}\n--find-links /x\nthing>=1\n") == [address, "--find-links /x", "thing>=1"]
    assert unhashed("a==1 \\\n    --hash=sha256:00\nb==2\n") == ["b"]


def test_the_lists_fit_the_project_file() -> None:
    """What pyproject.toml asks for is in the list that is installed, at a version within its range."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    run, test = (pinned((DOOR / name).read_text()) for name in ("locked_run.txt", "locked_test.txt"))
    assert out_of_range(project["dependencies"], run) == []
    assert out_of_range(project["optional-dependencies"]["test"], test) == []


def test_both_lists_agree() -> None:
    """The second list, laid on top of the first, changes no version of it."""
    run, test = (pinned((DOOR / name).read_text()) for name in ("locked_run.txt", "locked_test.txt"))
    assert {name for name in run if run[name] != test.get(name, run[name])} == set()


def test_a_package_out_of_range_is_reported() -> None:
    """Control: a missing package and one outside its range are reported."""
    assert out_of_range(["a>=2", "b", "c>=1"], {"a": {Version("1")}, "c": {Version("1.5")}}) == ["a", "b"]
