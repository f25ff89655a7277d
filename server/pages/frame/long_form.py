"""Takes forms of many fields: a containment ticks a frame each, and a shop may have thousands."""

from collections.abc import Callable, Coroutine
from typing import Any

from fastapi import Request
from fastapi.responses import Response
from fastapi.routing import APIRoute

MOST_FIELDS = 100_000
"""More than the longest body that is taken holds frames."""


class LongForm(APIRoute):
    """A route whose form is read before it is asked for, up to that many fields instead of a thousand."""

    def get_route_handler(self) -> Callable[[Request], Coroutine[Any, Any, Response]]:
        """Give the handler that reads the form first."""
        handle = super().get_route_handler()

        async def read_first(request: Request) -> Response:
            await request.form(max_fields=MOST_FIELDS)
            return await handle(request)

        return read_first
