"""A calculator's form: filled from an address, every field read, and all that is wrong told at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from server.pages.calculators.quantity import Field, Problem, problem_of, read_number
from server.physics.errors import UnusableInput

_NEEDED = "Write a number, and choose its unit or write it too."


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several words to choose; the first stands there at first."""

    name: str
    words: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Filled:
    """A field as it was filled in, with its number once it could be read and what was wrong where it could not."""

    field: Field
    written: str
    unit: str
    number: float | None = None
    problem: Problem | None = None


@dataclass(frozen=True, slots=True)
class Form:
    """Everything filled in; `beside` are problems that a formula found with fields that read well by themselves."""

    filled: Mapping[str, Filled]
    chosen: Mapping[str, str]
    choices: Mapping[str, Choice]
    beside: tuple[Problem, ...] = ()

    def at(self, name: str) -> Filled:
        """Give a field as it was filled in."""
        return self.filled[name]

    def number(self, name: str) -> float:
        """Give the number of a field that is needed."""
        found = self.filled[name].number
        if found is None:
            raise UnusableInput(name, "nothing written", f"a quantity such as {_such_as(self.filled[name])}", _NEEDED)
        return found

    def maybe(self, name: str) -> float | None:
        """Give the number of a field, none where it was left empty."""
        return self.filled[name].number

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Give all that is wrong, in the order of the form."""
        return (*(each.problem for each in self.filled.values() if each.problem), *self.beside)

    def problem_at(self, name: str) -> Problem | None:
        """Give what is wrong with one field, whoever found it."""
        return next((each for each in self.problems if each.field == name), None)


def read_form(
    fields: Sequence[Field], choices: Sequence[Choice], asked: Mapping[str, str], unused: frozenset[str] = frozenset()
) -> Form:
    """Read a form; what the address does not name stands as at first, and `unused` fields are not judged."""
    chosen = {each.name: _chosen(each, asked) for each in choices}
    filled = {each.name: _read(each, asked, each.name in unused) for each in fields}
    return Form(filled, chosen, {each.name: each for each in choices})


def with_problem(form: Form, error: UnusableInput, called: Mapping[str, str] | None = None) -> Form:
    """Give the form with what a formula refused put beside its field; `called` leads from its name to the form's."""
    name = (called or {}).get(error.field, error.field)
    filled = form.filled.get(name)
    if filled is None:
        told = Problem(name, name.replace("_", " "), str(error.value), error.expected, error.remedy)
    else:
        told = problem_of(filled.field, filled.written, filled.unit, error)
    return Form(form.filled, form.chosen, form.choices, (*form.beside, told))


def _chosen(choice: Choice, asked: Mapping[str, str]) -> str:
    value = asked.get(choice.name, "")
    return value if value in dict(choice.options) else choice.options[0][0]


def _read(field: Field, asked: Mapping[str, str], unused: bool) -> Filled:
    written = asked.get(field.name, field.start)
    unit = asked.get(f"{field.name}_unit", "")
    unit = unit if unit in field.units else field.units[0]
    if unused:
        return Filled(field, written, unit)
    try:
        number = read_number(field, written, unit)
    except UnusableInput as error:
        return Filled(field, written, unit, problem=problem_of(field, written, unit, error))
    if number is None and field.needed:
        such_as = f"a quantity such as {_such_as(Filled(field, written, unit))}"
        missing = Problem(field.name, field.words, "nothing written", such_as, _NEEDED)
        return Filled(field, written, unit, problem=missing)
    return Filled(field, written, unit, number)


def _such_as(filled: Filled) -> str:
    return f"{filled.field.start or '12.5'} {filled.unit}"
