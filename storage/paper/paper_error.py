"""Why a paper cannot be made."""


class PaperError(Exception):
    """The paper cannot be made as the record has it; the message is a plain sentence for the person."""


class Overflow(PaperError):  # noqa: N818 - the printer's word for it
    """Something that may not be split is taller or wider than the page."""
