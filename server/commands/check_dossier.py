"""Checks a dossier's attached data by itself, without the record: that no line of the frame was left out or altered."""

import argparse
import json
from collections.abc import Iterator
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
        content = asked.file.read_bytes()
        if content.startswith(b"%PDF"):
            print("not checked: this is the PDF; save the file attached to it, dossier.json, and name that one")
            return 2
        told = json.loads(content)
        proof = told["proof"] or {}
        fails, said = _checked(told, proof, asked.key or str(proof.get("key", "")))
    except OSError as slip:
        print(f"not checked: {asked.file} cannot be read ({slip.strerror}); name the dossier.json")
        return 2
    except (ValueError, KeyError, TypeError, AttributeError) as slip:
        print(f"not checked: {asked.file} is no dossier.json of a frame with a checkpoint, or not whole ({slip})")
        return 2
    for each in (*fails, *said):
        print(each)
    if not asked.key:
        print("The key is the dossier's own: compare it with the one the shop gives by another way.")
    print(f"{len(fails)} things do not hold" if fails else "everything holds")
    return 1 if fails else 0


def _checked(told: dict[str, Any], proof: dict[str, Any], key: str) -> tuple[list[str], list[str]]:
    from server.evidence.note_keys import read_key
    from server.evidence.subject_proof import read_proof, what_fails

    lines = told["lines"]
    sealed = [bytes.fromhex(each["leaf"]) for each in lines if each["under_the_checkpoint"]]
    read = read_proof(proof)
    fails = [] if tuple(read.subject) == ("frame", told["serial"]) else [_of_another(told, read.subject)]
    if told["checkpoint"] != proof["checkpoint"]:
        fails.append("the checkpoint told at the top is not the one of the proof")
    fails += what_fails(read, sealed, read_key(key))
    fails += [slip for each in lines if (slip := _line_slip(each))]
    return [*fails, *_told_otherwise(told, fails)], list(_held(told, proof, len(sealed)))


def _of_another(told: dict[str, Any], subject: object) -> str:
    return f"the proof is of {subject}, the dossier tells of frame {told['serial']}: it is another one's"


def _line_slip(line: dict[str, Any]) -> str | None:
    from server.evidence.subject_proof import line_fails

    slip = line_fails(bytes.fromhex(line["leaf"]), line["envelope"], line["body"])
    if slip is None and line["envelope"] is not None:
        sealed = json.loads(line["envelope"])
        odd = [name for name in ("position", "id", "kind") if line[name] != sealed[name]]
        slip = f"its {odd[0]} is told as {line[odd[0]]!r}, sealed is {sealed[odd[0]]!r}" if odd else None
    return f"line at position {line['position']}: {slip}" if slip else None


def _told_otherwise(told: dict[str, Any], fails: list[str]) -> list[str]:
    """Hold what is told in words and figures against the texts, where those are the sealed ones themselves."""
    from server.evidence.told_facts import told_otherwise

    return [] if fails or told["for"] == "customer" else list(told_otherwise(told))


def _held(told: dict[str, Any], proof: dict[str, Any], sealed: int) -> Iterator[str]:
    """Say what was held against what, and what nothing here holds."""
    name, size = (*str(proof["checkpoint"]).split("\n"), "")[:2]
    later, texts = len(told["lines"]) - sealed, sum(each["envelope"] is not None for each in told["lines"])
    yield f"frame {told['serial']} in the record {name}, checkpoint over {size} lines"
    yield f"{sealed} lines under the checkpoint, {later} after it, {texts} with their texts"
    if later:
        yield f"The {later} after it are held by nothing yet: a dossier made after the next checkpoint holds them."
    if told["for"] == "customer":
        yield _CUSTOMERS
    yield "Not sealed: verdicts and findings, which are judged from the lines; the pages of the PDF set from this data."
    yield "Not held by this proof: certificates and checks beside the work; they bear no serial and have other chains."


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline check-dossier", description=__doc__)
    parser.add_argument("file", type=Path, help="dossier.json, saved from the PDF's attachments or from the export")
    parser.add_argument("--key", help="the record's public key, as the shop gave it by another way")
    return parser.parse_args(arguments)
