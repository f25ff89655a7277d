"""Since when each joint is in the field, by design and joint; carried on by the frames of which something changed."""

from array import array
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from server.facts.frame_papers import shipments_of
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.thing_changes import Seen, changed_frames

_NAME = "lives in the field"
Group = tuple[str, str]
"""A design and a joint of it."""


class Span(NamedTuple):
    """Joints that left the house together [ms, UTC], when they were made anew, and when their frame came back before
    that or to stay; none while it did not."""

    left_ms: int
    remade_ms: int | None
    back_ms: int | None
    joints: tuple[str, ...]

    @property
    def ends_ms(self) -> int | None:
        """When they were in use no longer; none while they are."""
        return self.remade_ms if self.back_ms is None else self.back_ms


class OfFrame(NamedTuple):
    """One frame: its design, and what of it is or was in the field."""

    design: str
    spans: tuple[Span, ...]


class FieldLives(NamedTuple):
    """Every joint in the field, by group: when those left that are out now, and from when to when the others were."""

    seen: Seen
    frames: Mapping[str, OfFrame]
    out: Mapping[Group, "array[int]"]
    ended: Mapping[Group, Sequence[tuple[int, int]]]


def field_lives(tables: Tables) -> FieldLives:
    """Give the lives of this state, carried on from the last ones that were asked for."""
    return tables.made_of.kept(_NAME, (tables.uses,), lambda known: _carried_on(known, tables))


def _carried_on(known: FieldLives | None, tables: Tables) -> FieldLives:
    seen = Seen.of(tables)
    changed = changed_frames(known.seen, seen) if known else tables.uses.by_frame
    frames = dict(known.frames) if known else {}
    gone: list[OfFrame] = []
    more: list[OfFrame] = []
    for frame in changed:
        before, now = frames.pop(frame, None), _of_frame(tables, frame, home=frame in seen.back)
        if now.spans:
            frames[frame] = now
        if before != now:
            gone += [before] if before else []
            more.append(now)
    out, ended = (dict(known.out), dict(known.ended)) if known else ({}, {})
    _take(out, ended, gone, more)
    return FieldLives(seen, frames, out, ended)


def _of_frame(tables: Tables, frame: str, *, home: bool) -> OfFrame:
    """Each attempt's life begins with the first shipment after its last pass; the next attempt's first pass ends it,
    or before that the frame's way back to the house."""
    sent = sorted(each.at for each in shipments_of(tables.registers, frame))
    together: dict[tuple[int, int | None], list[str]] = defaultdict(list)
    for joint, attempts in _attempts(tables.uses.by_frame.get(frame, ()) if sent else ()).items():
        ends: list[int | None] = [attempt[0].at.at_ms for attempt in attempts[1:]]
        for attempt, end_ms in zip(attempts, [*ends, None], strict=True):
            left_ms = next((at_ms for at_ms in sent if at_ms > attempt[-1].at.at_ms), None)
            if left_ms is not None and (end_ms is None or left_ms < end_ms):
                together[left_ms, end_ms].append(joint)
    packet, came_ms = tables.packet_of.get(frame), tables.returned.get(frame)
    spans = tuple(
        Span(left_ms, end_ms, _back(came_ms, left_ms, end_ms, home=home), tuple(joints))
        for (left_ms, end_ms), joints in together.items()
    )
    return OfFrame(packet.design if packet else "", spans)


def _back(came_ms: int | None, left_ms: int, remade_ms: int | None, *, home: bool) -> int | None:
    """When the frame's last way back took a joint out of use: before it was made anew, or while the frame stays."""
    if came_ms is None or came_ms < left_ms:
        return None
    return came_ms if (home if remade_ms is None else came_ms < remade_ms) else None


def _attempts(uses: Sequence[Use]) -> dict[str, list[list[Use]]]:
    found: dict[str, dict[int, list[Use]]] = defaultdict(dict)
    for use in uses:
        found[use.joint].setdefault(use.attempt, []).append(use)
    return {joint: [attempts[number] for number in sorted(attempts)] for joint, attempts in found.items()}


def _take(
    out: dict[Group, "array[int]"],
    ended: dict[Group, Sequence[tuple[int, int]]],
    gone: Sequence[OfFrame],
    more: Sequence[OfFrame],
) -> None:
    """Take out what stood and put in what stands; a group in which nothing changes keeps what it has."""
    own: set[Group] = set()
    for sign, frames in ((-1, gone), (1, more)):
        for group, span in ((group, span) for each in frames for group, span in _by_group(each)):
            if group not in own:
                own.add(group)
                out[group], ended[group] = array("q", out.get(group, ())), list(ended.get(group, ()))
            if span.ends_ms is None:
                (out[group].append if sign > 0 else out[group].remove)(span.left_ms)
            else:
                spans = list(ended[group])
                (spans.append if sign > 0 else spans.remove)((span.left_ms, span.ends_ms))
                ended[group] = spans


def _by_group(frame: OfFrame) -> Iterator[tuple[Group, Span]]:
    return (((frame.design, joint), span) for span in frame.spans for joint in span.joints)
