"""Whether every piece of a frame has a heat with a released certificate, of the metal its drawing names."""

from collections.abc import Sequence

from server.facts.judged import Severity, Verdict
from server.facts.occasion_frame import FrameOccasion, PieceFact
from server.judgement.rule import Rule, rule


@rule(
    id="piece-heat",
    asks="Is it known what every piece is made of?",
    level="frame",
    severity=Severity.DECIDE,
    limit_from="register",
    causes=("C22",),
    why="A tube without its heat is a tube of unknown strength, and cannot be found when a heat turns out bad.",
    do="Find the tag, or analyse the piece, or take another.",
    cannot_tell="A certificate speaks for the heat; damage and bends on this piece do not show.",
)
def piece_heat(me: Rule, on: FrameOccasion) -> Verdict | Sequence[Verdict]:
    return [_piece(me, on, each) for each in on.pieces] or me.not_asked()


def _piece(me: Rule, on: FrameOccasion, piece: PieceFact) -> Verdict:
    subject = f"{on.subject}/{piece.member}#{piece.attempt}"
    if piece.heat is None:
        return me.unknown(subject, f"Piece {piece.piece} ({piece.member}) has no heat: its tag was lost.", piece.piece)
    if piece.released is None:
        return me.unknown(subject, f"Piece {piece.piece} is of heat {piece.heat}, which is not on file.", piece.piece)
    if not piece.released:
        said = f"Heat {piece.heat} of piece {piece.piece} has no released certificate."
        return me.outside(subject, said, piece.piece, value=piece.heat)
    if piece.metal_drawn is not None and piece.metal_found != piece.metal_drawn:
        said = f"Piece {piece.piece} is {piece.metal_found}; the drawing asks for {piece.metal_drawn}."
        drawn = (piece.metal_drawn,)
        return me.outside(subject, said, piece.piece, value=piece.metal_found, allowed=drawn, severity=Severity.STOP)
    return me.within(subject, piece.piece, value=piece.heat)
