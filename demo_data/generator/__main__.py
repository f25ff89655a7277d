"""Writes a demo shop: `python -m demo_data.generator FOLDER --shop small|slice|full --version first|moved`."""

import argparse
import gc
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
    parser.add_argument("--pictures", action="store_true", help="draw the few pictures too, behind the rest")
    parser.add_argument("--progress", action="store_true", help="say on standard output how far it is")
    asked = parser.parse_args()
    # It makes no rings of garbage worth looking for, and ends soon.
    gc.disable()
    from demo_data.generator.cards import shown_cards

    version = VERSIONS[asked.version]
    version = version if asked.seed is None else replace(version, seed=asked.seed)
    write_shop(asked.folder, asked.shop, version, cards=shown_cards, progress=_say if asked.progress else None)
    print("written" if asked.progress else f"written to {asked.folder}", flush=True)
    if asked.pictures:
        from demo_data.generator.pictures import write_pictures

        write_pictures(asked.folder)


def _say(done: int, of: int) -> None:
    print(done, of, flush=True)


if __name__ == "__main__":
    main()
