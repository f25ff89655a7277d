"""The bench's addresses: the page, the parts of a build, the service worker."""

import gzip
import re

from server.pages.bench.shell import build, shell_files
from tests.pages.bench.bench_shop import WELDER
from tests.pages.bench.fixtures import Visit

LARGEST_FIRST_LOAD = 150_000


def test_nobody_signed_in_is_sent_to_the_door_and_comes_back(visit: Visit) -> None:
    """Without a session the page sends a person to sign in, and back to the bench after that."""
    answer = visit.ask("GET", "/bench", headers={"accept": "text/html"})
    assert (answer.status_code, answer.headers["location"]) == (303, "/sign-in?onward=/bench")


def test_the_page_holds_nothing_about_a_person(visit: Visit) -> None:
    """The shell a tablet keeps names bench, device and build, and neither the person nor a frame."""
    visit.sign_in(WELDER)
    text = visit.ask("GET", "/bench").text
    assert 'data-bench="B1" data-device="TAB-A"' in text
    assert "Pell" not in text
    assert "MT-" not in text


def test_every_part_is_kept_under_its_build_and_no_other(visit: Visit) -> None:
    """A part of this build may be kept for a year; asked for under another build it may not be kept at all."""
    now = visit.ask("GET", f"/bench/app/{build()}/bench.js")
    other = visit.ask("GET", "/bench/app/000000000000/bench.js")
    assert "immutable" in now.headers["cache-control"]
    assert (other.status_code, other.headers["cache-control"]) == (200, "no-store")


def test_only_the_benchs_own_parts_are_sent(visit: Visit) -> None:
    """Neither the template nor the route nor a file further up can be fetched as a part."""
    for name in ("bench.html", "route.py", "sw.js", "..%2Fframe%2Fsheet.css"):
        assert visit.ask("GET", f"/bench/app/{build()}/{name}").status_code == 404


def test_the_worker_names_every_part_and_is_asked_for_anew(visit: Visit) -> None:
    """The service worker lists the page, each script and style of this build, and the sheet they stand on."""
    answer = visit.ask("GET", "/sw.js")
    shell = re.search(r"const SHELL = (\[.*\]);", answer.text)
    assert shell
    assert answer.headers["cache-control"] == "no-cache"
    assert all(f"/bench/app/{build()}/{file.name}" in shell[1] for file in shell_files())
    assert '"/bench"' in shell[1]
    visit.sign_in(WELDER)
    assert {visit.ask("GET", address).status_code for address in re.findall(r'"([^"]+)"', shell[1])} == {200}


def test_the_first_load_is_small(visit: Visit) -> None:
    """Page, scripts, styles and mark together are under 150 kB as sent."""
    visit.sign_in(WELDER)
    page = visit.ask("GET", "/bench")
    parts = [visit.ask("GET", f"/bench/app/{build()}/{file.name}") for file in shell_files()]
    assert all(part.headers["content-encoding"] == "gzip" for part in parts)
    sent = len(page.content) + sum(len(gzip.compress(part.content, mtime=0)) for part in parts)
    sent += sum(len(visit.ask("GET", address).content) for address in re.findall(r'"(/assets/[^"]+)"', page.text))
    assert sent < LARGEST_FIRST_LOAD
