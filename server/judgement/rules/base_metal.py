"""Whether the metals a joint is drawn of are ones its procedure may be used on."""

from functools import lru_cache

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="base-metal",
    asks="May this procedure be used on these metals?",
    level="joint",
    severity=Severity.DECIDE,
    limit_from="procedure",
    causes=("C8", "C22"),
    why="A procedure is proved on certain metals; another pair may crack or carry less.",
    do="Take the drawing to the quality lead: another procedure, or another part.",
    cannot_tell="It compares names on drawing and procedure, not the metal in the hand.",
)
def base_metal(me: Rule, on: JointOccasion) -> Verdict:
    if on.procedure is None or not on.metals or not on.passes:
        return me.not_asked()
    allowed = on.procedure.base_metals
    strange = _strange(on.metals, allowed)
    entries = [each.entry for each in on.passes]
    if not strange:
        return me.within(on.subject, *entries)
    said = f"{strange[0]} is no metal {on.procedure.called} covers ({', '.join(allowed)})."
    return me.outside(on.subject, said, *entries, value=strange[0], allowed=allowed, source=on.procedure.called)


# A shop draws a few metals and has a few procedures; which of them go together is found out once.
@lru_cache(1024)
def _strange(drawn: tuple[str, ...], allowed: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(metal for metal in drawn if not any(_same(metal, each) for each in allowed))


def _same(drawn: str, covered: str) -> bool:
    """A procedure may say more than the drawing: `Ti-3Al-2.5V tube, cold worked` covers `Ti-3Al-2.5V`."""
    return covered == drawn or covered.startswith((f"{drawn} ", f"{drawn},"))
