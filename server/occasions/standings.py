"""Who was qualified for what on which day: from issue and confirmations, by whole calendar months."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date
from typing import NamedTuple

from server.facts.design import Joint
from server.facts.occasion_pass import Standing
from server.facts.people import Confirmation, Qualification
from server.occasions.days import last_day


class Held(NamedTuple):
    """A qualification with its first and last valid day, as date ordinals."""

    qualification: Qualification
    first: int
    last: int


class Standings:
    """All welders' qualifications in time."""

    def __init__(self, qualifications: Iterable[Qualification], confirmations: Iterable[Confirmation]) -> None:
        confirmed: dict[str, list[date]] = defaultdict(list)
        for each in confirmations:
            confirmed[each.qualification].append(each.dated)
        self.held: Mapping[str, list[Held]] = defaultdict(list)
        for qualification in qualifications:
            self.held[qualification.welder].append(_held(qualification, confirmed[qualification.id]))
        self._answers: dict[tuple[str, str, str, int], Standing] = {}

    def on(self, welder: str, joint: Joint, frame_design: str, procedures: tuple[str, ...], day: int) -> Standing:
        """Tell how a welder stood for one joint on one day; a repair is covered like the joint's own procedure."""
        key = (welder, f"{frame_design}/{joint.id}", procedures[-1], day)
        found = self._answers.get(key)
        if found is None:
            found = self._answers[key] = _standing(self.held.get(welder, []), joint, procedures, day)
        return found


def _held(qualification: Qualification, confirmed: list[date]) -> Held:
    """A confirmation after the last valid day renews nothing: a lapsed qualification needs a new test piece."""
    until = last_day(qualification.issued, qualification.months)
    for dated in sorted(confirmed):
        if qualification.issued <= dated <= until:
            until = last_day(dated, qualification.months)
    return Held(qualification, qualification.issued.toordinal(), until.toordinal())


def _standing(held: list[Held], joint: Joint, procedures: tuple[str, ...], day: int) -> Standing:
    covering = [each for each in held if set(procedures) & set(each.qualification.procedures)]
    if not covering:
        return Standing(None, False, f"no qualification for {' or '.join(dict.fromkeys(procedures))}")
    fitting = [each for each in covering if _misfit(each.qualification, joint) is None]
    if not fitting:
        nearest = covering[-1].qualification
        return Standing(nearest.id, False, f"{nearest.id}: {_misfit(nearest, joint)}")
    valid = [each for each in fitting if each.first <= day <= each.last]
    if valid:
        best = max(valid, key=_last)
        return Standing(best.qualification.id, True, "", best.last)
    return _lapsed(fitting, day)


def _lapsed(fitting: list[Held], day: int) -> Standing:
    earlier = [each for each in fitting if each.last < day]
    if earlier:
        nearest = max(earlier, key=_last)
        lapsed = date.fromordinal(nearest.last).isoformat()
        return Standing(nearest.qualification.id, False, f"{nearest.qualification.id} lapsed {lapsed}", nearest.last)
    first = min(fitting, key=_first)
    issued = first.qualification.issued.isoformat()
    return Standing(first.qualification.id, False, f"{first.qualification.id} was issued only {issued}")


def _misfit(qualification: Qualification, joint: Joint) -> str | None:
    if (said := _beyond(joint.thickness_mm, qualification.thickness_mm, "thickness")) is not None:
        return said
    return _beyond(joint.diameter_mm, qualification.diameter_mm, "diameter")


def _beyond(value_mm: float | None, span: tuple[float, float | None] | None, words: str) -> str | None:
    if value_mm is None or span is None:
        return None
    low, high = span
    if value_mm < low or (high is not None and value_mm > high):
        to = f" to {high:g}" if high is not None else " and over"
        return f"{words} {value_mm:g} mm, qualified for {low:g}{to} mm"
    return None


def _last(held: Held) -> int:
    return held.last


def _first(held: Held) -> int:
    return held.first
