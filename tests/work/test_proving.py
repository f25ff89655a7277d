"""Secrets are kept as hashes, and weak ones are refused in words."""

import pytest
from argon2 import PasswordHasher

from server.work.proving import SecretTooWeak, good_phrase, good_pin, hash_secret, other_pepper, outdated, proves


def test_only_the_secret_proves():
    """The secret itself proves, another does not, and the hash does not hold the secret."""
    kept = hash_secret("481516")

    assert proves("481516", kept)
    assert not proves("481517", kept)
    assert "481516" not in kept
    assert kept.startswith("$argon2id$v=19$m=19456,t=2,p=1$")


def test_a_broken_hash_proves_nothing():
    """What is not a hash is never taken as proof."""
    assert not proves("481516", "481516")


@pytest.mark.parametrize("pin", ["12345", "1234567", "abcdef", "", "123456", "777777", "٤٨١٥١٦"])
def test_a_weak_pin_is_refused(pin: str):
    """A PIN has six digits and is not among the first anybody would try."""
    with pytest.raises(SecretTooWeak, match="PIN"):
        good_pin(pin)


def test_a_short_phrase_is_refused():
    """A pass phrase has twelve characters or more."""
    assert good_phrase("grey water rises") == "grey water rises"
    with pytest.raises(SecretTooWeak, match="at least 12"):
        good_phrase("short one")


def test_the_pepper_is_part_of_the_secret():
    """A hash kept with a pepper is proved with it alone, and says that another one went in; without one it says so."""
    kept = hash_secret("481516", b"of this shop")

    assert proves("481516", kept, b"of this shop")
    assert not proves("481516", kept, b"of another")
    assert not proves("481516", kept.partition("$argon2id")[1] + kept.partition("$argon2id")[2])
    assert [other_pepper(kept, pepper) for pepper in (b"of this shop", b"of another")] == [False, True]
    assert not other_pepper(hash_secret("481516"), b"of this shop")


def test_a_hash_from_before_the_pepper_still_proves():
    """What was kept before there was a pepper goes on opening, until it is changed."""
    assert proves("481516", hash_secret("481516"), b"of this shop")


@pytest.mark.parametrize("phrase", ["iloveyouforever", "manchesterunited", "adavaneadavane", "strawline1234567890"])
def test_worn_phrases_are_refused(phrase: str):
    """Pass phrases of worn words, of one's own name and of the house's are refused; four unusual words are not."""
    with pytest.raises(SecretTooWeak, match="first anybody would try"):
        good_phrase(phrase, ("ada", "Vane"))
    assert good_phrase("seven quiet brown hares", ("ada", "Vane"))


def test_what_would_be_kept_otherwise_today_is_told():
    """Without the pepper, or with fewer passes than today, a hash is outdated; one made now is not."""
    cheap = PasswordHasher(time_cost=1, memory_cost=8 * 1024, parallelism=1).hash("481516")
    pepper = b"of this shop"
    kept = [hash_secret("481516", pepper), hash_secret("481516"), cheap]
    assert [outdated(each, pepper) for each in kept] == [False, True, True]
    assert [outdated(each) for each in kept] == [True, False, True]
