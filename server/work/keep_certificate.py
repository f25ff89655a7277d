"""Keeps a certificate's file beside the register line it belongs to; the line names it by its SHA-256."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from server.facts.certificate_file import CertificateFile
from server.facts.registers import Registers
from server.record.files import Files
from server.record.reads import Reads
from server.record.written import Written
from server.work.evidence_files import keep_evidence
from server.work.refusal import NotThere, Unreadable
from server.work.told_once import told_once


@dataclass(frozen=True, slots=True)
class CertificateGiven:
    """A file for one register line, named `kind:id`, and who brings it."""

    of: str
    name: str
    content: bytes
    told_by: str


def may_have_certificates(registers: Registers) -> dict[str, Mapping[str, Any]]:
    """Give the register lines a certificate may belong to, by kind."""
    return {
        "fill lot": registers.fill_lots,
        "filler lot": registers.filler_lots,
        "tube heat": registers.heats,
        "calibration": registers.calibrations,
        "qualification": registers.qualifications,
    }


def keep_certificate(reads: Reads, files: Files, given: CertificateGiven, now_ms: int) -> Written[str]:
    """Keep the file and append the line that names it; raises when the line is not known or the file is none."""
    registers = reads.registers()
    kind, _, of = given.of.partition(":")
    if of not in may_have_certificates(registers).get(kind, {}):
        raise NotThere(f"of: {given.of!r} is no line of a register; choose one from the list")
    kept = keep_evidence(files, [given.content] if given.content else [])
    if not kept:
        raise Unreadable("file: none chosen; choose the certificate as PDF or as a picture")
    told = {
        "kind": "certificate file",
        "id": f"CF-{reads.last_position() + 1}",
        "of_kind": kind,
        "of": of,
        "name": given.name.strip()[:200] or "certificate",
        "sha256": kept[0],
        "length": len(given.content),
        "told_by": given.told_by,
    }
    return told_once(told, certificates_of(registers, kind, of), now_ms, but=("name", "told_by"))


def certificates_of(registers: Registers, kind: str, of: str) -> tuple[CertificateFile, ...]:
    """Give the files kept for one register line, in the order they came."""
    return tuple(each for each in registers.certificate_files.values() if (each.of_kind, each.of) == (kind, of))
