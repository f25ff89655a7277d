"""Whether the measuring plan of a limit asked for a reading at this pass; only then can a missing one be unknown."""

from server.facts.limit import Limit
from server.facts.occasion_pass import PassOccasion

FILLED = frozenset({"fill", "repair"})
_FLOWS = frozenset({"torch_flow", "trailing_flow", "purge_flow", "pre_purge_flow"})


def asked(limit: Limit, on: PassOccasion) -> bool:
    """Tell whether this pass is one the plan wants the reading at."""
    when = limit.plan.when
    if when == "every pass":
        return True
    if when == "every fill":
        return on.run in FILLED
    if when == "every set-up":
        return on.first_of_setup
    if when == "first of shift":
        return on.first_of_shift or (on.first_after_change and limit.name in _FLOWS)
    if limit.name in on.elsewhere:
        return False
    if when == "every joint":
        return on.first_of_joint
    return when == "one in n" and on.number is not None and limit.plan.n is not None and on.number % limit.plan.n == 0
