"""Colour grades of looks held against the colour limits of the procedure in force, zone by zone."""

from collections.abc import Iterable, Sequence

from server.facts.judged import Verdict
from server.facts.limit import Limit
from server.facts.occasion_joint import JointOccasion, LookFact
from server.judgement.rule import Rule

GRADES = (
    "silver",
    "light straw",
    "dark straw",
    "brown",
    "violet",
    "blue",
    "green or pink",
    "grey",
    "white and flaky",
)


def limit_for(on: JointOccasion, side: str, zone: str) -> Limit | None:
    """Give the limit of a zone; where none is set for it, the bead's holds, except for the edge band."""
    for each in on.colours:
        if each.side == side and each.zone == zone and _here(each, on):
            return each
    return None if zone in ("bead", "edge") else limit_for(on, side, "bead")


def worst_beyond(me: Rule, on: JointOccasion, looks: Iterable[LookFact]) -> Verdict | None:
    """Give the verdict on the darkest look beyond its limit; none when all stay inside."""
    beyond = [(look, limit) for look in looks if (limit := _exceeded(on, look)) is not None]
    if not beyond:
        return None
    look, limit = max(beyond, key=_darkness)
    grade = look.grade or 0
    return me.outside(
        on.subject,
        f"{_place(look)}: {GRADES[grade]} (grade {grade}); at most {limit.high:g} is allowed. Do not brush it off.",
        look.entry,
        value=float(grade),
        unit=limit.unit,
        high=limit.high,
        source=limit.source,
    )


def graded(me: Rule, on: JointOccasion, looks: Sequence[LookFact]) -> Verdict:
    """Give the verdict `within` on the looks that stand."""
    darkest = max(look.grade or 0 for look in looks)
    return me.within(on.subject, *(look.entry for look in looks), value=float(darkest))


def standing_looks(on: JointOccasion, side: str) -> list[LookFact]:
    """Give the graded looks at one side as welded; what was looked at after finishing shows nothing any more."""
    return [look for look in on.looks if look.side == side and look.grade is not None and look.as_welded]


def no_access(on: JointOccasion) -> LookFact | None:
    """Give the look that says the inside could not be reached, with its reason."""
    return next((look for look in on.looks if look.side == "inside" and look.answer == "no access"), None)


def missed(me: Rule, on: JointOccasion, limit: Limit, side: str) -> Verdict:
    """Say that a look the plan asked for was not made in time."""
    said = f"The {side} was to be looked at ({limit.plan.when}) and was not, before the seam left the bench."
    return me.unknown(on.subject, said, *_passes(on), unit=limit.unit, high=limit.high, source=limit.source)


def _exceeded(on: JointOccasion, look: LookFact) -> Limit | None:
    limit = limit_for(on, look.side, _zone(on, look))
    if limit is None or limit.high is None or look.grade is None:
        return None
    return limit if look.grade > limit.high else None


def _zone(on: JointOccasion, look: LookFact) -> str:
    """An edge band wider than the shop tolerates is no edge band any more."""
    band = on.accept.get("edge_band")
    if look.zone == "edge" and band is not None and look.extent_mm is not None and look.extent_mm > band.value:
        return "tint"
    return look.zone


def _here(limit: Limit, on: JointOccasion) -> bool:
    return not limit.plan.where or on.joint.inside in limit.plan.where


def _darkness(pair: tuple[LookFact, Limit]) -> tuple[float, int]:
    look, limit = pair
    return (look.grade or 0) - (limit.high or 0), look.grade or 0


def _place(look: LookFact) -> str:
    zone = {"bead": "bead", "edge": "edge band", "tint": "wider tint"}[look.zone]
    extent = f", {look.extent_mm:g} mm wide" if look.extent_mm is not None and look.zone != "bead" else ""
    where = " ".join(look.quarters) if len(look.quarters) < 4 else "all round"
    return f"{look.side.capitalize()}, {zone}{extent}, {where}"


def _passes(on: JointOccasion) -> tuple[str, ...]:
    return tuple(each.entry for each in on.passes)
