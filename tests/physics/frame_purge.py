"""An invented frame of nine members to purge, with holes of one size."""

from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember, PurgeNetwork
from server.physics.tube_volume import straight_tube_l

TUBES = {
    "shell": (41.0, 1.8, 68.0),
    "seat tube": (31.8, 0.9, 480.0),
    "down tube": (38.1, 0.9, 600.0),
    "top tube": (31.8, 0.9, 520.0),
    "head tube": (38.1, 1.6, 150.0),
    "left chainstay": (22.2, 0.9, 395.0),
    "right chainstay": (22.2, 0.9, 395.0),
    "left seatstay": (15.9, 0.9, 440.0),
    "right seatstay": (15.9, 0.9, 440.0),
}
INNER = [
    ("shell", "seat tube"),
    ("shell", "down tube"),
    ("shell", "left chainstay"),
    ("shell", "right chainstay"),
    ("down tube", "head tube"),
    ("head tube", "top tube"),
    ("top tube", "seat tube"),
    ("seat tube", "left seatstay"),
    ("seat tube", "right seatstay"),
]
STAYS = [name for name in TUBES if "stay" in name]


def frame(closed=(), leak_ml_per_min=0.0, flow=10.0, oxygen_ppm=2.0, without=(), hole_mm=5.0) -> PurgeNetwork:
    """The frame with gas in at the shell and vents at its ends, some closed, and some inner holes forgotten."""
    members = tuple(
        PurgeMember(name, straight_tube_l(*tube), tube[2], leak_ml_per_min if name == "head tube" else 0.0)
        for name, tube in TUBES.items()
    )
    inner = tuple(PurgeHole(*pair, hole_mm) for pair in INNER if pair not in without)
    vents = tuple(PurgeHole(name, None, hole_mm) for name in ["head tube", "seat tube", *STAYS] if name not in closed)
    return PurgeNetwork(members, inner + vents, (GasInlet("shell", flow, oxygen_ppm),))
