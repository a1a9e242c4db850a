"""What the gate says stands in its catalogue, each kind of gap with an id of its own."""

import ast
from pathlib import Path

import domain
from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.job.catalogue import catalogue_of
from domain.job.finding import Gap
from tests.builders import complete_certificate, fresh, snagged

ROWS = catalogue_of("domain.gate")


def test_every_row_is_named_in_the_gate_and_every_gap_has_one() -> None:
    files = (Path(domain.__file__).parent / "gate").glob("*.py")
    nodes = [node for file in files for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))]
    texts = {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    assert [name for name in ROWS if name not in texts and name.partition(".")[2] not in texts] == []
    kinds = {
        ast.literal_eval(node.args[0])
        for node in nodes
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "gap" and isinstance(node.args[0], ast.Constant)
    }
    assert {f"gap.{kind}" for kind in kinds} <= set(ROWS)


def test_a_gap_and_a_reason_say_which_they_are_whatever_their_words() -> None:
    for form_set in FormSet:
        stands = assess(fresh(form_set))
        assert stands.gaps
        assert all(f"gap.{each.kind}" in ROWS and each.says for each in stands.gaps)
        assert {each.id for each in stands.reasons} >= {each.kind for each in stands.gaps} | {"not-signed"}
    (snag,) = [each for each in assess(snagged(complete_certificate())).reasons if each.id == "snag"]
    assert snag.says == "Snag 1 is open: Grommet missing at the board"


def test_a_gap_is_a_value_of_its_kind_and_place() -> None:
    one, *_ = assess(fresh(FormSet.MEIWC)).gaps
    assert Gap.model_validate(one.model_dump()) == one
