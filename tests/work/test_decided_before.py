"""What was decided on a cause before is found by the questions that speak for it, with what is still found of them."""

from pathlib import Path

from server.judgement.book import RULES
from server.record.book_of_lines import Record
from server.work.decided_before import DecidedBefore, decided_before
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, open_shop, send, sign, tell

KEY = "SW-1/A#1|purge-o2"
CAUSE = next(rule.causes[0] for rule in RULES if rule.id == "purge-o2")


def ask(shop: Record) -> DecidedBefore:
    with shop.reads() as reads:
        (found,) = decided_before(reads, [CAUSE])
    return found


def test_a_cause_meets_its_papers_and_its_decisions(tmp_path: Path):
    """First only found; then decided and under a nonconformity that says whether it recurred, and found no more."""
    shop = open_shop(tmp_path)
    send(shop, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    found = ask(shop)
    assert not found.known
    assert KEY in dict(found.still_found)["purge-o2"]
    sign(shop, "rework", [KEY])
    words = {"title": "purge lost", "recurred": "not since"}
    tell(shop, kind="nonconformity", id="NC-1", findings=[KEY], held=[], **words)
    found = ask(shop)
    assert [each.recurred for each in found.nonconformities] == ["not since"]
    assert (found.decided, found.decisions[0].choice) == (1, "rework")
    assert KEY not in dict(found.still_found).get("purge-o2", ())
    shop.close()


def test_the_newest_of_many_are_shown(tmp_path: Path):
    """Asked after each of seven decisions it counts them all and shows five, the last signed before the others."""
    shop = open_shop(tmp_path)
    send(shop, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    for number in range(1, 8):
        sign(shop, "rework", [KEY], reason=f"seen and understood, look {number}")
        found = ask(shop)
        with shop.reads() as reads:
            told = list(reads.registers().decisions.values())
        newest = sorted(told, key=lambda each: -max(signed.at for signed in each.signatures))
        assert (found.decided, found.decisions) == (number, tuple(newest[:5]))
    shop.close()
