"""Writes the papers of ordinary frames: what was decided about chance events, the gates, the shipment, a new owner."""

from datetime import date

from demo_data.generator.customers import DEALERS, customer_of, made_up
from demo_data.generator.days import HOUR, LAST, MINUTE, at, working_days_later
from demo_data.generator.devices import iso
from demo_data.generator.fates import QUESTION
from demo_data.generator.frames import INSPECTED, RELEASED, SHIPPED, Frame
from demo_data.generator.noise_told import tell_scrapped, tell_small
from demo_data.generator.registers import lost_tag
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story
from demo_data.generator.weld import Weld

_GATES = (
    (INSPECTED, "14:40", "final inspection", ("Q01",), "Looked over, tried and measured; open findings are decided."),
    (RELEASED, "11:30", "release", ("Q01",), "Released for delivery."),
    (SHIPPED, "13:20", "ship", ("O01",), "May leave the house."),
)
REASONS = {
    "accept": "Looked at and found sound; the value is noted and changes nothing.",
    "scrap": "The piece is thrown away; a new one is welded on under the production procedure.",
    "rework": "Cut out and made again under the production procedure.",
    "use as is": "Sound where it counts; both sign for it.",
    "repair": "Repaired once under the repair procedure.",
}


def tell_papers(shop: Shop, story: Story, frame: Frame, welds: list[Weld]) -> None:
    """Write the papers of one frame."""
    for weld in welds:
        if weld.fate:
            _decide(shop, story, weld)
    _lost_tag(shop, story, frame)
    tell_small(shop, story, frame)
    for stage, clock, permits, people, words in _GATES:
        if frame.days[stage] <= LAST and ("gate", (frame.number, permits)) not in shop.plan.skipped:
            moment = at(frame.days[stage], clock)
            story.sign(
                moment, "permission", f"{permits} {frame.serial}", permits=permits, frame=frame.serial,
                signatures=signatures(moment, words, *people),
            )  # fmt: skip


def _decide(shop: Shop, story: Story, weld: Weld) -> None:
    fate = weld.fate
    if fate is None:
        return
    question = QUESTION[fate.quantity]
    story.find("chance", weld.subject, question, "decide")
    day = working_days_later(weld.day, 1) if weld.stage < 4 else weld.day
    moment = at(day, "08:35" if day > weld.day else "16:50") + shop.dice("decided", weld.subject).whole(0, 30) * MINUTE
    moment = max(moment, weld.last + HOUR // 4)
    if fate.quantity == "gap":
        _nonconformity(story, weld, moment)
    if fate.choice == "scrap":
        tell_scrapped(story, weld, moment)
    people = ("Q01", "O01") if fate.choice in ("use as is", "scrap") else ("Q01",)
    words = REASONS[fate.choice]
    story.sign(
        moment, "decision", f"D-{weld.frame.serial}-{weld.joint}", choice=fate.choice, frame=weld.frame.serial,
        findings=[key(weld.subject, question)], reason=words, signatures=signatures(moment, words, *people),
    )  # fmt: skip


def _nonconformity(story: Story, weld: Weld, moment: int) -> None:
    serial = weld.frame.serial
    story.sign(
        moment, "nonconformity", f"NCR-{weld.day:%y}-{100 + weld.frame.number}", title=f"gap too wide at {weld.joint}",
        findings=[key(weld.subject, "fit-up-gap")], held=[weld.subject], cause="mitre cut with a worn hole saw",
        action="saw replaced; the next ten mitres measured", recurred="no", closed=iso(moment),
        signatures=signatures(moment, f"Gap at {serial} {weld.joint}.", "Q01"),
    )  # fmt: skip


def _lost_tag(shop: Shop, story: Story, frame: Frame) -> None:
    member = lost_tag(shop, frame)
    if member is None or frame.days[0] > LAST:
        return
    subject = f"{frame.serial}/{member}#1"
    story.find("chance", subject, "piece-heat", "decide", "unknown")
    signed = at(working_days_later(frame.days[0], 1), "08:20")
    words = "The tag of the off-cut was lost; it was cut from the rack of one heat, and its hardness agrees."
    story.sign(
        signed, "decision", f"D-{frame.serial}-{member}", choice="accept", frame=frame.serial, reason=words,
        findings=[key(subject, "piece-heat")], signatures=signatures(signed, words, "Q01"),
    )  # fmt: skip


def tell_shipments(shop: Shop, story: Story, told: set[int]) -> None:
    """Write the shipments in the order of their days, numbered over the whole history, and who owns the frame now."""
    made = [frame for frame in shop.frames.values() if not frame.before_the_record]
    gone = [(frame.days[SHIPPED], frame.serial, frame.number) for frame in made]
    again: list[tuple[date, str, int]] = shop.plan.facts.get("shipped again", [])
    number = 0
    for day, serial, frame_number in sorted([*gone, *again]):
        if day > LAST:
            continue
        number += 1
        if frame_number in told:
            _ship(shop, story, f"S-{number:04d}", serial, frame_number, at(day, "13:40"))


def _ship(shop: Shop, story: Story, shipment: str, serial: str, number: int, moment: int) -> None:
    frame = shop.frames[number]
    customer = customer_of(shop.plan, frame)
    weight = 2.3 + number % 7 * 0.11 if frame.design != "PLV" else 5.1 + number % 5 * 0.14
    story.sign(
        moment, "shipment", shipment, frame=serial, customer=customer, at=iso(moment), packed_by="F01",
        weight_kg=f"{weight:.2f}",
    )  # fmt: skip
    dice = shop.dice("rider", serial)
    if customer == DEALERS and dice.chance(0.7):
        told = at(working_days_later(frame.days[SHIPPED], dice.whole(8, 30)), "10:30")
        rider = made_up(100 + number)
        story.sign(told, "customer", rider["id"], name=rider["name"], address=rider["address"])
        since = iso(told - 5 * 24 * HOUR)[:10]
        story.sign(
            told, "ownership", f"{serial} {since}", frame=serial, customer=rider["id"], since=since,
            told_by="registration card",
        )  # fmt: skip
