"""Makes the registers that follow from the story: sleeves, fill lots, packets with their pieces, further customers."""

from datetime import date

from demo_data.generator.customers import customer_of, made_up
from demo_data.generator.days import FIRST, LAST, at, clock_of, working_days_later
from demo_data.generator.devices import iso
from demo_data.generator.dice import Dice
from demo_data.generator.frames import Frame
from demo_data.generator.joints import MACHINED, MEMBERS
from demo_data.generator.shop import Shop
from demo_data.generator.toml_text import BARE, tables


def moment(moment_ms: int) -> str:
    """Write a moment for TOML."""
    return f"{BARE}{iso(moment_ms)[:19]}Z"


def sleeves_text(shop: Shop) -> str:
    """Give sleeves.toml: every sleeve by its label."""
    rows = []
    for sleeve in sorted(shop.sleeves, key=lambda s: s.number):
        labelled = shop.plan.facts.get(("label", sleeve.code), (sleeve.lot, sleeve.filler_class))
        arrived = at(working_days_later(clock_of(sleeve.opened).date(), -2), "10:15")
        row = {"id": sleeve.code, "lot": labelled[0], "filler_class": labelled[1], "rod_mm": f"{BARE}{sleeve.rod_mm}"}
        later = arrived >= at(FIRST, "06:00")
        rows.append(("rod_sleeve", row | {"received_at": moment(arrived) if later else None}))
    return tables("Rod sleeves as received: what their labels say.", rows)


def gas_text(shop: Shop) -> str:
    """Give gas.toml: every fill lot with its certificate."""
    rows = []
    for name, arrived in shop.gas.lots.items():
        dew = shop.plan.facts.get(("dew", name), Dice(shop.seed, "lot", name).whole(60, 64))
        row = {
            "id": name, "cylinders": shop.gas.cylinders[name], "certificate": f"certificate {name}",
            "released": f"{BARE}{arrived}", "oxygen_ppm": f"{BARE}2.0", "dew_point_c": f"{BARE}-{dew}.0",
            "received_at": moment(at(arrived, "14:20")) if arrived >= FIRST else None,
        }  # fmt: skip
        rows.append(("fill_lot", row))
    return tables("Fill lots of argon with their certificates.", rows)


def packets_text(shop: Shop, told: set[int]) -> str:
    """Give packets.toml: the frames told, each with the heat of every piece."""
    rows = []
    for frame in (shop.frames[number] for number in sorted(told)):
        if frame.days[0] > LAST or frame.before_the_record:
            continue
        issued = moment(at(frame.days[0], "06:40"))
        row = {
            "frame": frame.serial, "design": frame.design, "size": frame.size, "bench": frame.bench,
            "customer": customer_of(shop.plan, frame), "issued": issued, "pieces": _pieces(shop, frame),
            "received_at": issued,
        }  # fmt: skip
        rows.append(("packet", row))
    return tables("Job packets: one frame each, with the heat its pieces were cut from.", rows)


def customers_text(told: set[int], shop: Shop) -> str:
    """Give more_customers.toml: the customers out of the two lists whose frames are told."""
    needed = {customer_of(shop.plan, shop.frames[number]) for number in told}
    rows = [("customer", made_up(number)) for number in range(12, 41) if f"C-{number}" in needed]
    return tables("Customers out of two invented lists of names.", rows)


def _pieces(shop: Shop, frame: Frame) -> dict[str, str]:
    bar = f"H64-{7 + (frame.number * 5 // 285) % 5:02d}"
    pieces = {member: bar if member in MACHINED else _tube_heat(shop, frame.number) for member in MEMBERS[frame.design]}
    if "GP" in pieces:
        pieces["GP"] = "HC2-03"
    if lost := lost_tag(shop, frame):
        pieces[lost] = ""
    return pieces


def lost_tag(shop: Shop, frame: Frame) -> str | None:
    """Give the member whose tag was lost: since autumn one off-cut in a hundred has none."""
    tubes = [member for member in MEMBERS[frame.design] if member not in MACHINED]
    dice = shop.dice("tags", frame.serial)
    if frame.days[0] < date(2025, 10, 1) or frame.number in shop.plan.frames or not dice.chance(0.01 * len(tubes)):
        return None
    return tubes[dice.whole(0, len(tubes) - 1)]


def _tube_heat(shop: Shop, number: int) -> str:
    """One heat a stretch of frames; the claimed frame's heat went into eight others."""
    claimed = shop.plan.facts["claimed frame"]
    first = claimed - 4
    if first <= number <= claimed + 4:
        return "H32-106"
    if number < first:
        return "H32-104" if number < first // 2 else "H32-105"
    return f"H32-{107 + (number - claimed - 5) * 15 // (285 - claimed - 5):03d}"
