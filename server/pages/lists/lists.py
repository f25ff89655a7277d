"""Which lists can be had, and what stands in their rows."""


from server.documents.list_csv import Column
from server.facts.moment import show_moment
from server.judgement.conceding import frames_used
from server.judgement.matters import matters
from server.pages.lists.a_list import AList, AskedList, Rows, texts
from server.pages.lists.chart_lists import CHART_LISTS
from server.pages.lists.claim_lists import CLAIM_LISTS, LIFE_LISTS
from server.pages.lists.door_lists import DOOR_LISTS
from server.pages.lists.frame_lists import ASKED_OF_FRAMES, FRAME_LISTS
from server.pages.lists.paper_lists import PAPER_LISTS
from server.pages.lists.register_lists import REGISTER_LISTS
from server.record.reads import Reads
from server.work.audit_state import audited


def _findings(reads: Reads) -> Rows:
    registers = reads.registers()
    shipped = {each.frame: each.at for each in registers.shipments.values()}
    rows: Rows = []
    for matter in matters(reads.findings(), registers.decisions.values()):
        it = matter.finding.verdict
        number = it.value if isinstance(it.value, float) else None
        gone = shipped.get(matter.finding.frame or "")
        left = show_moment(gone) if gone is not None else None
        decided = matter.decision.choice if matter.decision else None
        stands = (it.word.value, it.severity.value, matter.state, decided)
        measured = (number, it.unit, it.low, it.high, it.uncertainty)
        rows.append([it.subject, matter.finding.frame, it.question, *stands, *measured, it.message, left])
    return rows


def _concessions(reads: Reads) -> Rows:
    registers = reads.registers()
    return [
        [each.id, each.question, " ".join(each.frames), " ".join(each.joints), each.count,
         len(frames_used(each.id, registers.decisions.values())), show_moment(each.expires) if each.expires else None,
         each.reason]
        for each in registers.concessions.values()
    ]  # fmt: skip


def _nonconformities(reads: Reads) -> Rows:
    return [
        [each.id, each.title, len(each.findings), " ".join(each.held), each.containment, each.cause, each.action,
         each.recurred, show_moment(each.closed) if each.closed else None]
        for each in reads.registers().nonconformities.values()
    ]  # fmt: skip


def _second_looks(reads: Reads) -> Rows:
    return [
        [week.draw.week, joint.subject, joint.look.outcome if joint.look else None,
         joint.look.words if joint.look else None, joint.look.nonconformity if joint.look else None,
         joint.look.signatures[0].person if joint.look else None,
         show_moment(joint.look.signatures[0].at) if joint.look else None]
        for week in audited(reads.registers()) for joint in week.joints
    ]  # fmt: skip


LISTS: dict[str, AList] = {
    "findings": AList("Every finding that stands, with where it stands", (
        *texts(subject="what it is about", frame="serial, where it is of one", question="the question's name",
               word="outside, unknown or marginal", severity="stop, decide or note",
               state="open, held, decided or look again", decided="the last decision"),
        Column("value", "number", "the value in the unit beside it, where it is a number"), *texts(unit="its unit"),
        Column("low", "number", "least allowed"), Column("high", "number", "most allowed"),
        Column("uncertainty", "number", "standard uncertainty of the value"), *texts(message="in words"),
        Column("shipped_at", "dateTime", "when the frame left the house, UTC"),
    ), _findings),
    "concessions": AList("Concessions and deviation permits with their uses", (
        *texts(number="the paper", question="empty for any question", frames="serials", joints="empty for all"),
        Column("count", "integer", "for how many frames"), Column("used", "integer", "on how many frames used"),
        Column("expires", "dateTime", "until when, UTC"), *texts(reason="why it may be borne"),
    ), _concessions),
    "nonconformities": AList("Nonconformities", (
        *texts(number="the paper", title="what does not conform"), Column("findings", "integer", "how many findings"),
        *texts(held="joints held", containment="done at once", cause="as far as shown", action="against its return",
               recurred="whether it came back"), Column("closed", "dateTime", "when, UTC"),
    ), _nonconformities),
    "second-looks": AList("Joints drawn for a second look, and what it found", (
        *texts(week="the week it was welded in", joint="serial/joint#attempt",
               outcome="agrees, found or not reached; empty while it waits",
               words="how it was looked at, what was seen",
               nonconformity="opened where something was found", signed_by="who looked"),
        Column("signed_at", "dateTime", "when, UTC"),
    ), _second_looks),
}  # fmt: skip
LISTS |= PAPER_LISTS | REGISTER_LISTS | CLAIM_LISTS | FRAME_LISTS | DOOR_LISTS
ASKED_LISTS: dict[str, AskedList] = CHART_LISTS | LIFE_LISTS | ASKED_OF_FRAMES
