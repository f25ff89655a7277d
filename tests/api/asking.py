"""Somebody who speaks HTTP to an application in the same process, one request after the other."""

import asyncio
import json
from typing import Any

import httpx

from tests.record.sample_lines import DEVICE, entry_bytes


class Asker:
    """Sends requests and gives the answers."""

    def __init__(self, transport: httpx.ASGITransport) -> None:
        self._transport = transport

    def ask(self, method: str, path: str, **further: Any) -> httpx.Response:
        """Send one request."""

        async def once() -> httpx.Response:
            async with httpx.AsyncClient(transport=self._transport, base_url="http://shop") as client:
                return await client.request(method, path, **further)

        return asyncio.run(once())

    def send(self, *deliveries: Any) -> httpx.Response:
        """Send deliveries as a tablet does."""
        # Written by ourselves, since a client's own writer refuses what is not to be refused here.
        return self.ask("POST", "/api/deliveries", content=json.dumps({"deliveries": list(deliveries)}).encode())


def delivery(number: int, **further: Any) -> dict[str, Any]:
    """One sending of one entry as a tablet writes it; what is named further is the entry's own."""
    return {
        "id": f"{DEVICE}:b1:{number}",
        "device": DEVICE,
        "sent_at": "2025-03-18T12:40:00.000Z",
        "line": entry_bytes(number, **further).decode(),
    }
