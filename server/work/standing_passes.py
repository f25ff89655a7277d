"""Every pass as it stands once its corrections are read into it, with what its machine's recording added."""

from collections.abc import Collection, Mapping, Sequence

from server.facts.measured import Measured
from server.facts.passage import Correction
from server.facts.recorded import Recorded
from server.facts.supplies import Trace
from server.facts.welding import Pass
from server.occasions.corrections import Corrections
from server.record.reads import Reads

Values = Mapping[str, Measured]


def standing_passes(reads: Reads, known_at: int | None = None) -> list[tuple[Pass, Values]]:
    """Give every pass with its values; a value the pass tells by itself stands before the recording's."""
    return _standing(reads.passes(known_at), reads.mending(known_at))


def standing_passes_of(reads: Reads, frames: Collection[str], joint: str) -> list[tuple[Pass, Values]]:
    """Give the passes of some frames that may be at a joint, as they stand; a correction may have moved one there."""
    mending = reads.mending_of(frames)
    mended = {each.entry.of for each in mending if isinstance(each.entry, Correction)}
    return _standing(reads.passes_of(frames, (joint,), mended), mending)


def _standing(passes: Sequence[Recorded], mending: Sequence[Recorded]) -> list[tuple[Pass, Values]]:
    corrections = Corrections(mending)
    added = {each.entry.of: each.entry.values for each in corrections.applied(mending) if isinstance(each.entry, Trace)}
    standing = (each.entry for each in corrections.applied(passes))
    return [(it, {**added.get(it.id, {}), **it.values}) for it in standing if isinstance(it, Pass)]
