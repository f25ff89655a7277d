"""A small shop folder to load: one bench, one person, one frame of a cart, two papers and three sendings."""

import json
from pathlib import Path
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.moment import show_moment
from server.work.init_folder import init_folder
from tests.plan.cart import CART
from tests.procedures.ladder import LADDER

DAY = 1_742_292_000_000
MINUTE = 60_000


def entry(number: int, **told: Any) -> str:
    """Give an entry's line: a problem somebody saw."""
    at = show_moment(DAY + number * MINUTE)
    head = {"id": f"slate:b:{number}", "device": "slate", "boot": "b", "seq": number, "mono_ms": number * MINUTE}
    return canonical_line(
        {**head, "device_time": at, "happened": at, "who": "ada", "kind": "problem", "words": "w", **told}
    ).decode()


def sending(number: int, line: str, minutes: int | None = None) -> dict[str, Any]:
    """Give a sending of a line, received so many minutes after the day began."""
    at = show_moment(DAY + (number if minutes is None else minutes) * MINUTE + 500)
    return {"id": f"d-{number}", "device": "slate", "sent_at": at, "received_at": at, "line": line}


def release(minutes: int) -> dict[str, Any]:
    """Give a release of the frame, as a paper."""
    at = show_moment(DAY + minutes * MINUTE)
    signed = {"person": "ada", "role": "owner", "at": at, "meaning": "released", "shown_sha256": "0" * 64}
    line = {"kind": "permission", "id": "r", "permits": "release", "frame": "X-1", "signatures": [signed]}
    return {"received_at": at, "line": line}


def moved_in(folder: Path) -> Path:
    """Write the folder."""
    init_folder(folder)
    (folder / "people.toml").write_text('[[person]]\nid = "ada"\nname = "Ada Vane"\nroles = ["welder", "owner"]\n')
    (folder / "packets.toml").write_text(
        '[[packet]]\nframe = "X-1"\ndesign = "CART"\nsize = "S"\nissued = 2025-03-18T06:40:00+01:00\n'
        'received_at = 2025-03-18T06:40:00+01:00\npieces = { P = "H1" }\n'
    )
    (folder / "procedures" / "ladder.toml").write_text(LADDER)
    (folder / "designs" / "cart.toml").write_text(CART)
    write(folder, "papers.jsonl", release(2))
    write(folder, "deliveries.jsonl", *(sending(number, entry(number)) for number in (1, 3, 4)))
    return folder


def write(folder: Path, name: str, *lines: Any) -> None:
    """Write the lines of a log."""
    (folder / name).write_text("".join(f"{json.dumps(line)}\n" for line in lines), encoding="utf-8")
