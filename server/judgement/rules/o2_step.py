"""Whether the purge oxygen read after a cylinder came on stepped up from before, inside the limit or not."""

from statistics import median

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import CylinderOccasion
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="o2-step",
    asks="Did the purge oxygen jump when the cylinder changed?",
    level="cylinder",
    severity=Severity.DECIDE,
    limit="oxygen_step",
    limit_from="acceptance",
    causes=("C2", "C11"),
    why="A step at the change is the cylinder speaking, even while every single reading is inside its limit.",
    do="Run a purge bead, look inside what can be reached, send the cylinder back.",
    cannot_tell="It sees a step, not its cause: a hose moved at the change steps too.",
    caution=ARGON,
)
def o2_step(me: Rule, on: CylinderOccasion) -> Verdict:
    limit, least = on.accept.get(me.limit), on.accept.get("oxygen_step_readings")
    if limit is None or least is None or on.step_u is None:
        return me.not_asked()
    if min(len(on.before), len(on.after)) < least.value:
        return me.not_asked()
    before, after = median(on.before), median(on.after)
    scatter = max(median(abs(reading - before) for reading in on.before), on.step_u)
    step = after - before
    if step <= limit.value * scatter:
        return me.within(on.subject, *on.entries[:1], value=step)
    return me.outside(
        on.subject,
        f"Purge oxygen went from {before:g} to {after:g} ppm (medians) when {on.cylinder} came onto {on.line}; "
        f"a step of more than {limit.value:g} times the scatter before ({scatter:.1f} ppm) is none of chance.",
        *on.entries,
        value=step,
        unit="ppm",
        high=round(limit.value * scatter, 1),
        source=limit.source,
    )
