"""Tablets that send entry after entry and remember of each what they were answered."""

import json
import threading
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPException
from typing import Any

from tests.api.asking import delivery


@dataclass
class Answered:
    """What was answered: by entry the receipt, and every answer that was no receipt."""

    receipts: dict[str, dict[str, Any]] = field(default_factory=dict)
    refusals: list[tuple[int, dict[str, Any]]] = field(default_factory=list)
    broken_off: int = 0
    twice: list[str] = field(default_factory=list)

    def take(self, receipts: list[dict[str, Any]]) -> None:
        """Note receipts; one that differs from an earlier one of the same entry is a doubled entry."""
        for receipt in receipts:
            before = self.receipts.setdefault(receipt["entry"], receipt)
            if (before["position"], before["leaf"]) != (receipt["position"], receipt["leaf"]):
                self.twice.append(receipt["entry"])


def post(port: int, *entries: dict[str, Any], patience_s: float = 30.0) -> tuple[int, dict[str, Any]]:
    """Send deliveries in one request, and give status and answer; raises OSError or HTTPException when broken off."""
    connection = HTTPConnection("127.0.0.1", port, timeout=patience_s)
    try:
        body = json.dumps({"deliveries": entries}).encode()
        connection.request("POST", "/api/deliveries", body, {"Content-Type": "application/json"})
        answer = connection.getresponse()
        return answer.status, json.loads(answer.read())
    finally:
        connection.close()


def get(port: int, path: str) -> tuple[int, bytes]:
    """Ask for something, and give status and body."""
    connection = HTTPConnection("127.0.0.1", port, timeout=30)
    try:
        connection.request("GET", path)
        answer = connection.getresponse()
        return answer.status, answer.read()
    finally:
        connection.close()


def send(port: int, numbers: "list[int]", answered: Answered, *, together: int = 1, note: str = "") -> bool:
    """Send entries by their numbers, so many to a request, until one is refused or broken off; say whether all went."""
    for first in range(0, len(numbers), together):
        several = [delivery(number, note=note or f"n{number}") for number in numbers[first : first + together]]
        try:
            status, told = post(port, *several)
        except (OSError, HTTPException, ValueError):
            answered.broken_off += 1
            return False
        if status != 200:
            answered.refusals.append((status, told))
            return False
        answered.take(told["receipts"])
    return True


def send_at_once(port: int, tablets: int, each: int, answered: Answered, first: int = 0) -> None:
    """Let several tablets send at once, each its own numbers, one to three to a request."""
    sending = [
        threading.Thread(
            target=send,
            args=(port, list(range(first + tablet * each, first + (tablet + 1) * each)), answered),
            kwargs={"together": 1 + tablet % 3},
        )
        for tablet in range(tablets)
    ]
    for thread in sending:
        thread.start()
    for thread in sending:
        thread.join()
