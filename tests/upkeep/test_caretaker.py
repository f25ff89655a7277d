"""The caretaker makes a backup when one is due, has it drilled, and gives a renewed certificate to the service."""

import logging
import os
import ssl
import subprocess
import sys
import time
from dataclasses import replace
from typing import Any

import pytest

from server.settings import Settings
from server.upkeep.backing_up import backup_due
from server.upkeep.backup_log import read_backup_log
from server.upkeep.caretaker import Caretaker
from server.upkeep.certificate import make_certificate
from server.upkeep.certificate_names import read_names
from server.upkeep.shelf import backups_on
from tests.upkeep.shop_data import HOUR, NOW


def test_the_first_round_backs_up_and_drills(settings: Settings):
    """With no backup yet, one look makes it and proves it; another look soon after makes none."""
    caretaker = Caretaker(settings, lambda: NOW)
    caretaker.look()
    log = read_backup_log(settings.data_folder)
    assert [log.backup, log.proved] == [folder.name for folder in backups_on(settings.shelf)] * 2
    caretaker.look()
    assert len(backups_on(settings.shelf)) == 1


@pytest.mark.parametrize(("hours", "due"), [(1, False), (23.9, False), (24, True), (100, True)])
def test_a_backup_is_due_after_its_hours(settings: Settings, hours: float, due: bool):
    """Not before the hours of the setting have gone by, and then at once."""
    Caretaker(settings, lambda: NOW).look()
    assert backup_due(settings, NOW + round(hours * HOUR)) is due


def test_none_is_made_where_none_is_wanted(settings: Settings):
    """With every 0 hours, or with PostgreSQL, the service makes none by itself."""
    assert backup_due(settings, NOW)
    assert not backup_due(replace(settings, backup_every_hours=0), NOW)
    assert not backup_due(replace(settings, database="postgresql+psycopg://shop/record"), NOW)


def test_one_that_failed_is_logged_and_tried_again(settings: Settings, caplog: pytest.LogCaptureFixture):
    """A shelf that cannot be written is told once an hour, and the caretaker goes on."""
    broken = replace(settings, backup_folder="record.key/x")
    with caplog.at_level(logging.ERROR):
        Caretaker(broken, lambda: NOW).look()
    assert "no backup was made" in caplog.text
    assert not backup_due(broken, NOW + HOUR // 2)
    assert backup_due(broken, NOW + HOUR)


def test_what_breaks_in_a_round_does_not_end_it(settings: Settings, caplog: pytest.LogCaptureFixture):
    """The thread itself makes the backup after its first wait, and ends when it is told to."""
    caretaker = Caretaker(settings, lambda: NOW, first_s=0.05)
    caretaker.start()
    until = time.monotonic() + 180
    while not read_backup_log(settings.data_folder).proved and time.monotonic() < until:
        time.sleep(0.05)
    caretaker.stop()
    assert read_backup_log(settings.data_folder).proved
    assert not caretaker.is_alive()


def test_a_changed_certificate_reaches_the_running_service(settings: Settings):
    """When the file has changed, the context the service answers with gets it; unchanged, it is left alone."""
    loaded: list[str] = []

    class Serving(ssl.SSLContext):
        def load_cert_chain(self, certfile: object, *_: object, **__: object) -> None:
            loaded.append(str(certfile))

    made = make_certificate(settings.data_folder, read_names(["weldlog.local"], []))
    caretaker = Caretaker(replace(settings, backup_every_hours=0), lambda: NOW)
    caretaker.tend_certificate(Serving(ssl.PROTOCOL_TLS_SERVER))
    caretaker.look()
    assert loaded == []
    os.utime(made.file, ns=(1, 1))
    caretaker.look()
    caretaker.look()
    assert loaded == [str(made.file)]


def test_the_service_ends_without_waiting_for_a_backup(settings: Settings, monkeypatch: pytest.MonkeyPatch):
    """Told to end while it copies, it leaves no half on the shelf; with the copy made it begins no drill any more."""
    caretaker = Caretaker(settings, lambda: NOW)
    caretaker.stopping()
    caretaker.look()
    assert list(settings.shelf.iterdir()) == []
    monkeypatch.setattr(Caretaker, "_go_on", lambda *_: None)
    caretaker.look()
    assert [folder.name for folder in settings.shelf.iterdir()] == [read_backup_log(settings.data_folder).backup]
    assert read_backup_log(settings.data_folder).proved is None


def test_the_service_ends_without_waiting_for_a_drill(settings: Settings, monkeypatch: pytest.MonkeyPatch):
    """Told to end while a drill runs that would take minutes, it breaks that off."""
    caretaker, begin, drills = Caretaker(settings, lambda: NOW), subprocess.Popen, list["subprocess.Popen[str]"]()

    def long_drill(_: object, **more: Any) -> "subprocess.Popen[str]":
        drills.append(begin([sys.executable, "-c", "import time; time.sleep(600)"], **more))
        caretaker.stopping()
        return drills[0]

    monkeypatch.setattr(subprocess, "Popen", long_drill)
    caretaker.look()
    assert [each.returncode for each in drills] not in ([], [None], [0])
