"""Somebody guesses PINs, in a hurry or with all the time in the world: how many guesses are ever checked."""

from typing import NamedTuple

import pytest
from fastapi import FastAPI

from server.work import sign_in
from tests.security.caller import KEY, PERSON_OF, PIN, TABLET, Caller

WELDER = PERSON_OF["welder"]
GUESSES = [f"{number:06}" for number in range(100) if f"{number:06}" != PIN]
HOUR_MS = 3_600_000
NO_LIMIT = 1_000_000


class Attack(NamedTuple):
    """The application that is attacked, the guesses it has checked, and the clock it goes by [ms, UTC]."""

    app: FastAPI
    checked: list[str]
    clock: list[int]

    def guess(self, key: str | None, pause_ms: int) -> int:
        """Try a hundred PINs from a device with this key, with a pause before each, and give how many were checked."""
        before = len(self.checked)
        for number, guess in enumerate(GUESSES):
            self.clock[0] += pause_ms
            Caller(self.app, key).try_in(WELDER, guess, device=f"{TABLET} {number % 7}")
        return len(self.checked) - before


@pytest.fixture
def attack(app: FastAPI, monkeypatch: pytest.MonkeyPatch) -> Attack:
    """An attack that has not begun."""
    found = Attack(app, [], [1_700_000_000_000])
    monkeypatch.setattr(sign_in, "proves", lambda secret, *_: found.checked.append(secret))
    monkeypatch.setattr("server.pages.sign_in.route.now_ms", lambda: found.clock[0])
    return found


def test_with_all_the_time_in_the_world_ten_are_checked(attack: Attack):
    """One guess an hour from the shop's own tablet: ten are checked, then the PIN is off, also the day after."""
    assert attack.guess(KEY, HOUR_MS) == 10
    attack.clock[0] += 100 * HOUR_MS
    assert attack.guess(KEY, HOUR_MS) == 0


def test_in_a_hurry_five_are_checked(attack: Attack):
    """A guess every hundredth of a second: five are checked, then each waits."""
    assert attack.guess(KEY, 10) == 5


def test_from_an_unknown_device_none_is_checked(attack: Attack):
    """Without a key, or with a wrong one, no guess is ever checked, however long it goes on."""
    assert attack.guess(None, HOUR_MS) == 0
    assert attack.guess("not-a-key-of-this-shop", HOUR_MS) == 0


def test_without_the_waits_the_hurried_are_checked_up_to_ten(attack: Attack, monkeypatch: pytest.MonkeyPatch):
    """Control: with the waits taken out a hurried attack gets as far as a patient one."""
    monkeypatch.setattr(sign_in, "WAITS_S", {})
    assert attack.guess(KEY, 10) == 10


def test_without_the_lock_out_all_are_checked(attack: Attack, monkeypatch: pytest.MonkeyPatch):
    """Control: with waits and lock-out taken out every guess is checked."""
    monkeypatch.setattr(sign_in, "WAITS_S", {})
    monkeypatch.setattr(sign_in, "TRIES_TO_OFF", NO_LIMIT)
    assert attack.guess(KEY, 10) == len(GUESSES)


def test_without_the_rule_for_devices_strangers_guesses_are_counted_in(
    attack: Attack, monkeypatch: pytest.MonkeyPatch
):
    """Control: with the rule for unknown devices taken out, guesses from one are let through to the counting."""
    monkeypatch.setattr(sign_in, "no_pin_elsewhere", lambda _: None)
    attack.guess(None, HOUR_MS)
    assert attack.checked
