"""The morning list as a letter: what waits, in counts and serials, without names of people or customers."""

from collections.abc import Iterator, Sequence
from email.message import EmailMessage

from server.judgement.book import RULES
from server.work.held import Held
from server.work.morning_list import MorningList

_ASKS = {each.id: each.asks for each in RULES}
_SERIALS_SHOWN = 6


def morning_letter(found: MorningList, shop: str, day: str, link: str) -> EmailMessage:
    """Make the letter; sender and receivers are for whoever sends it."""
    letter = EmailMessage()
    # On one line, whatever the shop is called: a line break would begin another header.
    letter["Subject"] = f"{' '.join(shop.split())}, {day}: {_subject(found)}"
    letter.set_content("\n".join(_lines(found, link)) + "\n")
    return letter


def _subject(found: MorningList) -> str:
    waits = len(found.hold_points)
    return f"{found.frames_waiting} frames wait, {waits} hold point{'s' if waits != 1 else ''}"


def _lines(found: MorningList, link: str) -> Iterator[str]:
    if found.hold_points:
        yield "Hold points waiting:"
        yield from (f"  {each.frame} {each.joint}" for each in found.hold_points)
    for title, group in (
        ("Stops", found.stops),
        ("Outside, to decide", found.outside),
        ("Not known, to decide", found.unknown),
        ("Checks missing or failed", found.checks),
        ("Made again, to look at", found.to_inspect),
        ("Lapses soon", found.lapses),
        ("Late entries", found.late),
    ):
        yield from _group(title, group)
    if found.suspected:
        yield "Suspect sets to confirm:"
        yield from (f"  {each.check}: {len(each.matters)} joints" for each in found.suspected)
    if found.tablets:
        yield f"Tablets with entries still to come: {len(found.tablets)}"
    if found.look_again:
        yield f"Decisions whose facts have changed: {len(found.look_again)}"
    if not (found.frames_waiting or found.hold_points):
        yield "Nothing waits."
    yield ""
    yield f"The list itself, and what to do: {link}/desk" if link else "The list itself is on the desk."
    yield "This letter was made by the shop's own service and is no record."


def _group(title: str, group: Sequence[Held]) -> Iterator[str]:
    if group:
        yield f"{title}:"
    for held in group:
        more = len(held.frames) - _SERIALS_SHOWN
        serials = ", ".join(held.frames[:_SERIALS_SHOWN]) + (f" and {more} more" if more > 0 else "")
        yield f"  {held.count} x {_ASKS.get(held.question, held.question)} {serials}".rstrip()
