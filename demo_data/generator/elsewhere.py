"""Another shop of the same kind: other seed, codes, people and days, and the incidents in other weeks and frames."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from demo_data.generator.renaming import Renaming

WEEKS_LATER = 52
"""A whole number of weeks, after which summer time begins and ends on the same days of the story."""
MOVES = {
    "I-01": 2, "I-03": -2, "I-05a": 2, "I-05b": -2, "I-06": 2, "I-07": 2, "I-08": -2, "I-10": 2, "I-11": 2, "I-13": 2,
    "I-14": 2,
}  # fmt: skip
"""By how many production weeks an incident lies later; an even number, so that it meets the same designs."""
_PEOPLE = {
    "W01": "S14", "W02": "S11", "W03": "S12", "W04": "S17", "Q01": "L03", "O01": "E02", "M01": "R05", "A01": "R09",
}  # fmt: skip
_THINGS = {
    "TAB-A": "SLATE-4", "TAB-B": "SLATE-2", "TAB-C": "SLATE-7", "TAB-Q": "SLATE-9", "PS-1": "MX-22", "PS-2": "MX-21",
    "PA-1": "OX-32", "PA-2": "OX-31", "PA-3": "OX-38", "B1": "N2", "B2": "N1",
}  # fmt: skip
_NAMES = {
    "Merrowby": "Tarnquay", "Ketterholm": "Vesterling", "Tubeworks": "Framehouse", "Pell Adair": "Ruan Felder",
    "Junna Koss": "Ilka Brandt", "Marek Thole": "Osk Lindal", "Sib Farrow": "Mio Tarn", "Tomas Wyre": "Greta Holm",
    "Oda Brenke": "Anders Quaile", "Lune Ashby": "Vik Moreau", "Ivo Marsh": "Una Selby", "Ansa Reid": "Per Dahlen",
}  # fmt: skip


@dataclass(frozen=True)
class Version:
    """One telling of the story: its seed, its names and days, and where the incidents lie."""

    seed: int = 1
    renaming: Renaming = field(default_factory=Renaming)
    moves: Mapping[str, int] = field(default_factory=dict)


def _numbered(prefix: str, by: int, digits: int = 4) -> Callable[[re.Match[str]], str]:
    return lambda found: f"{prefix}-{int(found[1]) + by:0{digits}d}"


def _listed(names: Mapping[str, str]) -> tuple[str, Callable[[re.Match[str]], str]]:
    pattern = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return rf"\b({pattern})\b", lambda found: names[found[1]]


_CODES = (
    (r"\bMT-(\d{4})\b", _numbered("KR", 2300)),
    (r"\bMB-(\d{4})\b", _numbered("KB", 41)),
    (r"\bAR-(\d{4})\b", _numbered("CY", 3100)),
    (r"\bFT-(\d{4})\b", _numbered("RS", 5005)),
    (r"\bFL-(\d\d-\d{4})\b", lambda found: f"GL-{found[1]}"),
    (r"\bWQ-(\d\d)\b", _numbered("CERT", 30, 3)),
    (r"\bH(32|64)-(\d+)\b", lambda found: f"T{found[1]}-{int(found[2]) + 500}"),
    (r"\bF([92])-([A-D])(\d\d)\b", lambda found: f"R{found[1]}-{found[2]}{int(found[3]) + 40}"),
    (r"\bC-(\d\d)\b", _numbered("K", 60, 3)),
    (r"\bNCR-(\d\d-\d{3})\b", lambda found: f"NC-{found[1]}"),
    (r"\bCN-(\d\d-\d\d)\b", lambda found: f"LEAVE-{found[1]}"),
    (r"\bW-(\d\d-\d{3})\b", lambda found: f"CLAIM-{found[1]}"),
    _listed(_THINGS),
    _listed(_PEOPLE),
    _listed(_NAMES),
)
VERSIONS = {"first": Version(), "moved": Version(2, Renaming(WEEKS_LATER, _CODES), MOVES)}
