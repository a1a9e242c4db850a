"""Where the job log lives on this machine."""

import os
from pathlib import Path


def home_folder() -> Path:
    """The folder named by OHMFOLIO_HOME, or else the usual place for a person's data."""
    named = os.environ.get("OHMFOLIO_HOME", "")
    if named:
        return Path(named).expanduser().absolute()
    from platformdirs import user_data_path

    return user_data_path("ohmfolio", appauthor=False)
