"""Gathers what the trace screens show from the record and from the kept file."""

from collections.abc import Mapping

from server.facts.equipment import Instrument
from server.facts.registers import Registers
from server.facts.welding import Pass
from server.pages.traces.asked import LookAsked
from server.pages.traces.page import BeadLine, ChoosePage, LookPage
from server.pages.traces.picture import trace_pictures
from server.record.book_of_lines import Record
from server.record.files import Files
from server.record.reads import Reads
from server.work.beside_trace import beside_of
from server.work.frame_passes import frame_passes, one_pass
from server.work.known_instrument import known_instrument
from server.work.offered_beads import offered_beads
from server.work.refusal import NotThere
from server.work.trace_measured import measured_for
from server.work.trace_read import SeenTrace, read_trace

_FRAMES_SHOWN = 60
_RECORDING = frozenset({"mean_current", "volts", "arc_energy"})


def choose_page(
    reads: Reads, frame: str, filled: Mapping[str, str], problems: tuple[str, ...] = ()
) -> ChoosePage:
    """Give the frames, newest first, the passes of one, and the instruments that can record an arc."""
    registers = reads.registers()
    frames = sorted(registers.packets.values(), key=lambda each: (each.issued, each.frame), reverse=True)
    passes = frame_passes(reads, frame) if frame in {each.frame for each in frames} else []
    return ChoosePage(tuple(frames[:_FRAMES_SHOWN]), frame, tuple(passes), _recorders(registers), filled, problems)


def kept_trace(files: Files, sha256: str, asked: LookAsked) -> tuple[bytes, SeenTrace]:
    """Give a kept recording, read; raises `NotThere` when no such file is kept."""
    content = files.read(sha256)
    if content is None:
        raise NotThere(f"No recording is kept as {sha256[:16]!r}. Choose its pass and send it again.")
    return content, read_trace(content, asked.read_as)


def look_page(
    record: Record, seen: SeenTrace, sha256: str, asked: LookAsked, done: str, problems: tuple[str, ...] = ()
) -> LookPage:
    """Give one recording beside its pass."""
    beside = beside_of(record, asked.of, sha256, seen)
    with record.reads() as reads:
        to = one_pass(reads, asked.of)
        instrument = beside.instrument if beside else known_instrument(reads, asked.instrument)
        seam_mm = _seam_mm(reads.registers(), to.entry)
        offered = offered_beads(reads, beside) if beside else ()
    return LookPage(
        sha256=sha256,
        to=to,
        instrument=instrument,
        read_by=_read_by(seen),
        sample_hz=seen.found.sample_hz,
        pictures=trace_pictures(seen),
        beads=_lines(seen),
        measured=measured_for(to, seen, instrument, beside.trace.beads if beside else asked.beads),
        attached=beside.trace if beside else None,
        offered=offered,
        hidden=asked.carried,
        seam_mm=seam_mm,
        done=done,
        problems=problems,
    )


def _lines(seen: SeenTrace) -> tuple[BeadLine, ...]:
    names = [name for name in BeadLine.__dataclass_fields__ if name != "number"]
    return tuple(
        BeadLine(number, *(getattr(bead, name) for name in names)) for number, bead in enumerate(seen.found.beads, 1)
    )


def _recorders(registers: Registers) -> tuple[Instrument, ...]:
    known = registers.instruments.values()
    return tuple(each for each in known if _RECORDING & {reading.quantity for reading in each.reads})


def _seam_mm(registers: Registers, entry: Pass) -> float | None:
    packet = registers.packets.get(entry.frame)
    design = registers.designs.get(packet.design) if packet else None
    joint = next((each for each in design.joints if each.id == entry.joint), None) if design else None
    return joint.seam_mm * len(entry.quarters) / 4.0 if joint else None


def _read_by(seen: SeenTrace) -> str:
    if seen.headers is None:
        return "the binary form"
    it = seen.headers
    columns = ((it.time, it.time_unit), (it.amps, it.amps_unit), (it.volts, it.volts_unit))
    return ", ".join(f"{header} in {unit}" for header, unit in columns)
