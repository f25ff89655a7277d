"""Make the owner's account, or give the owner a new pass phrase; first of all, and while nothing is served."""

import argparse
import getpass
import sys
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Ask for the pass phrase and keep its hash."""
    asked = _asked(arguments)
    from server.commands._writing import writing
    from server.record.book_of_lines import now_ms
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.work.make_owner import make_owner, owner_meant
    from server.work.refusal import Refusal

    try:
        with writing(read_settings(asked.data.resolve())) as record:
            with record.reads() as reads:
                person = owner_meant(reads.registers(), asked.id, asked.name)
            make_owner(record, person, _phrase(person.name), now_ms())
    except (BadSetting, Refusal, RecordTrouble) as refused:
        print(refused, file=sys.stderr)
        return 2
    print(f"{person.name} ({person.id}) signs in with this pass phrase and sets the PINs of the others at /people")
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline owner", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    parser.add_argument("--id", help="the owner's id in the registers; left out, the only owner there is, or OWNER")
    parser.add_argument("--name", help="the name of an owner the registers do not know yet")
    return parser.parse_args(arguments)


def _phrase(name: str) -> str:
    """Ask for the pass phrase twice on a terminal; otherwise read the first line that comes in."""
    from server.work.refusal import Refusal

    if not sys.stdin.isatty():
        return sys.stdin.readline().rstrip("\n")
    phrase = getpass.getpass(f"Pass phrase of {name}, 12 characters or more: ")
    if getpass.getpass("Once more: ") != phrase:
        raise Refusal("The two are not the same; nothing was changed. Start again.")
    return phrase
