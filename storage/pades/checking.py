"""What stands behind an issued paper: one signature over the whole file that changes nothing else, or something else.

The library answers two questions: does the signature hold, and what did whoever wrote it change besides. Whose
certificate it is, is told apart in three: one of authorities that were named, one that the log knows, or nobody's.
"""

import hashlib
import importlib
import io
from typing import Any

from domain.gate.proof import LaterSignature, LaterState, SignerTrust
from storage.pades.signing import quiet


def later_signature(pdf: bytes, prefix: int, authorities: bytes) -> LaterSignature:
    """What is behind the first bytes of a file; `authorities` are certificates in PEM, which may be none."""
    with quiet():
        try:
            from pyhanko.pdf_utils.reader import PdfFileReader
        except ImportError:
            return LaterSignature(state=LaterState.UNCHECKED)
        try:
            return _looked_at(PdfFileReader(io.BytesIO(pdf)), len(pdf), prefix, authorities)
        except Exception:  # noqa: BLE001 - a stranger's file may make the library raise anything
            return LaterSignature(state=LaterState.ELSE)


def _looked_at(reader: Any, size: int, prefix: int, authorities: bytes) -> LaterSignature:
    from pyhanko.sign.validation import validate_pdf_signature
    from pyhanko.sign.validation.status import SignatureCoverageLevel
    from pyhanko_certvalidator import ValidationContext

    signatures = list(reader.embedded_signatures)
    if len(signatures) != 1:
        return LaterSignature(state=LaterState.ELSE)
    (signature,) = signatures
    if not _covers_what_is_there(signature, size):
        return LaterSignature(state=LaterState.ELSE)
    roots = _certificates(authorities)
    context = ValidationContext(trust_roots=roots, allow_fetching=False)
    status = validate_pdf_signature(signature, signer_validation_context=context)
    certificate: Any = status.signing_cert
    told: dict[str, Any] = {
        "by": str(certificate.subject.human_friendly).removeprefix("Common Name: "),
        "at": status.timestamp_validity.timestamp if status.timestamp_validity else status.signer_reported_dt,
        "is_time_stamped": status.timestamp_validity is not None,
        "certificate": hashlib.sha256(certificate.dump()).hexdigest(),
        "trust": SignerTrust.AUTHORITY
        if status.trusted
        else SignerTrust.ITSELF
        if _signed_itself(certificate)
        else SignerTrust.NOBODY,
    }
    if not (status.intact and status.valid):
        return LaterSignature(state=LaterState.BROKEN, **told)
    if status.coverage is not SignatureCoverageLevel.ENTIRE_FILE or not status.docmdp_ok:
        return LaterSignature(state=LaterState.NOT_WHOLE, **told)
    if not _only_signed(reader, prefix):
        return LaterSignature(state=LaterState.CHANGED, **told)
    return LaterSignature(state=LaterState.HOLDS, **told)


def _covers_what_is_there(signature: Any, size: int) -> bool:
    """The library reads as many bytes as a signature says it covers, whether or not there are so many."""
    spans = [int(each) for each in signature.byte_range]
    return len(spans) == 4 and min(spans) >= 0 and spans[0] + spans[1] <= spans[2] and spans[2] + spans[3] <= size


def _only_signed(reader: Any, prefix: int) -> bool:
    """Between the paper as issued and the end of the file there is the signature, and nothing else.

    A signature can hold though whoever made it changed the pages in the same stroke, so each object that was written again
    is held against what it was. The field of the signature must show nothing: it could be laid over a value.
    """
    xrefs = reader.xrefs
    if xrefs.total_revisions != 2 or xrefs.get_xref_container_info(0).end_location > prefix:
        return False
    old, new = reader.get_historical_resolver(0), reader.get_historical_resolver(1)
    if new.refs_freed_in_revision():
        return False
    rewritten = [ref for ref in new.explicit_refs_in_revision() if not old.is_ref_unassignable(ref)]
    fields = _list(new.root["/AcroForm"]["/Fields"])
    return (
        len(fields) == 1
        and _shows_nothing(fields[0].get_object())
        and all(_is_as_it_was(old, new, ref, fields) for ref in rewritten)
        and set(new.trailer_view.keys()) - set(old.trailer_view.keys()) <= {"/Prev", "/XRefStm"}
        and new.root_ref == old.root_ref
    )


def _is_as_it_was(old: Any, new: Any, ref: Any, fields: list[Any]) -> bool:
    """An object written again holds what it held, but for what a signature must add to it."""
    was, now = old(ref), new(ref)
    if ref == old.trailer_view.raw_get("/Info").reference:
        return _unlike(was, now) <= {"/ModDate", "/Producer"}
    if ref == old.root.raw_get("/Metadata").reference:
        return now.get("/Subtype") == "/XML"
    if ref == old.root_ref:
        return _unlike(was, now) <= {"/AcroForm", "/Perms", "/Extensions", "/Version"}
    if was.get("/Type") != "/Page" or _unlike(was, now) != {"/Annots"}:
        return False
    links = _list(was["/Annots"]) if "/Annots" in was else []
    return _list(now["/Annots"]) == [*links, *fields]


def _unlike(was: Any, now: Any) -> set[str]:
    """Keys of a dictionary that hold another value than they did, references compared as such."""
    if not hasattr(was, "raw_get") or not hasattr(now, "raw_get"):
        return {"all"}
    return {
        str(key)
        for key in {*was.keys(), *now.keys()}
        if key not in was or key not in now or was.raw_get(key) != now.raw_get(key)
    }


def _shows_nothing(field: Any) -> bool:
    """The signature has no place on a page."""
    left, bottom, right, top = (float(side) for side in field["/Rect"])
    return (right - left) * (top - bottom) == 0 and "/Kids" not in field and field.get("/FT") == "/Sig"


def _list(held: Any) -> list[Any]:
    return [held.raw_get(at) for at in range(len(held))]


def _signed_itself(certificate: Any) -> bool:
    return bool(certificate.self_signed in {"yes", "maybe"})


def _certificates(pem: bytes) -> list[Any]:
    if not pem.strip():
        return []
    armour: Any = importlib.import_module("asn1crypto.pem")
    x509: Any = importlib.import_module("asn1crypto.x509")
    return [x509.Certificate.load(der) for _, _, der in armour.unarmor(pem, multiple=True)]
