"""Writes the story as a shop folder: registers, papers, deliveries, and the truth table beside them."""

import shutil
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from demo_data.generator.build import Progress, make_shop, tell_story
from demo_data.generator.devices import Devices, Sent, iso, named
from demo_data.generator.elsewhere import VERSIONS, Version
from demo_data.generator.incidents.old_frame import drawn_with_boss
from demo_data.generator.json_line import json_line
from demo_data.generator.plan import Plan
from demo_data.generator.planting import planted
from demo_data.generator.registers import customers_text, gas_text, packets_text, sleeves_text
from demo_data.generator.renaming import Renaming
from demo_data.generator.selection import SELECTIONS
from demo_data.generator.sheets import write_sheets
from demo_data.generator.shop import TABLETS
from demo_data.generator.story import Paper, Sheet

HERE = Path(__file__).resolve().parents[1]
PROCEDURES = HERE.parent / "procedures"
Cards = Callable[[Iterable[Path]], dict[tuple[str, str], str]]


def write_shop(
    target: Path, selection: str = "small", version: Version = VERSIONS["first"], *,
    cards: Cards | None = None, progress: Progress | None = None,
) -> None:  # fmt: skip
    """Write the folder; the same selection and version give the same bytes."""
    rename, seed = version.renaming, version.seed
    target.mkdir(parents=True, exist_ok=True)
    _copy(rename, target)
    texts = sorted((target / "procedures").rglob("*.toml"))
    plan = planted(version.moves)
    chosen = SELECTIONS[selection].moved(version.moves)
    shop = make_shop(plan, seed, cards(texts) if cards else {})
    story = tell_story(shop, chosen, progress)
    told = chosen.frames(shop)
    for name, text in (
        ("sleeves.toml", sleeves_text(shop)),
        ("gas.toml", gas_text(shop)),
        ("packets.toml", packets_text(shop, told)),
        ("more_customers.toml", customers_text(told, shop)),
    ):
        (target / name).write_text(rename.toml(text), encoding="utf-8")
    sent = devices_of(plan, seed).send(story.happenings)
    _write_lines(target / "deliveries.jsonl", (_delivery(rename, sending) for sending in sent))
    papers = sorted(story.papers, key=lambda paper: paper.at)
    sheets = write_sheets(target, papers, rename)
    _write_lines(target / "papers.jsonl", (_paper(rename, paper, sheets) for paper in papers))
    _write_lines(target / "truth.jsonl", (rename.line(json_line(row)) for row in story.truth))
    _write_lines(target / "decoys.jsonl", (rename.line(json_line(row)) for row in story.decoys))


def devices_of(plan: Plan, seed: int) -> Devices:
    """Give the tablets with the starts and the outages the incidents settle."""
    calm = frozenset((TABLETS[bench], day) for bench, day in plan.quiet_days)
    return Devices(seed, defaultdict(list, plan.boots), plan.outages, calm)


def _copy(rename: Renaming, target: Path) -> None:
    for file in sorted((HERE / "registers").glob("*.toml")):
        (target / file.name).write_text(rename.toml(file.read_text(encoding="utf-8")), encoding="utf-8")
    for source, name in ((HERE / "designs", "designs"), (PROCEDURES, "procedures")):
        shutil.rmtree(target / name, ignore_errors=True)
        for file in sorted(source.rglob("*.toml")):
            copy = target / name / file.relative_to(source)
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_text(rename.dates(file.read_text(encoding="utf-8")), encoding="utf-8")
    drawn = drawn_with_boss((target / "designs" / "lst.toml").read_text(encoding="utf-8"))
    (target / "designs" / "lst_f15.toml").write_text(drawn, encoding="utf-8")


def _delivery(rename: Renaming, sent: Sent) -> str:
    line = rename.line(sent.line.decode())
    told = {"id": sent.id, "device": sent.device, "line": line, "received_at": iso(sent.received)}
    if sent.sent is not None:
        told["sent_at"] = iso(sent.sent)
    return rename.outside(told)


def _paper(rename: Renaming, paper: Paper, sheets: Mapping[Sheet, str]) -> str:
    line = {name: sheets[value] if isinstance(value, Sheet) else value for name, value in paper.line.items()}
    return rename.line(json_line({"received_at": iso(paper.at), "line": _resolved(line)}))


def _resolved(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _resolved(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [_resolved(inner) for inner in value]
    return named(value)


def _write_lines(file: Path, lines: Iterable[str]) -> None:
    with file.open("w", encoding="utf-8", newline="\n") as out:
        out.writelines(f"{line}\n" for line in lines)
