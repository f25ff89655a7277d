"""Who may open a page: a dependency that names the roles, and sends everybody else to where they can get one."""

from collections.abc import Callable

from fastapi import Request

from server.facts.people import Role
from server.pages.frame.visitor import Visitor
from server.work.refusal import NotSignedIn, NotYours


def needs(*roles: Role) -> Callable[[Request], Visitor]:
    """Make a dependency that lets only these roles in; without roles, anybody signed in."""

    def visitor(request: Request) -> Visitor:
        found: Visitor = request.state.visitor
        if not found.signed_in:
            raise NotSignedIn("Nobody is signed in on this device. Sign in, and you come back to this page.")
        if roles and not found.holds(*roles):
            raise NotYours(f"This page is for the {' or the '.join(roles)}; {found.name} is {', '.join(found.roles)}.")
        return found

    visitor.needed_roles = roles  # type: ignore[attr-defined]
    return visitor
