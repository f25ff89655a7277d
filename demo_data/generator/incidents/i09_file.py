"""I-09's claim file: what was reported, when the shop knew, what was found and decided, and who was told."""

from demo_data.generator.devices import iso
from demo_data.generator.plan import Place
from demo_data.generator.signing import signatures
from demo_data.generator.story import Sheet, Story

CLAIM = "W-26-004"
CLAIMANT, SECOND_OWNER = "C-01", "C-02"
LABORATORY = "Cresset Materials Lab"
_STEPS = (
    (
        "2026-06-08", "09:14", "photo", CLAIMANT,
        "Picture that came with the message: a crack of 14 mm along the toe of TT on ST, left side.",
    ),
    (
        "2026-06-08", "10:05", "letter", CLAIMANT,
        "Asked not to ride it, to send the frame in with its seatpost, and about falls and how far the post was in.",
    ),
    (
        "2026-06-09", "08:30", "answer", CLAIMANT,
        "11,400 km, loaded; no fall; the post was in 95 mm; the card of the sale is at hand.",
    ),
    ("2026-06-15", "11:05", "returned", CLAIMANT, "Frame in, stripped; crack marked, not touched."),
    (
        "2026-06-22", "10:20", "laboratory result", LABORATORY,
        "Fatigue from the toe. J06 against J04: root side HV0.5 312, 236; hydrogen 168, 61 ppm; oxygen 0.21, 0.12 %.",
    ),
)  # fmt: skip
_SHEET = """\
{laboratory}
Report of 2026-06-22 on claim {claim}, frame {frame}
An invented laboratory; written for the demo, no measurement of anything real.

Asked: what kind of crack it is, and whether the metal at the root differs between the two joints.

Measured | J06, with the crack | J04, to compare
Hardness at the root side, HV0.5 | 312 | 236
Hydrogen, ppm by mass | 168 | 61
Oxygen, % by mass | 0.21 | 0.12

The crack runs along the weld toe for 14 mm, left side (9 o'clock). It is a fatigue crack from the toe.
The root side of J06 is harder and holds more hydrogen and oxygen than that of J04.

These figures say what the metal is, not where it came from. How the joints were welded is not known
to the laboratory, and nothing is said here of any other joint or frame.
"""


def tell_claim_file(story: Story, now: Place, claimed: str, sister: str) -> None:
    """Write the claim, its steps as they came, the decision both signed, and who else was told."""
    came = now.at("2026-06-08", "08:47")
    story.sign(
        now.at("2026-06-08", "09:12"), "claim", CLAIM, serial=claimed, joint="J06", quarter="q9", reported_by=CLAIMANT,
        reported=iso(came), knew=iso(came), symptom="Creaks at the seat cluster; there is a crack along the weld.",
        written_by="A01",
    )  # fmt: skip
    came_with = {"laboratory result": _sheet(claimed)}
    for number, (day, clock, step, to, words) in enumerate(_STEPS, start=1):
        told = {"step": step, "to": to, "words": words, "written_by": "A01", "file_sha256": came_with.get(step)}
        _step(story, now.at(day, clock), number, **told)
    _decided(story, now, claimed, sister)


def _sheet(claimed: str) -> Sheet:
    words = _SHEET.format(laboratory=LABORATORY, claim=CLAIM, frame=claimed)
    return Sheet("files/laboratory-sheet.pdf", words)


def _decided(story: Story, now: Place, claimed: str, sister: str) -> None:
    signed = now.at("2026-06-22", "15:55")
    words = (
        f"Before J06 of {claimed} is repaired, J03 and J05 are looked at inside and tried with penetrant: they were "
        f"welded on the same cylinder. F09 to F14 of {sister} too; its owner is asked to stop using it and to bring it."
    )
    _step(
        story, signed, len(_STEPS) + 1, step="decision", settled="field action", words=words, written_by="O01",
        signatures=signatures(signed, words, "Q01", "O01"),
    )  # fmt: skip
    told = now.at("2026-06-22", "16:40")
    words = "Written and telephoned: six fittings were welded on gas that was bad; please do not use it."
    _step(
        story, told, len(_STEPS) + 2, step="containment", to=SECOND_OWNER, serial=sister, words=words, written_by="O01"
    )


def _step(story: Story, moment: int, number: int, /, **told: object) -> None:
    story.sign(moment, "claim step", f"{CLAIM}/{number}", claim=CLAIM, at=iso(moment), **told)
