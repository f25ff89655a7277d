"""Seals the copied lines of a big record as the writer would: envelopes, leaves, chains and a checkpoint on the way."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from server.evidence.chain_subject import ChainSubject
from server.evidence.checkpoints import Checkpoint, sign_checkpoint
from server.evidence.seals import SEALS, Seal, seal_line
from server.record.drafts import Draft, Drafted
from server.record.engines import make_engines
from server.record.envelope import SEAL
from server.record.judged import digest_of_kept
from server.record.lines import NewLine
from server.record.sealing import AFTER_LINES, newest_checkpoint
from server.record.signing_key import read_signer
from server.record.standing import Standing, read_standing

_Row = dict[str, Any]
_LINKED = ("kind", "id", "number", "position", "head")


class SealedCopies:
    """Where the copied record stands: each line goes on from there, and a checkpoint is made every thousand lines."""

    def __init__(self, file: Path) -> None:
        engine = make_engines(f"sqlite:///{file}").reading
        with engine.connect() as connection:
            self._standing: Standing = read_standing(connection)
            newest = newest_checkpoint(connection)
        engine.dispose()
        signer = read_signer(file.parent)
        if signer is None or newest is None:
            raise SystemExit("the record has no key, or nothing in it was signed")
        self._signer, self._last, self._now_ms = signer, newest.checkpoint, newest.made_ms
        self._draft = Draft(self._standing)

    @property
    def size(self) -> int:
        """How many lines there are, which is the position of the last one."""
        return self._draft.size

    def placed(self, row: _Row, subjects: Sequence[ChainSubject]) -> tuple[_Row, list[_Row]]:
        """Give a line with its envelope and leaf, and its places in the chains."""
        told = {name: row[name] for name in NewLine._fields if name in row}
        repeat = row["body_sha256"] if row["state"] == "taken before" else b""
        return _rows_of(self._draft.place(NewLine(**told | {"subjects": tuple(subjects), "body_sha256": repeat})))

    def checkpoint_due(self, *, ending: bool = False) -> bool:
        """Say whether so many lines came since the last seal that the writer would make one."""
        unsealed = self.size - self._standing.sealed_size
        return unsealed >= (1 if ending else AFTER_LINES)

    def seal(self) -> tuple[_Row, list[_Row], _Row]:
        """Seal all lines so far: the seal, its places in the chains, and the signed checkpoint."""
        standing = self._standing
        standing.keep(self._draft)
        body = seal_line(Seal(standing.subjects_root(), len(standing.subjects), self._now_ms, self._last.digest()))
        self._draft = Draft(standing)
        name = f"seal {self.size + 1}"
        line, links = _rows_of(self._draft.place(NewLine(SEAL, name, "record", body, self._now_ms, subjects=(SEALS,))))
        standing.keep(self._draft)
        self._draft = Draft(standing)
        self._last = Checkpoint(self._signer.key.name, standing.size, standing.frontier.root())
        standing.sealed_size = standing.size
        signed = {"size": standing.size, "root": self._last.root, "peaks": b"".join(standing.frontier.peaks),
                  "note": sign_checkpoint(self._last, self._signer), "made_ms": self._now_ms}  # fmt: skip
        return line, links, signed


def _rows_of(drafted: Drafted) -> tuple[_Row, list[_Row]]:
    return drafted.line._asdict(), [dict(zip(_LINKED, link, strict=True)) for link in drafted.links]


def with_digests(verdicts: Iterable[_Row], findings: Iterable[_Row]) -> Iterator[_Row]:
    """Give verdict rows whose digest fits what stands by it; only of the newest of a subject that is looked at."""
    standing: dict[str, _Row] = {each["key"]: each for each in findings}
    texts: dict[tuple[str, str], dict[str, str]] = {}
    for each in standing.values():
        if not each["gone"]:
            texts.setdefault((each["about"], each["level"]), {})[each["key"]] = each["verdict"]
    for each in verdicts:
        own: Mapping[str, str] = texts.get((each["subject"], each["level"]), {})
        yield each | {"digest": digest_of_kept(each["subject"], each["packed"], own)}
