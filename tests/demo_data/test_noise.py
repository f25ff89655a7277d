"""What the shop meets beside the incidents: small nonconformities, scrapped pieces, claims a picture settled."""

import json
import re
from collections import Counter
from typing import Any

from tests.demo_data.told import Told

INCIDENTS = {"NCR-25-006", "NCR-25-014", "NCR-25-019", "W-26-004"}


def papers(full: Told, kind: str) -> list[dict[str, Any]]:
    return [each.line for each in full.story.papers if each.line["kind"] == kind and each.line["id"] not in INCIDENTS]


def test_small_nonconformities_are_closed_with_their_cause(full: Told) -> None:
    """About forty, gaps and dents and wrong bosses, each with cause and action and closed; each number is used once."""
    small = [each for each in papers(full, "nonconformity") if "scrapped" not in each["title"]]
    assert 30 < len(small) < 50
    assert all(each["cause"] and each["action"] and each["closed"] for each in small)
    assert len({each["id"] for each in papers(full, "nonconformity")}) == len(papers(full, "nonconformity"))


def test_about_one_joint_in_four_hundred_is_scrapped(full: Told) -> None:
    """Signed by both, under a number, and made again with a new piece."""
    by_chance = re.compile(r"D-MT-\d{4}-[A-Z]\d\d")
    decisions = [each for each in papers(full, "decision") if by_chance.fullmatch(each["id"])]
    scrapped = [each for each in decisions if each["choice"] == "scrap"]
    assert 8100 / 400 / 2 < len(scrapped) < 8100 / 400 * 1.5
    under = [each for each in papers(full, "nonconformity") if "scrapped" in each["title"]]
    held = Counter(subject for each in under for subject in each["held"])
    replaced = {
        f"{h.fields['frame']}/{h.fields['joint']}#1" for h in full.by_kind["removed"] if h.fields.get("piece_replaced")
    }
    for each in scrapped:
        subject = each["findings"][0].partition("|")[0]
        assert (len(each["signatures"]), subject in replaced, held[subject]) == (2, True, 1)


def test_five_claims_were_settled_by_a_picture(full: Told) -> None:
    """Each names a frame that had shipped and no joint, and ends with a decision signed by both."""
    claims = papers(full, "claim")
    assert [each["id"] for each in claims] == ["W-25-001", "W-25-002", "W-26-001", "W-26-002", "W-26-003"]
    shipped = {each["frame"]: each["at"] for each in papers(full, "shipment")}
    for claim in claims:
        assert "joint" not in claim
        assert shipped[claim["serial"]] < claim["knew"]
        steps = [each for each in papers(full, "claim step") if each["claim"] == claim["id"]]
        assert [each["step"] for each in steps] == ["photo", "decision"]
        assert len(steps[1]["signatures"]) == 2


def test_the_first_incident_has_its_cause_and_what_was_changed(full: Told) -> None:
    """Told again when the new revisions came into force: the same joints held, now with cause and corrective action."""
    told = [each.line for each in full.story.papers if each.line["id"] == "NCR-25-006"]
    assert ["cause" in each for each in told] == [False, True]
    assert told[0]["held"] == told[1]["held"]
    assert "38 ppm" in told[1]["cause"]
    assert "20 ppm" in told[1]["action"]
    assert json.dumps(told[0]["findings"], default=str) == json.dumps(told[1]["findings"], default=str)
