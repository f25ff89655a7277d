"""Makes a record of millions of entries: the small invented shop, loaded and judged, then its rows copied many times.

    python -m tests.benchmarks.big_record /tmp/big 2400000 --open 4

The first shop comes through the product. Each further one is a copy of its rows as if another such works wrote into the
same record at the same time: its frames, cylinders, sleeves, lots, heats, pieces, benches, gas lines, instruments,
tablets, customers and papers have names of their own (`N12-` before each), its people, procedures, designs and
acceptance figures are the first one's. All but a few (`--open`) are done with: their frames are shipped and what kept
a frame is decided; what is marginal or a note stays open for ever, as it does. Rows go in with every guard and index in
place.

Every line is sealed as the writer seals it: envelopes, leaves, chains, a checkpoint every thousand lines, and digests
beside what was judged, so such a record is good for checking too. Not good for: judging anew and be told nothing new,
since the copies share their welders; a copy's permissions name a position of the first shop.
"""

import argparse
import json
import re
import sqlite3
import sys
from collections import defaultdict
from collections.abc import Iterable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple

from server.commands._demo_shop import make_stand
from server.evidence.chain_subject import ChainSubject
from tests.benchmarks.copies_sealed import SealedCopies, with_digests

MARK = "\x01"
_OWN = frozenset(
    {"packet", "piece", "fill lot", "filler lot", "rod sleeve", "tube heat", "bench", "instrument", "calibration",
     "shipment", "permission", "decision", "concession", "nonconformity", "narrowing", "claim", "claim step",
     "customer", "ownership", "analysis", "window"}
)  # fmt: skip
_SHARED_LINES = frozenset(
    {"shop", "person", "qualification", "confirmation", "acceptance", "procedure", "design", "seal",
     "door change", "composition limits", "range table", "stand-in"}
)  # fmt: skip
_SHARED_CHAINS = frozenset({"welder", "register"})
_AT_ONCE = 50
_Row = dict[str, Any]


class _Shop(NamedTuple):
    """The first shop's rows, by table, with a mark before every name that is a works' own."""

    lines: list[_Row]
    links: list[_Row]
    verdicts: list[_Row]
    findings: list[_Row]
    details: list[_Row]


def make(folder: Path, entries: int, still_open: int = 4) -> Path:
    """Make the record in a folder unless it is there, and give its file; so many shops have something open."""
    file = folder / "record.sqlite3"
    if not (folder / "whole").exists():
        make_stand(folder, "small", lambda *_: None)
        with closing(sqlite3.connect(file, isolation_level=None)) as told:
            told.row_factory = sqlite3.Row
            for pragma in ("synchronous=OFF", "recursive_triggers=ON", "temp_store=MEMORY", "cache_size=-2000000"):
                told.execute(f"PRAGMA {pragma}")
            _multiply(told, SealedCopies(file), entries, still_open)
        (folder / "whole").touch()
    return file


def _multiply(told: sqlite3.Connection, sealed: SealedCopies, entries: int, still_open: int) -> None:
    shop = _marked(told)
    ends = [each | {"position": -number} for number, each in enumerate(_done_with(shop))]
    done = shop._replace(lines=[*shop.lines, *ends])
    per_shop = sum(each["kind"] == "entry" for each in shop.lines)
    there = told.execute("SELECT count(*) FROM line WHERE kind = 'entry'").fetchone()[0]
    for number in range(1, 1 + max(0, round((entries - there) / per_shop))):
        told.execute("BEGIN IMMEDIATE")
        _copy(told, shop if number < still_open else done, number, sealed)
        told.execute("COMMIT")
    _end(told, sealed)
    told.execute("INSERT INTO judged_to (book, position, judged_ms) SELECT 'then', max(position), 0 FROM line")
    told.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _marked(told: sqlite3.Connection) -> _Shop:
    lines = _rows(told, f"SELECT * FROM line WHERE kind NOT IN ({_quoted(_SHARED_LINES)}) ORDER BY position")
    kept = {each["position"] for each in lines}
    links = [each for each in _rows(told, "SELECT * FROM subject_link") if each["position"] in kept]
    marks = _names(lines, links)
    judged = [_rows(told, f"SELECT * FROM {table}") for table in ("verdict", "finding", "customer_details")]
    every = (lines, links, *judged)
    return _Shop(*([_with_marks(each, marks) for each in rows] for rows in every))


def _done_with(shop: _Shop) -> Iterator[_Row]:
    """A decision on every finding, and a shipment of every frame still in the house."""
    decision, shipment = (next(each for each in reversed(shop.lines) if each["kind"] == kind)
                          for kind in ("decision", "shipment"))  # fmt: skip
    gone = {each["frame"] for each in shop.lines if each["kind"] == "shipment"}
    keys = [each["key"] for each in shop.findings if each["severity"] != "note" and each["word"] != "marginal"]
    yield _another(decision, {"id": f"{MARK}D-all", "findings": keys})
    for each in shop.lines:
        if each["kind"] == "packet" and each["frame"] not in gone:
            yield _another(shipment, {"id": f"{MARK}S-{each['frame']}", "frame": each["frame"]})


def _another(line: _Row, told: _Row) -> _Row:
    body = json.loads(line["body"].replace(MARK, "\\u0001")) | told
    text = json.dumps(body, ensure_ascii=False, separators=(",", ":"), sort_keys=True).replace("\\u0001", MARK)
    return line | {"id": told["id"], "frame": body.get("frame"), "body": text}


def _names(lines: Iterable[_Row], links: Iterable[_Row]) -> re.Pattern[str]:
    """Every name that a works has to itself: of its papers and things, of its tablets, lines and cylinders."""
    names = {each["id"] for each in lines if each["kind"] in _OWN} | {each["device"] for each in lines}
    names |= {each["id"] for each in links if each["kind"] not in _SHARED_CHAINS}
    for each in lines:
        text = each["body"].decode()
        names |= set(re.findall(r'"(?:line|torch_line|purge_line|trailing_line|on|off|heat)":"([^"]+)"', text))
        for listed in re.findall(r'"cylinders":\[([^\]]+)\]', text):
            names |= set(re.findall(r'"([^"]+)"', listed))
    longest_first = sorted(names - {"none", "on", "off"}, key=lambda each: (-len(each), each))
    either = "|".join(map(re.escape, longest_first))
    return re.compile(rf"(?<![\w.-])(?=(?:{either})(?![\w.]))")


def _with_marks(row: _Row, marks: re.Pattern[str]) -> _Row:
    return {name: _marked_value(name, value, marks) for name, value in row.items()}


def _marked_value(name: str, value: Any, marks: re.Pattern[str]) -> Any:
    if name in ("body", "envelope"):
        return marks.sub(MARK, value.decode())
    texts = ("id", "delivery", "device", "boot", "frame", "of", "subject", "packed", "key", "about", "verdict")
    return marks.sub(MARK, value) if name in texts and isinstance(value, str) else value


def _copy(told: sqlite3.Connection, shop: _Shop, number: int, sealed: SealedCopies) -> None:
    """Write the shop's rows once more: its lines after the last, its places after the last in the chains it shares."""
    before = {table: told.execute(f"SELECT max(number) FROM {table}").fetchone()[0] for table in ("verdict", "finding")}
    named = f"N{number}-"
    subjects: dict[int, list[ChainSubject]] = defaultdict(list)
    for each in shop.links:
        subjects[each["position"]].append(ChainSubject(each["kind"], each["id"].replace(MARK, named)))
    details = {each["position"]: each for each in shop.details}
    lines, links, signed, apart = list[_Row](), list[_Row](), list[_Row](), list[_Row]()
    for each in shop.lines:
        row = _named(each, named)
        line, own = sealed.placed(row | {"body": row["body"].encode()}, sorted(subjects[each["position"]]))
        lines.append(line)
        links += own
        if beside := details.get(each["position"]):
            apart.append(beside | {"position": line["position"]})
        if sealed.checkpoint_due():
            line, own, checkpoint = sealed.seal()
            lines.append(line)
            links += own
            signed.append(checkpoint)
    for table, rows in (("line", lines), ("subject_link", links), ("checkpoint", signed), ("customer_details", apart)):
        _insert(told, table, rows)
    findings = [_named(each, named) for each in shop.findings]
    verdicts = with_digests([_named(each, named) for each in shop.verdicts], findings)
    for table, judged in (("verdict", verdicts), ("finding", findings)):
        _insert(told, table, ({**each, "number": before[table] + count, "known_at": sealed.size}
                              for count, each in enumerate(judged, 1)))  # fmt: skip


def _named(row: _Row, named: str) -> _Row:
    return {name: value.replace(MARK, named) if isinstance(value, str) else value for name, value in row.items()}


def _insert(told: sqlite3.Connection, table: str, rows: Iterable[_Row]) -> None:
    waiting: list[_Row] = []
    for each in rows:
        waiting.append(each)
        if len(waiting) == _AT_ONCE:
            _write(told, table, waiting)
            waiting.clear()
    if waiting:
        _write(told, table, waiting)


def _write(told: sqlite3.Connection, table: str, rows: list[_Row]) -> None:
    names = list(rows[0])
    marks = ", ".join([f"({', '.join('?' * len(names))})"] * len(rows))
    quoted = ", ".join(f'"{name}"' for name in names)
    told.execute(f'INSERT INTO "{table}" ({quoted}) VALUES {marks}', [row[name] for row in rows for name in names])


def _end(told: sqlite3.Connection, sealed: SealedCopies) -> None:
    """Seal what is left, so that the record opens without walking through more than its end."""
    if sealed.checkpoint_due(ending=True):
        line, links, signed = sealed.seal()
        for table, rows in (("line", [line]), ("subject_link", links), ("checkpoint", [signed])):
            _insert(told, table, rows)


def _rows(told: sqlite3.Connection, asked: str) -> list[_Row]:
    return [dict(row) for row in told.execute(asked)]


def _quoted(names: Iterable[str]) -> str:
    return ", ".join(f"'{name}'" for name in sorted(names))


def main(asked: list[str]) -> None:
    """Make a record of the size asked for in the folder named."""
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("folder", type=Path)
    options.add_argument("entries", type=int)
    options.add_argument("--open", type=int, default=4, help="how many of the shops have something open")
    told = options.parse_args(asked)
    file = make(told.folder, told.entries, told.open)
    print(f"{file}: {file.stat().st_size / 1e9:.2f} GB")


if __name__ == "__main__":
    main(sys.argv[1:])
