"""The program is killed in the middle of its work: what it had said to be kept is there, once, and everything holds."""

import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.record.record_check import check_record
from tests.record.fixtures import url_of

ROOT = Path(__file__).resolve().parents[2]


def work_and_be_killed(file: Path, first: int, answers: int, wait_s: float) -> set[int]:
    """Let the program answer so often and go on a moment, kill it, and give the numbers it had answered for."""
    command = [sys.executable, "-m", "tests.record.killed_writer", url_of(file), str(first)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as program:
        assert program.stdout
        said = "".join(program.stdout.readline() for _ in range(answers))
        time.sleep(wait_s)
        program.send_signal(signal.SIGKILL)
        said += program.stdout.read()
    assert program.returncode == -signal.SIGKILL
    # The last line may have been cut off in the middle of being said.
    whole = said[: said.rfind("\n") + 1]
    return set(map(int, whole.split()))


def kept(file: Path) -> list[int]:
    record = Record.open(url_of(file))
    with record.reads() as reads:
        found = [each.entry.seq for each in reads.every_entry()]
    record.close()
    return found


def kill_several_times(file: Path, times: int) -> None:
    dice, said = random.Random(20250318), set[int]()
    for round_number in range(times):
        said |= work_and_be_killed(file, 100_000 * round_number, dice.randrange(2, 30), dice.uniform(0.0, 0.1))
    found = kept(file)
    assert said <= set(found)
    assert len(found) == len(set(found))
    assert len(said) > 3 * times
    assert check_record(url_of(file), file.parent).odd == ()


def test_nothing_acknowledged_is_lost(file: Path):
    """Killed three times at a moment nobody chose, the record has every line it answered for, once."""
    kill_several_times(file, 3)


@pytest.mark.long
def test_nothing_acknowledged_is_lost_in_many_kills(file: Path):
    """The same a hundred times on one file."""
    kill_several_times(file, 100)


def test_a_lost_line_would_be_seen(file: Path):
    """Control: with one line taken out of the file again, the same comparison finds it missing."""
    from tests.record.tampering import tamper

    said = work_and_be_killed(file, 0, 2, 0.01)
    tamper(file, "DELETE FROM line WHERE position = 2")
    assert not said <= set(kept(file))
