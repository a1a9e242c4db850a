"""Every sentence a check can say stands in the catalogue, and everything in the catalogue is said by some case."""

import ast
import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import domain
from domain.checks import CHECKS, findings_of
from domain.checks.shared.finding_factory import read_at
from domain.checks.shared.lifting import what_lifts
from domain.checks.shared.phrases import SENTENCES, listed, phrase
from domain.forms.form_set import FormSet
from domain.job.catalogue import CatalogueError, Sentence, catalogue_of
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.place_in_words import box_at
from tests.domain.checks.installations import CASES, judged
from tests.domain.checks.jobs import job

ROOM = Path(domain.__file__).parent / "checks"
PHRASES = {name for name in SENTENCES if name.startswith("phrase.")}
LIFTS = {name for name in SENTENCES if name.startswith("lifts.")}
ROWS = set(SENTENCES) - PHRASES - LIFTS
_TABLES = Path(__file__).parents[2] / "cases"
LEFT_OPEN = re.compile(r"[{}]|None\b")


@cache
def jobs() -> tuple[Job, ...]:
    return tuple(judged(case)[0] for case in CASES)


@cache
def found_in_jobs() -> tuple[tuple[Job, Finding], ...]:
    return tuple((made, each) for made, found in map(judged, CASES) for each in found)


@cache
def found() -> tuple[tuple[FormSet, Finding], ...]:
    return tuple((made.form_set, each) for made, each in found_in_jobs())


def test_every_row_is_said_by_a_case_and_every_sentence_said_is_a_row() -> None:
    """So no check, and nothing a check looks for, goes without a case of its own in tests/cases."""
    assert {finding.id for _, finding in found()} == ROWS


def test_every_check_finds_something_in_a_case() -> None:
    silent = set(CHECKS)
    for each in jobs():
        silent -= {check for check in silent if any(True for _ in check(each))}
    assert silent == set()


def test_every_placeholder_is_filled_and_the_sentence_is_that_of_its_row() -> None:
    for form_set, finding in found():
        row = SENTENCES[finding.id]
        assert row.placeholders <= set(finding.values), finding.id
        assert not any(LEFT_OPEN.search(text) for text in (finding.says, finding.limit, finding.measured)), finding
        said = row.filled(finding.values, on_report=form_set.profile.states_a_condition)
        assert finding.says.removeprefix(finding.says.partition(": ")[0] + ": " if finding.also else "") == said


def test_every_question_says_which_reasons_lift_it_or_that_none_does() -> None:
    for _, finding in found():
        match finding.severity:
            case Severity.ASK:
                assert what_lifts(finding).startswith("Lifted by a reason that says "), finding.id
            case Severity.FAILS:
                assert ("No reason lifts it" in what_lifts(finding)) is not SENTENCES[finding.id].lifted
            case Severity.NOTE:
                assert what_lifts(finding) == "" or not SENTENCES[finding.id].lifted
    asking = {(finding.check, finding.id) for _, finding in found() if finding.severity is Severity.ASK}
    assert LIFTS - {f"lifts.{name}" for names in asking for name in names} == set()


def test_the_parts_of_sentences_are_all_used_and_all_known() -> None:
    code = "\n".join(file.read_text(encoding="utf-8") for file in ROOM.rglob("*.py"))
    texts = {node.value for node in ast.walk(ast.parse(code.replace("from __future__", "#"))) if _is_text(node)}
    named = {f"phrase.{text}" for text in texts} | {name for name in PHRASES if name.startswith("phrase.conductor-")}
    assert PHRASES - named == set()


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def test_a_sentence_begins_large_ends_without_a_full_stop_and_has_no_word_twice() -> None:
    for name in ROWS:
        for text in filter(None, (SENTENCES[name].says, SENTENCES[name].report)):
            assert text[0].isupper() or text[0] in "{0123456789" or text.startswith(("rn ", "r2 ")), name
            assert not text.endswith("."), name
            assert "  " not in text, name
            assert not re.search(r"\b(\w+) \1\b", text), name


INSTALLERS_WORK = re.compile(
    r"\b(?:[Ff]it|[Rr]eplace|[Bb]ond|[Pp]ut it right|put right|[Rr]epeat|[Ff]ind the|[Ll]ower|[Aa]dd or deepen)\b"
)


def test_what_fails_speaks_to_the_inspector_on_a_report() -> None:
    """The words go into the observation, which says what is wrong and not what an installer does about it."""
    fails = {finding.id for _, finding in found() if finding.severity is Severity.FAILS}
    for name in fails:
        assert not INSTALLERS_WORK.search(SENTENCES[name].report or SENTENCES[name].says), name


def test_no_sentence_asks_in_the_negative_or_says_passes_of_what_it_asks_about() -> None:
    for name, row in SENTENCES.items():
        for text in (row.says, row.report):
            assert not re.search(r"(?:[Ii]s|[Aa]re) (?:there no|it not|that not)\b[^.]*\?|n't\b[^.]*\?", text), name
            assert "passes" not in text, name


def test_what_fails_names_its_kind_and_only_a_figure_is_over_or_under_a_limit() -> None:
    for _, finding in found():
        if finding.severity is Severity.FAILS:
            has_figure = any(letter.isdigit() for letter in finding.limit)
            assert (finding.word in {"over limit", "under limit"}) is has_figure, finding.id


@pytest.mark.parametrize("form_set", ["EIC", "EICR"])
def test_gas_that_is_not_bonded_is_said_to_whom_it_concerns(form_set: str) -> None:
    made = job({}, form_set=form_set, earthing={"bonded_gas": "N"})
    (finding,) = [each for each in findings_of(made) if each.place.box == "bonded_gas"]
    assert (finding.id, finding.word) == ("confirmed.bonded_gas", "not bonded")
    said = {
        "EIC": "The gas pipe is marked as not bonded; bond it, or mark N/A where there is nothing to bond",
        "EICR": "No main bonding to the gas pipe",
    }
    assert finding.says == said[form_set]


def test_a_text_somebody_typed_stands_in_a_sentence_as_it_is() -> None:
    row = Sentence("{board} is fed from {fed_from}")
    assert row.filled({"board": "{limit}", "fed_from": "%s {"}, on_report=False) == "{limit} is fed from %s {"


def test_a_row_that_is_none_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "an_invented_room" / "sentences"
    folder.mkdir(parents=True)
    (folder.parent / "__init__.py").touch()
    monkeypatch.syspath_prepend(tmp_path)
    (folder / "one.toml").write_text('[a.b]\nsays = "{x} is over"\nsay = "slip"\n')
    with pytest.raises(CatalogueError, match=r"a\.b"):
        catalogue_of("an_invented_room")
    (folder / "one.toml").write_text('[a.b]\nsays = "{x} is over"\n')
    (folder / "two.toml").write_text('[a.b]\nsays = "said twice"\n')
    with pytest.raises(CatalogueError, match="already"):
        catalogue_of("an_invented_room")
    (folder / "two.toml").unlink()
    assert catalogue_of("an_invented_room")["a.b"].placeholders == {"x"}


def test_names_are_listed_as_a_sentence_has_them() -> None:
    assert listed(["1"]) == "1"
    assert listed(["1", "2", "5"]) == "1, 2 and 5"
    assert listed(["B", "C"], "list-or") == "B or C"
    assert phrase("up-to", figure="16 mm²") == "up to 16 mm²"


def test_every_finding_of_the_cases_stands_at_boxes_that_there_are() -> None:
    nowhere = {
        (finding.id, str(place))
        for made, finding in found_in_jobs()
        for place in finding.places
        if (place.box and box_at(made, place) is None) or (place.board and place.section != "boards")
    }
    assert nowhere == set()


def recorded(name: str) -> dict[str, Any]:
    """The one table of a file of cases."""
    (table,) = tomllib.loads((_TABLES / f"{name}.toml").read_text(encoding="utf-8")).values()
    return table


def lost(rows: Mapping[str, set[Any]], now: Mapping[str, set[Any]]) -> dict[str, set[Any]]:
    """What is recorded and comes about no more; what is new is no loss."""
    return {name: gone for name, held in rows.items() if (gone := held - now.get(name, set()))}


def test_an_answered_question_stays_answered_since_it_is_known_by_the_same_boxes_as_ever() -> None:
    """A reason given in an older log is held against what was typed, name by name: another name, and it falls."""
    known: dict[str, set[tuple[str, ...]]] = {}
    for _, finding in found():
        if finding.severity is Severity.ASK:
            known.setdefault(finding.id, set()).add(tuple(sorted(finding.typed)))
    ways = {name: {tuple(each) for each in ways} for name, ways in recorded("questions_known_by").items()}
    assert lost(ways, known) == {}


def test_a_finding_names_the_rule_or_table_that_it_follows() -> None:
    cited: dict[str, set[str]] = {}
    for _, finding in found():
        cited.setdefault(finding.id, set()).add(finding.source.named if finding.source else "")
    assert lost({name: set(each) for name, each in recorded("findings_cite").items()}, cited) == {}


def beside(made: Job, finding: Finding) -> str:
    """What was read, where its box holds another figure, what that is held against, and the sum."""
    read = "" if finding.measured == read_at(made, finding.place) else finding.measured
    return " | ".join((read, finding.limit, finding.working)).rstrip(" |")


def test_a_finding_has_beside_it_what_was_read_what_it_is_held_against_and_the_sum() -> None:
    """On the review and in what `check --json` prints these stand apart from the sentence."""
    shown: dict[str, set[str]] = {}
    for made, finding in found_in_jobs():
        shown.setdefault(finding.id, set()).add(beside(made, finding))
    assert lost({name: set(each) for name, each in recorded("findings_beside").items()}, shown) == {}
