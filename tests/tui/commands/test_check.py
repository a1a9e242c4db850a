"""`check`: findings, gaps, snags and outcome as scripts read them."""

from pathlib import Path

from domain.checks import findings_of
from domain.editing.commands import Explain
from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from tests.builders import INSPECTOR, ON, complete_certificate, complete_report, done, entered, fresh, signed, snagged
from tests.tui.commands.command_line import ohmfolio, written

KEYS = {"form_set", "edition", "may_issue", "outcome", "findings", "gaps", "open_snags", "unsigned", "reasons"}


FINDING = {
    "check",
    "case",
    "place",
    "also",
    "severity",
    "word",
    "typed",
    "measured",
    "limit",
    "source",
    "trust",
    "working",
    "says",
    "lifts",
    "explained",
}


def test_a_complete_certificate_may_be_issued(tmp_path: Path) -> None:
    file = written(complete_certificate(), tmp_path / "job.json")
    said = ohmfolio("check", file, "--json", home=tmp_path / "home")
    assert said.code == 0
    assert said.error == ""
    assert said.value.keys() == KEYS
    assert (said.value["form_set"], said.value["may_issue"], said.value["outcome"]) == ("EIC", True, "complies")
    assert said.value["gaps"] == said.value["open_snags"] == said.value["reasons"] == []
    assert "Nothing holds it back" in ohmfolio("check", file, home=tmp_path / "home").out
    assert not (tmp_path / "home").exists()


def test_an_open_snag_holds_it_back(tmp_path: Path) -> None:
    said = ohmfolio("check", written(snagged(complete_certificate()), tmp_path / "job.json"), "--json", home=tmp_path)
    assert said.code == 1
    assert said.value["may_issue"] is False
    assert [snag["what"] for snag in said.value["open_snags"]] == ["Grommet missing at the board"]
    assert {reason["kind"] for reason in said.value["reasons"]} == {"open snag", "signature missing"}


def test_a_failing_reading_is_named_with_its_place_limit_and_source(tmp_path: Path) -> None:
    job = signed(entered(complete_certificate(), {"ir_earth": "0.42"}, board="b1", circuit="c2"))
    said = ohmfolio("check", written(job, tmp_path / "job.json"), "--json", home=tmp_path)
    assert said.code == 1
    (failing,) = [finding for finding in said.value["findings"] if finding["severity"] == "fails"]
    assert failing.keys() == FINDING
    assert failing["place"] == "DB1, circuit 1 Kitchen sockets, Insulation, live to earth"
    assert failing["measured"] == "0.42 MΩ"
    assert "MΩ" in failing["limit"]
    assert "BS 7671" in failing["source"]
    assert failing["says"]
    assert (failing["check"], failing["case"], failing["word"]) == ("insulation", "under-minimum", "under limit")
    assert failing["typed"] == {"ir_earth": "0.42", "reading": "0.42", "voltage": "500"}
    assert [reason["id"] for reason in said.value["reasons"]] == ["insulation.under-minimum"]
    assert {reason["kind"] for reason in said.value["reasons"]} == {"failing reading"}


def test_a_report_with_a_c2_is_unsatisfactory_and_may_be_issued(tmp_path: Path) -> None:
    said = ohmfolio("check", written(complete_report(Code.C2), tmp_path / "job.json"), "--json", home=tmp_path)
    assert said.code == 0
    assert said.value["outcome"] == "unsatisfactory"


def test_a_fresh_job_lists_every_gap_with_its_place(tmp_path: Path) -> None:
    said = ohmfolio("check", written(fresh(FormSet.MEIWC), tmp_path / "job.json"), "--json", home=tmp_path)
    assert said.code == 1
    assert {"kind": "not-filled-in", "place": "Client", "says": "to be filled in"} in said.value["gaps"]
    assert all(gap["place"] and gap["says"] for gap in said.value["gaps"])


def test_findings_carry_their_sum_trust_and_reason_and_are_read_at_eighty_columns(tmp_path: Path) -> None:
    job = entered(complete_certificate(), {"zs": "5.90", "ir_earth": "1.4"}, board="b1", circuit="c3")
    (asked,) = [finding for finding in findings_of(job) if finding.place.box == "ir_earth"]
    reason = Explain.of(asked, reason="Old cable, dried out", by=INSPECTOR, on=ON)
    file = written(done(job, reason), tmp_path / "job.json")
    found = ohmfolio("check", file, "--json", home=tmp_path).value["findings"]
    (over,) = [each for each in found if each["check"] == "earth-fault-loop"]
    assert over["working"] == "0.21 Ω + 0.96 Ω × 1.2 = 1.362 Ω"
    assert over["trust"] == "published"
    assert [each["explained"] for each in found if each["check"] == "insulation"] == ["Old cable, dried out"]
    said = ohmfolio("check", file, home=tmp_path).out
    assert f"Explained by {INSPECTOR}: Old cable, dried out" in said
    assert said.index("Look again") < said.index("Insulation, live to earth")
    assert max(map(len, said.splitlines())) <= 80
