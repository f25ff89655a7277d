"""The analysis of a heat of tube, bar or sheet against the limits of its metal."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_material import MaterialOccasion
from server.judgement.compositions import held_against
from server.judgement.rule import Rule, rule


@rule(
    id="heat-composition",
    asks="Does the heat hold what its metal allows?",
    level="material",
    severity=Severity.DECIDE,
    limit_from="register",
    causes=("C22",),
    why="A heat beyond its limits is another metal, whatever its tag says.",
    do="Send it back, or have it analysed again; hold the pieces cut from it.",
    cannot_tell="It believes the certificate, and knows only the tables the program brings or the shop typed in.",
)
def heat_composition(me: Rule, on: MaterialOccasion) -> Verdict | tuple[()]:
    return held_against(me, on) if not on.filler else ()
