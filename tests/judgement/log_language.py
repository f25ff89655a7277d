"""The short language the pages of cases are written in: one line is one entry, at the shop's own time."""

import shlex
from dataclasses import dataclass
from typing import Any

from server.facts.clock import ClockPair
from server.facts.log import LOG_ENTRY
from server.facts.moment import show_moment
from server.facts.quantities import QUANTITIES
from server.facts.recorded import Recorded
from tests.judgement.barrow_works import shop_ms

_GIVEN_BY = {
    "oxygen": "read:AN", "mean_current": "counted:PS", "volts": "counted:PS", "arc_on": "counted:PS",
    "arc_energy": "read:TR", "interpass": "typed:TH", "gap": "read:GA", "deviation": "read:TB", "dew_point": "read:DP",
    "pressure": "read:MA", "torch_flow": "read:FM", "trailing_flow": "read:FM", "purge_flow": "read:FM",
    "pre_purge_flow": "read:FM", "tungsten": "typed", "cup": "typed",
}  # fmt: skip
_BOOT_MS = shop_ms("2030-01-01T00:00")
_QUARTERS = ("q12", "q3", "q6", "q9")


@dataclass
class Told:
    """The entries of a log in the order in which they arrived, with the clock pairs their sendings give."""

    entries: list[Recorded]
    clocks: list[ClockPair]

    def of(self, *kinds: str) -> list[Recorded]:
        """Give the entries of some kinds."""
        return [each for each in self.entries if each.entry.kind in kinds]


def read_log(text: str, day: str, slow_s: dict[str, int], cards: dict[str, str]) -> Told:
    """Read a log; `slow_s` puts a device's clock back by so many seconds, `cards` names the digests of limit cards."""
    told = []
    for seq, line in enumerate((line for line in text.strip().splitlines() if line.strip()), 1):
        told.append(_entry(line, day, seq, slow_s, cards))
    told.sort(key=lambda each: (each[1], each[0]["seq"]))
    entries, clocks = [], []
    for position, (raw, received_ms, sent_ms) in enumerate(told, 1):
        entry = LOG_ENTRY.validate_python(raw)
        entries.append(Recorded(position, received_ms, sent_ms, entry))
        pair = (entry.device, entry.boot, entry.seq, entry.mono_ms, entry.device_time, sent_ms, received_ms)
        clocks.append(ClockPair(*pair))
    return Told(entries, clocks)


Sent = tuple[dict[str, Any], int, int]


def _entry(line: str, day: str, seq: int, slow_s: dict[str, int], cards: dict[str, str]) -> Sent:
    words = shlex.split(line, comments=True)
    if "-" in words[0] and ":" not in words[0]:
        day, words = words[0], words[1:]
    happened = shop_ms(f"{day}T{words[0]}")
    plain, named = _split(words[2:])
    device = named.pop("device", "TAB")
    tapped = _moment(named.pop("tapped", None), day, happened)
    arrives = _moment(named.pop("arrives", None), day, tapped + 1000)
    off = -1000 * slow_s.get(device, 0)
    raw: dict[str, Any] = {
        "id": named.pop("id", f"{words[0]}-{words[1]}-{seq}"),
        "device": device,
        "boot": "b1",
        "seq": seq,
        "mono_ms": tapped - _BOOT_MS,
        "device_time": show_moment(tapped + off),
        "happened": show_moment(happened + off),
        "who": named.pop("who", "ANN"),
        **_KINDS[words[1]](plain, named),
    }
    if device == "PAPER":
        raw |= {"boot": None, "mono_ms": None}
    if "arc" in named:
        raw["arc_started"] = show_moment(shop_ms(f"{day}T{named.pop('arc')}") + off)
    if "card" in named:
        raw["card"] = cards.get(named["card"], named["card"])
        del named["card"]
    _put_values(raw, named)
    raw |= {key: _typed(value) for key, value in named.items()}
    return raw, arrives, arrives + off


def _split(words: list[str]) -> tuple[list[str], dict[str, str]]:
    named = dict(word.split("=", 1) for word in words if "=" in word)
    return [word for word in words if "=" not in word], named


def _moment(text: str | None, day: str, otherwise: int) -> int:
    if text is None:
        return otherwise
    return shop_ms(text if "T" in text else f"{day}T{text}")


def _typed(value: str) -> Any:
    if value in ("yes", "no"):
        return value == "yes"
    if value.isdigit():
        return int(value)
    return tuple(value.split(",")) if "," in value else value


def _put_values(raw: dict[str, Any], named: dict[str, str]) -> None:
    """`oxygen=41` is read by the meter of the works; `oxygen=41!typed` or `oxygen=41!read:ZZ` say otherwise."""
    for prefix, field in (("", "values"), ("other.", "other_values"), ("off.", "off_values")):
        values = {}
        for key in [key for key in named if key.startswith(prefix) and key.removeprefix(prefix) in QUANTITIES]:
            name = key.removeprefix(prefix)
            number, _, said = named.pop(key).partition("!")
            how, _, by = (said or _GIVEN_BY.get(name, "set")).partition(":")
            values[name] = {"value": number, "unit": QUANTITIES[name].unit, "how": how, "by": by or None}
        if values:
            raw[field] = values


def _joint(plain: list[str], named: dict[str, str]) -> dict[str, Any]:
    quarters = tuple(word for word in plain if word in _QUARTERS) or _QUARTERS
    more = {"frame": named.pop("frame", "X1"), "joint": plain[0], "quarters": quarters}
    return more | {"attempt": int(named.pop("attempt", "1"))}


def _pass(plain: list[str], named: dict[str, str]) -> dict[str, Any]:
    run = plain[1]
    lines = {"torch_line": named.pop("torch_line", "N-T"), "purge_line": named.pop("purge_line", "N-P")}
    sleeve = named.pop("sleeve", "S-10" if run in ("fill", "repair") else "none")
    setup = named.pop("setup", "P1")
    raw = {"kind": "pass", "run": run, "setup": None if setup == "-" else setup, "machine": "PS", **lines}
    return raw | {"sleeve": None if sleeve == "?" else sleeve, **_joint(plain, named)}


def _tack(plain: list[str], named: dict[str, str]) -> dict[str, Any]:
    purge = named.pop("purge_line", "N-P")
    raw = {"kind": "tack", "torch_line": "N-T", "purge_line": None if purge == "-" else purge}
    return raw | _joint(plain, named)


def _look(plain: list[str], named: dict[str, str]) -> dict[str, Any]:
    raw: dict[str, Any] = {"kind": "look", "side": plain[1], "zone": named.pop("zone", "bead")}
    if plain[2].isdigit():
        raw["grade"] = int(plain[2])
    else:
        raw |= {"answer": plain[2], "reason": plain[3] if len(plain) > 3 else None}
    if "extent_mm" in named:
        raw["extent_mm"] = named.pop("extent_mm")
    return raw | _joint(plain, named)


def _of_joint(kind: str):
    return lambda plain, named: {"kind": kind, **_joint(plain, named)}


def _on_frame(kind: str, *fields: str):
    def read(plain: list[str], named: dict[str, str]) -> dict[str, Any]:
        return {"kind": kind, "frame": named.pop("frame", "X1"), **dict(zip(fields, plain, strict=True))}

    return read


def _thing(kind: str, *fields: str):
    return lambda plain, named: {"kind": kind, **dict(zip(fields, plain, strict=False))}


def _coupon(plain: list[str], named: dict[str, str]) -> dict[str, Any]:
    procedures = tuple(named.pop("procedures", "TT").split(","))
    return {"kind": "coupon", "welder": plain[0], "result": plain[1], "procedures": procedures}


def _correction(plain: list[str], named: dict[str, str]) -> dict[str, Any]:
    change = {key: _typed(named.pop(key)) for key in list(named) if key not in ("withdraw", "reason")}
    return {"kind": "correction", "of": plain[0], "reason": named.pop("reason", "a slip"), "change": change}


def _about_joint(kind: str, field: str):
    def read(plain: list[str], named: dict[str, str]) -> dict[str, Any]:
        return {"kind": kind, "frame": named.pop("frame", "X1"), "joint": plain[0], field: plain[1]}

    return read


_KINDS = {
    "pass": _pass,
    "tack": _tack,
    "look": _look,
    "gap": _of_joint("gap"),
    "clean": lambda plain, named: {"kind": "clean", "method": "wiped", **_joint(plain, named)},
    "removed": lambda plain, named: {"kind": "removed", "method": "cut", **_joint(plain, named)},
    "release": _of_joint("release"),
    "purge": _on_frame("purge", "setup", "line", "act"),
    "geometry": _on_frame("geometry", "check", "result"),
    "stage": _on_frame("stage", "stage"),
    "opened": _on_frame("opened", "act"),
    "reading": _on_frame("reading", "setup"),
    "bead": _thing("bead", "line", "result"),
    "check": _thing("check", "check", "subject", "result"),
    "cylinder": _thing("cylinder", "line"),
    "sleeve": _thing("sleeve", "sleeve", "act"),
    "coupon": _coupon,
    "trace": lambda plain, named: {"kind": "trace", "of": plain[0], "instrument": "TR", "sha256": "t"},
    "photo": _about_joint("photo", "sha256"),
    "problem": lambda plain, named: {**_about_joint("problem", "words")(plain, named)},
    "correction": _correction,
}
