"""What every noun of the house shares: it is frozen, and it refuses a field it does not know."""

from typing import Any

from pydantic import BaseModel, ConfigDict


class Noun(BaseModel):
    """A fact: never changed once made, no unknown field let in."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    def told(self, name: str) -> Any:
        """Give what it tells under a name; none where its kind has no such field."""
        return self.__dict__.get(name)
