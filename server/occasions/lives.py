"""Attempts made on the same metal: a new piece starts with no heat in it and no repair behind it."""

from server.occasions.frame_log import Attempt, FrameLog


def same_metal(log: FrameLog, attempt: Attempt) -> list[Attempt]:
    """Give the attempts on the metal this one was made on, this one included."""
    lives: list[list[Attempt]] = [[]]
    for each in log.joints[attempt.joint]:
        if lives[-1] and any(removal.entry.piece_replaced for removal in lives[-1][-1].of("removed")):
            lives.append([])
        lives[-1].append(each)
    return next(life for life in lives if attempt in life)

