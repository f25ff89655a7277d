"""Writes a bench's day around its welds: frames opened on the tablet, purge on and off, what was cut out."""

from collections.abc import Iterable
from datetime import date

from demo_data.generator.bench_day import Session
from demo_data.generator.days import MINUTE
from demo_data.generator.numbers import value
from demo_data.generator.shop import Shop
from demo_data.generator.story import Story
from demo_data.generator.weld import SECOND, Weld


def tell_sessions(shop: Shop, story: Story, sessions: Iterable[Session], day: date, told: set[int]) -> None:
    """Write the purge of every session whose frame is told."""
    read = False
    for session in sessions:
        weld = session.weld
        if weld.frame.number not in told:
            continue
        who, tablet, line = weld.welder, shop.tablet(weld), f"{weld.frame.bench}-P"
        usual = shop.settings(weld.frame.bench, day, weld.procedure).pre_purge_flow
        flow = weld.pin.pre_purge[1] if weld.pin.pre_purge else usual
        values = value("pre_purge_flow", flow, "inherited" if read else "read", "FM-1")
        named = {"frame": weld.frame.serial, "setup": weld.setup, "line": line}
        tablet = shop.other_tablet(tablet, session.on)
        story.tell(session.on, tablet, who, "purge", session.on + 2 * SECOND, **named, act="on", values=values)
        tablet = shop.other_tablet(tablet, session.off)
        story.tell(session.off, tablet, who, "purge", session.off + 3 * SECOND, **named, act="off")
        read = True


def tell_opened(shop: Shop, story: Story, welds: list[Weld], sessions: list[Session], told: set[int]) -> None:
    """Write when each frame was opened and closed on each tablet that logged it."""
    spans: dict[tuple[str, int], tuple[int, int, Weld]] = {}
    for weld in welds:
        key = (shop.tablet(weld), weld.frame.number)
        first, last, _ = spans.get(key, (weld.tack, weld.last, weld))
        spans[key] = min(first, weld.tack), max(last, weld.last), weld
    for (tablet, number), (first, last, weld) in spans.items():
        if number not in told:
            continue
        ons = [session.on for session in sessions if session.weld.frame.number == number and session.on < first]
        opened = min(ons, default=first) - MINUTE
        closed = last + (20 if weld.quiet else 14) * MINUTE
        named = {"frame": weld.frame.serial}
        story.tell(opened, shop.other_tablet(tablet, opened), weld.welder, "opened", opened, **named, act="opened")
        if ("closed", (tablet, number, weld.day)) in shop.plan.skipped:
            continue
        story.tell(closed, shop.other_tablet(tablet, closed), weld.welder, "opened", closed, **named, act="closed")


def tell_removed(shop: Shop, story: Story, weld: Weld) -> None:
    """Write that the attempt before was cut or ground away."""
    remake = weld.remake
    # A seam that is finished, and a joint that is added, take nothing away.
    if remake is None or weld.attempt == 1:
        return
    moment = weld.removed_at or weld.first_arc - 24 * MINUTE
    attempt = {"attempt": weld.attempt - 1} if weld.attempt > 2 else {}
    story.tell(
        moment, shop.tablet(weld), remake.by or weld.welder, "removed", moment + 40 * SECOND, frame=weld.frame.serial,
        joint=weld.joint, **attempt, method=remake.method, approved_by=list(remake.approved_by),
        piece_replaced=remake.piece_replaced or None,
    )  # fmt: skip
