"""The version of the program, here and nowhere else, and what it can read and knows."""

VERSION = "0.1.0"


def version_text() -> str:
    """The program, the editions whose tables it has, and the layout of jobs it reads and writes."""
    from domain.edition import Edition
    from domain.job.schema_version import SCHEMA_VERSION

    editions = ", ".join(edition.value for edition in Edition)
    return f"ohmfolio {VERSION}\ntables of {editions}\njobs as JSON: schema version {SCHEMA_VERSION}"
