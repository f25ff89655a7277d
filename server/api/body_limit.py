"""Refuses a body that is too large before it is read to its end, and names the limit."""

from collections.abc import Mapping

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from server.api.problem import problem_response

MOST_BYTES = 4_000_000


class BodyLimit:
    """Counts what arrives; `larger` names paths that may take more; one ending in a slash, all that begins so."""

    def __init__(self, app: ASGIApp, most_bytes: int = MOST_BYTES, larger: Mapping[str, int] | None = None) -> None:
        self._app = app
        self._most_bytes = most_bytes
        self._larger = dict(larger or {})

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve a request, or refuse it for its length."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        most = self._most_for(scope["path"])
        announced = Headers(scope=scope).get("content-length", "")
        if announced.isdecimal() and int(announced) > most:
            # Not read to its end, so the connection cannot be used for another request.
            refusal = problem_response(413, _said(most, announced), headers={"Connection": "close"})
            await refusal(scope, receive, send)
            return
        await self._app(scope, _counted(receive, most), send)

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


def _said(most: int, found: str) -> str:
    return (
        f"the body has {found} bytes; at most {most} are taken in one request; nothing of it was taken, "
        "so keep the entries and send fewer of them at a time"
    )
