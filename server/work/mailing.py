"""Sends the morning list once a day at its hour, when the shop has switched that on."""

import logging
import threading
from collections.abc import Callable
from datetime import datetime, time
from pathlib import Path
from zoneinfo import ZoneInfo

from server.record.book_of_lines import Record
from server.settings import Settings
from server.upkeep.posting import NotPosted, mail_is_on, post
from server.work.morning_list import morning_list
from server.work.morning_mail import morning_letter

_LOG = logging.getLogger(__name__)
_EVERY_S, _AGAIN_AFTER = 60.0, 10
SENT = "morning-letter.sent"
"""The file in the data folder that keeps the day of the last letter, so that a restart sends no second one."""


class Mailing(threading.Thread):
    """Looks every minute whether today's letter is due."""

    def __init__(self, record: Record, settings: Settings, now: Callable[[], int], every_s: float = _EVERY_S) -> None:
        super().__init__(name="mailing", daemon=True)
        self._record = record
        self._settings = settings
        self._now = now
        self._every_s = every_s
        self._wait_s = every_s
        self._ending = threading.Event()

    def stop(self) -> None:
        """End, after what is being done."""
        self._ending.set()
        if self.is_alive():
            self.join()

    def run(self) -> None:
        """Look until told to stop; a letter that was not taken is logged and tried again after a while."""
        while not self._ending.wait(self._wait_s):
            self._wait_s = self._every_s
            try:
                self.look()
            except NotPosted as refused:
                self._wait_s = _AGAIN_AFTER * self._every_s
                _LOG.error("%s", refused)
            except Exception:
                _LOG.exception("the morning letter could not be made")

    def look(self) -> bool:
        """Send today's letter if it is due and was not sent; tell whether it was sent now."""
        with self._record.reads() as reads:
            registers = reads.registers()
            local = datetime.fromtimestamp(self._now() / 1000, ZoneInfo(registers.zone))
            day, sent = local.date().isoformat(), self._settings.data_folder / SENT
            if local.time() < time.fromisoformat(self._settings.mail_at) or _last(sent) >= day:
                return False
            shop = registers.shop.name if registers.shop else "Shop"
            letter = morning_letter(morning_list(reads, 0), shop, day, self._settings.mail_link)
        post(self._settings, letter)
        sent.write_text(day, encoding="ascii")
        return True


def mailing(record: Record, settings: Settings, now: Callable[[], int]) -> Mailing | None:
    """Make the thread; none while mail is off. Raises `BadSetting`."""
    return Mailing(record, settings, now) if mail_is_on(settings) else None


def _last(sent: Path) -> str:
    return sent.read_text(encoding="ascii").strip() if sent.is_file() else ""
