"""`choose`: which papers a job needs, why, and why not the others; and what else is owed, by when."""

from difflib import get_close_matches

from domain.duties.owing import owing
from domain.forms.choice.answers import Answers
from domain.forms.choice.answers_document import AnswersError, WrongAnswer
from domain.forms.choice.choosing import choices_ahead, choose
from domain.forms.choice.question import further_questions, questions, typed_questions
from domain.words import uncapitalised
from tui.commands.advice import advice_as_text, advice_as_value, question_as_text, question_as_value
from tui.commands.command import (
    JSON,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    GivenDocuments,
    TypedArgument,
    UnusableError,
)
from tui.commands.input_files import document_in
from tui.commands.output import as_json

_QUESTIONS = CommandOption("--questions", "list the questions with their allowed answers")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Advise on the answers in a file, or list what is asked."""
    if typed.has(_QUESTIONS.name):
        return _questions()
    if not typed.words:
        raise UnusableError(f"choose needs {COMMAND.words}; usage: {COMMAND.usage}")
    answers = _answers_in(typed.words[0], environment.documents())
    advice = choose(answers)
    owed = owing(answers, advice)
    ahead = choices_ahead(answers, advice)
    return CommandAnswer(advice_as_value(advice, owed, ahead), advice_as_text(advice, owed, ahead))


def _questions() -> CommandAnswer:
    keyed = (*questions(), *further_questions())
    typed = typed_questions()
    values = [question_as_value(question) for question in keyed]
    values += [{"id": each.id, "words": each.words, "takes": each.takes} for each in typed]
    texts = [question_as_text(question) for question in keyed]
    texts += [f"{each.id}: {each.words}\n  {each.takes}" for each in typed]
    return CommandAnswer(values, "\n\n".join(texts))


def _answers_in(name: str, documents: GivenDocuments) -> Answers:
    try:
        return documents.answers_given(document_in(name))
    except AnswersError as error:
        raise UnusableError(f"{name} holds no answers that can be used: {_complaint(error.wrong)}") from None


def _complaint(wrong: WrongAnswer) -> str:
    where = ".".join(wrong.where)
    if wrong.kind == "extra_forbidden":
        near = get_close_matches(where, Answers.model_fields, 1)
        meant = f"; {near[0]!r} is" if near else ""
        return f"no question is called {where!r}{meant}; ohmfolio choose --questions lists them"
    if not where:
        return uncapitalised(wrong.says)
    return f"{wrong.where[0]} takes {_allowed(wrong.where[0])}; not {wrong.given}"


def _allowed(name: str) -> str:
    counted = {"circuits": 'a whole number, 0 or more, or "unknown"'}
    keyed = {
        each.id: [as_json(answer.value) for answer in each.answers] for each in (*questions(), *further_questions())
    }
    typed = {each.id: each.takes for each in typed_questions()}
    return counted.get(name) or typed.get(name) or " or ".join(keyed[name])


COMMAND = Command(
    name="choose",
    run=run,
    words="ANSWERS.json",
    most=1,
    options=(JSON, _QUESTIONS),
    explains='ANSWERS.json holds what is known, such as {"done": "alteration", "own_work": true, "circuits": 1, "earthing": "present"}.\n'
    "Exit 0, also while an answer is missing: then form_set is null, ask holds the next question "
    "and if_answered what each answer to it would come to.\n"
    "form_set null with ask null: no form set of BS 7671 is required; forms says what is.\n"
    "circuits takes any number of circuits, not only those a key gives.\n"
    "ask_further holds the next question that would tell more of what else is owed.",
)
