"""MB-0871: a frame from before the record, of which a card tells little; it came back for one more rack boss."""

from demo_data.generator.days import at
from demo_data.generator.devices import IMPORT, iso
from demo_data.generator.frames import OLD, Frame
from demo_data.generator.plan import Place, Plan, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.story import Story

BACK, WELDED, AGAIN = "2026-05-11", "2026-05-13", "2026-05-20"
BOSS, DESIGN, DRAWN_AS = "F15", "LST", "LST-F15"
CARD = 'card: model and size, welder "h.k.", "Gr 9 rod", two tube heats, one unreadable; no pass, gas or reading'


def plant(plan: Plan, place: Place) -> None:
    """Settle the one boss welded on, and the second shipment."""
    del place
    now = Place()
    plan.frames.add(OLD)
    plan.remakes.append(Remake(OLD, BOSS, 1, now.day(WELDED), stage=4))
    plan.facts["customers"][OLD] = "C-11"
    plan.facts.setdefault("shipped again", []).append((now.day(AGAIN), "MB-0871", OLD))
    plan.told.append(("MB-0871", _tell))


def old_frame() -> Frame:
    """Give the frame; its days are those of its return."""
    now = Place()
    days = [now.day(BACK)] * 4 + [now.day(WELDED)] * 2 + [now.day("2026-05-15")] * 4 + [now.day("2026-05-19")] * 2
    return Frame(OLD, DESIGN, "B1", [*days, now.day(AGAIN)])


def drawn_with_boss(text: str) -> str:
    """Give the touring cycle's drawing with one more rack boss, for the frame that came back for it."""
    last = next(line for line in text.splitlines() if line.lstrip().startswith('{ id = "F14"'))
    boss = last.replace('"F14"', f'"{BOSS}"').replace("part_way = 0.74", "part_way = 0.56")
    drawn = text.replace(last, f"{last}\n{boss}").replace('"F14",\n]', f'"F14", "{BOSS}",\n]')
    drawn = drawn.replace('name = "LST"', f'name = "{DRAWN_AS}"')
    return drawn.replace('title = "Longstrand"', 'title = "Longstrand, one boss more"')


def _tell(shop: Shop, story: Story) -> None:
    del shop
    now, serial = Place(), "MB-0871"
    known = now.at(BACK, "10:05")
    story.sign(
        known, "packet", serial, frame=serial, design=DRAWN_AS, size="56", bench="B1", customer="C-11",
        issued=iso(known), before_the_record=True, note=CARD,
    )  # fmt: skip
    made = at(now.day("2025-01-06"), "12:00") - 572 * 86_400_000
    shipped = story.tell(made, IMPORT, "A01", "stage", known, frame=serial, stage="shipped", note=CARD)
    shipped.sent = known
    story.tell(now.at(BACK, "10:20"), "TAB-Q", "F01", "stage", frame=serial, stage="returned")
    story.tell(now.at(AGAIN, "13:40"), "TAB-Q", "F01", "stage", frame=serial, stage="shipped")
    old = [f"{serial}/{joints}" for joints in ("J*", "F0*", "F10*")]
    story.never(serial, old, "*", "before the record: nothing is asked")
