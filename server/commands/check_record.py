"""Recomputes the whole record and its files, and names whatever was altered, left out, put in, lost or damaged."""

import argparse
import json
from collections.abc import Iterator
from pathlib import Path

STOPPED = (
    "Nothing was changed, and nothing is said of the record: it is checked as a whole. "
    "Type it again to begin anew."
)


def run(arguments: list[str]) -> int:
    """Check, say what does not hold, and give 1 where anything does not, 2 where it could not be checked."""
    asked = _asked(arguments)
    from server.commands._telling import telling
    from server.record.record_check import CannotCheck, check_files, check_record
    from server.settings import BadSetting, read_settings

    try:
        settings = read_settings(asked.data.resolve())
        outside = [note_in(file.read_bytes()) for file in asked.outside]
        with telling() as say:
            found = check_record(settings.database_url, settings.data_folder, outside, asked.key, say)
            files = check_files(settings.database_url, settings.data_folder, say)
    except (BadSetting, CannotCheck, OSError) as slip:
        print(f"not checked: {slip}")
        return 2
    odd = (*found.odd, *files.odd)
    for said in (*odd, *files.never_came):
        print(said)
    for said in _believed(asked, found.after_the_last):
        print(said)
    verdict = f"{len(odd)} things do not hold" if odd else "everything holds"
    held = f"{found.lines} lines, {found.checkpoints} checkpoints, {files.named} files, {len(outside)} from outside"
    print(f"{held}: {verdict}")
    return 1 if odd else 0


def note_in(content: bytes) -> bytes:
    """Give the signed checkpoint that a file is, or that the data of a dossier holds."""
    try:
        return str(json.loads(content)["checkpoint"]).encode()
    except (ValueError, KeyError, TypeError):
        return content


def _believed(asked: argparse.Namespace, after_the_last: int) -> Iterator[str]:
    """Say what the check rests on, since a whole record put back or written anew holds in itself."""
    if not asked.key:
        yield "The key is the data folder's own: compare it with the one that was handed out (--key)."
    if not asked.outside:
        yield "No checkpoint from outside was compared: that nothing was cut off at an earlier one is not shown."
    if after_the_last:
        yield f"{after_the_last} lines stand after the last checkpoint, held by their chains alone until the next."


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline check-record", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    came_back = "checkpoints that were handed out and came back, or a dossier.json"
    parser.add_argument("--outside", type=Path, nargs="*", default=[], help=came_back)
    parser.add_argument("--key", help="the record's public key, as it was handed out; otherwise the data folder's own")
    return parser.parse_args(arguments)
