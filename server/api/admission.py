"""Who a program's address answers: somebody signed in, or a device the shop knows; every address says which."""

from typing import Any

from fastapi import Request

from server.work.refusal import NotSignedIn


async def known(request: Request) -> None:
    """Let in who is signed in and what the owner enrolled; an application without a doorkeeper has no door to keep."""
    visitor = getattr(request.state, "visitor", None)
    if visitor is None or visitor.signed_in or visitor.known_device:
        return
    raise NotSignedIn(
        "The shop does not know this device, or the owner has revoked it. Nothing was taken and nothing is told: keep "
        "the entries. Sign in, or let the owner enrol the device, and send them again."
    )


async def signed_in(request: Request) -> Any:
    """Let in who is signed in, and give the visitor."""
    visitor = request.state.visitor
    if not visitor.signed_in:
        raise NotSignedIn(
            "Nobody is signed in on this device. Entries are taken all the same from a device the shop knows; "
            "for anything else sign in, then ask again."
        )
    return visitor


known.asks_for = "a known device or somebody signed in"  # type: ignore[attr-defined]
signed_in.asks_for = "somebody signed in"  # type: ignore[attr-defined]
