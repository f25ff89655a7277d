"""What a design says by size must be said for every size it comes in."""

from collections.abc import Iterator

from server.plan.written import WrittenDesign
from server.sheets.complaint import Complaint
from server.sheets.places import Path
from server.sheets.sheet import Sheet


def sizes_wrong(design: WrittenDesign, sheet: Sheet) -> list[Complaint]:
    """Every size left out of a table by size, and every size the design does not come in."""
    tables: list[tuple[Path, object]] = [(("nodes", name), place) for name, place in design.nodes.items()]
    tables += [(("members", i, "length_mm"), member.length_mm) for i, member in enumerate(design.members)]
    tables += [(("setups", i, "volume_l"), setup.volume_l or None) for i, setup in enumerate(design.setups)]
    return [c for path, table in tables if isinstance(table, dict) for c in _wrong(path, table, design.sizes, sheet)]


def _wrong(path: Path, table: dict[str, object], sizes: tuple[str, ...], sheet: Sheet) -> Iterator[Complaint]:
    missing, strange = [s for s in sizes if s not in table], [s for s in table if s not in sizes]
    if missing or strange:
        value = f"given for {', '.join(table)}"
        yield sheet.complain(path, f"a value for each size: {', '.join(sizes)}", "Add or take out sizes.", words=value)
