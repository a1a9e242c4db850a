"""What the stamp of a pack bears, and what is added to it once its paper is set."""

from domain.gate.assessment import Pack, issue, naming_key, naming_shapes
from domain.job.logo import LogoKind, logo_of
from domain.job.plain_svg import plain_svg
from domain.job.seal_key import SealedWith
from tests.builders import AT, INSPECTOR, complete_report
from tests.domain.job.test_logo import drawing

LOGO = logo_of(LogoKind.SVG, plain_svg(drawing('<path d="M36 8L16 34h12z"/>')), "A bolt")
KEY = SealedWith(key="ab" * 32)


def packed() -> Pack:
    pack = issue(complete_report(), by=INSPECTOR, at=AT, people=(), head="ab12", set_by="Ohmfolio 9", logo=LOGO)
    assert isinstance(pack, Pack)
    return pack


def test_a_pack_is_stamped_and_is_otherwise_the_job_that_was_signed() -> None:
    stamp = packed().job.issued
    assert stamp is not None
    assert (stamp.at, stamp.by, stamp.head, stamp.set_by, stamp.logo) == (AT, INSPECTOR, "ab12", "Ohmfolio 9", LOGO)
    assert packed().job.model_copy(update={"issued": None}) == complete_report()
    bare = issue(complete_report(), by=INSPECTOR, at=AT, people=())
    assert isinstance(bare, Pack)
    assert bare.job.issued is not None
    assert (bare.job.issued.head, bare.job.issued.set_by, bare.job.issued.logo) == ("", "", None)


def test_the_key_and_the_digests_of_the_other_shapes_join_the_stamp_and_change_nothing_else() -> None:
    named = naming_shapes(naming_key(packed(), KEY), "page", "table")
    stamp = named.job.issued
    assert stamp is not None
    assert (stamp.sealed_with, stamp.page_sha256, stamp.table_sha256) == (KEY, "page", "table")
    without = stamp.model_copy(update={"sealed_with": None, "page_sha256": "", "table_sha256": ""})
    assert named.model_copy(update={"job": named.job.model_copy(update={"issued": without})}) == packed()
