"""Writes the log as lines of JSON, one to an event, each with the request it belongs to."""

import json
import logging
import sys
from contextvars import ContextVar
from datetime import UTC, datetime
from typing import Any, TextIO

REQUEST: ContextVar[str | None] = ContextVar("request", default=None)
"""The id of the request being served; what is logged meanwhile carries it."""

FIELDS = "fields"
"""The name under which a caller of the log hands over further fields: `extra={FIELDS: {...}}`."""


class JsonLines(logging.Formatter):
    """One event to a line: whatever a field holds, JSON's escapes keep it from starting a line of its own."""

    def format(self, record: logging.LogRecord) -> str:
        """Write one event."""
        told: dict[str, Any] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "from": record.name,
            "said": record.getMessage(),
        }
        if request := REQUEST.get():
            told["request"] = request
        told |= getattr(record, FIELDS, {})
        if record.exc_info:
            told["trace"] = self.formatException(record.exc_info)
        return json.dumps(told, ensure_ascii=True, default=str)


def log_as_json(level: str, to: TextIO = sys.stderr) -> None:
    """Let everything that is logged in this process go out as lines of JSON, from this level on."""
    handler = logging.StreamHandler(to)
    handler.setFormatter(JsonLines())
    root = logging.getLogger()
    root.handlers[:] = [handler]
    root.setLevel(level.upper())
    # The server's own access lines say less than ours.
    logging.getLogger("uvicorn.access").disabled = True
