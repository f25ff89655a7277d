"""Gathers what bears on the causes for one joint: its verdicts pass by pass, and the checks around it."""

from collections.abc import Iterable, Iterator, Sequence

from server.facts.acceptance_kinds import ACCEPTANCE_KINDS
from server.facts.figure import Figure
from server.facts.judged import Verdict, Word
from server.facts.limit_kinds import LIMIT_KINDS
from server.facts.occasion_frame import FrameOccasion
from server.facts.occasion_joint import HoldFact, JointOccasion
from server.facts.occasion_pass import GasOn, PassOccasion
from server.facts.occasion_sleeve import SleeveOccasion
from server.judgement.book import RULES, THEN
from server.judgement.cause_table import Witness
from server.judgement.judge import judge
from server.occasions.tables import Tables
from server.occasions.tested import Tested

_ASKS = {rule.id: rule.asks for rule in RULES}
_OF_PASS = frozenset(rule.id for rule in RULES if rule.level == "pass")
_KEPT_IN = {
    "procedure": {name: kind.unit for name, kind in LIMIT_KINDS.items()},
    "acceptance": {name: kind.unit for name, kind in ACCEPTANCE_KINDS.items()},
}
_UNITS = {rule.id: _KEPT_IN.get(rule.limit_from, {}).get(rule.limit, "") for rule in RULES}
_HOLDS = {"coupon": "coupon failed", "calibration": "meter failed", "cross-check": "meter failed"}


def witnesses(
    tables: Tables, joint: JointOccasion, frame: FrameOccasion | None, sleeves: Iterable[SleeveOccasion]
) -> Iterator[Witness]:
    """Give every answer that bears on a cause, each with its entries."""
    occasions = (joint, *joint.passes, *joint.tacks, *((frame,) if frame else ()))
    for occasion in occasions:
        yield from (_of_verdict(each, joint) for each in judge(occasion, THEN))
    yield from (_hold(tables, each, joint.passes) for each in joint.holds if each.cleared_by is None)
    yield from _of_gas(tables, joint.passes)
    yield from _of_rods(joint.passes, list(sleeves))
    yield from _of_instruments(tables, joint.passes)
    if not joint.hidden_later and not joint.covers and joint.passes:
        words = "no tube of the drawing lands on this seam"
        yield Witness("hidden seam", Word.WITHIN, words, tuple(each.entry for each in joint.passes))


def _of_verdict(verdict: Verdict, joint: JointOccasion) -> Witness:
    asks = _ASKS.get(verdict.question, verdict.question)
    of_pass = verdict.question in _OF_PASS
    run = next((each.run for each in joint.passes if of_pass and each.entry in verdict.rests_on[:1]), None)
    parts = (asks, f"{run}:" if run else "", _value(verdict), verdict.word.value)
    words = verdict.message or " ".join(part for part in parts if part)
    question = "hidden seam" if verdict.question == "finished-before-covered" else verdict.question
    return Witness(question, Word.UNKNOWN if _only_not_told(verdict, joint) else verdict.word, words, verdict.rests_on)


def _value(verdict: Verdict) -> str:
    """The value with its unit and the ends it was held against, where it has any."""
    if not isinstance(verdict.value, float):
        named = verdict.value or ""
        return f"revision {named}" if named and verdict.question == "revision-in-force" else named
    unit = verdict.unit or _UNITS.get(verdict.question, "")
    number = f"grade {verdict.value:g}" if unit == "grade" else f"{verdict.value:.3g} {unit}".rstrip()
    ends = (("at least", verdict.low), ("at most", verdict.high))
    asked = " and ".join(f"{word} {end:g} {unit}".rstrip() for word, end in ends if end is not None)
    return f"{number} ({asked})" if asked else number


def _only_not_told(verdict: Verdict, joint: JointOccasion) -> bool:
    """A step whose forerunner stands nowhere was perhaps done and not told: that gates, but speaks for no cause."""
    if verdict.question not in ("geometry-before-next", "order-of-work") or verdict.word is not Word.OUTSIDE:
        return False
    return not any(each.before is False and each.first_entry for each in joint.needs)


def _hold(tables: Tables, hold: HoldFact, passes: Sequence[PassOccasion]) -> Witness:
    under = [each for each in passes if each.entry in hold.passes]
    line = hold.subject.partition("@")[0]
    gas = next((each for on in under for each in (on.purge, on.torch) if each and each.line == line), None)
    if hold.kind != "bead" or gas is None:
        return Witness(_HOLDS.get(hold.kind, hold.kind), Word.OUTSIDE, hold.because, (hold.check, *hold.passes))
    purge = any(each.purge and each.purge.line == gas.line for each in under)
    runs = " and ".join(dict.fromkeys(each.run for each in under))
    words = f"cylinder {gas.cylinder or 'not recorded'} was on {gas.line} under its {runs}; the next test bead failed"
    if purge:
        words += _oxygen(tables, gas, [each.figures["oxygen"] for each in under if "oxygen" in each.figures])
    rests_on = (hold.check, *hold.passes, *((gas.change_entry,) if gas.change_entry else ()))
    return Witness("purge bead failed" if purge else "torch bead failed", Word.OUTSIDE, words, rests_on)


def _oxygen(tables: Tables, gas: GasOn, read: list[Figure]) -> str:
    """The oxygen read, beside what was usual on this line under every other cylinder."""
    usual = sorted(
        use.oxygen_ppm
        for use in tables.uses.by_line.get(gas.line, ())
        if use.oxygen_ppm is not None and use.purge_line == gas.line
        if (on := tables.gas.at(gas.line, use.at.at_ms)) is not None and on.cylinder != gas.cylinder
    )
    if not read or not usual:
        return ""
    said = ", ".join(f"{each.value:g}" for each in read)
    middle = usual[len(usual) // 2]
    return f"; purge oxygen {said} ppm, where under other cylinders half the readings lay at or below {middle:g} ppm"


def _of_gas(tables: Tables, passes: Sequence[PassOccasion]) -> Iterator[Witness]:
    for each in passes:
        for name, gas in (("purge", each.purge), ("torch", each.torch)):
            if gas:
                beads = tables.gas.beads.get(gas.line, ())
                yield _around(f"{name} bead around", f"the test bead on {gas.line}", each, beads)


def _of_rods(passes: Sequence[PassOccasion], sleeves: list[SleeveOccasion]) -> Iterator[Witness]:
    for each in passes:
        if each.no_filler or each.rod is None:
            continue
        rod = each.rod
        if rod.read_class and rod.read_entry:
            words = f"rod ends of {rod.sleeve}, lot {rod.lot or 'not recorded'}, read as {rod.read_class}"
            yield Witness("rod ends read", Word.WITHIN, words, (rod.read_entry,))
        else:
            yield Witness("rod ends read", Word.UNKNOWN, f"rod ends of {rod.sleeve} not read")
        yield from (_sleeve(opened) for opened in sleeves if opened.sleeve == rod.sleeve and _open_at(opened, each))


def _open_at(opened: SleeveOccasion, each: PassOccasion) -> bool:
    at_ms = each.ended.at_ms
    return opened.opened.at_ms <= at_ms and (opened.closed_ms is None or at_ms <= opened.closed_ms)


def _sleeve(opened: SleeveOccasion) -> Witness:
    answer = next(each for each in judge(opened, THEN) if each.question == "sleeve-open-long")
    longest = opened.accept.get("sleeve_open")
    allowed = f" (at most {longest.value:g} {longest.unit})" if longest else ""
    words = answer.message or f"{opened.sleeve} was open {opened.open_days:.1f} days{allowed}"
    return Witness("sleeve open for a short time", answer.word, words, answer.rests_on or (opened.entry,))


def _of_instruments(tables: Tables, passes: Sequence[PassOccasion]) -> Iterator[Witness]:
    for each in passes:
        oxygen = each.figures.get("oxygen")
        line = each.purge.line if each.purge else None
        meter = (oxygen.by if oxygen else None) or tables.uses.analyser_at(line, each.ended.at_ms)
        if meter:
            checks = _checks(tables, meter, "air", "cross")
            yield _around("meter good on both sides", f"the air or cross-check of {meter}", each, checks)
        for gas in (each.purge, each.torch):
            if gas:
                for name, kind in (("leak test", "leak"), ("dew point", "dew point")):
                    checks = _checks(tables, gas.line, kind)
                    yield _around(f"{name} on both sides", f"the {name} of {gas.line}", each, checks)


def _checks(tables: Tables, thing: str, *kinds: str) -> list[Tested]:
    return [each for each in tables.checks_about(thing) if each.entry.check in kinds]


def _around(question: str, check: str, of: PassOccasion, about: Iterable[Tested]) -> Witness:
    """The last check before and the first after; both good, or it is not known."""
    about = list(about)
    before = [each for each in about if each.at.at_ms <= of.ended.at_ms]
    after = [each for each in about if each.at.at_ms > of.ended.at_ms]
    if not before or not after:
        return Witness(
            question, Word.UNKNOWN, f"{check} stands nowhere {'before' if not before else 'after'} its {of.run}"
        )
    last, first = max(before, key=lambda each: each.at.at_ms), min(after, key=lambda each: each.at.at_ms)
    good = last.result == first.result == "good"
    words = f"{check} was good before and after its {of.run}" if good else f"{check} was not good beside its {of.run}"
    return Witness(question, Word.WITHIN if good else Word.UNKNOWN, words, (last.told_in, first.told_in))
