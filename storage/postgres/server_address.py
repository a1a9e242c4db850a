"""Where on a server a job log is: an address as libpq reads it, with the schema of the firm. It never holds a password."""

import re
from dataclasses import dataclass
from typing import Self
from urllib.parse import parse_qsl, unquote, urlencode, urlsplit

from domain.log.job_log import JobLogError
from storage.errors import INSTALL

_SCHEMES = ("postgresql", "postgres")
_SCHEMA = "ohmfolio"
_NAME = re.compile(r"[a-z_][a-z0-9_]{0,47}")
_SECRET = {"password", "sslpassword"}


@dataclass(frozen=True, slots=True)
class ServerAddress:
    """An address, and the schema that holds the log."""

    url: str
    """As libpq reads it, without the schema."""
    schema: str = _SCHEMA

    def __str__(self) -> str:
        """As a person types it."""
        if self.schema == _SCHEMA:
            return self.url
        return f"{self.url}{'&' if '?' in self.url else '?'}schema={self.schema}"

    @classmethod
    def parsed(cls, typed: str) -> Self:
        """The address that was typed; JobLogError for one that cannot be used. What it says never repeats a password."""
        try:
            parts = urlsplit(typed.strip())
            settings = parse_qsl(parts.query, keep_blank_values=True)
            # A colon in a name is that of a password typed as if it belonged to it.
            has_password = parts.password is not None or ":" in unquote(parts.username or "")
        except ValueError as trouble:
            raise JobLogError("That is no address of a server: postgresql://PERSON@HOST/DATABASE.") from trouble
        if has_password or _SECRET & {name for name, _ in settings}:
            raise JobLogError(
                "The address of the job log holds a password, where others can read it. Take it out and put it into "
                "~/.pgpass, which only you may read."
            )
        if parts.scheme not in _SCHEMES:
            raise JobLogError("The address of a job log on a server begins with postgresql://.")
        schema = dict(settings).get("schema", _SCHEMA)
        if not _NAME.fullmatch(schema) or schema.startswith("pg_"):
            raise JobLogError(f"{schema[:60]!r} cannot be the schema of a job log: small letters, digits and _ only.")
        rest = urlencode([each for each in settings if each[0] != "schema"], safe="/")
        return cls(parts._replace(query=rest).geturl(), schema)


def address_at(typed: str) -> ServerAddress:
    """The address, where what a log on a server needs is installed; JobLogError for one that cannot be used, or without that."""
    try:
        import psycopg_pool  # noqa: F401  # pyright: ignore[reportUnusedImport]
    except ImportError:
        raise JobLogError(
            f"A job log on a server takes more than is installed here. {INSTALL.format(extra='office')}"
        ) from None
    return ServerAddress.parsed(typed)
