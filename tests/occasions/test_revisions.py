"""Which revision and which figure was in force."""

from datetime import date

from server.facts.equipment import Acceptance
from server.occasions.accepted import Accepted
from server.occasions.revisions import Revisions
from server.procedures.cards import known_cards
from tests.judgement.barrow_works import registers_with

KNOWN = registers_with([], {})
PROCEDURES = list(KNOWN.procedures.values())
LAST_OF_A, FIRST_OF_B = date(2031, 3, 31).toordinal(), date(2031, 4, 1).toordinal()


def called(procedure) -> str | None:
    return procedure.called if procedure else None


def test_a_revision_holds_from_its_first_day():
    """Rev A to the last of March, rev B from the first of April; before rev A there was nothing."""
    revisions = Revisions(PROCEDURES, None)
    assert called(revisions.in_force("TT", LAST_OF_A)) == "TT rev A"
    assert called(revisions.in_force("TT", FIRST_OF_B)) == "TT rev B"
    assert revisions.in_force("TT", date(2029, 1, 1).toordinal()) is None
    assert revisions.in_force("no such", FIRST_OF_B) is None


def test_todays_book_judges_by_today_and_still_knows_what_was_in_force():
    """Held against a day of its own, the limits are that day's; what was in force then stays what it was."""
    revisions = Revisions(PROCEDURES, FIRST_OF_B)
    assert called(revisions.judged_by("TT", LAST_OF_A)) == "TT rev B"
    assert called(revisions.in_force("TT", LAST_OF_A)) == "TT rev A"


def test_a_repair_procedure_is_found_by_the_kind_of_joint():
    """The repair procedure covers tubes and machined parts; a fitting has none."""
    revisions = Revisions(PROCEDURES, None)
    joints = {joint.id: joint for joint in KNOWN.designs["barrow"].joints}
    assert called(revisions.repair_for(joints["A1"], LAST_OF_A)) == "RP rev A"
    assert revisions.repair_for(joints["B1"], LAST_OF_A) is None


def test_a_limit_for_one_run_stands_above_none_and_holds_there_only():
    """The interpass limit is written for the fill: at the root there is none."""
    revisions = Revisions(PROCEDURES, None)
    procedure = revisions.in_force("TT", LAST_OF_A)
    assert "interpass" in revisions.limits(procedure, "thin tube to thin tube", "fill")
    assert "interpass" not in revisions.limits(procedure, "thin tube to thin tube", "root")
    assert revisions.limits(None, "", "fill") == {}


def test_a_card_is_known_by_its_digest():
    """Every card of every revision names it; a strange digest and none name nothing."""
    revisions = Revisions(PROCEDURES, None)
    for digest, card in known_cards(PROCEDURES).items():
        assert revisions.shown(digest) == (card.procedure, card.revision)
    assert revisions.shown("feed") is None
    assert revisions.shown(None) is None


def test_a_figure_holds_from_its_day_and_the_last_one_wins():
    """A figure written twice holds as written first until the day of the second."""
    told = {"name": "gap", "unit": "mm", "source": "sheet"}
    first = Acceptance.model_validate(told | {"id": "A", "value": "0.5", "valid_from": date(2031, 1, 1)})
    second = Acceptance.model_validate(told | {"id": "B", "value": "0.3", "valid_from": date(2031, 4, 1)})
    then = Accepted([second, first], None)
    assert then.at(date(2030, 12, 31).toordinal()) == {}
    assert then.at(LAST_OF_A)["gap"].value == 0.5
    assert then.at(FIRST_OF_B)["gap"].value == 0.3
    assert Accepted([second, first], FIRST_OF_B).at(LAST_OF_A)["gap"].value == 0.3
