"""Remove a customer's details for good, signed by the owner; while it is served, the page /customers does it."""

import argparse
import getpass
import sys
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Ask the owner to sign, remove the details, and say what may still hold them."""
    asked = _asked(arguments)
    from server.commands._writing import writing
    from server.record.book_of_lines import now_ms
    from server.record.lines import HOUSE
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.work.customer_sheet import customer_sheet
    from server.work.refusal import Refusal
    from server.work.remove_details import RemovalAsked, remove_details
    from server.work.signature import Signing, prove_again
    from server.work.still_holds import still_holds

    meaning = f"details of customer {asked.customer} removed for good"
    try:
        settings = read_settings(asked.data.resolve())
        with writing(settings) as record:
            with record.reads() as reads:
                customer_sheet(reads.registers(), asked.customer)
            signing = Signing(asked.by, _phrase(asked.by), HOUSE, "owner", meaning)
            prove_again(record, signing, now_ms())
            remove_details(record, RemovalAsked(asked.customer, asked.reason, (signing,)), now_ms())
            with record.reads() as reads:
                removal = reads.registers().customer_removals[asked.customer]
            left = still_holds(settings, removal, log_is_empty=not record.forgetting)
    except (BadSetting, Refusal, RecordTrouble) as refused:
        print(refused, file=sys.stderr)
        return 2
    print(f"{removal.id}: the details of {asked.customer} are removed from the record. What may still hold them:")
    for each in left:
        print(f"- {each}")
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline remove-details", description=__doc__)
    parser.add_argument("customer", help="the customer's number")
    parser.add_argument("--by", required=True, help="the owner's id in the registers, who signs")
    parser.add_argument("--reason", required=True, help="who asked for it and why, without the name: it is sealed")
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    return parser.parse_args(arguments)


def _phrase(person: str) -> str:
    if not sys.stdin.isatty():
        return sys.stdin.readline().rstrip("\n")
    return getpass.getpass(f"Pass phrase of {person}, who signs: ")
