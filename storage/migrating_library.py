"""What migrations are made with. The library loads numpy and pandas where they are installed, for nothing that is used here."""

import sys

_FOR_NOTHING = [name for name in ("numpy", "pandas") if name not in sys.modules]
"""Ten megabytes and a quarter of a second, in each session that begins a log or brings one up to date."""

try:
    # So an import of them says that they are not there.
    sys.modules.update(dict.fromkeys(_FOR_NOTHING))  # pyright: ignore[reportArgumentType, reportCallIssue]
    from sqlite_utils import Database, Migrations
finally:
    for name in _FOR_NOTHING:
        del sys.modules[name]

__all__ = ["Database", "Migrations"]
