"""Reads shop.toml: the shop's own sheet, where its procedures and designs lie, and when each was released."""

from pydantic import Field, ValidationError

from server.facts.entry import Moment
from server.facts.noun import Noun
from server.facts.shop import Shop
from server.sheets.complaint import SheetRefused
from server.sheets.reading import complaints
from server.sheets.sheet import Sheet
from server.work.folder_line import FolderLine, line_of
from server.work.sealable import sealable

SHOP_FILE = "shop.toml"
_OURS = {"procedures", "designs", "released"}


class ReleasedWhen(Noun):
    """When a procedure or a design was released, and by whom; a file not named was released at the start."""

    file: str = Field(description="a path within its folder")
    received_at: Moment | None = None
    by: str | None = Field(default=None, description="the person who released it")


class WrittenShop(Shop):
    """The shop's sheet as written, with where to find what it works by."""

    name: str = Field(min_length=1, description="the shop's name")
    procedures: str = "procedures"
    designs: str = "designs"
    released: tuple[ReleasedWhen, ...] = ()


def read_shop(text: str) -> tuple[WrittenShop, FolderLine]:
    """Give the sheet and its register line; raises SheetRefused with everything wrong at once."""
    sheet = Sheet(text, SHOP_FILE)
    told = sealable(sheet.values)
    try:
        written = WrittenShop.model_validate(told)
    except ValidationError as refused:
        raise SheetRefused(complaints(refused, sheet, WrittenShop)) from None
    own = {"id": "shop", **{name: value for name, value in told.items() if name not in _OURS}}
    return written, line_of(Shop.model_validate(own), own, None)
