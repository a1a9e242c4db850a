"""Figures asked for as a person types them, for tests: the name and its words between slashes."""

from domain.figures.answer import Answer
from domain.figures.catalogue import ask, figure_named


def asked(line: str) -> Answer:
    """The answer to `name / key=value / …`."""
    name, *words = line.split(" / ")
    return ask(figure_named(name), words)


def said(answer: Answer) -> str:
    """The sum and the notes as one text."""
    return " | ".join((answer.working, *answer.notes))
