"""The demo: an invented firm's log with a job in every state."""

from functools import partial
from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from domain.gate.assessment import Pack, assess
from domain.job.finding import Severity
from domain.job.instrument import Instruments
from domain.job.people import Firm
from domain.log.job_log import BoundPaper, JobLogError
from storage.files import write_new
from storage.half_typed_files import HalfTypedFiles
from storage.logos import made_logo
from storage.packs import hand_out
from storage.pades.signing import PadesSigning
from storage.pdf import bind, bind_charts, bind_draft, bind_letter, bind_summary, bind_visit
from storage.pictures import made_small
from storage.shapes.due_files import due_files
from storage.shapes.mail_file import mail_file
from storage.sqlite_job_log import SqliteJobLog
from storage.verifying import proof_of
from tests.builders import AT, complete_certificate
from tests.tui.commands.command_line import ohmfolio, sentence_of, written
from tests.tui.screens.services import begin_command
from tui.commands.demo import fill, scenarios
from tui.commands.scenario import started
from tui.services import Services


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A filled demo log, shared: filling it issues real papers."""
    home = tmp_path_factory.mktemp("demo") / "home"
    said = ohmfolio("demo", "--fill-only", "--json", home=home)
    assert said.code == 0, said
    assert said.value == {"home": str(home), "jobs": len(scenarios()), "filled": True}
    return home


def test_the_demo_has_a_job_in_every_state(home: Path) -> None:
    lines = ohmfolio("find", "--json", home=home).value
    assert len(lines) >= 8
    kinds = {(line["form_set"], line["state"], line["outcome"]) for line in lines}
    assert kinds >= {
        ("EIC", "issued", "complies"),
        ("MEIWC", "issued", "complies"),
        ("MEIWC", "replaced", "complies"),
        ("EICR", "issued", "unsatisfactory"),
        ("EICR", "draft", None),
    }
    assert {(line["form_set"], line["state"]) for line in lines} >= {("EIC", "ready"), ("EIC", "draft")}
    assert [line["client"] for line in lines if line["open_snags"]] == ["Hester & Amos Drumlin"]
    assert [line["number"] for line in lines if not line["client"]], "one is still fresh"


def test_filling_it_again_leaves_it_as_it_is(home: Path) -> None:
    before = ohmfolio("find", "--json", home=home).value
    again = ohmfolio("demo", "--fill-only", home=home)
    assert again.code == 0
    assert str(home) in again.out
    assert "is there already" in again.out
    assert ohmfolio("find", "--json", home=home).value == before


def test_its_jobs_are_found_by_an_engineer_s_words(home: Path) -> None:
    found = ohmfolio("find", "saltmere", "tannery", "--json", home=home).value
    assert [line["client"] for line in found] == ["Bramblecote Joinery"]


def test_for_people_a_line_says_state_and_outcome_and_no_draft_has_an_outcome(home: Path) -> None:
    listed = ohmfolio("find", home=home).out
    assert "issued, unsatisfactory" in listed
    assert "replaced, complies" in listed
    assert "draft, " not in listed


def test_a_demo_broken_off_is_taken_up_where_it_stands(home: Path, tmp_path: Path) -> None:
    def out_of_paper(pack: Pack) -> BoundPaper:
        if pack.job.form_set is FormSet.EICR:
            raise JobLogError("Out of paper")
        return bind(pack)

    second = tmp_path / "home"
    services = Services(
        log=SqliteJobLog.open(second),
        who="Tester",
        now=lambda: AT,
        bind=out_of_paper,
        bind_draft=bind_draft,
        bind_summary=bind_summary,
        bind_visit=bind_visit,
        proof_of=proof_of,
        hand_out=hand_out,
        signing=PadesSigning(),
        bind_letter=bind_letter,
        bind_charts=bind_charts,
        write_new=write_new,
        due_files=due_files,
        mail_file=mail_file,
        half_typed=HalfTypedFiles(second, "Tester"),
        begin_command=partial(begin_command, second),
        packs=second,
        made_small=made_small,
        made_logo=made_logo,
    )
    with pytest.raises(JobLogError, match="Out of paper"):
        fill(services)
    services.log.close()
    assert ohmfolio("demo", "--fill-only", "--json", home=second).value["filled"] is True

    def standing_of(log: Path) -> list[tuple[str, str]]:
        return sorted((line["number"], line["state"]) for line in ohmfolio("find", "--json", home=log).value)

    assert standing_of(second) == standing_of(home)


def test_a_log_with_real_jobs_is_left_alone(tmp_path: Path) -> None:
    home = tmp_path / "home"
    assert ohmfolio("bring-in", written(complete_certificate(), tmp_path / "job.json"), home=home).code == 0
    assert "other jobs" in sentence_of(ohmfolio("demo", "--fill-only", home=home))
    assert len(ohmfolio("find", "--json", home=home).value) == 1


def test_without_a_folder_of_its_own_the_demo_makes_a_fresh_one(tmp_path: Path) -> None:
    said = ohmfolio("demo", "--fill-only", "--json", home=Path(), OHMFOLIO_HOME="", TMPDIR=str(tmp_path))
    assert said.code == 0, said
    assert Path(said.value["home"]).parent == tmp_path


COMPLETE = [name for name, told in scenarios().items() if told.signatures and not told.replaces]


@pytest.mark.parametrize("name", COMPLETE)
def test_what_was_signed_has_no_gap_and_no_failing_reading_without_an_observation(name: str) -> None:
    job = started(scenarios()[name], Firm(name="Harrowick", address="Saltmere"), Instruments(multifunction="HX-1"))
    assessment = assess(job)
    assert assessment.gaps == ()
    assert not assessment.open_snags
    assert job.form_set.profile.states_a_condition or all(
        finding.severity is not Severity.FAILS for finding in assessment.findings
    )
