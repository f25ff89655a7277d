"""What a quality level allows of each imperfection on this weld, and how a measured one stands against it."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.imperfections import THINNEST_MM, Allowed, Imperfection, Level, WeldSize, published_imperfections
from server.pages.calculators.form import Choice, Form, read_form, with_problem
from server.pages.calculators.quantity import Field
from server.physics.errors import UnusableInput
from server.statistics.conformity import Conformity, conform

_LENGTHS = ("mm", "in")
_LEVELS: tuple[Level, ...] = ("B", "C", "D")
_EDITION, _KNOWN = published_imperfections()

CHOICES = (
    Choice("level", "Quality level", (("B", "B, the strictest"), ("C", "C"), ("D", "D"))),
    Choice("kind", "Measured is", tuple((key, each.words) for key, each in _KNOWN.items())),
)
FIELDS = (
    Field("wall_mm", "Wall, the thinner one", "mm", _LENGTHS, "0.9"),
    Field("bead_mm", "Width of the bead", "mm", _LENGTHS, "4"),
    Field("butt_mm", "Nominal thickness of the butt weld", "mm", _LENGTHS, hint="Empty: the wall.", needed=False),
    Field("found_mm", "Size measured", "mm", _LENGTHS, needed=False),
    Field("doubt_mm", "The gauge's standard uncertainty", "mm", _LENGTHS, needed=False),
)


@dataclass(frozen=True, slots=True)
class Row:
    """One imperfection with what levels B, C and D allow of it."""

    key: str
    imperfection: Imperfection
    allowed: tuple[Allowed, ...]


@dataclass(frozen=True, slots=True)
class Held:
    """A measured imperfection against its limit; `conformity` none when it is not allowed at any size."""

    row: Row
    found_mm: float
    doubt_mm: float | None
    allowed: Allowed
    conformity: Conformity | None

    @property
    def word(self) -> str:
        """How it stands, in one of the five words."""
        return self.conformity.word if self.conformity else "outside"


@dataclass(frozen=True, slots=True)
class ImperfectionsPage:
    """The form as filled in, every row, and what is said of a measured one."""

    form: Form
    rows: tuple[Row, ...] = ()
    held: Held | None = None
    edition: str = _EDITION
    levels: tuple[Level, ...] = _LEVELS
    called: str = "imperfections"


def imperfections_page(asked: Mapping[str, str]) -> ImperfectionsPage:
    """Read the form and look the limits up."""
    form = read_form(FIELDS, CHOICES, asked)
    if form.problems:
        return ImperfectionsPage(form)
    try:
        size = _size(form)
        rows = tuple(_row(key, each, size) for key, each in _KNOWN.items())
        return ImperfectionsPage(form, rows, _held(form, rows))
    except UnusableInput as error:
        return ImperfectionsPage(with_problem(form, error))


def _size(form: Form) -> WeldSize:
    wall_mm, bead_mm = form.number("wall_mm"), form.number("bead_mm")
    butt_mm = wall_mm if form.maybe("butt_mm") is None else form.number("butt_mm")
    for name, found in (("wall_mm", wall_mm), ("butt_mm", butt_mm)):
        if found < THINNEST_MM:
            remedy = "For a thinner one the standard says nothing; go by your procedure."
            raise UnusableInput(name, found, f"a thickness from {THINNEST_MM} mm on", remedy)
    if bead_mm <= 0.0:
        raise UnusableInput("bead_mm", bead_mm, "a width over 0", "Measure across the bead, from toe to toe.")
    return WeldSize(wall_mm, bead_mm, butt_mm)


def _row(key: str, imperfection: Imperfection, size: WeldSize) -> Row:
    return Row(key, imperfection, tuple(imperfection.allowed(level, size) for level in _LEVELS))


def _held(form: Form, rows: tuple[Row, ...]) -> Held | None:
    found_mm, doubt_mm = form.maybe("found_mm"), form.maybe("doubt_mm")
    if found_mm is None:
        return None
    for name, value in (("found_mm", found_mm), ("doubt_mm", doubt_mm or 0.0)):
        if value < 0.0:
            raise UnusableInput(name, value, "a size of 0 or more", "Write how large it is, without a sign.")
    row = next(each for each in rows if each.key == form.chosen["kind"])
    allowed = row.allowed[("B", "C", "D").index(form.chosen["level"])]
    if allowed.high_mm is None:
        return Held(row, found_mm, doubt_mm, allowed, Conformity.WITHIN if found_mm == 0.0 else None)
    return Held(row, found_mm, doubt_mm, allowed, conform(found_mm, None, allowed.high_mm, doubt_mm))
