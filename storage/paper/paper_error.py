"""Why a paper cannot be made."""


class PaperError(Exception):
    """The paper cannot be made as the record has it; the message is a plain sentence for the person."""
