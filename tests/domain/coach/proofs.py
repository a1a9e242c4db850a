"""Asks the rules themselves what a practice case claims."""

from collections.abc import Callable, Mapping
from itertools import combinations
from typing import Any

from domain.checks import findings_of
from domain.coach.case import Case, CaseKind
from domain.coach.orders import orders
from domain.duties.duty import DutyVerdict
from domain.duties.owing import owing
from domain.editing.commands import AddBoard, Enter, SetEdition
from domain.edition import Edition
from domain.forms.choice.answers import Answers
from domain.forms.choice.choosing import choose
from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.gate.gaps import gaps_of
from domain.gate.report_outcome import outcome_of
from domain.inspection.codes.guidance import guidance
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code
from domain.job.finding import Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.job.signature import roles_for
from domain.place import Place
from domain.sheets import sheets_of
from tests.builders import (
    complete_certificate,
    complete_minor_works,
    complete_report,
    done,
    enter,
    signed,
    snagged,
)

Proof = Mapping[str, Any]
CIRCUITS = {"ring": 0, "radial": 1}
WORDS = {Severity.FAILS: "fails", Severity.ASK: "asks"}


def right_by_the_rules(case: Case) -> set[str]:
    """The answers of a case that the rules bear out."""
    offered = tuple(case.answers)
    return {meaning for meaning in offered if _PROVES[case.kind](case.proof, meaning, offered)}


def _form(proof: Proof, meaning: str, _: tuple[str, ...]) -> bool:
    advice = choose(Answers.model_validate(proof["answers"]))
    assert advice.ask is None, f"{advice.ask} is left open"
    if counted := proof.get("count"):
        return meaning in {str(each.count) for each in (*advice.papers, *advice.instead) if each.form_set == counted}
    beside = ["other"] if any(paper.form_set is None for paper in advice.papers) else []
    main = [f"{paper.count} {paper.form_set}" for paper in advice.papers if paper.form_set]
    ways = {" + ".join(main + beside) or "none"} | {f"{paper.count} {paper.form_set}" for paper in advice.instead}
    ways |= {way.partition(" ")[2] for way in ways if " + " not in way}
    return (meaning in ways) is not bool(proof.get("wrong"))


def _code(proof: Proof, meaning: str, _: tuple[str, ...]) -> bool:
    if "mark" in proof:
        mark = InspectionOutcome(proof["mark"])
        return mark.code is None and meaning == mark
    if "meaning" in proof:
        return Code(meaning).meaning.startswith(proof["meaning"])
    said = next(each for each in guidance() if each.about == proof["guidance"])
    assert not said.contested
    return meaning in said.commonly if said.commonly else meaning == "none"


def _outcome(proof: Proof, meaning: str, _: tuple[str, ...]) -> bool:
    job = _job(proof)
    stands = assess(job)
    if job.profile.states_a_condition:
        result = stands.outcome.word if stands.outcome else "undecided"
    else:
        result = outcome_of(job).word if stands.may_issue else "held"
    return meaning == result


def _missing(proof: Proof, meaning: str, _: tuple[str, ...]) -> bool:
    job = _job(proof)
    gaps = {_named(job, gap.place) for gap in gaps_of(job)}
    return meaning in gaps if meaning != "nothing" else not gaps


def _reading(proof: Proof, meaning: str, _: tuple[str, ...]) -> bool:
    if "means" in proof:
        return Reading.of(meaning).meaning.name == proof["means"]
    job = _job({"form": "EIC"} | dict(proof))
    said = [WORDS.get(each.severity) for each in findings_of(job) if _named(job, each.place) == proof["at"]]
    return meaning in said if any(said) else meaning == "fits"


def _faults(proof: Proof, meaning: str, _: tuple[str, ...]) -> bool:
    job = _job(proof)
    found = {
        _named(job, place) for each in findings_of(job) if each.severity is not Severity.NOTE for place in each.places
    }
    return set(meaning.split()) <= found


def _pack(proof: Proof, meaning: str, _: tuple[str, ...]) -> bool:
    if "roles" in proof:
        return meaning == str(len(roles_for(FormSet(proof["roles"]))))
    if "answers" in proof:
        answers = Answers.model_validate(proof["answers"])
        advice = choose(answers)
        owed = {each.duty.id for each in owing(answers, advice).owed}
        return meaning in owed or any(meaning in paper for paper in advice.pack)
    sheets = sheets_of(_job(proof))
    titles = [sheet.title for sheet in sheets]
    if "sheet" in proof:
        return meaning == str(titles.count(proof["sheet"]))
    if "says" in proof:
        return any(sheet.title == meaning and proof["says"] in repr(sheet) for sheet in sheets)
    return (meaning in titles) is proof["holds"]


def _order(proof: Proof, meaning: str, offered: tuple[str, ...]) -> bool:
    if "live" in proof:
        return meaning == str(len(list(combinations([*proof["live"], "earth"], 2))))
    order = orders()[proof["list"]]
    if "says" in proof:
        return meaning in order.steps[order.at(proof["says"])].says
    if proof["asks"] == "failing":
        return meaning in order.after_failing
    if proof["asks"] == "next":
        return order.at(meaning) == order.at(proof["after"]) + 1
    place = sorted(offered, key=order.at)
    return meaning == place[0 if proof["asks"] == "first" else -1]


def _tell(proof: Proof, meaning: str, _: tuple[str, ...]) -> bool:
    answers = Answers.model_validate(proof["answers"])
    owed = owing(answers, choose(answers)).owed
    if "day" in proof:
        return meaning in {each.due.by.isoformat() for each in owed if each.due and each.duty.id == proof["day"]}
    verdicts = {each.duty.verdict.value for each in owed if each.duty.verdict}
    return meaning in verdicts if meaning in set(DutyVerdict) else meaning in {each.duty.id for each in owed}


_PROVES: Mapping[CaseKind, Callable[[Proof, str, tuple[str, ...]], bool]] = {
    CaseKind.FORM: _form,
    CaseKind.TELL: _tell,
    CaseKind.CODE: _code,
    CaseKind.OUTCOME: _outcome,
    CaseKind.MISSING: _missing,
    CaseKind.READING: _reading,
    CaseKind.PACK: _pack,
    CaseKind.ORDER: _order,
    CaseKind.ISOLATION: _order,
    CaseKind.FAULTS: _faults,
}


def _job(proof: Proof) -> Job:
    """A job complete but for what the proof empties, types or adds."""
    form_set = FormSet(proof["form"])
    if form_set.profile.states_a_condition:
        job = complete_report(*map(Code, proof.get("codes", ())), sign=False)
        job = done(job, SetEdition(edition=Edition[proof.get("edition", job.edition.name)]))
    else:
        job = complete_certificate(sign=False) if form_set is FormSet.EIC else complete_minor_works(sign=False)
    if proof.get("boards"):
        job = done(job, *(AddBoard() for _ in range(proof["boards"] - 1)))
    typed = dict.fromkeys(proof.get("empty", ()), "") | dict(proof.get("typed", {}))
    for name, text in typed.items():
        job = _typed(job, name, text)
    return snagged(job) if proof.get("snag") else signed(job)


def _typed(job: Job, name: str, text: str) -> Job:
    whose, box = name.split(".")
    if whose in CIRCUITS or whose == "board":
        board = job.boards[0]
        circuit = board.circuits[CIRCUITS[whose]].id if whose in CIRCUITS else ""
        return done(job, Enter(place=Place(section="boards", board=board.id, circuit=circuit, box=box), text=text))
    return done(job, enter(whose, box, text))


def _named(job: Job, place: Place) -> str:
    if place.circuit:
        ids = [circuit.id for circuit in job.boards[0].circuits]
        return f"{list(CIRCUITS)[ids.index(place.circuit)]}.{place.box}" if place.circuit in ids else ""
    return f"{'board' if place.board else place.section}.{place.box}"
