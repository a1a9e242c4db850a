import json
import unicodedata

import pymupdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.editing.commands import Observe
from domain.gate.assessment import Refusal, assess, issue
from domain.gate.letters import families, letter_problem, unprintable
from domain.inspection.observation import Code
from domain.place import Place
from storage.paper.measure import FONTS
from storage.paper.typesetting import compiled
from tests.builders import AT, INSPECTOR, complete_minor_works, complete_report, done, entered, signed

FACES = {
    "Noto Sans": ("NotoSans-Regular", "NotoSans-Bold", "NotoSans-Condensed", "NotoSans-CondensedBold"),
    "DejaVu Sans": ("DejaVuSans", "DejaVuSans-Bold"),
}


@pytest.mark.parametrize("family", FACES)
def test_the_list_of_letters_is_that_of_the_fonts_themselves(family: str):
    faces = [
        set(pymupdf.Font(fontbuffer=FONTS.joinpath(f"{face}.ttf").read_bytes()).valid_codepoints())
        for face in FACES[family]
    ]
    in_every_face = set.intersection(*faces)
    listed = families()[family]
    assert listed <= in_every_face
    left_out = {chr(code) for code in in_every_face - listed}
    assert {unicodedata.category(letter) for letter in left_out} <= {"Cc", "Cf", "Co", "Cn", "Zl", "Zp", "Mn", "So"}
    assert not {letter for letter in left_out if unicodedata.category(letter) in {"Mn", "So"}} - {
        *map(chr, range(0xFE00, 0xFE10)),
        "\ufffc",
        "\ufffd",
    }


@pytest.mark.parametrize(
    "text",
    [
        "Zoë Fairweather",
        "Łódź, Ŵyn, Ṽ",
        "Ελληνικά",
        "Владимир",
        "שלום עולם",
        "مرحبا",
        "✓ ✗ Ω Δ ≥ ≤ ± µ ² ½ IΔn",
        "e\u0301 decomposed",
        "Nguyễn",
        "two lines\nof it",
    ],
)
def test_what_trade_and_names_need_can_be_printed(text: str):
    assert not letter_problem(text)


@pytest.mark.parametrize(
    ("text", "letter"),
    [
        ("Li 漢 Wei", "漢"),
        ("plug 🔌 here", "🔌"),
        ("zero\u200bwidth", "\u200b"),
        ("new letter \U00010efd", "\U00010efd"),
        ("private \ue000", "\ue000"),
        ("✓\u1dfa", "✓\u1dfa"),
    ],
)
def test_a_letter_that_no_font_has_is_named(text: str, letter: str):
    assert unprintable(text) == letter
    assert f"U+{ord(letter[0]):04X}" in letter_problem(text)


@given(st.text(st.characters(exclude_categories=["Cs"])))
def test_a_text_is_printable_when_each_of_its_letters_stands_in_one_font(text: str):
    if not unprintable(text):
        assert all(any(ord(letter) in family for family in families().values()) for letter in text if letter != "\n")


def test_every_letter_of_the_list_can_be_set_in_every_face():
    letters = [chr(code) for code in sorted(set().union(*families().values()))]
    shown = [f"a{letter}" if unicodedata.category(letter).startswith("M") else letter for letter in letters]
    for style in ("weight: 400", "weight: 700", "stretch: 75%", "weight: 700, stretch: 75%"):
        source = f"""
            #import "look.typ": dressed
            #set document(title: "Letters", date: datetime(year: 2026, month: 3, day: 2))
            #show: dressed
            #set text({style})
            #for letter in json(bytes(sys.inputs.letters)) {{ par(letter) }}"""
        assert compiled(source.encode(), {"letters": json.dumps(shown)}, at=True)


def test_a_name_that_cannot_be_printed_holds_the_paper_back_at_its_box():
    job = signed(entered(complete_minor_works(sign=False), {"name": "Li 漢 Wei"}, section="client"))
    refusal = issue(job, by=INSPECTOR, at=AT, people=())
    assert isinstance(refusal, Refusal)
    (reason,) = refusal.reasons
    assert reason.place == Place(section="client", box="name")
    assert "“漢” (U+6F22) is in no font" in reason.says


def test_an_observation_that_cannot_be_printed_holds_the_report_back():
    job = done(complete_report(sign=False), Observe(finding="Loose 🔌", code=Code.C3, where="Hall"))
    places = [gap.place for gap in assess(job).gaps]
    assert places == [Place(observation=job.observations[0].id)]
