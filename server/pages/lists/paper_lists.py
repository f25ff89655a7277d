"""What people signed and what is in doubt, as lists: decisions, permissions, suspect sets joint by joint."""

from server.documents.list_csv import Column
from server.facts.moment import show_moment
from server.pages.lists.a_list import AList, Rows, texts
from server.record.reads import Reads
from server.work.suspect_sets import suspect_sets


def _decisions(reads: Reads) -> Rows:
    return [
        [each.id, each.choice, each.frame, len(each.findings), " ".join(each.findings), each.reason, each.concession,
         " ".join(f"{sign.person} ({sign.role})" for sign in each.signatures), show_moment(each.signatures[0].at)]
        for each in reads.registers().decisions.values()
    ]  # fmt: skip


def _permissions(reads: Reads) -> Rows:
    return [
        [each.id, each.permits, each.frame, each.joint, len(each.open_findings), each.reason,
         " ".join(f"{sign.person} ({sign.role})" for sign in each.signatures), show_moment(each.signatures[0].at)]
        for each in reads.registers().permissions.values()
    ]  # fmt: skip


def _suspects(reads: Reads) -> Rows:
    return [
        [of.check, of.subject, of.kind, each.subject, each.frame, each.because, each.whereabouts, each.cleared_by,
         each.cleared_reason or None]
        for of in suspect_sets(reads) for each in of.suspects
    ]  # fmt: skip


PAPER_LISTS: dict[str, AList] = {
    "decisions": AList("Every decision as it was signed", (
        *texts(number="the paper", choice="what was decided", frame="serial, where it is of one"),
        Column("findings", "integer", "on how many findings"),
        *texts(keys="their keys", reason="why", concession="used for it", signed_by="who, in which role"),
        Column("signed_at", "dateTime", "when, UTC"),
    ), _decisions),
    "permissions": AList("Hold points released, inspections, releases, shipments", (
        *texts(number="the paper", permits="what", frame="serial", joint="where it is about one"),
        Column("overridden", "integer", "how many open findings were signed over"),
        *texts(reason="why they were", signed_by="who, in which role"), Column("signed_at", "dateTime", "when, UTC"),
    ), _permissions),
    "suspects": AList("Every joint in a suspect set, and what let it out", (
        *texts(check="id of the failed check", about="what failed and when",
               kind="bead, coupon, calibration, cross-check", joint="serial/joint#attempt", frame="serial",
               because="why it is in", whereabouts="where it is now",
               let_out_by="the narrowing; empty while it is in", reason="why it was let out"),
    ), _suspects),
}  # fmt: skip
