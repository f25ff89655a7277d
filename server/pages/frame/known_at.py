"""The earlier position of the record at which a page of a frame may be asked for."""

from typing import Annotated

from fastapi import Query

Position = Annotated[int | None, Query(ge=1)]
"""Counted from one; without it the page tells what is known now."""
