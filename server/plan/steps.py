"""The steps of a frame: each seam is tacked, welded, finished, released; each geometry check is made."""

from server.facts.design import Design, Joint
from server.facts.progress import FrameProgress

STATES = ("tacked", "welded", "finished", "released")
HOURS = {"q12": "12 o'clock", "q3": "3 o'clock", "q6": "6 o'clock", "q9": "9 o'clock"}


def split_step(step: str) -> tuple[str, str]:
    """The joint and the state of a step; a geometry check has no state.

    >>> split_step("A1:tacked"), split_step("G1")
    (('A1', 'tacked'), ('G1', ''))
    """
    joint, _, state = step.partition(":")
    return joint, state


def every_step(design: Design) -> list[str]:
    """All steps of a design."""
    return [f"{joint.id}:{state}" for joint in design.joints for state in STATES] + [g.id for g in design.geometry]


def is_done(step: str, done: FrameProgress) -> bool:
    """Whether a step is behind the frame; a later state of a seam holds the earlier ones."""
    thing, state = split_step(step)
    if not state:
        return done.geometry.get(thing) == "good"
    joint = done.joint(thing)
    reached = {
        "tacked": joint.tacked or joint.welded,
        "welded": joint.welded,
        "finished": joint.finished,
        "released": joint.released,
    }
    return reached[state]


def landing_title(design: Design, joint: Joint) -> str:
    """What lands with a joint, in words: the title of its first part."""
    titles = {member.id: member.title for member in design.members}
    return titles[joint.parts[0]]
