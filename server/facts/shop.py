"""The shop itself: its name, the zone its clock hangs in, and what every page must say."""

from typing import Literal

from server.facts.noun import Noun


class Shop(Noun):
    """The shop's own sheet; `zone` is an IANA time zone used for showing only, `notice` stands on every page."""

    kind: Literal["shop"] = "shop"
    id: str = "shop"
    name: str
    zone: str = "UTC"
    notice: str = ""
    address: str = ""
