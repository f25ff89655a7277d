"""The small shop the desk's verbs are proved on: one frame, a welder, a quality lead, an owner; nobody types a PIN."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from server.evidence.salted import fresh_salt
from server.facts.finding import digest_of
from server.judgement.gates import Gate
from server.judgement.matters import matters
from server.record.book_of_lines import Record, now_ms
from server.record.keeping_details import keep_details
from server.record.written import Written
from server.work.customers_apart import told_apart
from server.work.decide import DecisionAsked, decide
from server.work.judge_new import judge_new
from server.work.load_folder import load_folder
from server.work.permit import PermissionAsked, permit
from server.work.sent_delivery import from_request
from server.work.shop_folder import read_shop_folder
from server.work.signature import Signing
from server.work.take_deliveries import take_deliveries
from server.work.telling import told_line
from tests.record.laid_out import open_laid_out
from tests.story.log import LINES, Tablet, counted
from tests.story.works import move_to_today

LEAD = Signing("LEA", "", "desk", "quality lead", "decided")
OWNER = Signing("OWN", "", "desk", "owner", "decided")


def open_shop(folder: Path) -> Record:
    """Open a record of its own into which the shop of the story has been loaded."""
    return open_laid_out(folder, _load_story)


def _load_story(record: Record, folder: Path) -> None:
    move_to_today(folder / "shop")
    load_folder(record, read_shop_folder(folder / "shop"), now_ms())


def send(record: Record, *deliveries: dict[str, Any]) -> None:
    """Send deliveries and judge what they touch."""
    take_deliveries(record, [from_request(each, "sent", now_ms()) for each in deliveries]).result()
    judge_new(record)


def a_pass(tablet: Tablet, clock: str, joint: str = "A", oxygen: str = "8", **told: Any) -> dict[str, Any]:
    """Make a root pass on a joint of the frame with some oxygen in its purge."""
    about = {"run": "root", "setup": "one", "machine": "PW", "sleeve": "none", **LINES} | told
    return tablet.on_joint(clock, "pass", joint, values=counted("40", "10", "80", oxygen), **about)


def sign(record: Record, choice: str, keys: Iterable[str], *signings: Signing, **told: Any) -> str:
    """Decide on findings as they stand and answer the decision's id."""
    wanted = tuple(keys)
    with record.reads() as reads:
        shown = digest_of(tuple(reads.findings(keys=wanted)))
    reason = told.pop("reason", "seen and understood")
    asked = DecisionAsked(choice, wanted, shown, reason, signings or (LEAD,), **told)  # type: ignore[arg-type]
    return record.write(lambda reads: decide(reads, asked, now_ms())).result()


def tell(record: Record, **told: Any) -> None:
    """Tell the record a register line; of a customer the number, with the details beside it."""
    record.write(lambda reads: _told(reads.last_position() + 1, told)).result()


def _told(position: int, told: dict[str, Any]) -> Written[None]:
    if told["kind"] == "customer":
        line, kept = told_apart(told, position, now_ms(), "IMPORT", fresh_salt())
        return Written(answer=lambda _: None, lines=(line,), changes=(keep_details([kept]),))
    return Written(answer=lambda _: None, lines=(told_line(told, now_ms()),))


def pass_gate(record: Record, gate: Gate, *signings: Signing, **told: Any) -> str:
    """Sign at a gate of the frame and answer the permission's id."""
    asked = PermissionAsked(gate, "SW-1", signings or (LEAD,), **told)
    return record.write(lambda reads: permit(reads, asked, now_ms())).result()


def weld_it_all(tablet: Tablet) -> list[dict[str, Any]]:
    """Make the entries of a frame welded all round in its order, with good gas; what is missing is left to decide."""
    told = []
    for hour, joint in enumerate("ABC", 1):
        told += [
            tablet.on_joint(f"{hour}:00", "tack", joint, setup="one", **LINES),
            a_pass(tablet, f"{hour}:10", joint),
            a_pass(tablet, f"{hour}:30", joint, run="fill", sleeve="S-1"),
        ]
    return told


def accept_all(record: Record) -> None:
    """Accept everything that keeps the frame, in the owner's name."""
    with record.reads() as reads:
        standing = matters(reads.findings(frame="SW-1"), reads.registers().decisions.values())
    if keys := [each.finding.key for each in standing if each.keeps_the_frame]:
        sign(record, "accept", keys, OWNER)
    judge_new(record)
