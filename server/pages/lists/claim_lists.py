"""What the claim, containment and hold screens show, as lists."""

from starlette.datastructures import QueryParams

from server.documents.list_csv import Cell
from server.facts.deciding import Signature
from server.facts.moment import show_moment
from server.pages.claims.page import said_by
from server.pages.lists.a_list import OFFICE, AList, AskedList, Rows, counts, moments, numbers, texts
from server.record.reads import Reads
from server.work.contain import containment_file
from server.work.joint_life import joint_life


def _claims(reads: Reads) -> Rows:
    registers = reads.registers()
    return [
        [each.id, each.serial, each.joint, each.quarter, show_moment(each.reported), show_moment(each.knew),
         said_by(each, registers.customers), each.symptom, each.written_by]
        for each in registers.claims.values()
    ]  # fmt: skip


def _claim_steps(reads: Reads) -> Rows:
    return [
        [each.claim, each.id, show_moment(each.at), each.step, each.settled, each.to, each.serial, each.words,
         " ".join(each.files), each.written_by, _signed(each.signatures)]
        for each in sorted(reads.registers().claim_steps.values(), key=lambda each: (each.claim, each.at))
    ]  # fmt: skip


def _containments(reads: Reads) -> Rows:
    registers = reads.registers()
    files = [containment_file(registers, number) for number in registers.containments]
    return [
        [it.paper.id, it.paper.title, show_moment(it.paper.at), it.paper.claim, it.paper.because, each.frame,
         each.has_it or None, _moment(each.shipped_ms), each.stands, len(each.steps),
         "; ".join(f"{show_moment(step.at)} {step.act}: {step.words}" for step in each.steps) or None]
        for it in files for each in it.frames
    ]  # fmt: skip


def _holds(reads: Reads) -> Rows:
    return [
        [each.id, each.frame, each.act, show_moment(each.at), each.reason, _signed(each.signatures)]
        for each in reads.registers().legal_holds.values()
    ]


def _rates(reads: Reads, asked: QueryParams) -> Rows:
    found = joint_life(reads, asked.get("design", "").strip(), asked.get("joint", "").strip())
    return [
        [each.design, each.joint, each.joints, each.years, each.failures,
         *(1000 * end for end in (each.rate.estimate, each.rate.low, each.rate.high))]
        for each in found.rates
    ]  # fmt: skip


def _survival(reads: Reads, asked: QueryParams) -> Rows:
    found = joint_life(reads, asked.get("design", "").strip(), asked.get("joint", "").strip())
    steps = found.curve.steps if found.curve else ()
    return [[each.time, each.at_risk, each.failures, each.survival, each.low, each.high] for each in steps]


def _moment(at_ms: int | None) -> Cell:
    return None if at_ms is None else show_moment(at_ms)


def _signed(signatures: tuple[Signature, ...]) -> str | None:
    return " ".join(f"{sign.person} ({sign.role})" for sign in signatures) or None


CLAIM_LISTS: dict[str, AList] = {
    "claims": AList("Claims as they were reported", (
        *texts(claim="its number", serial="the frame", joint="empty: not known", quarter="empty: not known"),
        *moments(reported="when it was reported", knew="when anybody of the shop first knew"),
        *texts(reported_by="who", symptom="in their words", written_by="who opened it"),
    ), _claims, OFFICE),
    "claim-steps": AList("What was done in each claim, in order of time", (
        *texts(claim="its number", step="the line"), *moments(at="when it happened"),
        *texts(kind="what", settled="what a decision decides", to="to whom or from whom",
               serial="the frame, where it is another", words="what was said", files="SHA-256 of what came with it",
               written_by="who wrote it down", signed_by="who, in which role"),
    ), _claim_steps, OFFICE),
    "containments": AList("Containments, frame by frame", (
        *texts(number="the containment", title="what"), *moments(opened="when"),
        *texts(claim="where it came from one", because="why these", frame="serial", has_it="empty: in the house"),
        *moments(shipped="last left the house"), *texts(stands="the last that was done"),
        *counts(steps="how many"), *texts(done="what was done, in order of time"),
    ), _containments, OFFICE),
    "holds": AList("Every line about legal holds", (
        *texts(number="the line", frame="serial", act="placed or lifted"), *moments(at="when"),
        *texts(reason="who asked and why", signed_by="who, in which role"),
    ), _holds, OFFICE),
}  # fmt: skip
LIFE_LISTS: dict[str, AskedList] = {
    "joint-life": AskedList("How often joints were claimed", (
        *texts(design="of which design", joint="which joint"), *counts(joints="in the field"),
        *numbers(joint_years="since shipment, all together"), *counts(claimed="how many"),
        *numbers(rate="claims to 1000 joint-years", low="exact 95 % interval", high="exact 95 % interval"),
    ), _rates, OFFICE),
    "survival": AskedList("The share of joints that still hold, by years in the field", (
        *numbers(years="in the field"), *counts(watched="still in the field then", claimed="claimed then"),
        *numbers(share="that still holds, from 0 to 1", low="95 % band", high="95 % band"),
    ), _survival, OFFICE),
}  # fmt: skip
