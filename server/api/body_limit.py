"""Refuses a body that is too large before it is read to its end, and names the limit."""

from collections.abc import Callable, Mapping
from contextlib import suppress

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from server.api.problem import problem_response
from server.record.troubles import RecordTrouble

MOST_BYTES = 4_000_000


class BodyLimit:
    """Counts what arrives; `larger` names paths that may take more; one ending in a slash, all that begins so."""

    def __init__(
        self,
        app: ASGIApp,
        most_bytes: int = MOST_BYTES,
        larger: Mapping[str, int] | None = None,
        page: Callable[[Request, int, str], Response] | None = None,
    ) -> None:
        """`page` tells a person what a problem tells a program."""
        self._app = app
        self._most_bytes = most_bytes
        self._larger = dict(larger or {})
        self._page = page

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve a request, or refuse it for its length."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        most = self._most_for(scope["path"])
        announced = Headers(scope=scope).get("content-length", "")
        if announced.isdecimal() and int(announced) > most:
            # Not read to its end, so the connection cannot be used for another request.
            refusal = await self._refusal(Request(scope), most, announced)
            refusal.headers["Connection"] = "close"
            await refusal(scope, receive, send)
            return
        await self._app(scope, _counted(receive, most), send)

    async def _refusal(self, request: Request, most: int, announced: str) -> Response:
        by_person = "text/html" in request.headers.get("accept", "") and not request.url.path.startswith("/api/")
        if self._page is None or not by_person:
            return problem_response(413, _said(most, announced))
        with suppress(RecordTrouble):
            return await run_in_threadpool(self._page, request, 413, _said_to_a_person(most, announced))
        return problem_response(413, _said(most, announced))

    def _most_for(self, path: str) -> int:
        under = (most for name, most in self._larger.items() if name.endswith("/") and path.startswith(name))
        return self._larger.get(path, next(under, self._most_bytes))


def _counted(receive: Receive, most: int) -> Receive:
    arrived = 0

    async def counted() -> Message:
        nonlocal arrived
        message = await receive()
        arrived += len(message.get("body", b""))
        if arrived > most:
            raise HTTPException(413, _said(most, f"more than {most}"), headers={"Connection": "close"})
        return message

    return counted


def _said_to_a_person(most: int, found: str) -> str:
    return (
        f"What you sent has {int(found) / 1e6:.1f} MB; at most {most / 1e6:.0f} MB are taken at once; nothing of it "
        "was taken, so choose smaller files, or send them one after the other"
    )


def _said(most: int, found: str) -> str:
    return (
        f"the body has {found} bytes; at most {most} are taken in one request; nothing of it was taken, "
        "so keep the entries and send fewer of them at a time"
    )
