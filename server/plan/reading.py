"""A design's TOML text becomes the design, or every complaint about it with file, line and what to write."""

import hashlib
from functools import lru_cache

from server.facts.design import Design, Joint, Member, PurgeSetup
from server.plan.gas_checks import gas_wrong
from server.plan.references import references_wrong
from server.plan.size_checks import sizes_wrong
from server.plan.step_links import loop_in
from server.plan.volumes import setup_volume_l
from server.plan.written import WrittenDesign, by_size
from server.sheets.complaint import Complaint, SheetRefused
from server.sheets.reading import read_as
from server.sheets.sheet import Sheet


# A text is read when it is checked, when it is released and by whoever opens the record: once is enough.
@lru_cache(128)
def read_design(text: str, file: str) -> Design:
    """Read one design; raises SheetRefused with every complaint at once, a loop in its order with the reasons."""
    written, sheet = read_as(WrittenDesign, text, file)
    _refuse_if([*sizes_wrong(written, sheet), *references_wrong(written, sheet)])
    design = _design(written, hashlib.sha256(text.encode()).hexdigest())
    _refuse_if([*gas_wrong(design, sheet), *_loop(design, sheet)])
    return design.model_copy(update={"setups": tuple(_with_volume(setup, design) for setup in design.setups)})


def _refuse_if(wrong: list[Complaint]) -> None:
    if wrong:
        raise SheetRefused(wrong)


def _loop(design: Design, sheet: Sheet) -> list[Complaint]:
    loop = loop_in(design)
    asked = [link for link in loop if link.of != "joints"]
    if not asked:
        return []
    reasons = "; ".join(str(link) for link in loop)
    path = (asked[0].of, asked[0].entry)
    return [sheet.complain(path, "an order without a loop", f"The loop: {reasons}. Take one of these away.")]


def _design(written: WrittenDesign, sha256: str) -> Design:
    plain = ("name", "title", "kind", "sizes", "view", "order", "covers", "needs", "holes", "geometry")
    places = {node: by_size(place, written.sizes) for node, place in written.nodes.items()}
    members = tuple(_member(member.model_dump(), written.sizes) for member in written.members)
    by_id = {member.id: member for member in members}
    return Design(
        **{field: getattr(written, field) for field in plain},
        nodes={size: {node: (at[size][0], at[size][1]) for node, at in places.items()} for size in written.sizes},
        depth={size: {n: at[size][2] for n, at in places.items() if len(at[size]) > 2} for size in written.sizes},
        members=members,
        joints=tuple(_joint(joint, by_id) for joint in written.joints),
        setups=tuple(PurgeSetup(**setup.model_dump()) for setup in written.setups),
        sha256=sha256,
    )


def _member(told: dict[str, object], sizes: tuple[str, ...]) -> Member:
    return Member.model_validate({**told, "length_mm": by_size(told["length_mm"], sizes)})


def _joint(joint: Joint, members: dict[str, Member]) -> Joint:
    lands, on = (members[part] for part in joint.parts)
    thinner = min(lands.wall_mm, on.wall_mm)
    across = lands.od_mm if lands.shape == "tube" else on.od_mm
    return joint.model_copy(
        update={"thickness_mm": joint.thickness_mm or thinner, "diameter_mm": joint.diameter_mm or across}
    )


def _with_volume(setup: PurgeSetup, design: Design) -> PurgeSetup:
    computed = {size: round(setup_volume_l(design, setup, size), 3) for size in design.sizes}
    return setup.model_copy(update={"volume_l": {**computed, **setup.volume_l}})
