"""How figures are asked for: spellings taken, and what is offered and taken where nothing is typed."""

from decimal import Decimal

import pytest

from domain.edition import Edition
from domain.figures.asked.catalogue import FIGURES, ask, figure_named, keys_of
from domain.figures.asked.figure import Figure
from domain.figures.limits.loader import named_figure, table
from tests.domain.figures.asked.typed import asked, said

NOT_RECHECKED = Edition.A4.facts.of_inherited
EACH_FIGURE = pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.name)


@EACH_FIGURE
@pytest.mark.parametrize("edition", ["A2", "A4"])
def test_the_examples_of_every_figure_are_answered(figure: Figure, edition: str) -> None:
    assert figure.examples
    for words in figure.examples:
        answer = ask(figure, [*words, f"edition={edition}"])
        assert answer.value is not None
        assert answer.unit == figure.unit
        assert answer.source
        assert str(answer.value) in answer.working or f"{answer.value:f}" in answer.working


@EACH_FIGURE
def test_what_is_asked_the_other_way_round_is_answered_with_a_unit_of_its_own(figure: Figure) -> None:
    for words in figure.turned:
        answer = ask(figure, list(words))
        assert answer.value is not None
        assert answer.unit not in {"", figure.unit}
        assert answer.source


@EACH_FIGURE
def test_the_newer_edition_gives_the_same_figure_and_says_it_was_not_looked_at(figure: Figure) -> None:
    for words in figure.examples:
        older, newer = ask(figure, [*words, "edition=A2"]), ask(figure, [*words, "edition=A4"])
        assert older.value == newer.value
        assert NOT_RECHECKED not in said(older)
        assert f"{Edition.A4}: {NOT_RECHECKED}" in newer.notes


@pytest.mark.parametrize(
    "edition", ["A2", "a2:2022", "A3", "BS 7671:2018+A2:2022+A3:2024", "bs7671:2018+a2:2022", "Amendment 2"]
)
def test_an_edition_may_be_written_in_full(edition: str) -> None:
    assert not any(NOT_RECHECKED in note for note in asked(f"ra-max / idn=30 / edition={edition}").notes)
    newer = asked(f"ra-max / idn=30 / edition={Edition.A4}")
    assert any(NOT_RECHECKED in note for note in newer.notes)


@pytest.mark.parametrize(
    "line",
    [
        "zs-max / device=60898 / type=b / rating=32A / time=0,4",
        "zs-max / device=BSEN60898 / type=Type B / rating=32 a / time=0.4s",
        "ZS-MAX / DEVICE=bs en 60898-1 / Type=B / Rating=32.0 / time=.4 s",
        "zs-max / time=0.40 / rating= 32 amps / type=B / device= BS EN 60898 ",
    ],
)
def test_case_blanks_commas_and_units_are_as_people_type_them(line: str) -> None:
    assert asked(line).value == Decimal("1.37")


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("zs / ze=0,35ohm / r1r2=0.52 Ω", "0.87"),
        ("zs / ze=0.35 ohms / r1r2=0.52\u2126", "0.87"),
        ("r1-r2 / line=6mm2 / cpc=2.5 mm² / length=18m", "0.18882"),
        ("resistance-at / r20=1 / temperature=70°C", "1.2"),
        ("resistance-at / r20=1 / temperature=-5C", "0.9"),
        ("insulation / parallel=40MΩ,10 Mohm,8", "4"),
        ("insulation / voltage=500V", "1"),
        ("ra-max / idn=30mA / touch=50V", "1667"),
        ("rcd-time / standard=61008 / times=5x", "40"),
        ("rcd-time / standard=BS EN 61008 / type=type A", "300"),
        ("volt-drop / mv-per-a-m=18 mV/A/m / current=20A / length=25m", "9"),
        ("bonding / supply=TN-C-S / neutral=25", "10"),
        ("bonding / supply=tt / earthing=16", "8"),
        ("bonding / supply=non-PME / earthing=16", "8"),
        ("zs-max / device=bs-en-60898 / type=B / rating=32A", "1.37"),
        ("zs_max / device=BS HD 60269-2 / type=gG / rating=32 / time=0.4s", "0.99"),
        ("zs-max / device=BS 88-3 / type=C / rating=32 / time=0.4", "0.91"),
        ("zs-max / device=BS 1361 / type=Type II / rating=30 / time=0.4", "1.09"),
        ("insulation / parallel=40 10 8", "4"),
        ("insulation / parallel=40 MΩ 10 MΩ 8 MΩ", "4"),
        ("rcd-time / standard=61008 / times=x5", "40"),
        ("rcd-time / standard=61008 / type=time delayed / idn=100", "500"),
        ("zs / ze=0.35 / r1r2=0.52 / factor=×1.2", "0.974"),
        ("resistance-at / r20=1 / temperature=70 deg", "1.2"),
        ("interval / premises=farm", "3"),
        ("interval / premises=building site", "0.25"),
        ("interval / premises=office building", "5"),
        ("interval / premises=Leisure centre", "3"),
        ("disconnection / system=tncs / circuit=sub-main", "5"),
    ],
)
def test_units_typed_behind_a_number_are_understood(line: str, value: str) -> None:
    assert asked(line).value == Decimal(value)


WORDS_FOR_FIGURES = [
    ("zs", "factor", "1", None),
    ("ra-max", "touch", "50 V", named_figure("loop", "touch voltage", Edition.A2)),
    ("resistance-at", "alpha", "0.004 per K", named_figure("resistance_coefficients", "simplified", Edition.A2)),
    ("r1-r2", "temperature", "20 °C", named_figure("resistance_coefficients", "reference temperature", Edition.A2)),
    ("fault-current", "u0", "230 V", named_figure("loop", "U0", Edition.A2)),
    ("adiabatic", "u0", "230 V", named_figure("loop", "U0", Edition.A2)),
    ("disconnection", "u0", "230 V", named_figure("loop", "U0", Edition.A2)),
]


@pytest.mark.parametrize(("name", "key", "words", "limit"), WORDS_FOR_FIGURES)
def test_what_is_taken_where_nothing_is_typed_is_the_figure_of_the_table(
    name: str, key: str, words: str, limit
) -> None:
    default = next(each.default for each in keys_of(figure_named(name)) if each.name == key)
    assert default == words
    assert limit is None or limit.shown == words


def test_the_nations_and_materials_offered_are_those_of_the_tables() -> None:
    def offered(name: str, key: str) -> str:
        return next(each.allowed for each in keys_of(figure_named(name)) if each.name == key)

    nations = [row.texts["nation"] for row in table("statutory_intervals", Edition.A2).rows]
    assert all(nation in offered("interval", "nation") for nation in nations)
    materials = {row.texts["material"] for row in table("k_values", Edition.A2).rows}
    assert all(material in offered("adiabatic", "material") for material in materials)


def test_every_premises_of_the_table_can_be_asked_for_by_its_name() -> None:
    for row in table("intervals", Edition.A2).rows:
        assert ask(figure_named("interval"), [f"premises={row.texts['premises']}"]).value == row.figures["years"].value


def test_every_k_of_the_table_can_be_asked_for_by_its_name() -> None:
    for row in table("k_values", Edition.A2).rows:
        words = f"material={row.texts['material']} / insulation={row.texts['conductor']}"
        answer = asked(f"adiabatic / current=100 / time=1 / {words}")
        assert f"k = {row.figures['k'].value}: " in said(answer)
