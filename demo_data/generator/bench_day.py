"""Lays the welds of one bench and day into its hours: around what is settled, lunch, and tests of gas."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from demo_data.generator.days import HOUR, MINUTE, at
from demo_data.generator.dice import Dice
from demo_data.generator.weld import SECOND, Weld

Span = tuple[int, int]
BREAK = 30 * MINUTE
"""After so long without an arc the purge is turned off and on again."""


@dataclass
class Session:
    """One frame in one purge set-up without a break: purge on, the welds and tacks, purge off."""

    weld: Weld
    first_arc: int
    last: int
    on: int = 0
    off: int = 0


def lay_day(welds: Sequence[Weld], day: date, taken: Iterable[Span], begin: int, dice: Dice) -> int:
    """Give every weld of the day its moments; returns when the work ends."""
    lunch = (at(day, "12:00"), at(day, "12:49"))
    spans = sorted([lunch, *taken, *(_span(weld) for weld in welds if weld.settled)])
    cursor = begin
    spare = at(day, "16:10") - begin - 49 * MINUTE - sum(_usual(weld) for weld in welds)
    pause = min(max(spare // max(len(welds), 1), 0), 12 * MINUTE) if not any(weld.settled for weld in welds) else 0
    for weld in welds:
        if weld.settled:
            _settled(weld, dice)
    for _, group in groupby((weld for weld in welds if not weld.settled), key=lambda w: (w.frame.number, w.stage)):
        stage = list(group)
        lead = 13 if stage[0].procedure == "R1" else 9
        cursor = _lay_stage(stage, cursor + lead * MINUTE, pause, spans, dice)
    return max((weld.last for weld in welds), default=cursor)


def sessions_of(welds: Iterable[Weld], day: date, dice: Dice) -> list[Session]:
    """Give the purge sessions of a bench's day, in order, each with its purge turned on and off."""
    sessions: list[Session] = []
    noon = at(day, "12:20")
    for first, last, weld in sorted(_stretches(welds), key=lambda stretch: stretch[0]):
        now = sessions[-1] if sessions else None
        same = now and (now.weld.frame, now.weld.stage) == (weld.frame, weld.stage)
        if now and same and first - now.last < BREAK and not (now.last < noon < first):
            now.last = max(now.last, last)
        else:
            sessions.append(Session(weld, first, last))
    for before, session in zip([None, *sessions], sessions, strict=False):
        earliest = before.off + 20 * SECOND if before else 0
        session.on = max(earliest, session.first_arc - round(_pre_purge_min(session.weld, dice) * MINUTE))
        session.off = session.last + 40 * SECOND
    return sessions


def _pre_purge_min(weld: Weld, dice: Dice) -> float:
    if weld.pin.pre_purge:
        return weld.pin.pre_purge[0]
    least = 9.2 if weld.procedure == "R1" else 5.2
    return dice.between(least, least + 3.8)


def _stretches(welds: Iterable[Weld]) -> Iterable[tuple[int, int, Weld]]:
    for weld in welds:
        if weld.tacked_with_all:
            yield weld.tack, weld.tack + 2 * MINUTE, weld
        yield weld.first_arc, weld.last, weld


def _span(weld: Weld) -> Span:
    fill, root = weld.pin.fill or 0, weld.pin.root or weld.pin.fill or 0
    return (weld.pin.tack or root - 9 * MINUTE) - 10 * MINUTE, fill + 13 * MINUTE


def _settled(weld: Weld, dice: Dice) -> None:
    pin = weld.pin
    weld.fill = pin.fill or 0
    weld.root = pin.root or weld.fill
    before_root = 150 * SECOND if not weld.seam.structural else weld.arc_ms + round(dice.between(4, 5.5) * MINUTE)
    weld.tack = pin.tack or weld.root - before_root
    weld.looked = pin.looked or weld.fill + round(dice.between(45, 110)) * SECOND
    if not pin.looks:
        weld.looked = weld.fill


def _usual(weld: Weld) -> int:
    return 30 * MINUTE if weld.seam.structural else 9 * MINUTE


def _lay_stage(welds: list[Weld], cursor: int, pause: int, spans: list[Span], dice: Dice) -> int:
    if welds[0].tacked_with_all:
        cursor = _tack_all(welds, cursor, spans, dice)
    for weld in welds:
        cursor = (_lay_joint if weld.seam.structural else _lay_fitting)(weld, cursor, spans, dice)
        cursor += round(pause * dice.between(0.6, 1))
    return cursor


def _tack_all(welds: list[Weld], cursor: int, spans: list[Span], dice: Dice) -> int:
    cursor = _free(cursor, len(welds) * 8 * MINUTE, spans)
    for weld in welds:
        weld.tack = cursor
        cursor += round(dice.between(5, 8) * MINUTE)
    return cursor + round(dice.between(22, 28) * MINUTE)


def _lay_joint(weld: Weld, cursor: int, spans: list[Span], dice: Dice) -> int:
    arc = weld.arc_ms
    to_root = round(dice.between(4, 6) * MINUTE) + arc
    to_fill = 0 if weld.procedure == "R1" else round(dice.between(8, 11) * MINUTE) + arc
    to_wash = to_fill if weld.with_wash else 0
    begin = _free(cursor, 3 * MINUTE + to_root + to_fill + to_wash + 3 * MINUTE, spans)
    if not weld.tacked_with_all:
        weld.tack = begin + round(dice.between(2, 3) * MINUTE)
        begin = weld.tack
    weld.root = begin + to_root
    weld.fill = weld.root + to_fill
    weld.wash = weld.fill + to_wash if weld.with_wash else 0
    weld.looked = max(weld.fill, weld.wash) + round(dice.between(50, 120)) * SECOND
    return weld.looked + round(dice.between(1, 2.5) * MINUTE)


def _lay_fitting(weld: Weld, cursor: int, spans: list[Span], dice: Dice) -> int:
    length = round(dice.between(6.5, 8.5) * MINUTE)
    begin = _free(cursor, length, spans)
    weld.tack = begin + 2 * MINUTE
    weld.fill = weld.root = weld.tack + round(dice.between(110, 170)) * SECOND
    weld.looked = weld.fill + round(dice.between(20, 60)) * SECOND
    return begin + length


def _free(begin: int, length: int, spans: list[Span]) -> int:
    for start, end in spans:
        if begin < end and begin + length > start:
            begin = end
    return begin


def in_overtime(welds: Sequence[Weld], day: date, after: int, dice: Dice) -> None:
    """Lay welds after the day's ordinary work, when another bench's welder is free for them."""
    lay_day(welds, day, (), max(at(day, "16:50"), after + HOUR // 6), dice)
