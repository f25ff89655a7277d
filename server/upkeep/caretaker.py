"""Does at its hour what somebody would forget: backups with their drill, the certificate's renewal."""

import logging
import ssl
import subprocess
import sys
import threading
from collections.abc import Callable
from datetime import UTC, datetime

from server.settings import Settings
from server.upkeep.backing_up import back_up, backup_due
from server.upkeep.backup import CannotBackUp
from server.upkeep.certificate import CertificateBroken, read_certificate, renew_certificate

_LOG = logging.getLogger(__name__)
_FIRST_S, _EVERY_S = 90.0, 60.0
_LONGEST_DRILL_S = 3600


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

    def stop(self) -> None:
        """End, after what is being done."""
        self._ending.set()
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
                made = back_up(self._settings, self._now())
            except CannotBackUp as failed:
                _LOG.error("%s", failed)
                return
            _LOG.info("backed up %d lines as %s", made.manifest.lines, made.folder.name)
            self._drill()

    def _drill(self) -> None:
        # In a process of its own and behind everything else: recomputing a long record takes its time.
        data = str(self._settings.data_folder)
        command = [sys.executable, "-P", "-m", "server", "drill", "--stand-back", "--data", data]
        done = subprocess.run(command, capture_output=True, text=True, timeout=_LONGEST_DRILL_S, check=False)
        said = (done.stdout + done.stderr).strip()
        _LOG.log(logging.ERROR if done.returncode else logging.INFO, "drill: %s", said)

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
