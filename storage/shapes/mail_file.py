"""A letter by e-mail as a file (RFC 5322, MIME) that a mail program opens as a draft, with a pack attached."""

import mimetypes
from collections.abc import Mapping
from email.message import EmailMessage
from email.policy import SMTP

from domain.duties.mail_draft import MailDraft


def mail_file(draft: MailDraft, attached: Mapping[str, bytes]) -> bytes:
    """The letter with these files, by name. It bears no date and no identity: the program that sends it gives them."""
    message = EmailMessage(policy=SMTP)
    if draft.sender:
        message["From"] = draft.sender
    if draft.to:
        message["To"] = ", ".join(draft.to)
    message["Subject"] = draft.subject
    # What several mail programs go by to open a file for writing and not for reading; common practice, no standard.
    message["X-Unsent"] = "1"
    message.set_content(draft.text)
    for name, content in attached.items():
        kind, _, form = (mimetypes.guess_type(name)[0] or "application/octet-stream").partition("/")
        message.add_attachment(content, maintype=kind, subtype=form, filename=name)
    return message.as_bytes()
