"""The bench's addresses for programs: the sheet, older stock by its number, and a second person's PIN."""

from server.pages.bench.shell import build
from tests.pages.bench.bench_shop import LEAD, PIN, WELDER
from tests.pages.bench.fixtures import Visit, bench_record, visit

__all__ = ["bench_record", "visit"]


def test_a_sheet_is_given_to_nobody_unknown(visit: Visit) -> None:
    """Without a session the sheet is refused with a problem that says entries are taken all the same."""
    answer = visit.ask("GET", "/api/bench/B1")
    assert (answer.status_code, answer.headers["content-type"]) == (401, "application/problem+json")
    assert "Entries are taken all the same" in answer.json()["detail"]


def test_a_sheet_names_who_is_signed_in(visit: Visit) -> None:
    """The sheet tells the tablet which person and device the session is of."""
    visit.sign_in(WELDER, "TAB-A")
    told = visit.ask("GET", "/api/bench/B1").json()
    assert (told["visitor"]["person"], told["visitor"]["role"], told["device"]) == (WELDER, "welder", "TAB-A")


def test_an_unchanged_sheet_is_not_sent_again(visit: Visit) -> None:
    """Asked with the tag of the last answer, only that nothing has changed comes back; signed in anew it is another."""
    visit.sign_in(WELDER)
    first = visit.ask("GET", "/api/bench/B1")
    tag = first.headers["etag"]
    again = visit.ask("GET", "/api/bench/B1", headers={"if-none-match": tag})
    assert (again.status_code, again.content) == (304, b"")
    assert first.headers["bench-build"] == again.headers["bench-build"] == build()
    visit.sign_in(LEAD)
    assert visit.ask("GET", "/api/bench/B1", headers={"if-none-match": tag}).status_code == 200


def test_stock_is_found_by_part_of_its_number(visit: Visit) -> None:
    """Whoever is signed in gets what has the part in its number, with where it is now; nobody else gets anything."""
    assert visit.ask("GET", "/api/stock", params={"part": "0902"}).status_code == 401
    visit.sign_in(WELDER)
    told = visit.ask("GET", "/api/stock", params={"part": "0902"}).json()
    assert told["cylinders"] == [{"cylinder": "AR-0902", "fill_lot": "L-901", "on": "B1-P", "used": True}]
    assert [(each["sleeve"], each["open_at"]) for each in told["sleeves"]] == [("FT-0902", "B1")]
    assert told["more"] is False


def test_an_unknown_bench_is_a_problem_in_words(visit: Visit) -> None:
    """A bench nobody told of answers 404 and names those there are."""
    visit.sign_in(WELDER)
    answer = visit.ask("GET", "/api/bench/B9")
    assert (answer.status_code, answer.json()["detail"]) == (404, "there is no bench 'B9'; known are: B1, B2")


def test_a_second_person_proves_themselves_on_a_tablet_in_use(visit: Visit) -> None:
    """The right PIN answers with the person; the one signed in stays so."""
    visit.sign_in(WELDER)
    answer = visit.ask("POST", "/api/prove", json={"person": LEAD, "secret": PIN})
    assert (answer.status_code, answer.json()) == (200, {"person": LEAD, "name": "Tomas Wyre"})
    assert visit.ask("GET", "/api/bench/B1").json()["visitor"]["person"] == WELDER


def test_wrong_pins_wait_as_at_the_door(visit: Visit) -> None:
    """After five wrong tries the next one waits, so that this address is no way round the door."""
    visit.sign_in(WELDER)
    answers = [visit.ask("POST", "/api/prove", json={"person": "W02", "secret": "111112"}) for _ in range(6)]
    assert {answer.status_code for answer in answers} == {409}
    assert "Wait" in answers[5].json()["detail"]
    assert "Wait" not in answers[0].json()["detail"]


def test_nobody_is_proved_from_outside(visit: Visit) -> None:
    """Without a session on the tablet no PIN is even looked at."""
    assert visit.ask("POST", "/api/prove", json={"person": LEAD, "secret": PIN}).status_code == 401
