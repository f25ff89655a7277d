"""Settings of one running service: environment first, then one file in the data folder, then a sensible default."""

import os
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path

FILE_NAME = "strawline.toml"
_TIME = re.compile(r"([01]\d|2[0-3]):[0-5]\d")
_DATABASE = re.compile(r"(sqlite|postgresql(\+psycopg)?)://")
_LEAST = {"backup_every_hours": 0}
_MOST = {"port": 65535, "mail_port": 65535}
_WORDS = {"log_level": ("debug", "info", "warning", "error"), "mail_secured": ("starttls", "tls", "no")}


class BadSetting(ValueError):
    """A setting that cannot be used, in words that say which, what it is and what would do."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What a service runs by; `came_from` tells for each setting where its value was found."""

    data_folder: Path
    database: str = ""
    host: str = "127.0.0.1"
    port: int = 8137
    session_idle_minutes: int = 30
    session_hours: int = 12
    late_after_minutes: int = 15
    backup_folder: str = ""
    backup_every_hours: int = 24
    backup_keep: int = 14
    backup_with_key: bool = True
    log_level: str = "info"
    mail_server: str = ""
    mail_port: int = 587
    mail_secured: str = "starttls"
    mail_user: str = ""
    mail_password: str = field(default="", repr=False)
    mail_from: str = ""
    mail_to: str = ""
    mail_at: str = "06:30"
    mail_link: str = ""
    came_from: dict[str, str] = field(default_factory=dict, compare=False)

    @property
    def database_url(self) -> str:
        """The database, a SQLite file in the data folder unless another is named."""
        return self.database or f"sqlite:///{self.data_folder / 'record.sqlite3'}"

    @property
    def shelf(self) -> Path:
        """Where backups lie, in the data folder unless another folder is named."""
        return self.data_folder / (self.backup_folder or "backups")


def read_settings(data_folder: Path, environment: Mapping[str, str] | None = None) -> Settings:
    """Gather the settings for one data folder; raises `BadSetting` naming setting, value and what is expected."""
    environment = os.environ if environment is None else environment
    told = _told_by_file(data_folder / FILE_NAME)
    values: dict[str, object] = {}
    came_from = {"data_folder": "the command line"}
    for each in fields(Settings):
        if each.name in ("data_folder", "came_from"):
            continue
        variable = f"STRAWLINE_{each.name.upper()}"
        if variable in environment:
            values[each.name] = _as(each.name, environment[variable], variable)
            came_from[each.name] = f"environment variable {variable}"
        elif each.name in told:
            values[each.name] = _as(each.name, told[each.name], f"{each.name} in {FILE_NAME}")
            came_from[each.name] = f"file {FILE_NAME}"
        else:
            came_from[each.name] = "default"
    return Settings(data_folder=data_folder, came_from=came_from, **values)  # type: ignore[arg-type]


def _told_by_file(path: Path) -> dict[str, object]:
    if not path.exists():
        return {}
    try:
        told = tomllib.loads(path.read_text(encoding="utf-8"))
    except tomllib.TOMLDecodeError as broken:
        raise BadSetting(f"{path.name}: {broken}; mend that line or remove the file") from broken
    known = {each.name for each in fields(Settings)} - {"data_folder", "came_from"}
    strange = sorted(set(told) - known)
    if strange:
        raise BadSetting(f"{path.name}: {strange[0]!r} is no setting; known are {', '.join(sorted(known))}")
    return told


def _as(name: str, value: object, where: str) -> object:
    wanted = Settings.__dataclass_fields__[name].type
    if wanted is bool:
        return _yes_or_no(value, where)
    if wanted is int:
        return _whole_number(name, value, where)
    if name in _WORDS and value not in _WORDS[name]:
        raise BadSetting(f"{where} is {value!r}; expected one of {', '.join(_WORDS[name])}")
    if name == "mail_at" and not _TIME.fullmatch(str(value)):
        raise BadSetting(f"{where} is {value!r}; a time of the day such as 06:30 is expected")
    if name == "database" and value and not _DATABASE.match(str(value)):
        # The address may hold a password, so no more of it is told than how it begins.
        begins = str(value).partition("://")[0] if "://" in str(value) else "something that is no address"
        raise BadSetting(f"{where} is {begins}; an address such as postgresql://user@host/strawline is expected")
    return str(value)


def _whole_number(name: str, value: object, where: str) -> int:
    try:
        number = int(str(value))
    except ValueError:
        raise BadSetting(f"{where} is {value!r}; a whole number is expected") from None
    if number < _LEAST.get(name, 1):
        raise BadSetting(f"{where} is {value!r}; {_LEAST.get(name, 1)} or more is expected")
    if number > _MOST.get(name, number):
        raise BadSetting(f"{where} is {value!r}; {_MOST[name]} or less is expected")
    return number


def _yes_or_no(value: object, where: str) -> bool:
    if isinstance(value, bool):
        return value
    if str(value).lower() not in ("yes", "no", "true", "false"):
        raise BadSetting(f"{where} is {value!r}; yes or no is expected")
    return str(value).lower() in ("yes", "true")
