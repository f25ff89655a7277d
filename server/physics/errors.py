"""The named errors a formula raises when it is given something it cannot use."""

from __future__ import annotations


class UnusableInput(ValueError):
    """An input that a formula cannot use: which field, what it was, what is expected and what to do next."""

    def __init__(self, field: str, value: object, expected: str, remedy: str) -> None:
        super().__init__(f"{field} is {value!r}; expected {expected}. {remedy}")
        self.field = field
        self.value = value
        self.expected = expected
        self.remedy = remedy


class NotANumber(UnusableInput):
    """A reading or setting that is NaN or infinite, refused before it can travel."""


class UnreachableMember(UnusableInput):
    """A member of a purge that no hole joins to where the gas comes in; its oxygen would stay as it is for good."""


class SealedPurge(UnusableInput):
    """A purge with no vent: gas that flows in could not leave, and the pressure would rise until something gives."""
