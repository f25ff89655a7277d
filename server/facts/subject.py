"""The written form of a subject: frame, joint, attempt and quarter, or a thing at a moment."""

import re
from datetime import date
from typing import NamedTuple

from server.facts.moment import show_moment

_JOINT = re.compile(r"(?P<frame>[^/@#|]+)/(?P<joint>[^#:@|]+)#(?P<attempt>\d+)(:(?P<quarter>q\d+))?")


class JointSubject(NamedTuple):
    """A joint in one attempt, and a quarter of it where the question is about one."""

    frame: str
    joint: str
    attempt: int = 1
    quarter: str | None = None

    def __str__(self) -> str:
        """Write `frame/joint#attempt` with `:quarter` behind it where there is one."""
        tail = f":{self.quarter}" if self.quarter else ""
        return f"{self.frame}/{self.joint}#{self.attempt}{tail}"


def read_joint_subject(text: str) -> JointSubject | None:
    """Read `frame/joint#attempt:quarter`; none when the subject is not a joint.

    >>> read_joint_subject("A-1/S3#2:q12")
    JointSubject(frame='A-1', joint='S3', attempt=2, quarter='q12')
    """
    found = _JOINT.fullmatch(text)
    if not found:
        return None
    return JointSubject(found["frame"], found["joint"], int(found["attempt"]), found["quarter"])


def moment_subject(thing: str, moment_ms: int) -> str:
    """Write a thing at a moment as `thing@2025-03-18T12:05:00Z`, in whole seconds.

    >>> moment_subject("north", 1742299500250)
    'north@2025-03-18T12:05:00Z'
    """
    return f"{thing}@{show_moment(moment_ms - moment_ms % 1000)[:19]}Z"


def day_subject(thing: str, day: int) -> str:
    """Write a thing on a day of the shop, given as a date ordinal.

    >>> day_subject("meter", 739499)
    'meter@2025-09-05'
    """
    return f"{thing}@{date.fromordinal(day).isoformat()}"
