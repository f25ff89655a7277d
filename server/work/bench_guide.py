"""The guide's figures for a tablet, reckoned ahead: which member of a set-up clears last, how long heat stays."""

from collections.abc import Iterable
from typing import Any

from server.facts.design import Design, Joint, PurgeSetup
from server.physics.cooling_weld import TubeWeld, meeting_wall_mm
from server.physics.errors import UnusableInput
from server.physics.hold_time import hold_time_s
from server.physics.purge_forecast import forecast_purge
from server.plan.purge import purge_network
from server.work.reckoned import reckoned

# Titanium is kept under gas until it is below 427 °C (800 °F): common practice in course notes and trade articles.
SHIELD_UNTIL_C = 427.0

Cards = Iterable[dict[str, Any]]


def setup_told(design: Design, size: str, setup: PurgeSetup, cards: Cards) -> dict[str, Any]:
    """Give a purge set-up in words, its volume, and the reckoning of its slowest member at a few flows."""
    titles = {member.id: member.title for member in design.members}
    outlets = [each.title or titles.get(each.member, each.member) for each in setup.outlets]
    return {
        "id": setup.id,
        "inlet": setup.inlet_title or titles.get(setup.inlet, setup.inlet),
        "outlets": outlets,
        "closed": list(setup.closed),
        "volume_l": setup.volume_l[size],
        "forecast": _forecasts(design, size, setup, list(cards)),
    }


def hold_told(design: Design, joint: Joint, cards: Cards) -> dict[str, Any] | None:
    """Give how long a quarter of this seam stays hot after the arc, at the most heat its card allows; advice only."""
    card = _card_of(joint.procedure, cards)
    heat, travel = _bound(card, "heat_input", "high"), _bound(card, "travel", "low")
    if not heat or not travel or not joint.quartered:
        return None
    walls = {member.id: member.wall_mm for member in design.members}
    landing, landed_on = (walls[part] for part in joint.parts)
    wall = meeting_wall_mm([landing, landed_on, landed_on])
    figures = (heat * 1000, travel, joint.seam_mm / 4, wall)
    return reckoned(("hold", *figures), lambda: _hold(TubeWeld(*figures)))


def _hold(weld: TubeWeld) -> dict[str, Any] | None:
    try:
        band = hold_time_s(weld, SHIELD_UNTIL_C)
    except UnusableInput:
        return None
    return {"low": round(band.low), "expected": round(band.expected), "high": round(band.high), "limit_c": 427}


def _forecasts(design: Design, size: str, setup: PurgeSetup, cards: list[dict[str, Any]]) -> list[dict[str, Any]]:
    procedure = next((j.procedure for j in design.joints if j.stage in (setup.stage, *setup.later_stages)), None)
    card = _card_of(procedure, cards)
    low, high = _bound(card, "pre_purge_flow", "low"), _bound(card, "pre_purge_flow", "high")
    target = _bound(card, "oxygen", "high")
    if not low or not high or not target:
        return []
    told = [_forecast(design, size, setup, flow, target) for flow in (low, (low + high) / 2, high)]
    return [each for each in told if each]


def _forecast(design: Design, size: str, setup: PurgeSetup, flow: float, target_ppm: float) -> dict[str, Any] | None:
    key = ("purge", design.sha256, design.name, size, setup.id, flow, target_ppm)
    return reckoned(key, lambda: _slowest(design, size, setup, flow, target_ppm))


def _slowest(design: Design, size: str, setup: PurgeSetup, flow: float, target_ppm: float) -> dict[str, Any] | None:
    try:
        found = forecast_purge(purge_network(design, size, setup, flow), target_ppm, points=2)
    except UnusableInput:
        return None
    clear_s = found.clear_s[found.slowest]
    titles = {member.id: member.title for member in design.members}
    minutes = None if clear_s is None else max(1, round(clear_s / 60))
    return {"flow_l_per_min": flow, "slowest": titles.get(found.slowest, found.slowest), "minutes": minutes}


def _card_of(procedure: str | None, cards: Cards) -> dict[str, Any]:
    return next((card for card in cards if card["procedure"] == procedure), {})


def _bound(card: dict[str, Any], name: str, end: str) -> float | None:
    found: dict[str, Any] = next((line for line in card.get("lines", ()) if line["name"] == name), {})
    text = found.get(end)
    return None if text is None else float(text)
