"""The file of a certificate: the paper a lot, a heat, a calibration or a qualification rests on, by its SHA-256."""

from typing import Literal

from pydantic import Field

from server.facts.noun import Noun

CertificateOf = Literal["fill lot", "filler lot", "tube heat", "calibration", "qualification"]


class CertificateFile(Noun):
    """One file kept for one line of a register; a better copy is another file beside it."""

    kind: Literal["certificate file"] = "certificate file"
    id: str
    of_kind: CertificateOf
    of: str = Field(description="id of the lot, the heat, the calibration or the qualification")
    name: str = Field(min_length=1, max_length=200, description="what the file was called")
    sha256: str = Field(pattern="^[0-9a-f]{64}$")
    length: int = Field(gt=0)
    told_by: str
