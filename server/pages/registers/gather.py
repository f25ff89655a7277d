"""Gathers what the registers' screens show from the record."""

from collections import defaultdict

from server.facts.certificate_file import CertificateFile
from server.facts.registers import Registers
from server.occasions.days import Days
from server.pages.registers.page import RegistersPage
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.keep_certificate import may_have_certificates
from server.work.register_sheets import calibrated, on_lines, qualified_now, rods

Files = dict[tuple[str, str], tuple[CertificateFile, ...]]


def registers_page(
    reads: Reads, zone: str, problems: tuple[str, ...] = (), done: str = "", chosen: str = ""
) -> RegistersPage:
    """Give all registers as known now."""
    known, days = reads.registers(), Days(zone)
    papers = may_have_certificates(known)
    return RegistersPage(
        qualified=tuple(qualified_now(reads)),
        calibrated=tuple(calibrated(known)),
        lines=tuple(on_lines(reads)),
        rods=tuple(rods(known)),
        heats=tuple(sorted(known.heats.values(), key=lambda each: each.id)),
        files=_files(known),
        may_have_files=tuple(f"{kind}:{name}" for kind, found in papers.items() for name in found),
        today=days.day_of(now_ms()),
        days=days,
        problems=problems,
        done=done,
        chosen=chosen,
    )


def _files(known: Registers) -> Files:
    found: dict[tuple[str, str], list[CertificateFile]] = defaultdict(list)
    for each in known.certificate_files.values():
        found[each.of_kind, each.of].append(each)
    return {key: tuple(files) for key, files in found.items()}
