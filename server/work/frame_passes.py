"""The passes of one frame as they stand, each with the machine traces that were attached to it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from server.facts.recorded import Recorded
from server.facts.supplies import Trace
from server.facts.welding import Pass
from server.occasions.corrections import Corrections
from server.work.refusal import NotThere
from server.work.sent_delivery import is_name


class PassQuestions(Protocol):
    """What is asked of the record."""

    def frame_entries(self, frame: str, known_at: int | None = None) -> list[Recorded]:
        """Give the entries of one frame."""

    def entries_named(self, names: Iterable[str]) -> list[Recorded]:
        """Give the entries of these ids."""


@dataclass(frozen=True, slots=True)
class TracedPass:
    """One pass, corrections read into it, with its traces in the order they became known."""

    entry: Pass
    traces: tuple[Trace, ...]


def frame_passes(reads: PassQuestions, frame: str) -> list[TracedPass]:
    """Give the passes of a frame, the newest first."""
    recorded = reads.frame_entries(frame)
    standing = [each.entry for each in Corrections(recorded).applied(recorded)]
    traces = [each for each in standing if isinstance(each, Trace)]
    passes = [each for each in standing if isinstance(each, Pass)]
    return [
        TracedPass(each, tuple(trace for trace in traces if trace.of == each.id))
        for each in sorted(passes, key=lambda each: each.happened, reverse=True)
    ]


def one_pass(reads: PassQuestions, name: str) -> TracedPass:
    """Give one pass by its id; raises `NotThere` when there is none, or when it was withdrawn."""
    found = reads.entries_named([name]) if is_name(name) else []
    if not any(isinstance(each.entry, Pass) for each in found):
        raise NotThere(f"of: {name!r} is no pass in the record; choose one from the frame's list, or log it first")
    return _standing(frame_passes(reads, _frame_of(found)), name)


def _standing(passes: Sequence[TracedPass], name: str) -> TracedPass:
    for each in passes:
        if each.entry.id == name:
            return each
    raise NotThere(f"of: the pass {name!r} was withdrawn by a later entry; choose the one that stands")


def _frame_of(found: Sequence[Recorded]) -> str:
    return next(each.entry.frame for each in found if isinstance(each.entry, Pass))
