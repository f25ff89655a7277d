"""The analysis of a filler lot against the limits of its class; oxygen in filler is a range."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_material import MaterialOccasion
from server.judgement.compositions import held_against
from server.judgement.rule import Rule, rule


@rule(
    id="filler-composition",
    asks="Does the filler lot hold what its class allows?",
    level="material",
    severity=Severity.DECIDE,
    limit_from="register",
    causes=("C8", "C9"),
    why="Filler is classed by what is in it: too much oxygen makes the seam hard, too little makes it soft.",
    do="Send the lot back, or have it analysed again; hold what it went into.",
    cannot_tell="It believes the certificate, and knows only the tables the program brings or the shop typed in.",
)
def filler_composition(me: Rule, on: MaterialOccasion) -> Verdict | tuple[()]:
    return held_against(me, on) if on.filler else ()
