"""Gives a browser the token of the session just opened, bound to this host, out of reach of every script."""

from fastapi import Request, Response

from server.pages.frame.doorkeeper import COOKIE, SECURE_COOKIE


def let_in(answer: Response, request: Request, token: str) -> None:
    """Put the token into the answer's cookie."""
    secure = request.url.scheme == "https"
    name = SECURE_COOKIE if secure else COOKIE
    answer.set_cookie(name, token, httponly=True, secure=secure, samesite="strict", path="/")
