"""Hands a letter to the shop's own mail server: over TLS, or plainly only without a password."""

import smtplib
import ssl
from email.message import EmailMessage
from email.utils import formatdate, make_msgid

from server.settings import BadSetting, Settings

_PATIENCE_S = 20.0


class NotPosted(Exception):
    """The mail server did not take the letter; the words say what it said and what to look at."""


def mail_is_on(settings: Settings) -> bool:
    """Tell whether letters are sent; raises `BadSetting` where something needed for it is missing."""
    if not settings.mail_server:
        return False
    for name in ("mail_from", "mail_to"):
        if "@" not in getattr(settings, name):
            raise BadSetting(f"{name} is {getattr(settings, name)!r}; with mail_server set an address is expected")
    if settings.mail_password and settings.mail_secured == "no":
        raise BadSetting("mail_secured is 'no' and a mail_password is set; a password is sent over TLS only")
    return True


def post(settings: Settings, letter: EmailMessage) -> None:
    """Send a letter to everybody in `mail_to`; raises `NotPosted`."""
    letter["From"], letter["To"] = settings.mail_from, settings.mail_to
    letter["Date"], letter["Message-ID"] = formatdate(), make_msgid(domain=settings.mail_from.rpartition("@")[2])
    try:
        with _connected(settings) as server:
            if settings.mail_user:
                server.login(settings.mail_user, settings.mail_password)
            server.send_message(letter)
    except (OSError, smtplib.SMTPException) as error:
        where = f"{settings.mail_server}:{settings.mail_port}"
        raise NotPosted(f"the mail server {where} did not take the letter ({error}); see to mail_* settings") from error


def _connected(settings: Settings) -> smtplib.SMTP:
    if settings.mail_secured == "tls":
        context = ssl.create_default_context()
        return smtplib.SMTP_SSL(settings.mail_server, settings.mail_port, timeout=_PATIENCE_S, context=context)
    server = smtplib.SMTP(settings.mail_server, settings.mail_port, timeout=_PATIENCE_S)
    if settings.mail_secured == "starttls":
        server.starttls(context=ssl.create_default_context())
    return server
