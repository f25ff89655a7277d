"""Writes a demo shop: `python -m demo_data.generator FOLDER --shop small|slice|full --seed 1`."""

import argparse
import sys
from pathlib import Path

from demo_data.generator.folder import write_shop
from demo_data.generator.selection import SELECTIONS


def main() -> None:
    """Write the folder that was asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--shop", choices=sorted(SELECTIONS), default="small")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    from demo_data.generator.cards import shown_cards

    write_shop(asked.folder, asked.shop, asked.seed, cards=shown_cards)
    print(f"written to {asked.folder}", file=sys.stderr)


if __name__ == "__main__":
    main()
