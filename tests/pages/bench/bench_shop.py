"""A shop for the bench's proofs: the demo shop's registers, procedures and designs, with frames in work today."""

import json
import shutil
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.record.door_facts import Credential
from server.record.keeping_secrets import keep_credential
from server.record.written import Written
from server.work.load_folder import load_folder
from server.work.proving import hash_secret
from server.work.shop_folder import read_shop_folder

ROOT = Path(__file__).resolve().parents[3]
FRAME, OTHER_FRAME = "MT-0401", "MT-0402"
WELDER, OTHER_WELDER, LEAD = "W01", "W02", "Q01"
PIN = "402951"
OPEN_SLEEVES = ("FT-0901", "FT-0902")


def shop_folder(folder: Path) -> Path:
    """Lay out a shop folder: two frames issued this morning, cylinders on, two sleeves open at the first bench."""
    for file in (ROOT / "demo_data" / "registers").glob("*.toml"):
        if file.stem not in ("packets", "fill_lots", "shipments"):
            shutil.copy(file, folder / file.name)
    shutil.copytree(ROOT / "demo_data" / "designs", folder / "designs")
    shutil.copytree(ROOT / "procedures", folder / "procedures")
    (folder / "work_today.toml").write_text(_registers(), encoding="utf-8")
    lines = [json.dumps(each) for each in _deliveries()]
    (folder / "deliveries.jsonl").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return folder


def open_shop(folder: Path, prepare: Callable[[Path], None] = lambda _: None) -> Record:
    """Load the folder, prepared further if need be, into a fresh record; everybody at the bench gets the same PIN."""
    record = Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)
    prepare(shop_folder(folder))
    load_folder(record, read_shop_folder(folder), now_ms())
    kept = hash_secret(PIN)
    changes = [keep_credential(Credential(who, "pin", kept, 0)) for who in (WELDER, OTHER_WELDER, LEAD, "O01")]
    record.write(lambda _: Written(answer=lambda _: None, changes=changes)).result()
    return record


def _registers() -> str:
    issued = (datetime.now(UTC) - timedelta(hours=3)).strftime("%Y-%m-%dT%H:%M:%SZ")
    packets = "".join(
        f'[[packet]]\nid = "{frame}"\nframe = "{frame}"\ndesign = "{design}"\nsize = "{size}"\nbench = "B1"\n'
        f"issued = {issued}\n\n"
        for frame, design, size in ((FRAME, "LST", "56"), (OTHER_FRAME, "PLV", "40"))
    )
    sleeves = "".join(
        f'[[rod_sleeve]]\nid = "{name}"\nlot = "{lot}"\nfiller_class = "{klass}"\nrod_mm = {rod}\n\n'
        for name, lot, klass, rod in (
            ("FT-0901", "F9-B02", "ERTi-9", 0.9),
            ("FT-0902", "F9-B02", "ERTi-9", 1.1),
            ("FT-0903", "F2-D02", "ERTi-2", 0.9),
        )
    )
    lot = '[[fill_lot]]\nid = "L-901"\ncylinders = ["AR-0901", "AR-0902", "AR-0903"]\nreleased = 2026-01-02\n'
    return packets + sleeves + lot


def _deliveries() -> list[dict[str, object]]:
    sleeves: list[dict[str, object]] = [
        {"kind": "sleeve", "sleeve": name, "bench": "B1", "act": "opened"} for name in OPEN_SLEEVES
    ]
    lines: tuple[dict[str, object], ...] = (
        {"kind": "cylinder", "line": "B1-T", "on": "AR-0901", "fill_lot": "L-901"},
        {"kind": "cylinder", "line": "B1-P", "on": "AR-0902", "fill_lot": "L-901"},
        {"kind": "bead", "line": "B1-T", "cylinder": "AR-0901", "result": "good", "grade": 0},
        {"kind": "bead", "line": "B1-P", "cylinder": "AR-0902", "result": "good", "grade": 0},
        *sleeves,
    )
    at = now_ms() - 2 * 3_600_000
    return [_delivery(number, at + number * 60_000, line) for number, line in enumerate(lines, 1)]


def _delivery(seq: int, at_ms: int, fields: dict[str, object]) -> dict[str, object]:
    at = show_moment(at_ms)
    head = {"id": f"TAB-Q:0:{seq}", "device": "TAB-Q", "seq": seq, "device_time": at, "happened": at, "who": WELDER}
    line = json.dumps(head | fields, sort_keys=True, separators=(",", ":"))
    return {"id": f"D-{seq}", "device": "TAB-Q", "sent_at": at, "received_at": at, "line": line}
