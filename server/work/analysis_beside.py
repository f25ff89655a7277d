"""Puts what was found in a cylinder, beside its certificate, to the cause it bears on, once that is supported."""

from collections.abc import Iterable, Iterator

from server.facts.judged import Word
from server.facts.materials import Analysis, FillLot
from server.facts.occasion_joint import JointOccasion
from server.judgement.cause_table import CauseWord, Witness
from server.occasions.tables import Tables


def with_analysis(words: Iterable[CauseWord], tables: Tables, joint: JointOccasion) -> tuple[CauseWord, ...]:
    """Add it to bad gas at the torch or in the purge, where the record supports that already."""
    told = {"C1": tuple(_analysed(tables, joint, "torch")), "C2": tuple(_analysed(tables, joint, "purge"))}
    return tuple(
        each._replace(because=(*each.because, *told.get(each.cause, ()))) if each.says == "supports" else each
        for each in words
    )


def _analysed(tables: Tables, joint: JointOccasion, of_line: str) -> Iterator[Witness]:
    gas = (getattr(each, of_line) for each in joint.passes)
    under = dict.fromkeys((each.cylinder, each.fill_lot) for each in gas if each and each.cylinder)
    for cylinder, lot in under:
        if found := tables.analysis_of.get(cylinder):
            certified = tables.registers.fill_lots.get(lot or "")
            words = f"cylinder {cylinder} analysed {found.dated:%d %b %Y} by {found.laboratory}: {_read(found)}"
            words += f"; as certified: {_read(certified)}" if certified else ""
            yield Witness("cylinder analysed", Word.OUTSIDE, words, (found.id,))


def _read(told: Analysis | FillLot) -> str:
    oxygen = "not told" if told.oxygen_ppm is None else f"{told.oxygen_ppm:g} ppm"
    dew = "not told" if told.dew_point_c is None else f"{told.dew_point_c:g} °C"
    return f"oxygen {oxygen}, dew point {dew}"
