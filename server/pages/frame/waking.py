"""Wakes the judge after every request that may have told the record something."""

from starlette.types import ASGIApp, Receive, Scope, Send

from server.work.judge_new import Judge

_ASKING = frozenset({"GET", "HEAD", "OPTIONS"})


class Waking:
    """Lets the judge look once a request that was not only asking has been answered."""

    def __init__(self, app: ASGIApp, judge: Judge) -> None:
        self._app = app
        self._judge = judge

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request, then wake the judge."""
        try:
            await self._app(scope, receive, send)
        finally:
            if scope["type"] == "http" and scope["method"] not in _ASKING:
                self._judge.soon()
