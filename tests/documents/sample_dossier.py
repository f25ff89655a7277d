"""An invented frame's dossier as data, as long as asked."""

from typing import Any

_VALUES = [
    {"name": name, "value": value, "unit": unit, "how": "counted", "by": "PW-9", "shown": f"{name} {value:g} {unit}"}
    for name, value, unit in (("volts", 10.1, "V"), ("mean_current", 37.5, "A"), ("oxygen", 8.0, "ppm"))
]


_LISTS = (
    *("pieces", "heats", "cylinders", "fill_lots", "sleeves", "filler_lots", "people", "procedures", "instruments"),
    *("decisions", "permissions", "concessions", "nonconformities", "shipments", "owners", "frame_findings"),
    *("open", "open_on_removed", "plan", "not_understood", "lines", "photos"),
)


def an_entry(number: int) -> dict[str, Any]:
    """One pass with three values."""
    return {
        "id": f"SLATE:b1:{number}",
        "position": number,
        "at": "2030-04-02T08:00:00.000Z",
        "shown": "Tue 02 Apr 2030 10:00",
        "received": "2030-04-02T08:00:01.000Z",
        "kind": "pass",
        "what": f"root all round, number {number}",
        "who": "WEL",
        "values": _VALUES,
        "card": None,
        "late_reason": None,
        "note": None,
        "photo": None,
        "mended_by": [],
    }


def a_dossier(entries: int = 4) -> dict[str, Any]:
    """A frame of one joint to each ten entries."""
    joints = [_joint(first, min(first + 10, entries)) for first in range(0, entries, 10)]
    return {name: [] for name in _LISTS} | {
        "format": "strawline dossier 1",
        "for": "shop",
        "joint": "",
        "legal_hold": None,
        "shop": {"name": "Slate Works", "address": "", "notice": "", "zone": "UTC"},
        "serial": "SW-1",
        "design": {"name": "D", "title": "Heron", "size": "54"},
        "design_sha256": "",
        "packet": "SW-1",
        "issued": "2030-04-01T06:00:00.000Z",
        "issued_shown": "Mon 01 Apr 2030 08:00",
        "bench": None,
        "before_the_record": False,
        "told_at": "2030-04-03T08:00:00.000Z",
        "told_shown": "Wed 03 Apr 2030 10:00",
        "known_at": 900,
        "way": [],
        "joints": joints,
        "checkpoint": "",
        "cautions": ["Counsel decides.", "No recommendation."],
    }


def _joint(first: int, end: int) -> dict[str, Any]:
    asked: dict[str, list[str]] = {word: [] for word in ("within", "marginal", "outside", "unknown", "not asked")}
    attempt = {"number": 1, "entries": [an_entry(each) for each in range(first, end)], "findings": []}
    attempt |= {"asked": asked, "verdicts": []}
    in_short = {"attempts": 1, "passes": end - first, "asked": 9, "within": 8, "findings": 0, "open": 0}
    about = {"joint": f"J{first}", "title": "seam", "procedure": "P", "seam_mm": 90.0}
    return about | {"in_short": in_short, "attempts": [attempt]}


def a_finding(**told: Any) -> dict[str, Any]:
    """One finding with a value against a limit."""
    verdict = {"question": "purge-o2", "subject": "SW-1/J0#1", "word": "outside", "severity": "stop", "proved": True}
    limit = {"value": 64.0, "unit": "ppm", "low": None, "high": 20.0, "uncertainty": 2.0, "limit": "at most 20 ppm"}
    stands = {"shown": "Oxygen 64 ppm.", "source": "P rev A", "state": "open", "decision": None}
    return verdict | limit | stands | told
