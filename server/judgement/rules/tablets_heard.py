"""Whether every tablet that had a frame open had told so before the frame was released."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_frame import FrameOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="tablets-heard",
    asks="Had every tablet that had this frame open reported before the release?",
    level="frame",
    severity=Severity.DECIDE,
    limit="tablets_heard",
    limit_from="acceptance",
    causes=("C16", "C25"),
    why="What lies on a silent tablet is part of the frame's story and nobody has read it.",
    do="Find the tablet, let it send, then look again at what was released.",
    cannot_tell="It knows tablets that opened the frame; work done without a tablet is not waited for.",
)
def tablets_heard(me: Rule, on: FrameOccasion) -> Verdict:
    subject = f"{on.subject}@release"
    if on.release is None:
        return me.not_asked(subject)
    limit = on.release.accept.get(me.limit)
    if limit is None or limit.value < 1:
        return me.not_asked(subject)
    if not on.release.unheard:
        return me.within(subject, on.release.permission)
    said = f"Released while {', '.join(on.release.unheard)} still had the frame open and had not reported."
    return me.outside(subject, said, *on.release.unheard_entries, value=on.release.unheard[0], source=limit.source)
