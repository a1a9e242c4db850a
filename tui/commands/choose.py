"""`choose`: which form set a job needs, why, and why not the others."""

from pydantic import ValidationError

from domain.choice.answers import Answers
from domain.choice.choosing import FormChoice, choose
from domain.choice.question import Question, questions
from tui.commands.command import JSON, Answer, Command, Option, Typed, UnusableError, Wiring
from tui.commands.incoming import document_in

_QUESTIONS = Option("--questions", "list the questions with their allowed answers")


def run(typed: Typed, wiring: Wiring) -> Answer:
    """Advise on the answers in a file, or list what is asked."""
    if typed.has(_QUESTIONS.name):
        return Answer(
            [_question_as_value(question) for question in questions()], "\n\n".join(map(_as_words, questions()))
        )
    if not typed.words:
        raise UnusableError(f"choose needs {COMMAND.words}; usage: {COMMAND.usage}")
    advice = choose(_answers_in(typed.words[0]))
    return Answer(_as_value(advice), _as_text(advice))


def _answers_in(name: str) -> Answers:
    try:
        return Answers.model_validate_json(document_in(name))
    except ValidationError as error:
        raise UnusableError(f"{name} holds no answers that can be used: {_complaint(error)}") from None


def _complaint(error: ValidationError) -> str:
    first = error.errors()[0]
    where = ".".join(str(part) for part in first["loc"])
    if first["type"] == "extra_forbidden":
        return f"no question is called {where!r}; ohmfolio choose --questions lists them"
    return f"{where}: {first['msg']}" if where else first["msg"]


def _question_as_value(question: Question) -> dict[str, object]:
    return {
        "id": question.id,
        "words": question.words,
        "help": question.help,
        "answers": [{"value": answer.value, "words": answer.words} for answer in question.answers],
    }


def _as_value(advice: FormChoice) -> dict[str, object]:
    return {
        "form_set": advice.form_set.value if advice.form_set else None,
        "why": advice.why,
        "why_not": {form_set.value: reason for form_set, reason in advice.against.items()},
        "also_accepted": [form_set.value for form_set in advice.also],
        "boundary": advice.boundary,
        "cautions": list(advice.cautions),
        "source": advice.source.cited if advice.source else None,
        "ask": _question_as_value(advice.ask) if advice.ask else None,
        "leads_to": [form_set.value for form_set in advice.leads_to],
    }


def _as_text(advice: FormChoice) -> str:
    if advice.form_set is None:
        assert advice.ask
        return f"One more answer is needed.\n{_as_words(advice.ask)}"
    lines = [advice.form_set.paper, advice.why]
    lines += [f"Not the {form_set.paper}: {reason}" for form_set, reason in advice.against.items()]
    lines += [advice.boundary, *(f"! {caution}" for caution in advice.cautions)]
    if advice.source:
        lines.append(f"Source: {advice.source.cited}")
    return "\n".join(lines)


def _as_words(question: Question) -> str:
    answers = (f"  {answer.value!s:12}  {answer.words}" for answer in question.answers)
    return "\n".join([f"{question.id}: {question.words}", *answers])


COMMAND = Command(
    name="choose",
    summary="which form set a job needs, why, and why not the others",
    run=run,
    words="ANSWERS.json",
    most=1,
    options=(JSON, _QUESTIONS),
    explains='ANSWERS.json holds what is known, such as {"done": "alteration", "own_work": true, "circuits": 1}.\n'
    "Exit 0, also while an answer is missing: then form_set is null and ask holds the next question.",
)
