"""The version of the program, here and nowhere else, and what it can read and knows."""

VERSION = "0.1.0"


def version_text() -> str:
    """The program, the editions whose tables it has, and the layout of jobs it reads and writes."""
    from domain.edition import editions
    from domain.job.schema_version import SCHEMA_VERSION

    own, others = ([each for each, facts in editions().items() if bool(facts.tables) is has] for has in (True, False))
    return (
        f"ohmfolio {VERSION}\ntables of {', '.join(own)}\ntaken over by {', '.join(others)}\n"
        f"jobs as JSON: schema version {SCHEMA_VERSION}"
    )
