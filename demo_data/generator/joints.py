"""What the three designs ask of a welder: seams, procedures, stages, covers; the designs' files say the same."""

from dataclasses import dataclass
from functools import cache

QUARTERS = ("q12", "q3", "q6", "q9")
_FITTINGS = {f"F{i:02d}": mm for i, mm in zip(range(1, 15), [22] * 6 + [14] * 4 + [20] * 4, strict=True)}
_BIKE_SEAMS = {
    "J01": (100, "T2", "F"), "J02": (110, "T2", "P"), "J03": (126, "T2", "P"), "J04": (124, "T2", "P"),
    "J05": (106, "T2", "P"), "J06": (104, "T1", "P"), "J07": (62, "T2", "P"), "J08": (62, "T2", "P"),
    "J09": (78, "T2", "P"), "J10": (78, "T2", "P"), "J11": (40, "T1", "N"), "J12": (40, "T1", "N"),
    "J13": (48, "T2", "N"), "J14": (48, "T2", "N"), "J15": (52, "T1", "F"), "J16": (52, "T1", "F"),
    "J17": (38, "T1", "N"), "J18": (38, "T1", "N"), "J19": (54, "T1", "N"), "J20": (44, "T2", "N"),
}  # fmt: skip
_CHAIR_SEAMS = {
    **dict.fromkeys(("K01", "K02"), (84, "T1", "P")), **dict.fromkeys(("K11", "K12"), (73, "T1", "P")),
    **dict.fromkeys(("K03", "K04"), (106, "T1", "P")), **dict.fromkeys(("K05", "K06"), (105, "T2", "F")),
    **dict.fromkeys(("K13", "K14", "K15", "K16"), (60, "T1", "N")),
    **dict.fromkeys(("K07", "K08"), (63, "T1", "P")), **dict.fromkeys(("K09", "K10"), (58, "T2", "N")),
}  # fmt: skip
_BIKE = (
    ("J01", "J02"),
    ("J04", "J06", "J03", "J05"),
    ("J07", "J08", "J09", "J10"),
    ("J13", "J14", "J15", "J16", "J11", "J12", "J17", "J18"),
    tuple(_FITTINGS),
)
STAGES: dict[str, tuple[tuple[str, ...], ...]] = {
    "LST": _BIKE,
    "WHB": (*_BIKE[:2], ("J19", "J20", *_BIKE[2]), *_BIKE[3:]),
    "PLV": (
        ("K01", "K02", "K11", "K12"),
        ("K03", "K04"),
        ("K13", "K14", "K15", "K16", "K05", "K06"),
        ("K07", "K08", "K09", "K10"),
        tuple(f"H{i:02d}" for i in range(1, 7)),
    ),
}
COVERED = {"LST": ("J01", "J02"), "WHB": ("J01", "J02", "J03"), "PLV": ("K03", "K04")}
"""Seams that another tube hides, so that they are released first."""
BRIDGES = ("J11", "J12", "J17", "J18")
MEMBERS = {
    "LST": ("SH", "ST", "CO", "DT", "TT", "HT", "CS-L", "CS-R", "SS-L", "SS-R", "CSb", "SSb", "DO-L", "DO-R"),
    "WHB": ("SH", "ST", "CO", "DT", "TT", "HT", "CS-L", "CS-R", "SS-L", "SS-R", "CSb", "SSb", "DO-L", "DO-R", "GP"),
    "PLV": ("MF-L", "MF-R", "CX1", "CX2", "AX", "BR-L", "BR-R", "FT", "CH-L", "CH-R", "SB-L", "SB-R"),
}
MACHINED = ("SH", "CO", "HT", "DO-L", "DO-R", "CH-L", "CH-R", "SB-L", "SB-R")
VOLUMES_L: dict[str, tuple[tuple[float, ...], ...]] = {
    "LST": ((0.44, 0.46, 0.49), (1.51, 1.59, 1.69), (0.69, 0.72, 0.75), (0.83, 0.86, 0.90), (1.90, 1.99, 2.09)),
    "WHB": ((0.39, 0.42, 0.45), (1.51, 1.59, 1.66), (0.66, 0.68, 0.71), (0.78, 0.82, 0.85), (1.90, 1.99, 2.07)),
    "PLV": ((1.28, 1.31, 1.34), (1.72, 1.79, 1.86), (1.93, 2.00, 2.07), (2.04, 2.12, 2.20), (2.04, 2.12, 2.20)),
}


@dataclass(frozen=True)
class Seam:
    """One joint of a design: its seam length, its procedure and how far its inside is seen."""

    joint: str
    seam_mm: int
    procedure: str
    inside: str

    @property
    def structural(self) -> bool:
        """Fittings bear no frame load and have no quarters."""
        return self.joint[0] in "JK"

    @property
    def number(self) -> int:
        """The number in its name, by which one joint in four is asked for its temperature."""
        return int(self.joint[1:])


@cache
def seam(joint: str) -> Seam:
    """Give a joint by its name; the designs share no names that differ."""
    if joint[0] == "F":
        return Seam(joint, _FITTINGS.get(joint, 20), "T3", "N")
    if joint[0] == "H":
        return Seam(joint, 18, "T3", "N")
    mm, procedure, inside = (_BIKE_SEAMS | _CHAIR_SEAMS)[joint]
    return Seam(joint, mm, procedure, inside)


def setup_of(design: str, stage: int) -> str:
    """Give the purge set-up of a design's stage."""
    last = "S3" if design == "PLV" else "SF"
    return f"{design}-{last if stage == 4 else f'S{stage}'}"
