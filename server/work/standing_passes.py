"""Every pass as it stands once its corrections are read into it, with what its machine's recording added."""

from collections.abc import Mapping

from server.facts.measured import Measured
from server.facts.supplies import Trace
from server.facts.welding import Pass
from server.occasions.corrections import Corrections
from server.record.reads import Reads

Values = Mapping[str, Measured]


def standing_passes(reads: Reads, known_at: int | None = None) -> list[tuple[Pass, Values]]:
    """Give every pass with its values; a value the pass tells by itself stands before the recording's."""
    mending = reads.mending(known_at)
    corrections = Corrections(mending)
    added = {each.entry.of: each.entry.values for each in corrections.applied(mending) if isinstance(each.entry, Trace)}
    standing = (each.entry for each in corrections.applied(reads.passes(known_at)))
    return [(it, {**added.get(it.id, {}), **it.values}) for it in standing if isinstance(it, Pass)]
