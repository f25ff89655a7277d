"""Writes a demo shop: `python -m demo_data.generator FOLDER --shop small|slice|full --version first|moved`."""

import argparse
import sys
from dataclasses import replace
from pathlib import Path

from demo_data.generator.elsewhere import VERSIONS
from demo_data.generator.folder import write_shop
from demo_data.generator.selection import SELECTIONS


def main() -> None:
    """Write the folder that was asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--shop", choices=sorted(SELECTIONS), default="small")
    parser.add_argument("--version", choices=sorted(VERSIONS), default="first")
    parser.add_argument("--seed", type=int, help="another seed than the version's own")
    asked = parser.parse_args()
    from demo_data.generator.cards import shown_cards

    version = VERSIONS[asked.version]
    version = version if asked.seed is None else replace(version, seed=asked.seed)
    write_shop(asked.folder, asked.shop, version, cards=shown_cards)
    print(f"written to {asked.folder}", file=sys.stderr)


if __name__ == "__main__":
    main()
