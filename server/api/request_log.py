"""Gives every request an id, says it in the answer and in the log, and counts what was answered."""

import logging
import re
import time
import uuid
from collections.abc import Callable
from typing import Any

from fastapi import FastAPI
from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from server.upkeep.json_logs import FIELDS, REQUEST

HEADER = "X-Request-ID"
_LOG = logging.getLogger("strawline.request")
_ID = re.compile(r"[A-Za-z0-9._-]{1,64}")
_TRACE = re.compile(r"[0-9a-f]{2}-([0-9a-f]{32})-[0-9a-f]{16}-[0-9a-f]{2}")
_WATCHING = frozenset({"/livez", "/readyz", "/metrics"})

Count = Callable[[str, str | None, int, float], None]


def log_requests(app: FastAPI, count: Count) -> None:
    """Put the log outermost, so that what others refuse, and what nobody foresaw, has its id and is counted as well."""
    without = app.build_middleware_stack
    # What add_middleware adds stands inside the one that answers unforeseen errors, and would not see that answer.
    app.build_middleware_stack = lambda: _RequestLog(without(), count)  # type: ignore[method-assign]


class _RequestLog:

    def __init__(self, app: ASGIApp, count: Count) -> None:
        self._app = app
        self._count = count

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        name, began, status = request_id(Headers(scope=scope)), time.perf_counter(), 500

        async def send_with_id(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                MutableHeaders(scope=message)[HEADER] = name
            await send(message)

        named = REQUEST.set(name)
        try:
            await self._app(scope, receive, send_with_id)
        finally:
            took_s = time.perf_counter() - began
            self._count(scope["method"], _route(scope), status, took_s)
            _LOG.log(_level(scope, status), "%s", "answered", extra={FIELDS: _fields(scope, status, took_s)})
            REQUEST.reset(named)


def request_id(headers: Headers) -> str:
    """Give the id a request came with, where it is fit to be written; the trace it belongs to; or a new one."""
    if _ID.fullmatch(sent := headers.get(HEADER, "")):
        return sent
    trace = _TRACE.fullmatch(headers.get("traceparent", ""))
    return trace[1] if trace else uuid.uuid4().hex


def _level(scope: Scope, status: int) -> int:
    if status >= 500:
        return logging.WARNING
    return logging.DEBUG if scope["path"] in _WATCHING else logging.INFO


def _route(scope: Scope) -> str | None:
    return getattr(scope.get("route"), "path", None)


def _fields(scope: Scope, status: int, took_s: float) -> dict[str, Any]:
    visitor = scope.get("state", {}).get("visitor")
    client = scope.get("client")
    return {
        "method": scope["method"],
        "path": scope["path"],
        "status": status,
        "ms": round(1000 * took_s, 1),
        "client": client[0] if client else None,
        "person": getattr(visitor, "person", None),
        "device": getattr(visitor, "device", None) or None,
    }
