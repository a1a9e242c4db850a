"""No newcomer meets an abbreviation in the coach that is not spelled out where it is used first."""

import re

import pytest

from domain.coach.abbreviations import abbreviations, spelled_out
from domain.coach.entry import CoachEntry, entries

SHORT = re.compile(
    r"(?<![\w/+-])(?:[A-Z][A-Za-z]*[A-Z][A-Za-z]*s?|IΔn|I(?:b|n|pf|cn|pscc)|Z[a-z]+|cpc|csa|N/[AV])(?![\w/+-])"
)
"""What looks like one: two capitals in a word, a quantity with its index, and the two that have no capital."""
KNOWN_TO_ALL = {"BS", "EN", "IEC", "PDF", "CSV", "AC", "HSE", "DB1"}
"""Standards, files, the type AC of an RCD as it is marked, and the name of a board."""


@pytest.mark.parametrize(
    "entry", sorted(set(entries().values()), key=lambda each: each.at), ids=lambda each: each.at[0]
)
def test_every_abbreviation_of_an_entry_is_spelled_out_at_its_first_use(entry: CoachEntry) -> None:
    said = " ".join(spelled_out(entry.what, entry.why, entry.how))
    for short in dict.fromkeys(SHORT.findall(said)):
        if short not in KNOWN_TO_ALL:
            words = abbreviations()[short]
            first = said.index(short)
            behind = said[first + len(short) :]
            assert behind.startswith(f" ({words})") or said[first - 1] == "(" or words.casefold() in said.casefold(), (
                short
            )


def test_those_that_newcomers_stumble_over_are_all_known() -> None:
    assert {"cpc", "csa", "RCD", "Ipf", "Zdb", "Icn", "IΔn"} <= abbreviations().keys()


def test_only_the_first_use_is_spelled_out_across_the_texts_of_an_entry() -> None:
    assert spelled_out("A cpc.", "The cpc, and Zs.") == (
        "A cpc (circuit protective conductor).",
        "The cpc, and Zs (circuit's loop impedance).",
    )
    assert spelled_out("A circuit protective conductor, or cpc.") == ("A circuit protective conductor, or cpc.",)
    assert spelled_out("By its neutral (PEN), so PEN.") == ("By its neutral (PEN), so PEN.",)
