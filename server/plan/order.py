"""Whether the steps of a design can be put in an order at all, and one such order."""

from graphlib import TopologicalSorter

from server.facts.design import Design
from server.plan.step_links import Link, links, loop_in
from server.plan.steps import every_step


class OrderLoop(ValueError):
    """Steps that wait for each other in a ring; `links` are its reasons, one after the other."""

    def __init__(self, loop: list[Link]) -> None:
        """Say the ring as a welder reads it, one line for each link."""
        self.links = tuple(loop)
        super().__init__("These steps wait for each other:\n" + "\n".join(map(str, loop)))


def check_order(design: Design) -> None:
    """Raise OrderLoop, with its reasons, when the design's covers and needs run in a ring."""
    loop = loop_in(design)
    if loop:
        raise OrderLoop(loop)


def one_order(design: Design) -> list[str]:
    """All steps in an order that breaks no link."""
    check_order(design)
    waits: dict[str, set[str]] = {step: set() for step in every_step(design)}
    for link in links(design):
        waits[link.step].add(link.first)
    return list(TopologicalSorter(waits).static_order())
