"""Draws the purge oxygen under each pass of a dossier as SVG, against the limit of its day."""

from collections.abc import Iterator, Mapping
from html import escape
from typing import Any, NamedTuple

from server.charts.axes import even_axis

WIDTH, HEIGHT = 720.0, 190.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 40.0, 8.0, 20.0, 34.0
_QUESTION = "purge-o2"


class Reading(NamedTuple):
    """One pass: of which joint and attempt, the oxygen read [ppm], and the limit of its day where one was asked."""

    joint: str
    attempt: int
    at: str
    oxygen_ppm: float
    limit_ppm: float | None


def oxygen_series(told: Mapping[str, Any]) -> dict[str, str]:
    """Give the drawing by its name; none where nothing was read."""
    readings = sorted(_readings(told), key=lambda each: each.at)
    return {"oxygen": _drawn(readings)} if readings else {}


def _readings(told: Mapping[str, Any]) -> Iterator[Reading]:
    for joint in told["joints"]:
        for attempt in joint["attempts"]:
            limit = _limit(attempt)
            for entry in attempt["entries"]:
                for value in entry["values"] if entry["kind"] == "pass" else ():
                    if value["name"] == "oxygen":
                        yield Reading(joint["joint"], attempt["number"], entry["at"], value["value"], limit)


def _limit(attempt: Mapping[str, Any]) -> float | None:
    found = [each.get("high") for each in attempt.get("verdicts", ()) if each["question"] == _QUESTION]
    return next((high for high in found if high is not None), None)


def _drawn(readings: list[Reading]) -> str:
    top = max([each.oxygen_ppm for each in readings] + [each.limit_ppm or 0.0 for each in readings]) * 1.1 or 1.0
    step = (WIDTH - _LEFT - _RIGHT) / len(readings)
    parts = [*_grid(top)]
    for place, each in enumerate(readings):
        x = _LEFT + step * (place + 0.5)
        parts += _mark(each, x, step, lambda ppm: _up(ppm, top))
    parts += _names(readings, step)
    words = f"purge oxygen under {len(readings)} passes in their order, {readings[0].at[:10]} to {readings[-1].at[:10]}"
    body = "".join(parts)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" font-family="Libertinus Serif" '
        f'font-size="10"><title>{escape(words)}</title>{body}</svg>'
    )


def _up(ppm: float, top: float) -> float:
    return round(HEIGHT - _BOTTOM - (HEIGHT - _TOP - _BOTTOM) * ppm / top, 1)


def _grid(top: float) -> Iterator[str]:
    yield '<text x="2" y="9">oxygen, ppm</text>'
    for ppm in even_axis("oxygen", 0.0, top).marks:
        y = _up(ppm, top)
        yield f'<line x1="{_LEFT}" x2="{WIDTH - _RIGHT}" y1="{y}" y2="{y}" stroke="#ccc" stroke-width="0.5"/>'
        yield f'<text x="{_LEFT - 4}" y="{y + 3}" text-anchor="end">{ppm:g}</text>'


def _mark(each: Reading, x: float, step: float, up: Any) -> Iterator[str]:
    over = each.limit_ppm is not None and each.oxygen_ppm > each.limit_ppm
    y = up(each.oxygen_ppm)
    if each.limit_ppm is not None:
        limit, half = up(each.limit_ppm), step / 2
        ends = f'x1="{x - half:.1f}" x2="{x + half:.1f}" y1="{limit}" y2="{limit}"'
        yield f'<line {ends} stroke="#000" stroke-width="1.2"/>'
    if over:
        yield f'<rect x="{x - 3:.1f}" y="{y - 3:.1f}" width="6" height="6" fill="#000"/>'
    else:
        yield f'<circle cx="{x:.1f}" cy="{y}" r="2.6" fill="#fff" stroke="#000" stroke-width="1"/>'


def _names(readings: list[Reading], step: float) -> Iterator[str]:
    """Each joint's name once under its passes, where they follow each other."""
    start = 0
    for place in range(1, len(readings) + 1):
        name = (readings[start].joint, readings[start].attempt)
        if place == len(readings) or (readings[place].joint, readings[place].attempt) != name:
            x = _LEFT + step * (start + place) / 2
            said = name[0] if name[1] == 1 else f"{name[0]}#{name[1]}"
            turned = f' transform="rotate(-60 {x:.1f} {HEIGHT - 14})" text-anchor="end"'
            yield f'<text x="{x:.1f}" y="{HEIGHT - 14}" font-size="8"{turned}>{escape(said)}</text>'
            start = place
