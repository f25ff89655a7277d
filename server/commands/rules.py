"""Writes the rule book as a page to read, `docs/rules.md`."""

import argparse
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Write the page to the file named."""
    from server.judgement.described import rules_page

    file: Path = _asked(arguments).file
    if not file.parent.is_dir():
        print(f"rules: {str(file.parent)!r} is no folder; name a file in one that is there, such as docs/rules.md")
        return 2
    file.write_text(rules_page(), encoding="utf-8")
    print(f"wrote {file}")
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline rules", description=__doc__)
    parser.add_argument("file", type=Path, nargs="?", default=Path("docs/rules.md"), help="where to write it")
    return parser.parse_args(arguments)
