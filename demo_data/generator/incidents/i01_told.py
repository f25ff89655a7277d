"""I-01 as told: the failed bead, the look inside, the paper that held too little, the later analysis."""

from demo_data.generator.days import clock_of, show
from demo_data.generator.devices import iso
from demo_data.generator.gas import LINES
from demo_data.generator.incidents.i01_bad_cylinder import (
    AFTER,
    BAD,
    BEFORE,
    LOT,
    TUE,
    WED,
    cleared,
    kept,
    removed,
)  # fmt: skip
from demo_data.generator.incidents.pinning import subjects
from demo_data.generator.numbers import value
from demo_data.generator.plan import Place
from demo_data.generator.shift import Shift
from demo_data.generator.shop import Shop, bead_at_change
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Happening, KeyOf, Story

I = "I-01"  # noqa: E741
NCR = "NCR-25-006"
ANALYSED = "2025-04-09"


def tell(shop: Shop, story: Story) -> None:
    """Write what the incident adds to the ordinary work, and what has to be found in it."""
    place: Place = shop.plan.facts["bad cylinder"]
    bead = _found(shop, story, place)
    _held(story, place, bead)
    _analysed(story, place)
    _explained(story, place, bead)
    _answers(shop, story, place)


def _found(shop: Shop, story: Story, place: Place) -> Happening:
    at = place.at
    for quarter, grade in (("q3", 5), ("q6", 7)):
        story.tell(
            at(WED, "15:50"), "TAB-A", "W01", "look", frame=place.serial(41), joint="J09", quarters=[quarter],
            side="inside", zone="bead", grade=grade,
        )  # fmt: skip
    shift = Shift(shop, story, place.day(WED), wet=False)
    bead = shift.bead("B1", "P", at(WED, "16:05"), "suspicion", "failed", 7)
    full, spent = value("pressure", 190, "typed"), value("pressure", 141, "typed")
    story.tell(at(WED, "16:20"), "TAB-A", "W01", "cylinder", line="B1-P", off=BAD, off_values=spent)
    story.tell(at(WED, "16:25"), "TAB-A", "W01", "cylinder", line="B1-P", on=AFTER, fill_lot=LOT, values=full)
    shift.bead("B1", "P", at(WED, "16:32"), "change")
    return bead


def _paper(story: Story, place: Place, bead: Happening, moment: int, words: str, **more: str) -> None:
    """Write the nonconformity as it stands at a moment; told again, it stands in place of what was told before."""
    story.sign(
        moment, "nonconformity", NCR, title="purge line of booth 1: bead grey, insides dull on Wednesday",
        findings=[KeyOf("B1-P", bead, "purge-bead"), *(key(subject, "inside-colour") for subject in _dull(place))],
        held=removed(place),
        containment="Wednesday's joints held; cylinder taken off and returned to the supplier.",
        signatures=signatures(moment, words, "Q01"), **more,
    )  # fmt: skip


def _explained(story: Story, place: Place, bead: Happening) -> None:
    """What the analysis showed and what was changed for good; written when the next revisions came into force."""
    analysed = place.day(ANALYSED).isoformat()
    cause = (
        f"Cylinder {BAD} held 38 ppm of oxygen at a dew point of -18 °C by the supplier's analysis of {analysed}, "
        "certified as 2 ppm and -60 °C; the limit of 50 ppm let it pass, and no bead was asked for at a change."
    )
    action = (
        "From 2025-05-05 T1 rev C and T2 rev B: oxygen at most 20 ppm, inside colour at most 1, every seam that can be "
        "seen is looked into; a purge bead at every change of a purge cylinder."
    )
    words = "Cause and corrective action as the supplier's analysis and the new revisions have them."
    _paper(story, place, bead, Place().at("2025-05-05", "07:20"), words, cause=cause, action=action)


def _held(story: Story, place: Place, bead: Happening) -> None:
    moment, decided = place.at("2025-03-20", "10:10"), place.at(WED, "16:33")
    _paper(story, place, bead, moment, "Held are Wednesday's joints on the purge line of booth 1.")
    reason = "The bead was grey on Wednesday; Tuesday's insides were not complained of."
    story.sign(
        moment, "narrowing", f"N-{NCR}-1", check=bead, by="none", since=iso(place.at(WED, "00:00")),
        until=iso(place.at(WED, "16:20")), keeps=removed(place), reason=reason,
        signatures=signatures(moment, reason, "Q01"),
    )  # fmt: skip
    for number, (frame, choice, subjects_) in enumerate(_decided(place)):
        words = "Dull inside after the grey bead; made again on good gas."
        story.sign(
            decided, "decision", f"D-{NCR}-{number + 1}", choice=choice, frame=frame, reason=words,
            findings=[key(subject, "inside-colour") for subject in subjects_], nonconformity=NCR,
            signatures=signatures(decided, words, "Q01", *(("O01",) if choice == "scrap" else ())),
        )  # fmt: skip


def _decided(place: Place) -> list[tuple[str, str, list[str]]]:
    return [
        (place.serial(41), "rework", subjects(place, 41, "J09")),
        (place.serial(43), "scrap", subjects(place, 43, "J01")),
    ]


def _analysed(story: Story, place: Place) -> None:
    moment = place.at(ANALYSED, "11:20")
    for cylinder, oxygen, dew in ((BAD, "38", "-18"), ("AR-0314", "2", "-64"), ("AR-0320", "2", "-65")):
        story.sign(
            moment, "analysis", f"analysis of {cylinder}", cylinder=cylinder, dated=place.day(ANALYSED).isoformat(),
            oxygen_ppm=oxygen, dew_point_c=dew, dew_point_uncertainty_c="2", laboratory="the gas supplier's laboratory",
        )  # fmt: skip


def _dull(place: Place) -> list[str]:
    return [*subjects(place, 41, "J09"), *subjects(place, 43, "J01")]


def _answers(shop: Shop, story: Story, place: Place) -> None:
    find, never = story.find, story.never
    find(I, f"B1-P@{show(place.at(WED, '16:05'))}", "purge-bead", "stop")
    find(I, BAD, "o2-step", "decide")
    for subject in [*kept(place), *removed(place)]:
        find(I, subject, "held-by-failed-check", "stop")
    find(I, NCR, "hold-complete", "decide")
    for subject in _dull(place):
        find(I, subject, "inside-colour", "decide")
    find(I, BAD, "certificate-true", "decide")
    for line in LINES:
        for change in shop.gas.by_line[line][1:] if line.endswith("P") else []:
            if not bead_at_change(clock_of(change.at).date()) and change.on != AFTER:
                find(I, f"{line}@{show(change.at)}", "purge-bead-at-change", "decide", book="today")
    joints = [subject for subject in [*kept(place), *removed(place)] if "/J" in subject]
    for subject in joints:
        find(I, subject, "purge-o2", "decide", book="today")
    never(I, cleared(place), "held-by-failed-check", f"on {BEFORE}, steady; cleared by a signed narrowing")
    never(I, [*kept(place), *removed(place)], "purge-o2", "at or below the 50 ppm then in force; 46 is marginal")
    fittings = [subject for subject in kept(place) if "/F" in subject]
    never(I, fittings, "purge-o2", "fittings allow 50 ppm today", "today")
    never(I, [f"B1-P@{show(place.at(TUE, '13:05'))}"], "purge-bead-at-change", "the rule came in later")
    never(I, [f"AR-{number:04d}" for number in range(312, 324) if number != 317], "held-by-failed-check", "good beads")


def narrow_by_cylinder(shop: Shop, story: Story, moment: int) -> None:
    """Write the narrowing with a fact behind it: since the cylinder came on; signed when the claim was looked into."""
    place: Place = shop.plan.facts["bad cylinder"]
    fact = next(h for h in story.happenings if h.fields.get("on") == BAD and h.fields["kind"] == "cylinder")
    bead = next(h for h in story.happenings if h.fields["kind"] == "bead" and h.at == place.at(WED, "16:05"))
    reason = f"Nothing but {BAD} changed; {BEFORE} read 6 to 11 ppm and its last bead was good."
    story.sign(
        moment, "narrowing", f"N-{NCR}-2", check=bead, by="cylinder connected", fact=fact, reason=reason,
        keeps=[*kept(place), *removed(place)], signatures=signatures(moment, reason, "Q01", "O01"),
    )  # fmt: skip
