"""Puts the hardness read at a joint, beside other joints of its frame, to a cause the record supports already."""

from collections.abc import Iterable, Sequence

from server.facts.checking import Reading
from server.facts.judged import Word
from server.facts.recorded import Recorded
from server.judgement.cause_table import CauseWord, Witness
from server.occasions.corrections import Corrections

# What is read says what the metal is, never where it came from: alone it speaks for none of these.
_GAS_AT_THE_ROOT = frozenset({"C2", "C3", "C4"})


def with_hardness(words: Iterable[CauseWord], joint: str, entries: Sequence[Recorded]) -> tuple[CauseWord, ...]:
    """Add it where gas at the root is supported and the joint was read harder than every other one of its frame."""
    told = _harder(joint, entries)
    return tuple(
        each._replace(because=(*each.because, told))
        if told and each.says == "supports" and each.cause in _GAS_AT_THE_ROOT
        else each
        for each in words
    )


def _harder(joint: str, entries: Sequence[Recorded]) -> Witness | None:
    standing = (each.entry for each in Corrections(entries).applied(entries))
    read = [each for each in standing if isinstance(each, Reading) and each.joint and "hardness" in each.values]
    here = max((each for each in read if each.joint == joint), key=lambda each: each.happened, default=None)
    beside = [each for each in read if each.joint != joint]
    if here is None or not beside or _hardness(here) <= max(map(_hardness, beside)):
        return None
    others = ", ".join(f"{_hardness(each):g} HV at {each.joint}" for each in beside)
    noted = f" ({here.note})" if here.note else ""
    words = f"hardness {_hardness(here):g} HV here, {others}{noted}"
    return Witness("hardness beside", Word.OUTSIDE, words, (here.id, *(each.id for each in beside)))


def _hardness(reading: Reading) -> float:
    return reading.values["hardness"].value
