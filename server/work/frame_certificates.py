"""Gathers every certificate one frame rests on: of its tubes, gas, rods, of what measured it and of who welded it."""

from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from server.facts.certificate_file import CertificateFile, CertificateOf
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.record.reads import Reads
from server.work.dossier_joints import Wording
from server.work.dossier_papers import gas_under, told_papers
from server.work.frame_history import frame_history
from server.work.keep_certificate import certificates_of


def _plainly(at_ms: int | None) -> str:
    return "" if at_ms is None else show_moment(at_ms)


class RestsOn(NamedTuple):
    """One certificate: of what, its number, from when it is, what of the frame used it, and the files kept of it."""

    of_kind: CertificateOf
    of: str
    what: str
    number: str | None
    dated: str | None
    used: str
    files: tuple[CertificateFile, ...]


def frame_certificates(
    reads: Reads, frame: str, moment: Callable[[int | None], str] = _plainly
) -> list[RestsOn]:
    """Gather them in the order tube, gas, rods, instruments, people; raises `NotThere` for a serial no packet names."""
    story, registers = frame_history(reads, frame), reads.registers()
    wording = Wording(lambda entry: entry.kind, moment, str)
    told = told_papers(reads, story, registers, wording, gas_under(reads, story))
    rows = (*_heats(told), *_gas(told), *_rods(told), *_instruments(registers, told), *_people(told))
    return [RestsOn(*row, files=certificates_of(registers, row[0], row[1])) for row in rows]


_Row = tuple[CertificateOf, str, str, str | None, str | None, str]


def _heats(told: dict[str, Any]) -> Iterator[_Row]:
    for each in told["heats"]:
        used = _listed(it["id"] for it in told["pieces"] if it["heat"] == each["id"])
        yield "tube heat", each["id"], each["metal"], each["certificate"], each.get("released"), f"pieces {used}"


def _gas(told: dict[str, Any]) -> Iterator[_Row]:
    for each in told["fill_lots"]:
        on = [it for it in told["cylinders"] if it["on"] in each["cylinders"]]
        used = _listed(f"{it['on']} on line {it['line']} under {len(it['under'])} passes and tacks" for it in on)
        yield "fill lot", each["id"], "shielding gas", each["certificate"], each["released"], used


def _rods(told: dict[str, Any]) -> Iterator[_Row]:
    for each in told["filler_lots"]:
        used = _listed(it["id"] for it in told["sleeves"] if it["lot"] == each["id"])
        yield "filler lot", each["id"], each["filler_class"], each["certificate"], each["released"], f"sleeves {used}"


def _instruments(registers: Registers, told: dict[str, Any]) -> Iterator[_Row]:
    for each in told["instruments"]:
        what = f"{each['id']}, {registers.instruments[each['id']].title}"
        for it in each["calibrations"]:
            came_out = "passed" if it["result"] == "pass" else "failed"
            yield "calibration", it["id"], what, it["certificate"], it["shown"], came_out
        if not each["calibrations"]:
            yield "calibration", "none", what, None, None, "no calibration of it is recorded"


def _people(told: dict[str, Any]) -> Iterator[_Row]:
    for person in told["people"]:
        for it in person["qualifications"]:
            what = f"{person['name']}, {it['standard']}"
            yield "qualification", it["id"], what, it["id"], it["issued"], f"procedures {_listed(it['procedures'])}"


def _listed(words: Iterable[str]) -> str:
    return ", ".join(words) or "none"
