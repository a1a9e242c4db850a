"""How a job begins: the papers chosen, the edition of the day, and an empty place to type into."""

from datetime import date

from domain.edition import edition_for
from domain.forms.choice.answers import Answers
from domain.forms.choice.chosen import ChosenPapers, SeenElsewhere
from domain.forms.form_set import FormSet
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.condition_report import Report
from domain.job.instrument import Instruments
from domain.job.job import Job, fingerprint
from domain.job.people import Firm
from domain.job.work import Work


def new_job(chosen: ChosenPapers, *, on: date, firm: Firm | None = None, instruments: Instruments | None = None) -> Job:
    """A fresh job with one board and one circuit. Firm and instruments may be carried over; readings never are.

    A day of the work or the inspection that was told with the answers goes into its box, and is the paper's from then on.
    """
    profile = chosen.form_set.profile
    own = profile.day_box
    day: date | None = getattr(chosen.answers, own)
    answers = chosen.answers.model_copy(update={own: None})
    typed = {own: f"{day:%d/%m/%Y}"} if day else {}
    pages = {profile.section: typed} if typed else {}
    return Job(
        chosen=chosen.model_copy(update={"answers": answers}),
        edition=edition_for(on),
        firm=firm or Firm(),
        instruments=instruments or Instruments(),
        boards=(Board(id="b1", designation="", circuits=(Circuit(id="c2"),)),),
        work=Work(**pages.get("work", {})),
        report=Report.model_validate(pages.get("report", {})),
        next_id=3,
    )


def seen_job(seen: SeenElsewhere, answers: Answers, *, on: date, inspected_on: str = "") -> Job:
    """Another firm's report, to be followed: its observations are typed from it, and nothing of it is signed here."""
    reports = next(each for each in FormSet if each.profile.states_a_condition)
    chosen = ChosenPapers(form_set=reports, advised=reports, answers=answers, seen=seen)
    job = new_job(chosen, on=on)
    return job.model_copy(update={"report": Report(inspected_on=inspected_on)}) if inspected_on else job


def as_draft(job: Job) -> Job:
    """A job from outside as this log may hold it: unnumbered, not issued, and with those signatures that fit it.

    Of a paper that was issued the signatures are history: whoever issues it again signs again. A correction is begun
    in the log that holds what it replaces.
    """
    signed = job.model_copy(update={"signatures": ()}) if job.issued else with_standing_signatures(job)
    return signed.model_copy(update={"number": "", "issued": None, "replaces": "", "replaces_because": ""})


def with_standing_signatures(job: Job) -> Job:
    """The job with those signatures only that are over just what it holds."""
    now = fingerprint(job)
    return job.model_copy(update={"signatures": tuple(each for each in job.signatures if each.fingerprint == now)})
