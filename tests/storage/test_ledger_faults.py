"""What a ledger says of rows and of its own lines, whatever keeps both: each fault by what was done."""

from collections.abc import Mapping, Sequence

import pytest

from domain.log.chain import NO_RECORD, entered
from domain.log.upkeep import Concern
from storage.ledger_entries import EDIT, ISSUED, NOTE, REGISTER, KeptRow, LedgerLine
from storage.ledger_faults import faults_of_lines, faults_of_rows

DO = "Go back to a copy."
SHA, OTHER = b"s" * 32, b"o" * 32


def kept(about: str, name: object = "op", held: bytes | None = SHA) -> KeptRow:
    """A row, its own hash SHA, of which the ledger holds `held`."""
    return KeptRow(1, about, SHA, held, ("first", name, "last"))


@pytest.mark.parametrize(
    ("kind", "about", "says"),
    [
        (EDIT, Concern.TRAIL, ("The trail of A-0001 is not as it was kept: edit 7.", "Another program put edit 7 into the trail of A-0001.", "Edits were taken out of the trail of A-0001.")),
        (ISSUED, Concern.RECORDS, ("The record of A-0001 is not as it was issued.", "A-0001 stands among the issued records, and this program never issued it: another program put it there.", "The issued record of A-0001 was taken out.")),
        (REGISTER, Concern.REGISTERS, ("The registers are not as they were kept: A-0001, version 7.", "Another program put version 7 of A-0001 into the registers.", "Versions of A-0001 were taken out of the registers.")),
        (NOTE, Concern.NOTES, ("Notes under 'A-0001' are not as they were kept.", "Another program put notes under 'A-0001'.", "Notes under 'A-0001' were taken out.")),
    ],
)  # fmt: skip
def test_a_row_altered_one_put_in_and_one_taken_out_are_told_apart(
    kind: str, about: Concern, says: tuple[str, str, str]
) -> None:
    rows = [kept("A-0001", 7, OTHER), kept("A-0001", 7, None), kept("A-0002", 8)]
    faults = [*faults_of_rows(kind, rows, ["A-0001"], DO)]
    assert [each.says for each in faults] == [*says]
    jobs = ("A-0001",) if kind in {EDIT, ISSUED} else ()
    assert all((each.about, each.do, each.jobs) == (about, DO, jobs) for each in faults)


@pytest.mark.parametrize(("count", "told"), [(5, "1, 2, 3, 4, 5"), (6, "1, 2, 3, 4, 5 and 1 more")])
def test_of_many_edits_altered_five_are_named_and_the_rest_counted(count: int, told: str) -> None:
    (fault,) = faults_of_rows(EDIT, [kept("A-0001", at, OTHER) for at in range(1, count + 1)], [], DO)
    assert fault.says == f"The trail of A-0001 is not as it was kept: edit {told}."


def lines(*about: str, kinds: Mapping[int, str] = {}, first: int = 1) -> list[LedgerLine]:
    """A sound ledger, with a line for each of what it is about."""
    made, chain = list[LedgerLine](), NO_RECORD
    for seq, each in enumerate(about, first):
        chain = entered(chain, SHA)
        made.append(LedgerLine(seq, kinds.get(seq, EDIT), seq, each, SHA, chain))
    return made


SOUND = lines("A-0001", "A-0001", "A-0002", "A-0001", kinds={4: ISSUED})
BROKEN = "The ledger of the log does not hold together from its line {} on ({})."
UNKNOWN_HEAD = "A-0001 says it was issued after a head of the log that this log never had."


def said_of(held: Sequence[LedgerLine], heads: Mapping[str, bytes] = {}, before: Sequence[bytes] = ()) -> list[str]:
    faults = [*faults_of_lines(held, heads, before, DO)]
    assert all(each.do == DO for each in faults)
    return [each.says for each in faults]


def test_a_sound_ledger_and_an_empty_one_have_no_faults() -> None:
    assert said_of(SOUND) == said_of([]) == []


@pytest.mark.parametrize(
    ("held", "says"),
    [
        pytest.param(SOUND[1:], [BROKEN.format(2, "A-0001")], id="the first taken out"),
        pytest.param([SOUND[0], *SOUND[2:]], [BROKEN.format(3, "A-0002")], id="one taken out"),
        pytest.param([SOUND[0], SOUND[1]._replace(sha=OTHER), *SOUND[2:]], [BROKEN.format(2, "A-0001")], id="one altered"),
        pytest.param([*SOUND[:2], SOUND[2]._replace(chain=OTHER), SOUND[3]], [BROKEN.format(3, "A-0002")], id="what follows is not told again"),
        pytest.param([*SOUND[:2], *lines(*"abc")[2:]], [], id="what it says a line is about is held by the rows and not by the chain"),
        pytest.param(lines("a", "b", kinds={2: "other"}), ["The ledger of the log has a line 2 of a kind that this program never keeps."], id="a kind unknown"),
        pytest.param(lines("a", "b", first=0), [BROKEN.format(0, "a")], id="counted from nought"),
    ],
)  # fmt: skip
def test_a_ledger_that_does_not_hold_together_is_told_from_where_on(held: list[LedgerLine], says: list[str]) -> None:
    assert said_of(held) == says
    assert {each.about for each in faults_of_lines(held, {}, (), DO)} <= {Concern.LEDGER}


@pytest.mark.parametrize(
    ("head", "before", "is_known"),
    [
        pytest.param(NO_RECORD, (), True, id="nothing was kept before it"),
        pytest.param(SOUND[0].chain, (), True, id="an earlier line"),
        pytest.param(SOUND[2].chain, (), True, id="the line before"),
        pytest.param(SOUND[3].chain, (), False, id="its own line, which was not there yet"),
        pytest.param(OTHER, (), False, id="no head of this log"),
        pytest.param(OTHER, (OTHER,), True, id="the chain over records, before there was a ledger"),
    ],
)
def test_a_record_names_a_head_that_the_log_had_before_it(
    head: bytes, before: tuple[bytes, ...], is_known: bool
) -> None:
    faults = [*faults_of_lines(SOUND, {"A-0001": head}, before, DO)]
    assert [(each.about, each.says, each.jobs) for each in faults] == (
        [] if is_known else [(Concern.RECORDS, UNKNOWN_HEAD, ("A-0001",))]
    )


def test_what_only_an_edit_is_about_need_name_no_head() -> None:
    assert said_of(SOUND, {"A-0002": OTHER}) == []
