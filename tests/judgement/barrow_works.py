"""The invented barrow works that every page of cases is told in: its registers, procedures and drawing."""

import re
import tomllib
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any

from server.facts.design import Design
from server.facts.limit import Limit, MeasuringPlan
from server.facts.moment import parse_moment, show_moment
from server.facts.procedure import Procedure, SupportingRecord
from server.facts.register_line import REGISTER_LINE
from server.facts.registers import Registers

HERE = Path(__file__).parent / "shop"
ZONE_HOURS = 3
_LOCAL = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?")
_ROOMS = {
    "person": "people", "qualification": "qualifications", "confirmation": "confirmations", "bench": "benches",
    "range table": "range_tables", "change table": "change_tables",
    "instrument": "instruments", "calibration": "calibrations", "window": "windows", "acceptance": "acceptance",
    "filler lot": "filler_lots", "rod sleeve": "sleeves", "fill lot": "fill_lots", "analysis": "analyses",
    "tube heat": "heats",
    "composition limits": "compositions", "piece": "pieces", "packet": "packets",
    "customer": "customers", "shipment": "shipments",
    "ownership": "ownerships", "decision": "decisions", "permission": "permissions", "concession": "concessions",
    "nonconformity": "nonconformities", "narrowing": "narrowings",
}  # fmt: skip


def shop_ms(text: str) -> int:
    """Read `2031-03-10T09:00` on the shop's clock as a moment."""
    local = datetime.fromisoformat(text)
    utc = local - timedelta(hours=ZONE_HOURS)
    return parse_moment(utc.strftime("%Y-%m-%dT%H:%M:%S.") + f"{utc.microsecond // 1000:03d}Z")


def registers_with(lines: list[dict[str, Any]], figures: dict[str, Any]) -> Registers:
    """Give the registers of the works with further lines; a line with a known id stands instead of the known one."""
    found: dict[str, Any] = {"designs": {"barrow": _design()}, "procedures": _procedures(), "positions": {}}
    for line in (*_own_lines(), *lines):
        noun: Any = REGISTER_LINE.validate_python(_with_moments({k: v for k, v in line.items() if k != "at_position"}))
        if noun.kind == "shop":
            found["shop"] = noun
            continue
        key = noun.frame if noun.kind == "packet" else noun.id
        found.setdefault(_ROOMS[noun.kind], {})[key] = noun
        if "at_position" in line:
            found["positions"][f"{noun.kind}:{noun.id}"] = line["at_position"]
    found["acceptance"] = {noun.id: noun for noun in _acceptance(figures)}
    return Registers(**found)


def _with_moments(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _with_moments(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_with_moments(inner) for inner in value]
    if isinstance(value, str) and _LOCAL.fullmatch(value):
        return show_moment(shop_ms(value))
    return value


@cache
def _own_lines() -> list[dict[str, Any]]:
    return list(tomllib.loads((HERE / "registers.toml").read_text())["line"])


@cache
def _design() -> Design:
    return Design.model_validate(tomllib.loads((HERE / "design.toml").read_text()))


@cache
def _told_figures() -> dict[str, Any]:
    return tomllib.loads((HERE / "acceptance.toml").read_text())


def _acceptance(changed: dict[str, Any]) -> list[Any]:
    """Figures of the sheet; a case may change one, start it later, or strike it (`none`)."""
    told = _told_figures()
    figures = {**told["figures"], **changed}
    return [
        _figure(name, value, told) for name, value in figures.items() if value != "none"
    ]


def _figure(name: str, value: Any, told: dict[str, Any]) -> Any:
    from server.facts.acceptance_kinds import ACCEPTANCE_KINDS

    number, _, start = str(value).partition(" from ")
    return REGISTER_LINE.validate_python(
        {
            "kind": "acceptance",
            "id": f"AC-{name}",
            "name": name,
            "unit": ACCEPTANCE_KINDS[name].unit,
            "value": number,
            "source": told["source"],
            "valid_from": start or told["valid_from"],
        }
    )


@cache
def _procedures() -> dict[tuple[str, str], Procedure]:
    told = tomllib.loads((HERE / "procedures.toml").read_text())["procedure"]
    return {(each["name"], each["revision"]): _procedure(each) for each in told}


def _procedure(told: dict[str, Any]) -> Procedure:
    plain = {key: value for key, value in told.items() if key not in ("limits", "diameter_from_mm")}
    if "diameter_from_mm" in told:
        plain["diameter_mm"] = (told["diameter_from_mm"], None)
    name = f"{told['name']} rev {told['revision']}"
    limits = tuple(_limit(line, told["valid_from"], name) for line in told["limits"].strip().splitlines())
    support = SupportingRecord(id="R-1", dated=told["valid_from"], standard="shop scheme")
    more = {"title": name, "marked": "invented", "supports": (support,), "cautions": (), "limits": limits}
    return Procedure.model_validate({**plain, **more, "sha256": name})


def _limit(line: str, valid_from: Any, source: str) -> Limit:
    name, bounds, unit, *rest = line.split()
    more = dict(word.split("=") for word in rest if "=" in word)
    when = " ".join(word for word in rest if "=" not in word)
    n = int(when.removeprefix("one in ")) if when.startswith("one in ") else None
    low, _, high = bounds.partition("..")
    allowed = () if ".." in bounds else tuple(bounds.split("|"))
    where = tuple(more["where"].split(",")) if "where" in more else ()
    return Limit(
        name=name,
        unit="" if unit == "-" else unit,
        low=float(low) if low and not allowed else None,
        high=float(high) if high and not allowed else None,
        allowed=allowed,
        side=more.get("side"),  # type: ignore[arg-type]
        zone=more.get("zone"),  # type: ignore[arg-type]
        line=more.get("line"),  # type: ignore[arg-type]
        runs=tuple(more["runs"].split(",")) if "runs" in more else (),
        k=float(more["k"]) if "k" in more else None,
        source=source,
        valid_from=valid_from,
        plan=MeasuringPlan.model_validate({"when": "one in n" if n else when, "n": n, "where": where}),
    )
