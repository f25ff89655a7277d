"""The registers as lists: qualifications, instruments, cylinders on lines, sleeves, heats, and certificates' files."""

from datetime import date

from server.documents.list_csv import Column
from server.facts.moment import show_moment
from server.pages.lists.a_list import AList, Rows, texts
from server.record.reads import Reads
from server.work.customer_sheet import customer_sheets
from server.work.register_sheets import calibrated, on_lines, qualified_now, rods


def _qualifications(reads: Reads) -> Rows:
    return [
        [each.qualification.id, each.qualification.welder, " ".join(each.qualification.procedures),
         each.qualification.issued.isoformat(), date.fromordinal(each.last).isoformat(), len(each.confirmed)]
        for each in qualified_now(reads)
    ]  # fmt: skip


def _instruments(reads: Reads) -> Rows:
    return [
        [each.instrument.id, each.instrument.title, each.instrument.bench, each.due.isoformat() if each.due else None,
         each.calibrations[0].result if each.calibrations else None, len(each.calibrations)]
        for each in calibrated(reads.registers())
    ]  # fmt: skip


def _confirmations(reads: Reads) -> Rows:
    return [
        [each.qualification, each.dated.isoformat(), each.by] for each in reads.registers().confirmations.values()
    ]


def _calibrations(reads: Reads) -> Rows:
    return [
        [each.instrument, show_moment(each.at), each.result,
         "; ".join(f"{true:g}: {shown:g}" for true, shown in each.as_found) or None, each.found_uncertainty,
         each.certificate]
        for each in sorted(reads.registers().calibrations.values(), key=lambda each: (each.instrument, each.at))
    ]  # fmt: skip


def _cylinders(reads: Reads) -> Rows:
    return [
        [on.line, on.cylinder, show_moment(on.since_ms), show_moment(on.until_ms) if on.until_ms else None,
         on.lot.id if on.lot else None, on.lot.certificate if on.lot else None,
         on.lot.oxygen_ppm if on.lot else None, on.lot.dew_point_c if on.lot else None]
        for line in on_lines(reads) for on in line.cylinders
    ]  # fmt: skip


def _sleeves(reads: Reads) -> Rows:
    return [
        [sleeve.id, sleeve.filler_class, sleeve.rod_mm, each.lot.id, each.lot.certificate,
         each.lot.released.isoformat() if each.lot.released else None]
        for each in rods(reads.registers()) for sleeve in each.sleeves
    ]  # fmt: skip


def _heats(reads: Reads) -> Rows:
    return [
        [each.id, each.metal, each.condition, each.certificate, each.released.isoformat() if each.released else None]
        for each in reads.registers().heats.values()
    ]


def _certificates(reads: Reads) -> Rows:
    return [
        [each.of_kind, each.of, each.name, each.sha256, each.length, each.told_by]
        for each in reads.registers().certificate_files.values()
    ]


def _customers(reads: Reads) -> Rows:
    return [
        [each.customer.id, each.customer.name, each.customer.address, " ".join(each.frames),
         "; ".join(each.held_by) or None, show_moment(each.removal.at) if each.removal else None]
        for each in customer_sheets(reads.registers())
    ]  # fmt: skip


REGISTER_LISTS: dict[str, AList] = {
    "qualifications": AList("Qualifications and how long they hold", (
        *texts(number="the qualification", welder="whose", procedures="for which"),
        Column("issued", "date", "first day"),
        Column("last", "date", "last valid day"), Column("confirmations", "integer", "how many"),
    ), _qualifications),
    "instruments": AList("Instruments and their calibration", (
        *texts(instrument="its mark", title="what it is", bench="where"), Column("due", "date", "last valid day"),
        *texts(newest="result of the newest calibration"), Column("calibrations", "integer", "how many on record"),
    ), _instruments),
    "confirmations": AList("The continuity log: every confirmation of a qualification", (
        *texts(qualification="which"), Column("dated", "date", "on which day"),
        *texts(by="who confirmed it"),
    ), _confirmations),
    "calibrations": AList("Every calibration, as found", (
        *texts(instrument="its mark"), Column("at", "dateTime", "when, UTC"),
        *texts(result="pass or fail", as_found="true value: indicated value, several parted by semicolons"),
        Column("found_uncertainty", "number", "standard uncertainty of the values found"),
        *texts(certificate="its number"),
    ), _calibrations),
    "cylinders": AList("Which cylinder was on which gas line", (
        *texts(line="the gas line", cylinder="its mark"), Column("since", "dateTime", "on since, UTC"),
        Column("until", "dateTime", "on until, UTC; empty while it is on"),
        *texts(lot="fill lot", certificate="of the lot"),
        Column("oxygen_ppm", "number", "certified oxygen in ppm"),
        Column("dew_point_c", "number", "certified dew point in °C"),
    ), _cylinders),
    "sleeves": AList("Rod sleeves with their lots", (
        *texts(sleeve="its mark", filler_class="as its label says"), Column("rod_mm", "number", "diameter in mm"),
        *texts(lot="filler lot", certificate="of the lot"), Column("released", "date", "lot released on"),
    ), _sleeves),
    "heats": AList("Tube heats", (
        *texts(heat="its number", metal="the metal", condition="as delivered", certificate="its number"),
        Column("released", "date", "on which day"),
    ), _heats),
    "certificates": AList("Files of certificates", (
        *texts(kind="of what kind of register line", of="of which", name="what the file was called",
                      sha256="SHA-256 of its bytes"),
        Column("length", "integer", "in bytes"), *texts(told_by="who brought it"),
    ), _certificates),
    "customers": AList("Customers by number", (
        *texts(number="as packets, shipments and claims name them", name="or that the details are removed",
               address="as told", frames="packed for them, shipped to them or owned", held_by="why they cannot go now"),
        Column("removed", "dateTime", "when the details were removed, UTC; empty while they stand"),
    ), _customers, ("owner",)),
}  # fmt: skip
