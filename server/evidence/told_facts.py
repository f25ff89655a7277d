"""Whether what a dossier tells of entries and signed papers is what the sealed texts beside it say."""

import json
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from server.facts.log import LOG_ENTRY, AnyEntry
from server.facts.moment import show_moment
from server.facts.register_line import REGISTER_LINE

_PAPERS = {
    "decisions": "decision",
    "permissions": "permission",
    "concessions": "concession",
    "nonconformities": "nonconformity",
    "shipments": "shipment",
}
_AMONG_THE_PHOTOS = ("photo", "arrived")
# Put into words by the house, left out on purpose, or narrowed to one joint.
_NOT_OF_THE_TEXT = frozenset({"shown", "signatures", "seen", "open_findings"})
_VALUE = ("name", "value", "unit", "how", "by")
_SIGNED = ("person", "role", "meaning")
Told = Mapping[str, Any]


class _Sealed(NamedTuple):
    """The sealed texts by id: entries as they were taken, what corrects them, and papers, each as often as told."""

    entries: dict[str, tuple[AnyEntry, Told]]
    papers: dict[tuple[str, str], list[dict[str, Any]]]


def told_otherwise(told: Told) -> Iterator[str]:
    """Say what is told and not sealed, sealed and not told, or told otherwise; only lines with their text are held."""
    sealed = _read(told["lines"])
    entries = [each for joint in told["joints"] for attempt in joint["attempts"] for each in attempt["entries"]]
    every = {each["id"]: each for each in (*entries, *told["way"])}
    for name, each in every.items():
        if name not in sealed.entries:
            yield f"entry {name}: it is told, but no sealed line of the frame is it"
            continue
        yield from (f"entry {name}: {slip}" for slip in _entry_slips(each, *sealed.entries[name], sealed))
    for name, (entry, _) in sealed.entries.items():
        if name not in every and entry.kind not in (*_AMONG_THE_PHOTOS, "correction"):
            yield f"entry {name}: it is sealed, but not told"
    yield from _paper_slips(told, sealed)


def _read(lines: list[Told]) -> _Sealed:
    found = _Sealed({}, {})
    for line in lines:
        if line["envelope"] is None or line["body"] is None:
            continue
        envelope = json.loads(line["envelope"])
        if line["kind"] == "entry" and envelope.get("state") == "taken":
            found.entries[line["id"]] = (LOG_ENTRY.validate_json(line["body"]), envelope)
        elif line["kind"] in _PAPERS.values():
            paper = REGISTER_LINE.validate_json(line["body"]).model_dump(mode="json")
            found.papers.setdefault((line["kind"], line["id"]), []).append(paper)
    return found


def _entry_slips(told: Told, entry: AnyEntry, envelope: Told, sealed: _Sealed) -> Iterator[str]:
    values = [
        dict(zip(_VALUE, (name, each.value, each.unit, each.how, each.by), strict=True))
        for name, each in getattr(entry, "values", {}).items()
    ]
    mending = [
        {"id": each.id, "reason": each.reason, "withdrawn": each.withdraw}
        for each, _ in sealed.entries.values()
        if each.kind == "correction" and each.of == entry.id
    ]
    wanted = {
        "kind": entry.kind,
        "joint": getattr(entry, "joint", None),
        "who": entry.who,
        "card": entry.card,
        "late_reason": entry.late_reason,
        "note": entry.note,
        "photo": getattr(entry, "photo", None) or getattr(entry, "sha256", None),
        "received": envelope["received"],
        "position": envelope["position"],
        "values": values,
        "mended_by": mending,
    }
    found = {name: told.get(name) for name in wanted}
    found["values"] = [{name: each.get(name) for name in _VALUE} for each in told["values"]]
    yield from _differing(found, wanted)


def _paper_slips(told: Told, sealed: _Sealed) -> Iterator[str]:
    for name, kind in _PAPERS.items():
        for paper in told[name]:
            texts = sealed.papers.get((kind, str(paper.get("id"))), [])
            if not texts:
                yield f"{kind} {paper.get('id')}: it is told, but no sealed line of the frame is it"
            elif slips := [list(_one_paper(paper, text)) for text in texts]:
                # Told again under one id it stands as it was told last, or as a gate once saw it.
                yield from (f"{kind} {paper['id']}: {slip}" for slip in min(slips, key=len))


def _one_paper(paper: Told, text: Told) -> Iterator[str]:
    wanted = {name: value for name, value in text.items() if name not in _NOT_OF_THE_TEXT}
    yield from _differing({name: paper.get(name) for name in wanted}, wanted)
    found, signed = ([_signed(each) for each in of.get("signatures", ())] for of in (paper, text))
    yield from _differing({"signatures": found}, {"signatures": signed})


def _signed(told: Told) -> Told:
    at = told.get("at")
    return {name: told.get(name) for name in _SIGNED} | {"at": show_moment(at) if isinstance(at, int) else at}


def _differing(found: Told, wanted: Told) -> Iterator[str]:
    for name, value in wanted.items():
        if found[name] != value:
            yield f"{name} is told as {str(found[name])[:80]!r}, sealed is {str(value)[:80]!r}"
