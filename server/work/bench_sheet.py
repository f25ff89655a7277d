"""What a bench tablet is given ahead of time, as plain JSON: enough to work a whole shift without the network."""

from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any, Protocol
from zoneinfo import ZoneInfo

from server.facts.equipment import Bench
from server.facts.finding import Finding
from server.facts.frame_papers import decisions_naming
from server.facts.moment import show_moment
from server.facts.quantities import QUANTITIES
from server.facts.registers import Registers
from server.record.at_benches import AtBenches
from server.work.at_hand import at_hand
from server.work.bench_cards import cards_ahead
from server.work.bench_frames import frame_told, frames_in_work
from server.work.bench_holds import holds_told
from server.work.bench_log import entries_told
from server.work.bench_supplies import instruments_told, lines_told, sleeves_told, stock_told
from server.work.refusal import NotThere

_BEADS = {"torch": "torch_bead_at_change", "purge": "purge_bead_at_change", "shift": "torch_bead_every"}


class BenchQuestions(Protocol):
    """What the sheet asks the record."""

    def registers(self, known_at: int | None = None) -> Registers:
        """Give the registers."""

    def last_position(self) -> int:
        """Give the position of the last line."""

    def bodies_for_bench(self, frames: tuple[str, ...]) -> list[bytes]:
        """Give entries as they were sent."""

    def last_beads(self, line: str) -> list[bytes]:
        """Give the last few beads of a gas line as they were sent."""

    def at_benches(self) -> AtBenches:
        """Give the last cylinder of each line, and what is open of the sleeves."""

    def findings(self, *, frames: tuple[str, ...]) -> list[Finding]:
        """Give the findings that stand on some frames."""

    def judged_to(self) -> int:
        """Give the position up to which everything has been judged."""

    def counted_by(self, device: str) -> int:
        """Give how far a device has counted."""


@dataclass(frozen=True, slots=True)
class AskedSheet:
    """Who asks for which bench's sheet, from which device, and when [ms, UTC]."""

    bench: str
    device: str
    now_ms: int


def bench_sheet(reads: BenchQuestions, asked: AskedSheet) -> dict[str, Any]:
    """Give the sheet of one bench; raises `NotThere` for a bench the register does not know."""
    registers = reads.registers()
    bench = registers.benches.get(asked.bench)
    if bench is None:
        known = ", ".join(sorted(registers.benches)) or "none yet"
        raise NotThere(f"there is no bench {asked.bench!r}; known are: {known}")
    packets = frames_in_work(registers, bench)
    frames = tuple(each.frame for each in packets)
    beads = [body for line in sorted(_lines(bench)) for body in reads.last_beads(line)]
    entries = entries_told([*reads.bodies_for_bench(frames), *beads])
    benches = reads.at_benches()
    shared = benches.shared(_lines(bench), bench.id)
    findings = reads.findings(frames=frames)
    holds = holds_told(findings, decisions_naming(registers, [each.key for each in findings]))
    zone = registers.zone
    hand = at_hand(registers, bench, asked.now_ms)
    cards = cards_ahead(registers, day_of(asked.now_ms, zone), hand)
    return {
        "made_at": show_moment(asked.now_ms),
        "position": reads.last_position(),
        "judged_to": reads.judged_to(),
        "zone": zone,
        "device": asked.device,
        "seen": reads.counted_by(asked.device),
        "bench": _bench_told(bench),
        "people": _people_told(registers),
        "quantities": {name: [q.unit, q.least, q.most, q.words] for name, q in QUANTITIES.items()},
        "instruments": instruments_told(hand),
        "reading_age_min": _accepted(registers, "reading_age"),
        "clean_to_arc_h": _accepted(registers, "clean_to_arc"),
        "cut_off_bar": _accepted(registers, "cylinder_cut_off"),
        "beads_asked": {name: bool(_accepted(registers, rule)) for name, rule in _BEADS.items()},
        "lines": lines_told(bench, shared),
        "sleeves": sleeves_told(registers, bench, shared),
        "stock": stock_told(registers, benches),
        "cards": cards,
        "frames": [
            frame_told(registers, packet, cards, hand) | {"holds": holds.get(packet.frame, [])} for packet in packets
        ],
        "entries": [entry for entry in entries if entry["kind"] not in ("cylinder", "sleeve")],
    }


def read_ahead(reads: BenchQuestions, now_ms: int) -> None:
    """Make sheets until each design and size in work was reckoned, which takes longest the first time it is asked."""
    registers = reads.registers()
    told: set[tuple[str, str]] = set()
    for bench in registers.benches.values():
        in_work = {(each.design, each.size) for each in frames_in_work(registers, bench)}
        if in_work - told:
            told |= in_work
            bench_sheet(reads, AskedSheet(bench.id, "desk", now_ms))


def day_of(now_ms: int, zone: str) -> date:
    """Give the shop's day a moment falls on."""
    return datetime.fromtimestamp(now_ms / 1000, UTC).astimezone(ZoneInfo(zone)).date()


def _lines(bench: Bench) -> set[str]:
    return {line for line in (bench.torch_line, bench.purge_line, bench.trailing_line) if line is not None}


def _bench_told(bench: Bench) -> dict[str, Any]:
    return {"id": bench.id, "title": bench.title, "machine": bench.machine, "devices": list(bench.devices)}


def _people_told(registers: Registers) -> list[dict[str, Any]]:
    people = sorted((each for each in registers.people.values() if each.left is None), key=lambda each: each.name)
    return [{"id": each.id, "name": each.name, "roles": list(each.roles)} for each in people]


def _accepted(registers: Registers, name: str) -> float | None:
    found = [each for each in registers.acceptance.values() if each.name == name]
    return max(found, key=lambda each: each.valid_from).value if found else None
