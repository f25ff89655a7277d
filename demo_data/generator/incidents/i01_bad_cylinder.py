"""I-01: a bad purge cylinder over two days, found by a bead, held by date instead of by the cylinder."""

from demo_data.generator.incidents.pinning import pin_fittings, pin_runs, pin_tacks, span, subjects
from demo_data.generator.plan import Place, Plan, Remake

BAD, BEFORE, AFTER = "AR-0317", "AR-0309", "AR-0318"
LOT = "FL-25-0311"
FRI, MON, TUE, WED, THU = "2025-03-14", "2025-03-17", "2025-03-18", "2025-03-19", "2025-03-20"
_D3 = (
    "J13 08:05/08:19 J14 08:38/08:52 J15 09:12/09:28 J16 09:47/10:03 "
    "J11 10:20/10:31 J12 10:46/10:57 J17 11:12/11:23 J18 11:38/11:49"
)
_OXYGEN = {
    (41, "J06"): (36, 41), (41, "J03"): (40, 42), (41, "J05"): (41, 43), (39, "F09"): (40,),
    (41, "J07"): (42, 43), (41, "J08"): (42, 44), (41, "J09"): (41, 45), (41, "J10"): (42, 44),
    (43, "J01"): (45, 46), (43, "J02"): (44, 45),
}  # fmt: skip
KEPT = [(41, joint) for joint in ("J06", "J03", "J05")] + [(39, joint) for joint in span("F", 9, 14)]
REMOVED = [(41, joint) for joint in ("J07", "J08", "J09", "J10")] + [(43, "J01"), (43, "J02")]
CLEARED = {
    39: [*("J07", "J08", "J09", "J10", "J13", "J14", "J15", "J16", "J11", "J12", "J17", "J18"), *span("F", 1, 8)],
    41: ["J01", "J02", "J04"],
    37: span("F", 1, 14),
}


def plant(plan: Plan, place: Place) -> None:
    """Settle the four days on the line, the gas that hung there, and what was cut out again."""
    plan.frames |= {place.number(number) for number in (37, 39, 41, 43)}
    plan.quiet("B1", *(place.day(day) for day in (FRI, MON, TUE, WED, THU)))
    _welds(plan, place)
    _looks(plan, place)
    _gas(plan, place)
    _remakes(plan, place)


def _welds(plan: Plan, place: Place) -> None:
    pin_fittings(plan, place, FRI, 37, 1, "08:02", 8, 14)
    pin_runs(plan, place, FRI, 39, "J07 10:20/10:36 J08 10:58/11:14 J09 13:12/13:30 J10 13:54/14:12")
    pin_runs(plan, place, MON, 39, _D3)
    pin_runs(plan, place, MON, 41, "J01 13:20/13:40 J02 14:15/14:33")
    pin_tacks(plan, place, TUE, 41, "J04 07:58 J06 08:06 J03 08:14 J05 08:22")
    pin_runs(plan, place, TUE, 41, "J04 09:02/09:20 J06 13:22/13:38 J03 14:12/14:30 J05 15:02/15:18")
    pin_fittings(plan, place, TUE, 39, 1, "09:45", 8, 8)
    pin_fittings(plan, place, TUE, 39, 9, "15:53", 11, 6)
    pin_runs(plan, place, WED, 41, "J07 08:22/08:36 J08 08:57/09:10 J09 10:52/11:10 J10 11:36/11:52")
    pin_runs(plan, place, WED, 43, "J01 13:18/13:36 J02 14:06/14:20")
    for (number, joint), oxygen in _OXYGEN.items():
        plan.pin(place.number(number), joint).oxygen = oxygen
    seat = plan.pin(place.number(41), "J06")
    seat.gap_mm = "0.10"
    seat.values = {"fill.arc_on": "74.3", "fill.mean_current": "37.0", "fill.volts": "10.1"}


def _looks(plan: Plan, place: Place) -> None:
    plan.pin(place.number(41), "J04").inside = ((place.at(TUE, "09:31"), 1),)
    for joint in ("J03", "J05", "J06", "J07", "J08", "J09", "J10"):
        plan.pin(place.number(41), joint).inside = ()
    plan.pin(place.number(43), "J01").inside = ((place.at(WED, "13:30"), 2), (place.at(WED, "15:50"), 4))
    plan.pin(place.number(43), "J02").inside = ((place.at(WED, "15:54"), 2),)


def _gas(plan: Plan, place: Place) -> None:
    settled: list[tuple[int, str | None]] = [
        (place.at("2025-03-10", "13:05"), BEFORE),
        (place.at(TUE, "13:05"), BAD),
        (place.at(WED, "16:25"), AFTER),
    ]
    if place.weeks == 0:
        ordinary = ("2025-01-17", "2025-01-30", "2025-02-12", "2025-02-25", "2025-04-01", "2025-04-21", "2025-05-02")
        settled += [(place.at(day, "13:05"), None) for day in ordinary]
        other = (
            "2025-01-10", "2025-01-23", "2025-02-05", "2025-02-18", "2025-03-03",
            "2025-03-14", "2025-03-27", "2025-04-09", "2025-04-29",
        )  # fmt: skip
        plan.changes["B2-P"] = [(place.at(day, "13:05"), None) for day in other]
    plan.changes["B1-P"] = settled
    plan.never_connected.add("AR-0319")
    plan.sleeves.append(("FT-0158", "B1", place.at("2025-03-12", "07:42"), None))
    plan.lot_names[BAD] = LOT
    plan.facts["dew", LOT] = 60
    for day in ("2025-03-10", "2025-03-11", "2025-03-12", "2025-03-13", FRI, MON, TUE):
        plan.true_oxygen["B1-P", place.day(day)] = (6, 10, 6, 11)
    plan.skipped.add(("change", place.at(WED, "16:25")))
    plan.facts["morning", "B1", place.day(WED)] = place.at(WED, "07:40")


def _remakes(plan: Plan, place: Place) -> None:
    two = [(43, "J01", WED, "16:35"), (43, "J02", WED, "16:36")]
    four = [(41, joint, THU, "06:05") for joint in ("J07", "J08", "J09", "J10")]
    for number, joint, day, removed in [*two, *four]:
        method = "pieces scrapped" if number == 43 else "cut back and dressed"
        who = ("Q01", "O01") if number == 43 else ("Q01",)
        of, on, cut = place.number(number), place.day(day), place.at(day, removed)
        plan.remakes.append(Remake(of, joint, 2, on, None, cut, method, who, number == 43, by="M01"))
    pin_runs(plan, place, WED, 43, "J01 16:58/17:13 J02 17:36/17:52", attempt=2)
    pin_runs(plan, place, THU, 41, "J07 06:46/06:58 J08 07:12/07:24 J09 08:10/08:25 J10 08:44/08:59", attempt=2)
    for joint in ("J07", "J08", "J10"):
        plan.pin(place.number(41), joint, 2).inside = ()
    plan.pin(place.number(41), "J09", 2).inside = ((place.at(THU, "09:02"), 1),)
    plan.facts["morning", "B1", place.day(THU)] = place.at(THU, "06:14")
    plan.facts["geometry", place.number(41), "G1"] = place.at(TUE, "08:40")
    for joint in ("J01", "J02"):
        plan.facts["release", place.number(41), joint, 1] = place.at(MON, "15:20")
        plan.skipped.add(("release", (place.number(43), joint, 1)))
        plan.facts["release", place.number(43), joint, 2] = place.at(THU, "07:36")
    plan.facts["bad cylinder"] = place


def kept(place: Place) -> list[str]:
    """Name the joints on the bad cylinder that are still in product."""
    return [subject for number, joint in KEPT for subject in subjects(place, number, joint)]


def removed(place: Place) -> list[str]:
    """Name the attempts on the bad cylinder that were cut out."""
    return [subject for number, joint in REMOVED for subject in subjects(place, number, joint)]


def cleared(place: Place) -> list[str]:
    """Name the joints welded on the cylinder before."""
    return [subject for number, joints in CLEARED.items() for subject in subjects(place, number, *joints)]
