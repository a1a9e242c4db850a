"""`figure`: one figure at the prompt, for people and for scripts."""

from datetime import datetime
from pathlib import Path

import pytest

from domain.edition import edition_for
from tests.tui.commands.command_line import ohmfolio, sentence_of

NAMES = [
    "zs-max",
    "zs-measured-max",
    "zs",
    "r1-r2",
    "r1-r2-split",
    "other-conductor",
    "length",
    "resistance-at",
    "ring",
    "ring-profile",
    "insulation",
    "rcd-time",
    "ra-max",
    "fault-current",
    "transformer-fault-current",
]
NAMES += [
    "adiabatic",
    "cpc-by-table",
    "bonding",
    "medical-bonding",
    "volt-drop",
    "cable-rating",
    "diversity",
    "disconnection",
    "interval",
]
B32 = ("zs-max", "device=BS EN 60898", "type=B", "rating=32", "time=0.4")


def test_a_script_is_given_the_figure_its_sum_source_and_trust(tmp_path: Path) -> None:
    said = ohmfolio("figure", *B32, "edition=A3", "--json", home=tmp_path / "home")
    assert said.code == 0
    assert said.value == {
        "name": "zs-max",
        "value": 1.37,
        "unit": "Ω",
        "working": "BS EN 60898 type B 32 A breaker, within 0.4 s, 5 × In = 160 A, 230 V × 0.95 / 160 A: 1.37 Ω",
        "source": "BS 7671:2018+A2:2022, Table 41.3",
        "trust": "published",
        "edition": "BS 7671:2018+A2:2022+A3:2024",
        "notes": [],
    }
    assert not (tmp_path / "home").exists()


def test_the_edition_of_today_answers_where_none_is_typed(tmp_path: Path) -> None:
    before = edition_for(datetime.now().astimezone().date())
    said = ohmfolio("figure", *B32, "--json", home=tmp_path)
    assert said.value["edition"] in {before, edition_for(datetime.now().astimezone().date())}
    assert said.value["value"] == 1.37


def test_a_person_reads_the_figure_the_sum_and_the_source(tmp_path: Path) -> None:
    said = ohmfolio("figure", "zs", "ze=0,35", "r1r2=0.52ohm", "factor=1.2", home=tmp_path)
    assert said.code == 0
    first, second, *rest = said.out.splitlines()
    assert first == "zs: 0.974 Ω"
    assert "0.35 Ω + 0.52 Ω × 1.2 = 0.974 Ω" in second
    assert any(line.startswith("Source: BS 7671:2018+A2:2022") for line in rest)


def test_a_figure_from_memory_says_so(tmp_path: Path) -> None:
    said = ohmfolio("figure", "zs-max", "device=BS 1361", "rating=20", "time=0.4", home=tmp_path)
    assert "from memory; check the book" in said.out


def test_no_limit_known_is_an_answer_and_no_guess(tmp_path: Path) -> None:
    typed = ("figure", "zs-max", "device=BS 88-3", "rating=6", "time=0.4")
    said = ohmfolio(*typed, "--json", home=tmp_path)
    assert (said.code, said.value["value"]) == (0, None)
    assert "no limit known" in said.value["notes"]
    assert ohmfolio(*typed, home=tmp_path).out.startswith("zs-max: no limit known")


def test_whole_numbers_and_the_digits_of_others_are_kept(tmp_path: Path) -> None:
    home = tmp_path
    assert '"value": 300,' in ohmfolio("figure", "rcd-time", "standard=BS EN 61008", "--json", home=home).out
    assert '"value": 0.18882,' in ohmfolio("figure", "r1-r2", "line=6", "cpc=2.5", "length=18", "--json", home=home).out


def test_the_list_names_every_figure_with_its_keys_units_and_examples(tmp_path: Path) -> None:
    said = ohmfolio("figure", "--list", "--json", home=tmp_path)
    assert said.code == 0
    assert [figure["name"] for figure in said.value] == NAMES
    for figure in said.value:
        assert figure["unit"]
        assert figure["examples"]
        assert {"key", "says", "unit", "allowed", "default"} == set(figure["keys"][0])
    text = ohmfolio("figure", "--list", home=tmp_path).out
    assert all(f"\n{name} (" in f"\n{text}" for name in NAMES)


def test_the_list_may_be_of_one_figure(tmp_path: Path) -> None:
    assert [each["name"] for each in ohmfolio("figure", "ring", "--list", "--json", home=tmp_path).value] == ["ring"]


@pytest.mark.parametrize(
    ("typed", "names"),
    [
        (("figure",), "--list"),
        (("figure", "ohms"), "zs-measured-max"),
        (("figure", "ohms", "--list"), "zs-measured-max"),
        (("figure", *B32[:3], "rating=abc"), "rating"),
        (("figure", *B32, "colour=\x1b[31mred"), "device, type"),
        (("figure", "zs-max", "device=\x1b]0;mine\x07", "rating=32"), "BS EN 60898"),
        (("figure", "zs-max", "device=" + "x" * 100_000), "device is"),
        (("figure", "zs", "ze=1", "--r1r2=2"), "--r1r2"),
    ],
    ids=lambda typed: " ".join(typed)[:40] if isinstance(typed, tuple) else typed,
)
def test_what_cannot_be_used_is_refused_in_one_sentence(typed: tuple[str, ...], names: str, tmp_path: Path) -> None:
    assert names in sentence_of(ohmfolio(*typed, home=tmp_path / "home"))
    assert not (tmp_path / "home").exists()
