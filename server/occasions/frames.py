"""One frame: its passes, tacks and joints as occasions, and the frame itself."""

from collections.abc import Sequence

from server.facts.occasion import Occasion
from server.facts.occasion_frame import FrameOccasion, GeometryFact, PieceFact
from server.facts.orders import Packet
from server.facts.recorded import Recorded
from server.occasions.covers import covered_but_never_begun
from server.occasions.drawings import Drawing
from server.occasions.frame_log import Attempt, FrameLog
from server.occasions.joints import joint_occasion
from server.occasions.passes import Passes
from server.occasions.purging import first_after_purge
from server.occasions.releases import release_signed
from server.occasions.tables import Tables
from server.occasions.timed import Timed

_MS_PER_MIN = 60_000.0


def frame_occasions(tables: Tables, packet: Packet, entries: Sequence[Recorded]) -> list[Occasion]:
    """Give every occasion of one frame, in the order of its joints and attempts."""
    log = FrameLog(packet.frame, tables.read(entries))
    drawing = tables.drawings.get(packet.design)
    if drawing is None:
        return [_frame(tables, None, packet, log)]
    for seam in covered_but_never_begun(log, drawing):
        log.joints[seam].append(Attempt(seam, 1))
    made = _passes(tables, drawing, packet, log)
    known = [attempt for each in log.joints.values() for attempt in each if attempt.joint in drawing.joints]
    known.sort(key=_place)
    passes_of = {(a.joint, a.number): made.of(a, drawing.joints[a.joint]) for a in known}
    occasions: list[Occasion] = []
    for attempt in known:
        tacks = made.tacks(attempt, drawing.joints[attempt.joint])
        occasions += passes_of[attempt.joint, attempt.number]
        occasions += tacks
        occasions.append(joint_occasion(tables, drawing, log, attempt, made, passes_of, tacks))
    occasions.append(_frame(tables, drawing, packet, log))
    return occasions


def _passes(tables: Tables, drawing: Drawing, packet: Packet, log: FrameLog) -> Passes:
    volumes = {setup.id: setup.volume_l.get(packet.size, 0.0) for setup in drawing.setups.values()}
    arcs = log.of("pass")
    accept = tables.at(tables.days.day_of(arcs[0].at.at_ms)) if arcs else {}
    flushed = first_after_purge(log, tables.gas.stops, volumes, tables.doubts, accept)
    return Passes(tables, drawing, log, flushed)


def _frame(tables: Tables, drawing: Drawing | None, packet: Packet, log: FrameLog) -> FrameOccasion:
    every = log.every()
    day = tables.days.day_of(max([each.at.at_ms for each in every], default=packet.issued))
    accept = tables.at(day)
    return FrameOccasion(
        subject=packet.frame,
        frame=packet.frame,
        day=day,
        accept=accept,
        geometry=tuple(_geometry(tables, drawing, each) for each in log.of("geometry")),
        pieces=_pieces(tables, drawing, packet.frame),
        release=release_signed(tables, packet.frame, log),
        late_entries=_late(every),
        strange=tuple(sorted(_strange(drawing, log))),
        unconfirmed=tuple([each.entry.id for each in every if vars(each.entry)["unconfirmed"]]),
    )


def _geometry(tables: Tables, drawing: Drawing | None, timed: Timed) -> GeometryFact:
    entry = timed.entry
    wanted = drawing.geometry.get(entry.check) if drawing else None
    measured = entry.values.get("deviation")
    accept = tables.at(tables.days.day_of(timed.at.at_ms))
    return GeometryFact(
        entry=entry.id,
        check=entry.check,
        at=timed.at,
        result=entry.result,
        cold_set=entry.cold_set,
        deviation=tables.doubts.figure("deviation", measured, entry.id, accept) if measured else None,
        limit_mm=wanted.limit_mm if wanted else None,
        source=wanted.source if wanted else "",
    )


def _pieces(tables: Tables, drawing: Drawing | None, frame: str) -> tuple[PieceFact, ...]:
    heats = tables.registers.heats
    return tuple(
        PieceFact(
            piece=piece.id,
            member=piece.member,
            heat=piece.heat,
            released=heat.released is not None if (heat := heats.get(piece.heat or "")) else None,
            metal_drawn=drawing.member_metals.get(piece.member) if drawing else None,
            metal_found=heat.metal if heat else None,
            attempt=piece.attempt,
        )
        for piece in tables.pieces_of.get(frame, ())
    )


def _late(every: Sequence[Timed]) -> tuple[tuple[str, float], ...]:
    return tuple(
        (entry.id, (tapped_ms - at.at_ms) / _MS_PER_MIN)
        for at, _, tapped_ms, _, entry in every
        if tapped_ms > at[0] and at.boot is not None
    )


def _strange(drawing: Drawing | None, log: FrameLog) -> set[str]:
    return {joint for joint in log.joints if drawing is None or joint not in drawing.joints}


def _place(attempt: Attempt) -> tuple[str, int]:
    return attempt.joint, attempt.number
