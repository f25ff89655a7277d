"""A page of cases: one rule, told in days at the invented barrow works, and what must be found."""

import shlex
import tomllib
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from server.facts.judged import Verdict
from server.judgement.book import RULES, Book
from server.judgement.judge import judge_all
from server.judgement.rule import Rule
from server.occasions.build import Shop
from server.occasions.known import Known
from server.procedures.cards import known_cards
from tests.judgement.barrow_works import registers_with, shop_ms
from tests.judgement.log_language import Told, read_log

PAGES = Path(__file__).parent / "cases"
SHARED = ("bead", "coupon", "check", "cylinder", "sleeve", "trace", "correction")
WORDS = ("within", "marginal", "outside", "unknown", "not asked")
DAY = "2031-03-10"


@dataclass(frozen=True)
class Expected:
    """One thing that must be found: whose verdict, the word, and what else is said about it."""

    subject: str
    word: str
    severity: str | None
    more: dict[str, str]


@dataclass(frozen=True)
class Case:
    """One case of a page: a log, what differs in the registers, and what must be found."""

    rule: str
    name: str
    log: str
    find: tuple[Expected, ...]
    told: dict[str, Any] = field(hash=False)

    def verdicts(self, rules: tuple[Rule, ...]) -> dict[str, Verdict]:
        """Judge the case and give the verdicts of its rule by subject."""
        on = self.told.get("on")
        shop, occasions = self._occasions(on)
        found = judge_all(occasions, Book("case", rules, on))
        assert shop is not None
        return {verdict.subject: verdict for verdict in found if verdict.question == self.rule}

    def _occasions(self, on: date | None):
        registers = registers_with(list(self.told.get("lines", ())), dict(self.told.get("figures", {})))
        told = read_log(self.log, self.told.get("day", DAY), self.told.get("slow", {}), _cards(registers))
        now = self.told.get("now")
        known = Known(
            registers=registers,
            shared=told.of(*SHARED),
            clocks=told.clocks,
            passes=told.of("pass"),
            photos=told.of("photo"),
            now_ms=shop_ms(now) if now else None,
        )
        shop = Shop(known, on)
        packets = registers.packets.values()
        frames = [each for each in packets if each.frame == "X1" or _entries(told, each.frame)]
        own = [occasion for packet in frames for occasion in shop.frame(packet, _entries(told, packet.frame))]
        return shop, own + shop.shared()


def pages() -> list[Path]:
    """Give every page."""
    return sorted(PAGES.glob("*.toml"))


@cache
def read_page(path: Path) -> tuple[dict[str, Any], tuple[Case, ...]]:
    """Read one page: what it says on top, and its cases."""
    page = tomllib.loads(path.read_text(encoding="utf-8"))
    return page, tuple(_case(page, told) for told in page["case"])


def rules_for(page: dict[str, Any]) -> tuple[Rule, ...]:
    """Give the rule of a page, with those it listens to."""
    wanted = {page["rule"], *page.get("listens_to", ())}
    return tuple(rule for rule in RULES if rule.id in wanted)


def differences(case: Case, rules: tuple[Rule, ...]) -> list[str]:
    """Tell where what was found differs from what the case says must be found."""
    found = case.verdicts(rules)
    return [said for expected in case.find for said in _difference(expected, found)]


def _difference(expected: Expected, found: dict[str, Verdict]) -> list[str]:
    verdict = found.get(expected.subject)
    if verdict is None:
        return [] if expected.word == "nothing" else [f"nothing about {expected.subject}; found {sorted(found)}"]
    said = []
    if verdict.word.value != expected.word:
        said.append(f"{expected.subject} is {verdict.word.value!r}, expected {expected.word!r}: {verdict.message}")
    if expected.severity not in (None, str(verdict.severity)):
        said.append(f"{expected.subject} is a {verdict.severity}, expected {expected.severity}")
    return said + [
        f"{expected.subject}: {name} is {getattr(verdict, _FIELDS[name])!r}, expected {wanted!r}"
        for name, wanted in expected.more.items()
        if not _agrees(name, wanted, verdict)
    ]


_FIELDS = {"value": "value", "unit": "unit", "proved": "proved", "says": "message", "low": "low", "high": "high",
           "source": "source", "rests": "rests_on", "entries": "rests_on", "caution": "caution",
           "lacks": "message"}  # fmt: skip


def _agrees(name: str, wanted: str, verdict: Verdict) -> bool:
    value = getattr(verdict, _FIELDS[name])
    if name in ("says", "caution"):
        return wanted in value if wanted else value == ""
    if name == "lacks":
        return wanted not in value
    if name == "entries":
        return len(value) == int(wanted)
    if name == "rests":
        return set(wanted.split(",")) <= set(value)
    if name == "proved":
        return value is (wanted == "yes")
    if isinstance(value, float | int):
        return value == pytest.approx(float(wanted), abs=0.006)
    return str(value) == wanted


def _case(page: dict[str, Any], told: dict[str, Any]) -> Case:
    log = page.get("before", "") + "\n" + told.get("log", "")
    common: dict[str, Any] = {key: page[key] for key in ("figures", "now", "on", "day") if key in page}
    lines = [*page.get("lines", ()), *told.get("lines", ())]
    find = tuple(_expected(text) for text in told["find"])
    return Case(page["rule"], told["name"], log, find, {**common, **told, "lines": lines})


def _expected(text: str) -> Expected:
    words = shlex.split(text)
    plain = [word for word in words if "=" not in word]
    more = dict(word.split("=", 1) for word in words if "=" in word)
    return Expected(plain[0], plain[1].replace("-", " "), plain[2] if len(plain) > 2 else None, more)


def _entries(told: Told, frame: str):
    return [each for each in told.entries if getattr(each.entry, "frame", None) == frame]


def _cards(registers) -> dict[str, str]:
    cards = known_cards(registers.procedures.values())
    return {f"{card.procedure}.{card.revision}": digest for digest, card in cards.items()}
