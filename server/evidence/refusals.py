"""What the evidence room refuses to read, and why: always the place, what stood there and what is expected."""


def _shown(value: object) -> str:
    """Write a value short enough for an error message; half of a surrogate pair is written as its escape."""
    text = value if isinstance(value, str) else repr(value)
    text = text.encode("utf-8", "backslashreplace").decode()
    return text if len(text) <= 60 else f"{text[:57]}..."


class Refused(ValueError):
    """Something that cannot be read: `path` says where, `value` what stood there, `expected` what to write instead."""

    def __init__(self, path: str, value: object, expected: str) -> None:
        self.path = path
        self.value = _shown(value)
        self.expected = expected
        super().__init__(f"{path}: found {self.value}; expected {expected}")


class LineRefused(Refused):
    """A line that is not JSON of the kind that may be sealed."""


class NoteRefused(Refused):
    """A signed note, a key or a checkpoint that is malformed, or that no known key has signed."""
