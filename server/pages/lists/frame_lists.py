"""What the screens of frames show, as lists: serials, what shares a thing, the day of release, the cause table."""

from collections.abc import Iterable

from starlette.datastructures import QueryParams

from server.documents.list_csv import Cell, Column
from server.facts.moment import show_moment
from server.judgement.matters import Matter
from server.pages.history.gather import every_serial
from server.pages.lists.a_list import OFFICE, AList, AskedList, Rows, counts, moments, numbers, texts, wanted
from server.pages.what_else.asked import answered, asked_by
from server.record.reads import Reads
from server.work.frame_certificates import frame_certificates
from server.work.held import OpenOnGone
from server.work.joint_causes import joint_causes
from server.work.morning_list import open_on_shipped
from server.work.release_day import ThenAndNow, release_day
from server.work.what_else import Shared, WhatElse


def _serials(reads: Reads) -> Rows:
    return [
        [it.packet.frame, it.packet.design, it.packet.size, show_moment(it.packet.issued), it.stage, it.open_stop,
         it.open_decide, it.removed]
        for it in every_serial(reads)
    ]  # fmt: skip


def _on_shipped(reads: Reads) -> Rows:
    found = open_on_shipped(reads)
    places = (("out there", found.out), ("back in the house", found.home), ("made anew since", found.removed))
    return [row for place, held in places for row in _gone(place, held)]


def _gone(place: str, held: Iterable[OpenOnGone]) -> Rows:
    return [
        [each.question, place, gone.frame, gone.customer, show_moment(gone.shipped_ms),
         matter.finding.verdict.subject, matter.finding.verdict.severity.value, matter.finding.verdict.message]
        for each in held for gone in each.gone for matter in gone.matters
    ]  # fmt: skip


def _found(reads: Reads, asked: QueryParams) -> WhatElse:
    told = {name: asked.get(name, "") for name in ("since", "until", "check")}
    return answered(reads, reads.registers().zone, asked_by(asked.getlist("kind"), asked.getlist("id"), **told))


def _what_else(reads: Reads, asked: QueryParams) -> Rows:
    found = _found(reads, asked)
    return [[found.words, *_shared(each)] for each in found.shared]


def _checks_beside(reads: Reads, asked: QueryParams) -> Rows:
    found = _found(reads, asked)
    return [
        [found.words, show_moment(it.at_ms), it.words, "good" if it.good else "not good", it.entry]
        for it in found.checks.every
    ]


def _by_lot(reads: Reads, asked: QueryParams) -> Rows:
    found = answered(reads, reads.registers().zone, asked_by(asked.getlist("kind"), asked.getlist("id")))
    rows = found.by_lot.rows if found.by_lot else ()
    return [[each.level, each.faults, each.seen, each.share.estimate, each.p, each.q] for each in rows]


def _shared(each: Shared) -> list[Cell]:
    shipped = None if each.shipped_ms is None else show_moment(each.shipped_ms)
    ends = (show_moment(each.at_ms[0]), show_moment(each.at_ms[-1]))
    return [each.subject, each.frame, each.place, each.customer or None, shipped, *ends, " ".join(each.passes)]


def _release_day(reads: Reads, asked: QueryParams) -> Rows:
    day = release_day(reads, wanted(asked, "serial"))
    rows: Rows = [_matter("open then", each) for each in day.open_then]
    rows += [_matter("open then, on a seam made anew", each) for each in day.removed_then]
    rows += [
        ["waived", " ".join(it.findings), None, it.choice, None, it.reason, show_moment(it.signatures[0].at)]
        for it, _ in day.waived
    ]
    rows += [
        ["late", it.told.entry.id, None, it.told.entry.kind, None, it.told.entry.late_reason,
         show_moment(it.told.recorded.received_ms)]
        for it in day.late
    ]  # fmt: skip
    rows += [_matter("came to light since", each) for each in day.since]
    return rows + [_otherwise(each) for each in day.otherwise]


def _otherwise(each: ThenAndNow) -> list[Cell]:
    now = each.now
    words = f"{each.then.word.value} then. {now.message}" if now.message else f"{each.then.word.value} then"
    return ["answered otherwise now", now.subject, now.question, now.word.value, now.severity.value, words, None]


def _certificates(reads: Reads, asked: QueryParams) -> Rows:
    return [
        [it.of_kind, it.of, it.what, it.number, it.dated, it.used, " ".join(each.sha256 for each in it.files) or None]
        for it in frame_certificates(reads, wanted(asked, "serial"))
    ]


def _matter(part: str, matter: Matter) -> list[Cell]:
    it = matter.finding.verdict
    return [part, it.subject, it.question, it.word.value, it.severity.value, it.message, None]


def _causes(reads: Reads, asked: QueryParams) -> Rows:
    found = joint_causes(reads, wanted(asked, "serial"), wanted(asked, "joint"))
    return [
        [it.cause, it.title, it.says, "; ".join(it.missing) or None,
         "; ".join(each.words for each in it.because) or None,
         " ".join(dict.fromkeys(entry for each in it.because for entry in each.rests_on)) or None]
        for it in found.words
    ]  # fmt: skip


def _sharing(reads: Reads, asked: QueryParams) -> Rows:
    found = joint_causes(reads, wanted(asked, "serial"), wanted(asked, "joint"))
    return [[each.verdict.message, *_shared(each.shared)] for each in found.sharing]


def _procedures(reads: Reads) -> Rows:
    return [
        [each.name, each.revision, each.title, each.valid_from.isoformat(), each.sha256]
        for each in reads.registers().procedures.values()
    ]


def _stand_ins(reads: Reads) -> Rows:
    return [
        [each.id, each.person, each.absent, each.role, show_moment(each.since), show_moment(each.until), each.reason,
         each.ends]
        for each in reads.registers().stand_ins.values()
    ]  # fmt: skip


_SHARED_COLUMNS = (
    *texts(subject="serial/joint#attempt", frame="serial", where="in work, covered, finished, back, shipped, removed",
           customer="who has it"),
    *moments(shipped="last left the house", used_from="the first pass", used_until="the last pass"),
    *texts(passes="their ids"),
)  # fmt: skip
FRAME_LISTS: dict[str, AList] = {
    "serials": AList("Every serial and how far it has come", (
        *texts(serial="the frame", design="its design", size="its size"), *moments(issued="job packet issued"),
        *texts(stage="how far"), *counts(stops="open that stop a joint", decides="open that keep the frame",
                                         made_anew="open on seams made anew since"),
    ), _serials, OFFICE),
    "open-on-shipped": AList("What is open on frames that have left the house", (
        *texts(question="the question's name", where="out there, back in the house, or on a seam made anew since",
               frame="serial", customer="who has it"), *moments(shipped="last left the house"),
        *texts(subject="what it is about", severity="stop or decide", message="in words"),
    ), _on_shipped),
    "procedures": AList("Written procedures, every revision", (
        *texts(procedure="its name", revision="its revision", title="what for"),
        Column("valid_from", "date", "first day in force"), *texts(sha256="of its text as it was released"),
    ), _procedures),
    "stand-ins": AList("Who stood in for whom", (
        *texts(number="the line", person="who stands in", absent="for whom", role="in which role"),
        *moments(since="from", until="until"), *texts(reason="why", ends="the line it ends, where it ends one"),
    ), _stand_ins),
}  # fmt: skip
ASKED_OF_FRAMES: dict[str, AskedList] = {
    "what-else": AskedList("Every joint that shares what was asked by", (
        *texts(thing="what was asked by"), *_SHARED_COLUMNS,
    ), _what_else, OFFICE),
    "what-else-checks": AskedList("The checks beside what shares something", (
        *texts(thing="what was asked by"), *moments(at="when"),
        *texts(check="what it was", came_out="good or not good", entry="its id"),
    ), _checks_beside, OFFICE),
    "claims-by-lot": AskedList("Claims counted by every thing of one kind: associated, never caused", (
        *texts(thing="lot, cylinder, sleeve, heat, welder, bench or revision"),
        *counts(claimed="claimed joints with it", joints="joints with it that left the house"),
        *numbers(share="of them claimed", p="exact test, mid-P, for one look", q="for having looked at them all"),
    ), _by_lot, OFFICE),
    "release-day": AskedList("The day of release: what was open, waived or late, and what came to light since", (
        *texts(part="which of these", subject="what it is about: a joint, findings, an entry",
               question="the question's name", word="the verdict, the decision, or the kind of entry",
               severity="stop or decide", words="in words, or the reason"),
        *moments(at="signed, or received"),
    ), _release_day, OFFICE),
    "frame-certificates": AskedList("Every certificate one frame rests on", (
        *texts(of_kind="what the certificate is of", of="its id", what="what it is", number="the certificate's number",
               dated="released, calibrated or issued", used="what used it in this frame",
               files="SHA-256 of the files kept"),
    ), _certificates, OFFICE),
    "causes": AskedList("What the record says on every cause for one joint", (
        *texts(cause="its number", title="what it is", says="supports, excludes or silent",
               missing="the readings that keep it silent", because="what was found", rests_on="ids of the entries"),
    ), _causes, OFFICE),
    "sharing": AskedList("What else, still in product, rests on what one joint rests on", (
        *texts(why="in words"), *_SHARED_COLUMNS,
    ), _sharing, OFFICE),
}  # fmt: skip
