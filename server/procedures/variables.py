"""What a procedure says of the variables a code calls essential: from its own lines, else as typed."""

from server.facts.limit import Limit
from server.facts.procedure import Procedure

_OF_THE_PURGE = frozenset({"oxygen", "purge_flow", "pre_purge_flow", "pre_purge", "pre_purge_volumes"})
Said = tuple[str, ...]
"""What a variable is; empty where the thing is not used."""


def said_of(procedure: Procedure, variable: str) -> Said | None:
    """Give what a procedure says of a variable; none where it says nothing."""
    if variable in procedure.variables:
        return tuple(sorted(procedure.variables[variable]))
    if variable == "filler":
        return ("added",) if procedure.filler_classes else ()
    return _gas(procedure, variable)


def _gas(procedure: Procedure, variable: str) -> Said | None:
    """A gas is used where its line has a limit, and is what the procedure allows on that line."""
    line = {"torch gas": "torch", "trailing gas": "trailing", "backing gas": "purge"}.get(variable)
    if line is None:
        return None
    if line != "torch" and not any(_about(limit, line) for limit in procedure.limits):
        return ()
    gases = [each for each in procedure.limits if each.name == "gas" and each.line in (line, None)]
    return tuple(sorted({word for each in gases for word in each.allowed})) or None


def _about(limit: Limit, line: str) -> bool:
    if limit.line is not None:
        return limit.line == line
    return limit.name in _OF_THE_PURGE if line == "purge" else limit.name == "trailing_flow"
