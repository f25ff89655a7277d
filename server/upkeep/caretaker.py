"""Does at its hour what somebody would forget: backups with their drill, the certificate's renewal."""

import logging
import signal
import ssl
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from datetime import UTC, datetime

from server.settings import Settings
from server.upkeep.backing_up import back_up, backup_due
from server.upkeep.backup import CannotBackUp
from server.upkeep.certificate import CertificateBroken, read_certificate, renew_certificate

_LOG = logging.getLogger(__name__)
_FIRST_S, _EVERY_S = 90.0, 60.0
_LONGEST_DRILL_S = 6 * 3600
_TO_TIDY_UP_S = 10.0


class _Ending(Exception):
    """The service ends, so what is in the making is left off; its half is taken away."""


class Caretaker(threading.Thread):
    """Looks every minute; not in the first one and a half, when everybody signs in at once."""

    def __init__(self, settings: Settings, now: Callable[[], int], first_s: float = _FIRST_S) -> None:
        super().__init__(name="caretaker", daemon=True)
        self._settings = settings
        self._now = now
        self._wait_s = first_s
        self._ending = threading.Event()
        self._serving_with: ssl.SSLContext | None = None
        self._certificate_changed_ns = 0

    def tend_certificate(self, serving_with: ssl.SSLContext) -> None:
        """Let the context the service answers with have the renewed certificate, without a restart."""
        self._serving_with = serving_with
        self._certificate_changed_ns = self._changed_ns()

    def stopping(self) -> None:
        """Begin nothing more, and break off a backup or a drill; nothing half made is left."""
        self._ending.set()

    def stop(self) -> None:
        """End, after what cannot be broken off."""
        self.stopping()
        self.join()

    def run(self) -> None:
        """Look until told to stop; what goes wrong is logged and tried again."""
        while not self._ending.wait(self._wait_s):
            self._wait_s = _EVERY_S
            try:
                self.look()
            except Exception:
                _LOG.exception("the caretaker's round failed")

    def look(self) -> None:
        """Do what is due."""
        self._look_at_certificate()
        if backup_due(self._settings, self._now()):
            try:
                made = back_up(self._settings, self._now(), self._go_on)
            except _Ending:
                return
            except CannotBackUp as failed:
                _LOG.error("%s", failed)
                return
            _LOG.info("backed up %d lines as %s", made.manifest.lines, made.folder.name)
            if not self._ending.is_set():
                self._drill()

    def _drill(self) -> None:
        # In a process of its own and behind everything else: recomputing a long record takes its time.
        data = str(self._settings.data_folder)
        command = [sys.executable, "-P", "-m", "server", "drill", "--stand-back", "--data", data]
        begun_s = time.monotonic()
        with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as drilling:
            while (said := _said_by(drilling)) is None:
                if self._ending.is_set() or time.monotonic() - begun_s > _LONGEST_DRILL_S:
                    said = _stopped(drilling)
                    break
        if not self._ending.is_set():
            _LOG.log(logging.ERROR if drilling.returncode else logging.INFO, "drill: %s", said.strip())

    def _go_on(self, _doing: str, _done: int, _of: int) -> None:
        """Break a backup off where the service ends: of a long record it takes minutes."""
        if self._ending.is_set():
            raise _Ending

    def _look_at_certificate(self) -> None:
        try:
            if renewed := renew_certificate(self._settings.data_folder, datetime.now(UTC)):
                _LOG.info("the certificate was renewed until %s", renewed.ends.date())
        except CertificateBroken as broken:
            _LOG.error("%s", broken)
            return
        if self._serving_with and (changed_ns := self._changed_ns()) != self._certificate_changed_ns:
            self._serving_with.load_cert_chain(self._settings.data_folder / "certificate" / "server.pem")
            self._certificate_changed_ns = changed_ns

    def _changed_ns(self) -> int:
        found = read_certificate(self._settings.data_folder)
        return found.file.stat().st_mtime_ns if found else 0


def _said_by(process: "subprocess.Popen[str]", within_s: float = 1.0) -> str | None:
    try:
        return process.communicate(timeout=within_s)[0]
    except subprocess.TimeoutExpired:
        return None


def _stopped(process: "subprocess.Popen[str]") -> str:
    """Have it end as by hand, so that it takes away what it made; kill it where it does not."""
    process.send_signal(signal.SIGINT)
    if (said := _said_by(process, _TO_TIDY_UP_S)) is None:
        process.kill()
        said = process.communicate()[0]
    return said
