"""What the record says about each cause for one joint: supports, excludes or silent, resting on named entries."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal, NamedTuple

from server.facts.judged import Word
from server.judgement.causes import CAUSES

Says = Literal["supports", "excludes", "silent"]


class Witness(NamedTuple):
    """The answer to one question that bears on a cause, in words, with the entries it rests on."""

    question: str
    word: Word
    words: str
    rests_on: tuple[str, ...] = ()


class CauseWord(NamedTuple):
    """What the record says of one cause; `missing` names each reading whose absence keeps it silent."""

    cause: str
    title: str
    says: Says
    because: tuple[Witness, ...]
    missing: tuple[str, ...]


NEEDED: dict[str, tuple[str, ...]] = {
    "C1": ("torch bead around", "outside-colour"),
    "C2": ("purge bead around", "inside-colour"),
    "C3": ("pre-purge-volumes", "purge-o2", "inside-colour"),
    "C4": ("purge-flow", "inside-colour"),
    "C5": ("meter good on both sides",),
    "C6": ("post-flow", "torch-flow", "outside-colour"),
    "C7": ("sleeve open for a short time", "outside-colour"),
    "C8": ("rod ends read", "rod-class"),
    "C9": ("filler-lot-released", "gas-lot-released"),
    "C10": ("clean-to-arc",),
    "C11": ("leak test on both sides", "dew point on both sides"),
    "C12": ("dew point on both sides",),
    "C13": ("heat-input", "fusions"),
    "C14": ("mean-current", "travel"),
    "C15": ("fit-up-gap",),
    "C16": ("hidden seam",),
    "C17": ("geometry-before-next",),
    "C18": ("strikes looked for",),
    "C19": ("tack-colour",),
    "C20": ("welder-qualified",),
    "C21": ("revision-in-force",),
    "C22": ("this tube tested",),
    "C23": ("cold-set",),
    "C24": ("the frame's life since it left",),
    "C25": ("travel-possible", "photo-own"),
    "C26": ("dew point on both sides", "clean-to-arc"),
}
"""What must be known good before a cause is excluded; one of them missing and the record is silent."""

MISSING: dict[str, str] = {
    "torch bead around": "a good test bead on the torch line, before and after",
    "purge bead around": "a good test bead on the purge line, before and after",
    "inside-colour": "a look at the inside",
    "outside-colour": "a look at the outside, as welded",
    "meter good on both sides": "a good check of the oxygen meter before and after",
    "sleeve open for a short time": "when the sleeve was opened and closed",
    "rod ends read": "the class read on the rod ends",
    "clean-to-arc": "when and how the joint was cleaned",
    "leak test on both sides": "a good leak test of the lines before and after",
    "dew point on both sides": "the dew point of the gas lines before and after",
    "strikes looked for": "a look for arc strikes beside the joint",
    "this tube tested": "a test of this very tube; its certificate speaks of the heat",
    "the frame's life since it left": "what happened to the frame after it left; the weld record does not reach there",
    "photo-own": "a picture of its own for this joint",
    "fit-up-gap": "the fit-up gap",
    "heat-input": "current, voltage and travel of each pass",
    "mean-current": "the mean current",
    "travel": "the travel of each pass",
    "purge-o2": "the purge oxygen before the arc",
    "pre-purge-volumes": "how long and how fast it was purged before the arc",
    "tack-colour": "the colour of the tacks",
    "cold-set": "the alignment check",
    "geometry-before-next": "the geometry check before the next step",
}


def cause_table(witnesses: Iterable[Witness], watched: Mapping[str, Iterable[str]]) -> list[CauseWord]:
    """Give a word on every cause; `watched` names, by cause, the questions whose failure speaks for it."""
    by_question: dict[str, list[Witness]] = {}
    for each in witnesses:
        by_question.setdefault(each.question, []).append(each)
    return [_word(cause, by_question, watched.get(cause, ())) for cause in CAUSES]


def _word(cause: str, told: Mapping[str, Sequence[Witness]], watched: Iterable[str]) -> CauseWord:
    title, needed = CAUSES[cause], NEEDED[cause]
    against = [each for question in (*needed, *watched) for each in told.get(question, ()) if each.word is Word.OUTSIDE]
    if against:
        return CauseWord(cause, title, "supports", tuple(dict.fromkeys(against)), ())
    missing = tuple(MISSING.get(question, question) for question in needed if not _is_good(told.get(question, ())))
    good = [each for question in needed for each in told.get(question, ()) if each.word is Word.WITHIN]
    return CauseWord(cause, title, "silent" if missing else "excludes", tuple(good), missing)


def _is_good(answers: Sequence[Witness]) -> bool:
    """Good where it was asked, at least once, with entries behind it; too close to tell is not good."""
    asked = [each for each in answers if each.word is not Word.NOT_ASKED]
    return bool(asked) and all(each.word is Word.WITHIN and each.rests_on for each in asked)
