"""The guide's figures for a tablet, reckoned ahead: what clears last, how long heat stays, which quarter next."""

from collections.abc import Iterable
from typing import Any

from server.facts.design import Design, Joint, PurgeSetup
from server.facts.entry import QUARTERS
from server.physics.cooling_weld import TubeWeld, meeting_wall_mm
from server.physics.errors import UnusableInput
from server.physics.hold_time import hold_time_s
from server.physics.purge_forecast import forecast_purge
from server.physics.quarters import best_order, pause_for
from server.plan.purge import purge_network
from server.work.reckoned import reckoned, reckoned_beside

# An order of quarters is looked for at a short pause; whichever is best then is best with longer ones.
_SHORT_PAUSE_S = 30.0
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
    figures = _figures(design, joint, _card_of(joint.procedure, cards))
    return reckoned(("hold", *figures), lambda: _hold(TubeWeld(*figures))) if figures else None


def pause_told(design: Design, joint: Joint, cards: Cards) -> dict[str, Any] | None:
    """Give the order of quarters that meets the least heat, and the pauses that keep what is met under the interpass.

    Advice only, at the most heat the card allows; none while it is still being reckoned, which takes a while.
    """
    card = _card_of(joint.procedure, cards)
    figures, limit_c = _figures(design, joint, card), _bound(card, "interpass", "high")
    if not figures:
        return None
    return reckoned_beside(("pause", *figures, limit_c), lambda: _pause(figures, limit_c))


def _pause(figures: tuple[float, float, float, float], limit_c: float | None) -> dict[str, Any] | None:
    heat, travel, quarter_mm, wall_mm = figures
    around_mm = 4 * quarter_mm
    quarter = TubeWeld(heat, travel, quarter_mm, wall_mm, around_mm=around_mm)
    try:
        order = best_order(quarter, _SHORT_PAUSE_S).order
        told: dict[str, Any] = {"order": [QUARTERS[each] for each in order], "limit_c": limit_c}
        told |= {"between_s": None, "lap_s": None}
        if limit_c is not None:
            lap = hold_time_s(TubeWeld(heat, travel, around_mm, wall_mm, around_mm=around_mm), limit_c)
            told |= {"between_s": round(pause_for(quarter, order, limit_c).pause_s)}
            told |= {"lap_s": {"low": round(lap.low), "expected": round(lap.expected), "high": round(lap.high)}}
    except UnusableInput:
        return None
    return told


def _figures(design: Design, joint: Joint, card: dict[str, Any]) -> tuple[float, float, float, float] | None:
    """Give heat [J/mm], travel [mm/min], a quarter of the seam and the wall that carries the heat away [mm]."""
    heat, travel = _bound(card, "heat_input", "high"), _bound(card, "travel", "low")
    if not heat or not travel or not joint.quartered:
        return None
    walls = {member.id: member.wall_mm for member in design.members}
    landing, landed_on = (walls[part] for part in joint.parts)
    return heat * 1000, travel, joint.seam_mm / 4, meeting_wall_mm([landing, landed_on, landed_on])


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
