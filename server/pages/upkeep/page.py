"""What the upkeep page shows: one line for each thing the service needs."""

from dataclasses import dataclass

from server.work.upkeep_sheet import UpkeepLine

WORDS = {"fine": ("○", "fine", ""), "look": ("◐", "look", "word-marginal"), "failing": ("■", "mend", "word-outside")}
"""For each state its shape, its word and its style: never a colour alone."""


@dataclass(frozen=True, slots=True)
class UpkeepPage:
    """The lines, looked at now."""

    lines: tuple[UpkeepLine, ...]
    looked_ms: int
    data_folder: str
    in_postgres: bool
    words: dict[str, tuple[str, str, str]]
