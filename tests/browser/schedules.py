"""Random schedules of a tablet's shift: what is logged, when it is sent, and what the link does with it."""

from typing import NamedTuple

from hypothesis import strategies as st

from tests.browser.outbox_model import FATES, Fate


class Log(NamedTuple):
    """So many entries are logged; an unclear one is of a kind the record does not know."""

    times: int
    clear: bool


class Send(NamedTuple):
    """Everything that waits is sent, by one tab or by two at once."""

    fate: Fate
    tabs: int


class Restart(NamedTuple):
    """The tab dies and is opened again: another start of the device over the same store."""


Step = Log | Send | Restart
_LOGS = st.builds(Log, st.sampled_from((1, 1, 1, 2, 3, 45)), st.sampled_from((True, True, True, False)))
_SENDS = st.builds(Send, st.sampled_from(FATES), st.sampled_from((1, 1, 2)))
SCHEDULES = st.lists(st.one_of(_LOGS, _SENDS, st.just(Restart())), max_size=12)
