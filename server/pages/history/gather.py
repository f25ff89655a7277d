"""Gathers the list of serials: how far each has come and what is open on it, for the page and for its list."""

from collections.abc import Sequence
from urllib.parse import urlencode

from server.facts.frame_papers import permissions_of
from server.facts.judged import Severity
from server.facts.orders import Packet
from server.facts.registers import Registers
from server.judgement.matters import Matter
from server.pages.frame.paged import part_of
from server.pages.history.page import SerialLine, SerialList
from server.record.reads import Reads
from server.work.keeping import keeping
from server.work.removed_attempts import LastMade, last_made
from server.work.serials import newest_first
from server.work.who_has_it import back_in_house, last_shipment, who_has_it

AT_ONCE = 50


def serial_list(reads: Reads, asked: str, part: int = 1) -> SerialList:
    """List a part of the serials with that in them, newest first."""
    registers = reads.registers()
    wanted = newest_first(registers).having(asked.lower())
    shown = part_of(wanted, part, AT_ONCE, f"/history?{urlencode({'serial': asked})}" if asked else "/history")
    return SerialList(asked, shown.showing(serial_lines(reads, registers, shown.rows)))


def every_serial(reads: Reads) -> list[SerialLine]:
    """List all of them, newest first."""
    registers = reads.registers()
    return serial_lines(reads, registers, newest_first(registers).packets)


def serial_lines(reads: Reads, registers: Registers, shown: Sequence[Packet]) -> list[SerialLine]:
    """Tell how far some frames have come and what is open on each."""
    open_on: dict[str, list[Matter]] = {}
    for matter in keeping(reads, registers, {each.frame for each in shown}):
        open_on.setdefault(str(matter.finding.frame), []).append(matter)
    made = last_made(reads, [each for packet in shown for each in open_on.get(packet.frame, ())])
    back = back_in_house(reads, registers, [each.frame for each in shown])
    return [_line(each, open_on.get(each.frame, []), registers, made, each.frame in back) for each in shown]


def _line(packet: Packet, found: list[Matter], registers: Registers, made: LastMade, back: bool) -> SerialLine:
    given = [each.permits for each in permissions_of(registers, packet.frame)]
    shipped = last_shipment(registers, packet.frame) is not None
    stage = ("back in the house" if back else "shipped") if shipped else given[-1] if given else "in work"
    severities = [each.finding.verdict.severity for each in found if not made.removed(each)]
    stops, decides = severities.count(Severity.STOP), severities.count(Severity.DECIDE)
    return SerialLine(packet, stage, stops, decides, len(found) - len(severities), who_has_it(registers, packet.frame))
