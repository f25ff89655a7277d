"""Cautions that go with a verdict where the next step can hurt someone; each names its authority and gives way."""

from server.facts.procedure import DEFERRAL

ARGON = (
    "Argon has no smell and pools in purged tubes, jigs and low corners; below 19.5 % oxygen the air does not keep "
    f"anyone awake (OSHA 29 CFR 1910.146). Ventilate before looking for a leak. {DEFERRAL}"
)
CYLINDER = (
    "Close the valve, let the line down, and keep the cylinder upright and fastened while it is changed "
    f"(OSHA 29 CFR 1910.101(b)). {DEFERRAL}"
)
HOT = f"The metal stays hot long after it has lost its glow; let it cool under gas before it is touched. {DEFERRAL}"
ARC = f"Ultraviolet off bright titanium reaches eyes and skin (OSHA 29 CFR 1910.133(a)(5)). {DEFERRAL}"
FINES = (
    "Titanium fines from cutting out burn fiercely: collect them, no water, Class D agent at hand "
    f"(NFPA 484). {DEFERRAL}"
)
TEST_PIECE = f"A bent coupon may snap: eye protection, and nobody in line with it. {DEFERRAL}"
