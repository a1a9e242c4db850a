"""What a person or an office may set: the only place that reads the environment's OHMFOLIO_… and the files for it."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from tui.log_place import LogPlace
from tui.setting_keys import AUTHORITIES, COPIES, DRIVER, HOME, KEYS, LOG, PICTURES, PREFIX, STOCK, SettingKey

ENVIRONMENT = "environment"
"""The origin of what a variable says, before its name."""
USUAL = "usual"
"""The origin of what nobody has set."""


class ConfigurationError(Exception):
    """A setting that cannot be used; the message is one plain sentence for the person."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What holds for a key, and where it was found."""

    key: SettingKey
    value: str
    origin: str
    """`usual`, the path of a file, or `environment` and the variable."""


@dataclass(frozen=True, slots=True)
class Configuration:
    """What holds for every key."""

    settings: Mapping[str, Setting]

    def __getitem__(self, key: SettingKey) -> Setting:
        """What holds for one."""
        return self.settings[key.name]

    @property
    def home(self) -> Path:
        """The folder that holds the job log, whole."""
        return Path(self[HOME].value).expanduser().absolute()

    @property
    def place(self) -> LogPlace:
        """Where the job log is. A folder named for this run goes before a server that a file names."""
        log = self[LOG]
        is_overruled = self.home_of_this_run and not log.origin.startswith(ENVIRONMENT)
        return LogPlace(self.home, "" if is_overruled else log.value)

    @property
    def home_of_this_run(self) -> Path | None:
        """The folder where the environment names one; what a file says is for every run."""
        return self.home if self[HOME].origin.startswith(ENVIRONMENT) else None

    @property
    def pictures(self) -> Path | None:
        """The folder where pictures of a visit appear; None where none is named."""
        named = self[PICTURES].value
        return Path(named).expanduser().absolute() if named else None

    @property
    def authorities(self) -> bytes:
        """The certificates that signatures behind papers may go back to, in PEM; ConfigurationError."""
        if not (named := self[AUTHORITIES].value):
            return b""
        try:
            return Path(named).expanduser().read_bytes()
        except OSError as error:
            raise ConfigurationError(
                f"{AUTHORITIES.variable}: {named} cannot be read: {error.strerror or error}"
            ) from None

    @property
    def is_stock(self) -> bool:
        """The framework paints the terminal itself."""
        return self[DRIVER].value == STOCK

    @property
    def copies(self) -> int:
        """How many days' copies are kept; 0 for none."""
        return int(self[COPIES].value)


def variable_of(key: SettingKey, environment: Mapping[str, str]) -> str:
    """What the environment alone says for a key; "" where nothing. For the first word on a screen, which waits for no file."""
    return environment.get(key.variable, "")


def configuration_files() -> tuple[Path, ...]:
    """Where settings may stand: the computer's, then the person's own."""
    from platformdirs import site_config_path, user_config_path

    folders = (site_config_path("ohmfolio", appauthor=False), user_config_path("ohmfolio", appauthor=False))
    return tuple(folder / "config.toml" for folder in folders)


def configuration(environment: Mapping[str, str] = os.environ) -> Configuration:
    """What holds: the usual, over it the computer's file, the person's own, and the environment; ConfigurationError."""
    held = {key.name: Setting(key, _usual(key), USUAL) for key in KEYS}
    for path in configuration_files():
        held |= {setting.key.name: setting for setting in _in_file(path)}
    held |= {setting.key.name: setting for setting in _in_environment(environment)}
    return Configuration(held)


def _usual(key: SettingKey) -> str:
    if key is not HOME:
        return key.usual
    from platformdirs import user_data_path

    return str(user_data_path("ohmfolio", appauthor=False))


def _in_environment(environment: Mapping[str, str]) -> Iterator[Setting]:
    for variable, value in environment.items():
        if variable.startswith(PREFIX):
            key = _key_named(variable.removeprefix(PREFIX).lower(), variable, "The environment")
            # An empty variable is one not set, as shells have it.
            if value.strip():
                _refuse_all_but_computers(key, variable)
                yield _setting(key, value, f"{ENVIRONMENT} {variable}", variable)


def _in_file(path: Path) -> Iterator[Setting]:
    try:
        text = path.read_text(encoding="utf-8")
    except (FileNotFoundError, NotADirectoryError):
        return
    except (OSError, UnicodeDecodeError) as error:
        reason = getattr(error, "strerror", None) or "it holds bytes that are no text"
        raise ConfigurationError(f"{path} cannot be read: {reason}") from None
    import tomllib

    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise ConfigurationError(f"{path} is no TOML: {error}") from None
    for name, value in table.items():
        key = _key_named(name, name, str(path))
        typed = str(value) if isinstance(value, str | int) and not isinstance(value, bool) else ""
        _refuse_all_but_computers(key, f"{path}: {name}", path)
        if key.is_path and not typed.startswith(("/", "~")):
            raise ConfigurationError(f"{path}: {name} takes a whole path, from / or ~; not {value!r}")
        yield _setting(key, typed, str(path), f"{path}: {name}", shown=value)


def _refuse_all_but_computers(key: SettingKey, named: str, path: Path | None = None) -> None:
    if not key.is_computers:
        return
    computers, *_ = configuration_files()
    about = path.stat() if path is not None and path == computers else None
    if about is None or about.st_uid != 0 or about.st_mode & (stat.S_IWGRP | stat.S_IWOTH):
        raise ConfigurationError(
            f"{named} counts only in {computers}, where that is root's and nobody else may write it"
        )


def _key_named(name: str, typed: str, where: str) -> SettingKey:
    for key in KEYS:
        if key.name == name:
            return key
    from difflib import get_close_matches

    near = get_close_matches(name, [key.name for key in KEYS], 1)
    other = [key.variable if typed.startswith(PREFIX) else key.name for key in KEYS if not near or key.name in near]
    raise ConfigurationError(
        f"{where} sets {typed!r}, which is no setting; {'did you mean' if near else 'there are'} {', '.join(other)}"
    )


def _setting(key: SettingKey, value: str, origin: str, named: str, *, shown: object = None) -> Setting:
    text = value if key.keeps_capitals else value.strip().casefold()
    if not key.fits(text):
        given = "" if key is LOG else f"; not {value if shown is None else shown!r}"
        raise ConfigurationError(f"{named} takes {key.takes}{given}")
    return Setting(key, text, origin)
