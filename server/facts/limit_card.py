"""A limit card: one revision compiled for one joint kind, so that a tablet judges by it without the network."""

from typing import Literal

from pydantic import Field

from server.facts.noun import Noun


class CardLine(Noun):
    """One line of a card: what is asked, when, between which numbers, with which doubt, and what to say beyond them."""

    name: str
    words: str
    unit: str
    low: str | None = Field(default=None, description="decimal text; none: open")
    high: str | None = None
    allowed: tuple[str, ...] = ()
    side: str | None = None
    zone: str | None = None
    runs: tuple[str, ...] = ()
    when: str
    n: int | None = None
    not_tacks: bool = False
    where: tuple[str, ...] = ()
    picture: bool = False
    line: str | None = None
    moment: str = ""
    how: str | None = None
    uncertainty: str | None = Field(default=None, description="standard uncertainty: `3 %`, `0.15` or `sqrt(1, 5 %)`")
    source: str
    beyond: str = Field(description="what to do when it is outside, in shop words")


class LimitCard(Noun):
    """The card of one procedure revision; its digest is named on every entry made under it.

    The digest covers what the written procedure says and not what moves under it: neither the doubt of the
    instruments nor the day a later revision ends it.
    """

    procedure: str
    revision: str
    procedure_sha256: str
    joint_kind: str
    stage: Literal["production", "repair"]
    valid_from: str
    valid_until: str | None = None
    lines: tuple[CardLine, ...]
    cautions: tuple[str, ...]
    digest: str = ""
