"""A batch that makes very many small things at once, during which nobody looks for rings among them."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def uncollected() -> Iterator[None]:
    """Let Python's search for rings of garbage rest while the block runs.

    A batch makes none worth looking for, but a third of its time would go into going through all it knows, again and
    again; what is no longer needed is let go all the same, as soon as nothing names it.
    """
    searching = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if searching:
            gc.enable()
