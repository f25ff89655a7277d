"""Limit cards and the digest that names them."""

import hashlib
from datetime import date

import rfc8785

from server.facts.equipment import Instrument
from server.facts.limit_card import LimitCard
from server.facts.procedure import DEFERRAL
from server.procedures.cards import card_digest, compile_cards, known_cards
from tests.procedures.ladder import ladder

FIRST = ladder()
SECOND = ladder(**{'revision = "1"': 'revision = "2"', "2031-02-03": "2031-06-01", "low = 60": "low = 65"})
REPAIR = ladder(
    **{
        'name = "LD"': 'name = "RP"',
        'joint_kind = "rung on rail"': 'joint_kind = "repair"\nstage = "repair"\n'
        'repairs = ["rung on rail", "step on rail"]\napprovals = [["owner"]]',
    }
)
METER = Instrument.model_validate(
    {"id": "M", "title": "m", "reads": ({"quantity": "oxygen", "fixed": "1", "share": "0.05", "unit": "ppm"},)}
)
ON = date(2031, 3, 1)


def called(cards: tuple[LimitCard, ...]) -> list[tuple[str, str, str]]:
    return [(card.procedure, card.revision, card.joint_kind) for card in cards]


def test_cards_are_made_for_what_is_in_force_and_what_comes() -> None:
    """A revision can be fetched before it starts; one that has ended is not handed out again."""
    assert called(compile_cards([FIRST, SECOND], {}, ON)) == [("LD", "1", "rung on rail"), ("LD", "2", "rung on rail")]
    assert called(compile_cards([FIRST, SECOND], {}, date(2031, 6, 1))) == [("LD", "2", "rung on rail")]


def test_a_card_says_from_when_until_when() -> None:
    """A tablet without a network knows the day the next revision takes over."""
    first, second = compile_cards([FIRST, SECOND], {}, ON)
    assert (first.valid_from, first.valid_until) == ("2031-02-03", "2031-05-31")
    assert (second.valid_from, second.valid_until) == ("2031-06-01", None)


def test_a_repair_has_one_card_for_each_kind_of_joint() -> None:
    """The repair procedure is compiled for every kind of joint it may be used on."""
    cards = compile_cards([REPAIR], {}, ON)
    assert called(cards) == [("RP", "1", "rung on rail"), ("RP", "1", "step on rail")]
    assert {card.stage for card in cards} == {"repair"}
    assert cards[0].digest != cards[1].digest


def test_the_digest_is_that_of_the_canonical_json() -> None:
    """The digest is SHA-256 over RFC 8785 JSON, as another library writes it."""
    (card,) = compile_cards([FIRST], {"M": METER}, ON)
    said = card.model_dump(mode="json", exclude={"valid_until", "digest"})
    said["lines"] = [{key: value for key, value in line.items() if key != "uncertainty"} for line in said["lines"]]
    assert card.digest == hashlib.sha256(rfc8785.dumps(said)).hexdigest() == card_digest(card)


def test_the_digest_moves_with_a_limit_and_not_with_an_instrument() -> None:
    """A new meter or a later revision leaves the name of a card alone; one changed limit does not."""
    (plain,) = compile_cards([FIRST], {}, ON)
    metered = compile_cards([FIRST, SECOND], {"M": METER}, ON)[0]
    assert plain.digest == metered.digest
    assert plain.lines != metered.lines
    line = plain.lines[0].model_copy(update={"beyond": "Go on."})
    assert card_digest(plain.model_copy(update={"lines": (line, *plain.lines[1:])})) != plain.digest


def test_a_digest_leads_back_to_its_card() -> None:
    """Whatever card a tablet ever showed can be told by the digest on the entry."""
    known = known_cards([FIRST, SECOND, REPAIR])
    assert len(known) == 4
    for card in compile_cards([FIRST, SECOND, REPAIR], {"M": METER}, ON):
        assert (known[card.digest].procedure, known[card.digest].revision) == (card.procedure, card.revision)


def test_a_card_carries_its_cautions_and_defers() -> None:
    """Each caution names its authority, and the last word is that local codes come first."""
    (card,) = compile_cards([FIRST], {}, ON)
    assert card.cautions == ("at the arc: Mind the arc. (the ladder shop's own)", DEFERRAL)
