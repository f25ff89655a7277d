"""A decision is refused with the reason in shop words; a concession covers what it names, so often, so long."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.concede import ConcessionAsked, ConcessionRefused, concede
from server.work.decide import DecidedMeanwhile, DecisionRefused
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, OWNER, a_pass, open_shop, send, sign, tell

A, B = "SW-1/A#1|purge-o2", "SW-1/B#1|purge-o2"
DAY_MS = 86_400_000


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    send(made, a_pass(slate, "1:00", oxygen="300"), a_pass(slate, "1:30", "B", oxygen="300"))
    yield made
    made.close()


def give(record: Record, **told: Any) -> str:
    usual: dict[str, Any] = {"frames": ("SW-1",), "reason": "a bracket nobody leans on", "signings": (LEAD, OWNER)}
    asked = ConcessionAsked(**usual | {"count": 1, "expires_ms": now_ms() + DAY_MS} | told)
    return record.write(lambda reads: concede(reads, asked, now_ms())).result()


def use(record: Record, concession: str | None, *keys: str) -> str:
    return sign(record, "use as is", keys or (A,), LEAD, OWNER, concession=concession)


def test_a_concession_that_names_the_frame_is_used(shop: Record):
    """Use as is stands under a concession that covers it, for several joints of the one frame it counts."""
    concession = give(shop)
    use(shop, concession, A)
    use(shop, concession, B)
    with shop.reads() as reads:
        assert [each.concession for each in reads.registers().decisions.values()] == [concession, concession]


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({"joints": ("B",)}, "does not name joint A"),
        ({"joints": ("SW-1/A",), "question": "heat-input"}, "is about heat-input, not about purge-o2"),
        ({"before": True}, "made after it was signed"),
    ],
)
def test_a_concession_for_something_else_is_refused(shop: Record, told: dict[str, Any], said: str):
    """Another joint, another question, or work older than a deviation permit is not covered."""
    concession = give(shop, **told)
    with pytest.raises(DecisionRefused, match=said):
        use(shop, concession)


def test_one_nobody_gave_is_refused(shop: Record):
    """A number that is no concession's gives no leave."""
    with pytest.raises(DecisionRefused, match="nobody has given 'CN-0'"):
        use(shop, "CN-0")


def told(record: Record, **changed: Any) -> None:
    sign_by = {"at": "2030-01-01T00:00:00.000Z", "meaning": "given", "shown_sha256": "0" * 64}
    signed = [sign_by | {"person": "LEA", "role": "quality lead"}, sign_by | {"person": "OWN", "role": "owner"}]
    plain = {"kind": "concession", "id": "CN-9", "frames": ["SW-1"], "reason": "so", "signatures": signed}
    tell(record, **plain | changed)


def test_an_expired_or_foreign_one_is_refused(shop: Record):
    """After its day a concession covers nothing, and it never covers a frame it does not name."""
    told(shop, expires="2020-01-01T00:00:00.000Z")
    with pytest.raises(DecisionRefused, match="has expired"):
        use(shop, "CN-9")
    told(shop, frames=["SW-2"])
    with pytest.raises(DecisionRefused, match="does not name frame SW-1"):
        use(shop, "CN-9")


def test_one_use_more_than_counted_is_refused(shop: Record):
    """A concession for one frame, used on one, refuses the next."""
    told(shop, count=1, frames=["SW-1", "SW-7"])
    paper = {"choice": "use as is", "findings": ["SW-7/A#1|purge-o2"], "reason": "as agreed", "concession": "CN-9"}
    signed = {"person": "LEA", "role": "quality lead", "at": "2030-01-02T00:00:00.000Z", "meaning": "used"}
    tell(shop, kind="decision", id="D-7", signatures=[signed | {"shown_sha256": "0" * 64}], **paper)
    with pytest.raises(DecisionRefused, match="used up: 1 of 1 used, on SW-7"):
        use(shop, "CN-9")


def test_a_deviation_permit_decides_nothing_that_is_made(shop: Record):
    """Leave to deviate is given before the work, so it is no decision about a finding."""
    with pytest.raises(DecisionRefused, match="before the work"):
        sign(shop, "deviation permit", [A], LEAD, OWNER)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"frames": ("SW-0",)}, "'SW-0' is no serial"),
        ({"frames": ()}, "none is named"),
        ({"count": 0}, "1 or more"),
        ({"expires_ms": 1}, "a day to come"),
        ({"reason": " "}, "reason: empty"),
        ({"signings": (LEAD,)}, "still to sign: owner"),
    ],
)
def test_a_concession_without_bounds_is_refused(shop: Record, wrong: dict[str, Any], said: str):
    """A concession names known frames, a count, an expiry and a reason, and both roles sign it."""
    with pytest.raises(ConcessionRefused, match=said):
        give(shop, **wrong)


def test_a_decision_signed_meanwhile_is_read_first(shop: Record):
    """Two look at one finding: the second learns who decided what meanwhile, and signs once they have read it."""
    hold = sign(shop, "hold", (A,), decided=(), reason="wait for the second look")
    with pytest.raises(DecidedMeanwhile, match=r"hold, wait for the second look\. Nothing of yours"):
        sign(shop, "accept", (A, B), decided=())
    assert sign(shop, "accept", (A, B), decided=(hold,)) != hold
