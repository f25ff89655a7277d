"""Checks a dossier's attached data by itself, without the record: that no line of the frame was left out or altered."""

import argparse
import json
from pathlib import Path
from typing import Any

_CUSTOMERS = (
    "This is a customer's version, told without names: it shows that no line of the frame was left out, put in or "
    "altered. Whether the values and words in it are those of the lines can be seen in the shop's own version alone, "
    "whose lines have their texts."
)


def run(arguments: list[str]) -> int:
    """Check, say what does not hold, and give 1 where anything does not, 2 where it could not be checked."""
    asked = _asked(arguments)
    try:
        told = json.loads(asked.file.read_bytes())
        proof = told["proof"] or {}
        fails, said = _checked(told, proof, asked.key or str(proof.get("key", "")))
    except (OSError, ValueError, KeyError, TypeError) as slip:
        print(f"not checked: {type(slip).__name__}: {slip}; expected the dossier.json of a frame with a checkpoint")
        return 2
    for each in fails:
        print(each)
    if not asked.key:
        print("The key is the dossier's own: compare it with the one the shop gives by another way.")
    print(f"{said}: {f'{len(fails)} things do not hold' if fails else 'everything holds'}")
    if told.get("for") == "customer":
        print(_CUSTOMERS)
    return 1 if fails else 0


def _checked(told: dict[str, Any], proof: dict[str, Any], key: str) -> tuple[list[str], str]:
    from server.evidence.note_keys import read_key
    from server.evidence.subject_proof import line_fails, read_proof, what_fails

    lines = told["lines"]
    sealed = [bytes.fromhex(each["leaf"]) for each in lines if each["under_the_checkpoint"]]
    fails = list(what_fails(read_proof(proof), sealed, read_key(key)))
    for each in lines:
        slip = line_fails(bytes.fromhex(each["leaf"]), each["envelope"], each["body"])
        fails += [f"line at position {each['position']}: {slip}"] if slip else []
    later, texts = len(lines) - len(sealed), sum(each["envelope"] is not None for each in lines)
    return fails, f"{len(sealed)} lines under the checkpoint, {later} after it, {texts} with their texts"


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline check-dossier", description=__doc__)
    parser.add_argument("file", type=Path, help="dossier.json, saved from the PDF's attachments or from the export")
    parser.add_argument("--key", help="the record's public key, as the shop gave it by another way")
    return parser.parse_args(arguments)
