"""What every noun of the house shares: it is frozen, and it refuses a field it does not know."""

from pydantic import BaseModel, ConfigDict


class Noun(BaseModel):
    """A fact: never changed once made, no unknown field let in."""

    model_config = ConfigDict(frozen=True, extra="forbid")
