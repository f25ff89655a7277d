"""Reads the words of a PDF back as they stand on its pages."""

import subprocess


def words_of(pdf: bytes) -> str:
    """Give them without spaces, so that where a line was broken does not matter."""
    done = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True)
    assert done.returncode == 0, "pdftotext is missing: apt-get install poppler-utils, or run .ci/run"
    return close(done.stdout.decode())


def close(text: str) -> str:
    """Leave the spaces out."""
    return "".join(text.split())
